#include "formats/input/read_machine.h"

#include "formats/input/fields.h"
#include "formats/input/read_shape.h"
#include "formats/text/names.h"

namespace leeway {
namespace {

constexpr std::string_view kMachineWords = "a machine { ... }, or the path of a machine file";
constexpr std::string_view kNeededShapeWords = "a shape, such as {\"rectangle\": ...}";

// The part of a named thing that is common to obstacles and head parts.
struct Named {
  std::optional<std::string> name;
  std::optional<Shape> shape;
};

Named read_named(const Fields& fields, std::string_view shape_key, NameBook& names) {
  Named result;
  if (const auto name = fields.need("name", "a name")) {
    result.name = read_name(*name);
    if (result.name) names.add(*name, *result.name);
  }
  if (const auto shape = fields.need(shape_key, kNeededShapeWords))
    result.shape = read_shape(*shape);
  return result;
}

std::vector<Obstacle> read_obstacles(JsonValue value) {
  std::vector<Obstacle> result;
  NameBook names("obstacle");
  for (const JsonValue item : read_items(value, "an array of obstacles { ... }")) {
    const Fields fields(item, {"name", "shape", "height", "clearance"}, "an obstacle { ... }");
    Named named = read_named(fields, "shape", names);
    Obstacle obstacle;
    read_if_there(fields, "height", obstacle.height, read_number, kDistance);
    read_if_there(fields, "clearance", obstacle.clearance, read_number, kDistance);
    if (!named.name || !named.shape) continue;
    obstacle.name = *std::move(named.name);
    obstacle.shape = *std::move(named.shape);
    result.push_back(std::move(obstacle));
  }
  return result;
}

// Names that limits have of their own accord.
void refuse_reserved(const Fields& part) {
  const auto name = part.find("name");
  if (!name || !name->is(JsonKind::string)) return;
  if (name->text() != "nozzle" && name->text() != "probe body") return;
  name->fault("reserved-name", "the name " + in_quotes(name->text()),
              "any name but \"nozzle\" and \"probe body\", which the program uses itself");
}

std::vector<HeadPart> read_head(JsonValue value) {
  std::vector<HeadPart> result;
  NameBook names("part of the head");
  for (const JsonValue item : read_items(value, "an array of parts of the head { ... }")) {
    const Fields fields(item, {"name", "outline", "underside"}, "a part of the head { ... }");
    Named named = read_named(fields, "outline", names);
    refuse_reserved(fields);
    HeadPart part;
    read_if_there(fields, "underside", part.underside, read_number, kDistance);
    if (!named.name || !named.shape) continue;
    part.name = *std::move(named.name);
    part.outline = *std::move(named.shape);
    result.push_back(std::move(part));
  }
  return result;
}

void read_uncertainty(JsonValue value, Machine& machine) {
  const Fields fields(value, {"travel", "bed"}, "{\"travel\": u, \"bed\": u} in mm");
  read_if_there(fields, "travel", machine.travel_uncertainty, read_number, kDistance);
  read_if_there(fields, "bed", machine.bed_uncertainty, read_number, kDistance);
}

bool read_area(const Fields& fields, std::string_view key, Shape& into) {
  const auto value = fields.need(key, kNeededShapeWords);
  auto shape = value ? read_shape(*value) : std::nullopt;
  if (!shape) return false;
  into = *std::move(shape);
  return true;
}

MachineRead read_machine_object(JsonValue value, bool is_file) {
  MachineRead result;
  Machine& machine = result.machine;
  const WordList keys = {"format",      "name",      "bed",  "travel",
                         "print_inset", "obstacles", "head", "uncertainty"};
  if (is_other_kind(value, FileKind::machine)) return result;
  const Fields fields(value, keys, kMachineWords);
  if (!fields.is_object()) return result;
  check_format(fields, FileKind::machine, is_file);
  read_if_there(fields, "name", machine.name, read_name);
  result.has_bed = read_area(fields, "bed", machine.bed);
  result.has_travel = read_area(fields, "travel", machine.travel);
  read_if_there(fields, "print_inset", machine.print_inset, read_number, kDistance);
  if (const auto obstacles = fields.find("obstacles")) {
    machine.obstacles = read_obstacles(*obstacles);
  }
  if (const auto head = fields.find("head")) machine.head = read_head(*head);
  if (const auto uncertainty = fields.find("uncertainty")) read_uncertainty(*uncertainty, machine);
  return result;
}

}  // namespace

MachineRead read_machine(JsonValue value, Sources& sources) {
  if (!value.is(JsonKind::string)) return read_machine_object(value, false);
  JsonFile* file = sources.open(value, FileKind::machine);
  const auto root = file != nullptr ? file->root() : std::nullopt;
  return root ? read_machine_object(*root, true) : MachineRead{};
}

}  // namespace leeway
