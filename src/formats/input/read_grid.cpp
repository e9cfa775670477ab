#include "formats/input/read_grid.h"

#include <fmt/format.h>

#include "formats/input/fields.h"
#include "formats/input/read_shape.h"
#include "formats/input/setup_words.h"

namespace leeway {
namespace {

constexpr std::string_view kMarginWords =
    "one number of mm, or {\"left\", \"right\", \"front\", \"back\"} with a number each";
constexpr std::string_view kExtentWords =
    "\"x\": [left, right] and \"y\": [front, back], or \"margins\"";

constexpr Margins kUnreadMargins{kUnread, kUnread, kUnread, kUnread};

Margins read_sides(JsonValue value, const Slot& slot) {
  const Fields fields(value, {"left", "right", "front", "back"}, kMarginWords);
  Margins margins = kUnreadMargins;
  const auto read = [&](std::string_view key, SetupDetail detail, double& into) {
    if (const auto side = fields.need(key, words(NumberRange::length))) {
      into = read_number(*side, NumberRange::length, slot.at(detail)).value_or(kUnread);
    }
  };
  read("left", SetupDetail::left, margins.left);
  read("right", SetupDetail::right, margins.right);
  read("front", SetupDetail::front, margins.front);
  read("back", SetupDetail::back, margins.back);
  return margins;
}

Margins read_margins(JsonValue value, const Slot& slot) {
  slot.places.put(slot.place, value);
  if (!value.is(JsonKind::number)) return read_sides(value, slot);
  // One number for all four has one place.
  Margins margins = kUnreadMargins;
  margins.left =
      read_number(value, NumberRange::length, slot.at(SetupDetail::left)).value_or(kUnread);
  margins.right = margins.front = margins.back = margins.left;
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

// The columns and rows; 0 where they can't be read.
void read_counts(const Fields& fields, Grid& grid, Places& places) {
  constexpr std::string_view kCount = "a whole number, 1 or more";
  const auto count = [&](std::string_view key, SetupField field) {
    const auto value = fields.need(key, kCount);
    return value ? read_count(*value, {{field}, places}).value_or(0) : 0;
  };
  grid.columns = count("columns", SetupField::columns);
  grid.rows = count("rows", SetupField::rows);
}

// Beside margins, which is a fault of its own, neither bound need be there.
Box read_bounds(const Fields& fields, bool both_needed, Places& places) {
  Box box{kUnread, kUnread, kUnread, kUnread};
  const auto bound = [&](const char* key, const char* allowed, SetupDetail axis) {
    const auto value = both_needed ? fields.need(key, allowed) : fields.find(key);
    if (value) read_interval(*value, axis, {{SetupField::bounds}, places}, box);
  };
  bound("x", "[left, right] in mm, beside \"y\"", SetupDetail::x);
  bound("y", "[front, back] in mm, beside \"x\"", SetupDetail::y);
  return box;
}

std::variant<Box, Margins> read_extent(const Fields& fields, Places& places) {
  const bool bounds = fields.has("x") || fields.has("y");
  const auto margins_value = fields.find("margins");
  Margins::From from = Margins::From::bed;
  read_if_there(fields, "margins_from", from, read_from);
  if (!bounds && !margins_value) {
    fields.object().fault("extent-missing", "a grid that does not say where it lies",
                          std::string(kExtentWords));
    return kUnreadMargins;
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
  if (bounds) return read_bounds(fields, !margins_value, places);
  Margins margins = read_margins(*margins_value, {{SetupField::margins}, places});
  margins.from = from;
  return margins;
}

}  // namespace

std::optional<Frame> read_frame(JsonValue value) {
  const auto frame = read_word(value, {"probe", "nozzle"});
  if (!frame) return std::nullopt;
  return *frame == "probe" ? Frame::probe : Frame::nozzle;
}

std::optional<Grid> read_grid(JsonValue value, Places& places) {
  const Fields fields(
      value, {"columns", "rows", "x", "y", "margins", "margins_from", "frame", "outside_bed"},
      "a grid { ... }");
  if (!fields.is_object()) return std::nullopt;
  places.put({SetupField::grid}, value);
  Grid grid;
  read_counts(fields, grid, places);
  read_if_there(fields, "frame", grid.frame, read_frame);
  read_if_there(fields, "outside_bed", grid.skip_outside_bed, read_skip);
  grid.extent = read_extent(fields, places);
  return grid;
}

}  // namespace leeway
