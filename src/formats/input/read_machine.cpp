#include "formats/input/read_machine.h"

#include "formats/input/fields.h"
#include "formats/input/read_shape.h"
#include "formats/text/names.h"

namespace leeway {
namespace {

constexpr std::string_view kMachineWords = "a machine { ... }, or the path of a machine file";
constexpr std::string_view kNeededShapeWords = "a shape, such as {\"rectangle\": ...}";

Slot slot_of(Places& places, SetupField field, std::size_t item = 0) {
  return {{field, SetupDetail::whole, item}, places};
}

// What can't be read stays as it is: a name that is empty and a shape that is a point will not do.
void read_named(const Fields& fields, const Slot& name_slot, std::string& name,
                std::string_view shape_key, const Slot& shape_slot, Shape& shape) {
  if (const auto given = fields.need("name", "a name")) {
    name = read_name(*given, NameNeeded::yes, name_slot).value_or("");
  }
  if (const auto given = fields.need(shape_key, kNeededShapeWords)) {
    shape = read_shape(*given, shape_slot);
  }
}

void read_distance(const Fields& fields, std::string_view key, const Slot& slot, double& into) {
  read_if_there(fields, key, into, read_number, NumberRange::distance, slot);
}

std::vector<Obstacle> read_obstacles(JsonValue value, Places& places) {
  std::vector<Obstacle> result;
  for (const JsonValue item : read_items(value, "an array of obstacles { ... }")) {
    const Fields fields(item, {"name", "shape", "height", "clearance"}, "an obstacle { ... }");
    const auto slot = [&](SetupField field) { return slot_of(places, field, result.size()); };
    Obstacle obstacle;
    read_named(fields, slot(SetupField::obstacle_name), obstacle.name, "shape",
               slot(SetupField::obstacle_shape), obstacle.shape);
    read_distance(fields, "height", slot(SetupField::obstacle_height), obstacle.height);
    read_distance(fields, "clearance", slot(SetupField::obstacle_clearance), obstacle.clearance);
    result.push_back(std::move(obstacle));
  }
  return result;
}

std::vector<HeadPart> read_head(JsonValue value, Places& places) {
  std::vector<HeadPart> result;
  for (const JsonValue item : read_items(value, "an array of parts of the head { ... }")) {
    const Fields fields(item, {"name", "outline", "underside", "top"},
                        "a part of the head { ... }");
    const auto slot = [&](SetupField field) { return slot_of(places, field, result.size()); };
    HeadPart part;
    read_named(fields, slot(SetupField::part_name), part.name, "outline",
               slot(SetupField::part_outline), part.outline);
    read_distance(fields, "underside", slot(SetupField::part_underside), part.underside);
    if (fields.has("top")) {
      read_if_there(fields, "top", part.top.emplace(), read_number, NumberRange::length,
                    slot(SetupField::part_top));
    }
    result.push_back(std::move(part));
  }
  return result;
}

void read_uncertainty(JsonValue value, Machine& machine, Places& places) {
  const Fields fields(value, {"travel", "bed"}, "{\"travel\": u, \"bed\": u} in mm");
  read_distance(fields, "travel", slot_of(places, SetupField::travel_uncertainty),
                machine.travel_uncertainty);
  read_distance(fields, "bed", slot_of(places, SetupField::bed_uncertainty),
                machine.bed_uncertainty);
}

void read_area(const Fields& fields, std::string_view key, const Slot& slot, Shape& into) {
  if (const auto value = fields.need(key, kNeededShapeWords)) into = read_shape(*value, slot);
}

Machine read_machine_object(JsonValue value, bool is_file, Places& places) {
  Machine machine;
  const WordList keys = {"format",      "name",      "bed",  "travel",
                         "print_inset", "obstacles", "head", "uncertainty"};
  if (is_other_kind(value, FileKind::machine)) return machine;
  const Fields fields(value, keys, kMachineWords);
  if (!fields.is_object()) return machine;
  check_format(fields, FileKind::machine, is_file);
  read_if_there(fields, "name", machine.name, read_name, NameNeeded::no,
                slot_of(places, SetupField::machine_name));
  read_area(fields, "bed", slot_of(places, SetupField::bed), machine.bed);
  read_area(fields, "travel", slot_of(places, SetupField::travel), machine.travel);
  read_distance(fields, "print_inset", slot_of(places, SetupField::print_inset),
                machine.print_inset);
  if (const auto obstacles = fields.find("obstacles")) {
    machine.obstacles = read_obstacles(*obstacles, places);
  }
  if (const auto head = fields.find("head")) machine.head = read_head(*head, places);
  if (const auto uncertainty = fields.find("uncertainty")) {
    read_uncertainty(*uncertainty, machine, places);
  }
  return machine;
}

}  // namespace

Machine read_machine(JsonValue value, Sources& sources, Places& places) {
  if (!value.is(JsonKind::string)) return read_machine_object(value, false, places);
  JsonFile* file = sources.open(value, FileKind::machine);
  const auto root = file != nullptr ? file->root() : std::nullopt;
  return root ? read_machine_object(*root, true, places) : Machine{};
}

}  // namespace leeway
