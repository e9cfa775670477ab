#include "leeway/read_setup.h"

#include "formats/input/fields.h"
#include "formats/input/read_machine.h"
#include "formats/input/read_probe.h"
#include "formats/input/read_request.h"
#include "formats/input/read_shape.h"
#include "formats/input/sources.h"

namespace leeway {
namespace {

constexpr NumberRange kCoverageFactor{0, 100, true, "a number above 0 and at most 100"};

// No path, no number: an object with an envelope or without.
Mount read_mount(JsonValue value) {
  Mount mount;
  const Fields fields(value, {"envelope"}, "a mount {\"envelope\": SHAPE}");
  if (!fields.is_object()) return mount;
  if (const auto envelope = fields.need("envelope", "a shape")) {
    mount.envelope = read_shape(*envelope);
  }
  return mount;
}

Setup read_setup_object(JsonValue value, Sources& sources) {
  Setup setup;
  const WordList keys = {"format",          "name",    "machine", "probe",
                         "coverage_factor", "request", "mount"};
  if (is_other_kind(value, FileKind::setup)) return setup;
  const Fields fields(value, keys, "a setup { ... }");
  if (!fields.is_object()) return setup;
  check_format(fields, FileKind::setup, true);
  read_if_there(fields, "name", setup.name, read_name);
  MachineRead machine;
  if (const auto given = fields.need("machine", "a machine { ... }, or the path of its file")) {
    machine = read_machine(*given, sources);
  }
  if (const auto given = fields.need("probe", "a probe { ... }, or the path of its file")) {
    setup.probe = read_probe(*given, sources);
  }
  read_if_there(fields, "coverage_factor", setup.coverage_factor, read_number, kCoverageFactor);
  if (const auto request = fields.find("request")) {
    setup.request = read_request(*request, machine);
  }
  if (const auto mount = fields.find("mount")) setup.mount = read_mount(*mount);
  setup.machine = std::move(machine.machine);
  // A setup without a name goes by its machine's.
  if (setup.name.empty()) setup.name = setup.machine.name;
  return setup;
}

}  // namespace

ReadSetup read_setup(const SourceFile& source, const FileFinder& finder) {
  Sources sources(source, finder);
  ReadSetup result;
  if (const auto root = sources.setup().root()) result.setup = read_setup_object(*root, sources);
  result.faults = sources.faults();
  if (!result.faults.empty()) result.setup.reset();
  return result;
}

}  // namespace leeway
