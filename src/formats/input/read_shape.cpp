#include "formats/input/read_shape.h"

#include <fmt/format.h>

#include "formats/input/areas.h"
#include "formats/input/fields.h"
#include "formats/text/wkt.h"

namespace leeway {
namespace {

constexpr std::string_view kOneShapeWords =
    "one shape: {\"rectangle\": ...}, {\"disc\": ...}, {\"polygon\": ...} or {\"wkt\": ...}";
constexpr std::string_view kPointWords = "two numbers [x, y] in mm";
constexpr std::string_view kBoundsWords = "two numbers [low, high] in mm";
constexpr std::string_view kRingWords = "an array of at least three points [x, y]";
constexpr NumberRange kRadius{0, kLargestLength, true, "a radius above 0 and at most 1e6 mm"};

std::optional<Shape> read_rectangle(JsonValue value) {
  const Fields fields(value, {"x", "y"}, "{\"x\": [left, right], \"y\": [front, back]}");
  const auto x_value = fields.need("x", "[left, right] in mm");
  const auto y_value = fields.need("y", "[front, back] in mm");
  const auto x = x_value ? read_interval(*x_value) : std::nullopt;
  const auto y = y_value ? read_interval(*y_value) : std::nullopt;
  if (!x || !y) return std::nullopt;
  return Shape(Box{x->low, x->high, y->low, y->high});
}

std::optional<Shape> read_disc(JsonValue value) {
  const Fields fields(value, {"center", "radius"}, "{\"center\": [x, y], \"radius\": r}");
  const auto center_value = fields.need("center", "[x, y] in mm");
  const auto radius_value = fields.need("radius", "a number of mm above 0");
  const auto center =
      center_value ? read_pair(*center_value, kAnyLength, kPointWords) : std::nullopt;
  const auto radius = radius_value ? read_number(*radius_value, kRadius) : std::nullopt;
  if (!center || !radius) return std::nullopt;
  return Shape(Disc{*center, *radius});
}

std::optional<Ring> read_ring(JsonValue value) {
  Ring ring;
  bool sound = value.is(JsonKind::array);
  for (const JsonValue item : read_items(value, kRingWords)) {
    const auto point = read_pair(item, kAnyLength, kPointWords);
    sound = sound && point;
    if (point) ring.push_back(*point);
  }
  return sound ? std::optional<Ring>(std::move(ring)) : std::nullopt;
}

std::optional<Shape> read_polygon(JsonValue value) {
  const Fields fields(value, {"outer", "holes"},
                      "{\"outer\": [[x, y], ...], \"holes\": [[[x, y], ...], ...]}");
  AreaCheck check(value);
  const auto outer = fields.need("outer", kRingWords);
  if (outer) check.outer(*outer, read_ring(*outer));
  if (const auto holes = fields.find("holes")) {
    if (!holes->is(JsonKind::array)) check.spoil();
    for (const JsonValue hole : read_items(*holes, "an array of rings, each an array of points")) {
      check.hole(hole, read_ring(hole));
    }
  }
  return check.shape();
}

std::optional<Shape> read_wkt(JsonValue value) {
  if (!value.is(JsonKind::string)) {
    if (!value.is(JsonKind::not_finite)) {
      value.fault("wrong-type", describe(value), "POLYGON (...) or MULTIPOLYGON (...) as a text");
    }
    return std::nullopt;
  }
  MultiPolygon polygons;
  if (const auto fault = parse_wkt(value.text(), polygons)) {
    value.fault("bad-wkt",
                fmt::format("{} at character {} of the text", fault->found, fault->character),
                fault->allowed);
    return std::nullopt;
  }
  AreaCheck check(value);
  for (const Polygon& polygon : polygons) {
    check.outer(value, polygon.outer);
    for (const Ring& hole : polygon.holes) check.hole(value, hole);
  }
  return check.shape();
}

std::optional<Shape> read_kind(JsonValue value, std::string_view kind) {
  if (kind == "rectangle") return read_rectangle(value);
  if (kind == "disc") return read_disc(value);
  return kind == "polygon" ? read_polygon(value) : read_wkt(value);
}

}  // namespace

std::optional<CoordinateBounds> read_interval(JsonValue value, bool equal_allowed) {
  const auto pair = read_pair(value, kAnyLength, kBoundsWords);
  if (!pair) return std::nullopt;
  if (pair->x > pair->y) {
    value.fault("turned-bounds", fmt::format("bounds turned round, {} to {}", pair->x, pair->y),
                "the lower one first");
    return std::nullopt;
  }
  if (pair->x == pair->y && !equal_allowed) {
    value.fault("equal-bounds", fmt::format("the bound {} twice", pair->x),
                "two different numbers, the lower one first");
    return std::nullopt;
  }
  return CoordinateBounds{pair->x, pair->y};
}

std::optional<Shape> read_shape(JsonValue value) {
  const WordList kinds = {"rectangle", "disc", "polygon", "wkt"};
  const Fields fields(value, kinds, kOneShapeWords);
  if (!fields.is_object()) return std::nullopt;
  std::optional<Shape> shape;
  WordList present;
  for (const std::string_view kind : kinds) {
    if (const auto given = fields.find(kind)) {
      present.push_back(kind);
      shape = read_kind(*given, kind);
    }
  }
  if (present.empty() && value.children().empty()) {
    value.fault("no-shape", "an object without a shape", std::string(kOneShapeWords));
  }
  if (present.size() > 1) {
    value.fault("several-shapes", "several shapes in one object: " + listed(present),
                std::string(kOneShapeWords));
    return std::nullopt;
  }
  return shape;
}

}  // namespace leeway
