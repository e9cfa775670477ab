#include "leeway/read_setup.h"

#include "formats/input/fields.h"
#include "formats/input/read_machine.h"
#include "formats/input/read_probe.h"
#include "formats/input/read_request.h"
#include "formats/input/read_shape.h"
#include "formats/input/sources.h"

namespace leeway {
namespace {

std::vector<KeptClear> read_keep_clear(JsonValue value, Places& places) {
  std::vector<KeptClear> result;
  for (const JsonValue item : read_items(value, "an array of outlines { ... }")) {
    const Fields fields(item, {"name", "outline"},
                        "an outline {\"name\": TEXT, \"outline\": SHAPE}");
    const auto slot = [&](SetupField field) {
      return Slot{{field, SetupDetail::whole, result.size()}, places};
    };
    KeptClear kept;
    if (const auto name = fields.need("name", "a name")) {
      kept.name = read_name(*name, NameNeeded::yes, slot(SetupField::keep_clear_name)).value_or("");
    }
    if (const auto outline = fields.need("outline", "a shape, relative to the nozzle")) {
      kept.outline = read_shape(*outline, slot(SetupField::keep_clear_outline));
    }
    result.push_back(std::move(kept));
  }
  return result;
}

// An object that says something.
Mount read_mount(JsonValue value, Places& places) {
  Mount mount;
  const Fields fields(value, {"envelope", "keep_clear"}, "a mount {\"envelope\": SHAPE}");
  if (!fields.is_object()) return mount;
  const auto kept = fields.find("keep_clear");
  if (kept) mount.keep_clear = read_keep_clear(*kept, places);
  const auto envelope = kept ? fields.find("envelope") : fields.need("envelope", "a shape");
  if (envelope) mount.envelope = read_shape(*envelope, {{SetupField::envelope}, places});
  return mount;
}

Setup read_setup_object(JsonValue value, Sources& sources, Places& places) {
  Setup setup;
  const WordList keys = {"format",          "name",    "machine", "probe",
                         "coverage_factor", "request", "mount"};
  if (is_other_kind(value, FileKind::setup)) return setup;
  const Fields fields(value, keys, "a setup { ... }");
  if (!fields.is_object()) return setup;
  check_format(fields, FileKind::setup, true);
  read_if_there(fields, "name", setup.name, read_name, NameNeeded::no,
                Slot{{SetupField::name}, places});
  if (const auto given = fields.need("machine", "a machine { ... }, or the path of its file")) {
    setup.machine = read_machine(*given, sources, places);
  }
  if (const auto given = fields.need("probe", "a probe { ... }, or the path of its file")) {
    setup.probe = read_probe(*given, sources);
  }
  read_if_there(fields, "coverage_factor", setup.coverage_factor, read_number,
                NumberRange::coverage_factor, Slot{{SetupField::coverage_factor}, places});
  if (const auto request = fields.find("request")) {
    setup.request = read_request(*request, places);
  }
  if (const auto mount = fields.find("mount")) setup.mount = read_mount(*mount, places);
  // A setup without a name goes by its machine's.
  if (setup.name.empty()) setup.name = setup.machine.name;
  return setup;
}

}  // namespace

ReadSetup read_setup(const SourceFile& source, const FileFinder& finder) {
  Sources sources(source, finder);
  ReadSetup result;
  if (const auto root = sources.setup().root()) {
    Places places;
    result.setup = read_setup_object(*root, sources, places);
    const std::vector<SetupFault> faults = validate(*result.setup);
    places.note(faults);
    // A fault without a place follows from one that was noted; it never passes for want of it.
    if (!faults.empty() && !sources.has_faults()) note(*root, faults.front());
  }
  result.faults = sources.faults();
  if (!result.faults.empty()) result.setup.reset();
  return result;
}

}  // namespace leeway
