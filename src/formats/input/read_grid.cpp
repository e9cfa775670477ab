#include "formats/input/read_grid.h"

#include <fmt/format.h>

#include "formats/input/fields.h"
#include "formats/input/read_shape.h"

namespace leeway {
namespace {

constexpr std::string_view kMarginWords =
    "one number of mm, or {\"left\", \"right\", \"front\", \"back\"} with a number each";
constexpr std::string_view kExtentWords =
    "\"x\": [left, right] and \"y\": [front, back], or \"margins\"";

// Leeways are compared in this step (mm), so nothing smaller is a difference.
constexpr double kStep = 1e-6;

std::optional<Margins> read_sides(JsonValue value) {
  const Fields fields(value, {"left", "right", "front", "back"}, kMarginWords);
  Margins margins;
  bool sound = fields.is_object();
  const auto read = [&](std::string_view key, double& into) {
    const auto side = fields.need(key, kAnyLength.words);
    const auto number = side ? read_number(*side, kAnyLength) : std::nullopt;
    sound = sound && number;
    into = number.value_or(0);
  };
  read("left", margins.left);
  read("right", margins.right);
  read("front", margins.front);
  read("back", margins.back);
  return sound ? std::optional<Margins>(margins) : std::nullopt;
}

std::optional<Margins> read_margins(JsonValue value) {
  if (!value.is(JsonKind::number)) return read_sides(value);
  const auto all = read_number(value, kAnyLength);
  if (!all) return std::nullopt;
  Margins margins;
  margins.left = margins.right = margins.front = margins.back = *all;
  return margins;
}

std::optional<Margins::From> read_from(JsonValue value) {
  const auto from = read_word(value, {"bed", "travel"});
  if (!from) return std::nullopt;
  return *from == "bed" ? Margins::From::bed : Margins::From::travel;
}

std::optional<bool> read_skip(JsonValue value) {
  const auto word = read_word(value, {"skip", "report"});
  return word ? std::optional<bool>(*word == "skip") : std::nullopt;
}

// The columns and rows; 0 where a fault was noted.
void read_counts(const Fields& fields, Grid& grid) {
  constexpr std::string_view kCount = "a whole number, 1 or more";
  const auto columns = fields.need("columns", kCount);
  const auto rows = fields.need("rows", kCount);
  constexpr int kMost = static_cast<int>(kMostLatticePoints);
  grid.columns = columns ? read_whole(*columns, 1, kMost).value_or(0) : 0;
  grid.rows = rows ? read_whole(*rows, 1, kMost).value_or(0) : 0;
  const auto points = static_cast<std::int64_t>(grid.columns) * grid.rows;
  if (points > kMostLatticePoints) {
    fields.object().fault(
        "too-many-points",
        fmt::format("a grid of {} x {} = {} points", grid.columns, grid.rows, points),
        fmt::format("at most {} points", kMostLatticePoints));
    grid.columns = 0;
  }
}

// Beside margins, which is a fault of its own, neither bound need be there.
std::optional<Box> read_bounds(const Fields& fields, const Grid& grid, bool both_needed) {
  const auto bound = [&](const char* key, const char* allowed, int count) {
    const auto value = both_needed ? fields.need(key, allowed) : fields.find(key);
    // A single column or row may have one place, and so may a number of them that isn't known.
    return value ? read_interval(*value, count <= 1) : std::nullopt;
  };
  const auto x = bound("x", "[left, right] in mm, beside \"y\"", grid.columns);
  const auto y = bound("y", "[front, back] in mm, beside \"x\"", grid.rows);
  if (!x || !y) return std::nullopt;
  return Box{x->low, x->high, y->low, y->high};
}

// Two columns need room between them, a single one only a place.
bool leaves_room(double room, int count) { return count > 1 ? room > kStep : room >= -kStep; }

void check_margins(JsonValue value, const Grid& grid, const MachineRead& machine) {
  const auto& margins = std::get<Margins>(grid.extent);
  const bool from_bed = margins.from == Margins::From::bed;
  if (!(from_bed ? machine.has_bed : machine.has_travel)) return;
  const Box box = bounding_box(from_bed ? machine.machine.bed : machine.machine.travel);
  const auto check = [&](const char* first, const char* second, double taken, double size,
                         int count) {
    if (leaves_room(size - taken, count)) return;
    value.fault("margins-meet",
                fmt::format("margins {} and {} of {} mm in all, of the {}'s {} mm", first, second,
                            taken, from_bed ? "plate" : "travel", size),
                "margins that leave room between them");
  };
  check("left", "right", margins.left + margins.right, box.width(), grid.columns);
  check("front", "back", margins.front + margins.back, box.depth(), grid.rows);
}

std::optional<std::variant<Box, Margins>> read_extent(const Fields& fields, const Grid& grid) {
  const bool bounds = fields.has("x") || fields.has("y");
  const auto margins_value = fields.find("margins");
  Margins::From from = Margins::From::bed;
  read_if_there(fields, "margins_from", from, read_from);
  if (!bounds && !margins_value) {
    fields.object().fault("extent-missing", "a grid that does not say where it lies",
                          std::string(kExtentWords));
    return std::nullopt;
  }
  if (bounds && margins_value) {
    fields.object().fault("extent-twice", "a grid with margins and bounds",
                          std::string(kExtentWords));
  }
  const auto from_value = fields.find("margins_from");
  if (!margins_value && from_value) {
    from_value->key_fault("stray-margins-from", "\"margins_from\" without \"margins\"",
                          "\"margins_from\" only beside \"margins\"");
  }
  auto margins = margins_value ? read_margins(*margins_value) : std::nullopt;
  const auto box = bounds ? read_bounds(fields, grid, !margins_value) : std::nullopt;
  if (box) return *box;
  if (!margins) return std::nullopt;
  margins->from = from;
  return *margins;
}

}  // namespace

std::optional<Frame> read_frame(JsonValue value) {
  const auto frame = read_word(value, {"probe", "nozzle"});
  if (!frame) return std::nullopt;
  return *frame == "probe" ? Frame::probe : Frame::nozzle;
}

std::optional<Grid> read_grid(JsonValue value, const MachineRead& machine) {
  const Fields fields(
      value, {"columns", "rows", "x", "y", "margins", "margins_from", "frame", "outside_bed"},
      "a grid { ... }");
  if (!fields.is_object()) return std::nullopt;
  Grid grid;
  read_counts(fields, grid);
  read_if_there(fields, "frame", grid.frame, read_frame);
  read_if_there(fields, "outside_bed", grid.skip_outside_bed, read_skip);
  const auto extent = read_extent(fields, grid);
  if (!extent) return std::nullopt;
  grid.extent = *extent;
  const bool counted = grid.columns > 0 && grid.rows > 0;
  if (counted && std::holds_alternative<Margins>(grid.extent)) {
    check_margins(*fields.find("margins"), grid, machine);
  }
  return grid;
}

}  // namespace leeway
