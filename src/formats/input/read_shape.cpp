#include "formats/input/read_shape.h"

#include <fmt/format.h>

#include "formats/input/setup_words.h"
#include "formats/text/wkt.h"
#include "geometry/validity/ring_edges.h"

namespace leeway {
namespace {

constexpr std::string_view kOneShapeWords =
    "one shape: {\"rectangle\": ...}, {\"rounded_rectangle\": ...}, {\"disc\": ...}, "
    "{\"polygon\": ...} or {\"wkt\": ...}";
constexpr std::string_view kRadiusWords = "a number of mm above 0";
constexpr std::string_view kPointWords = "two numbers [x, y] in mm";
constexpr std::string_view kBoundsWords = "two numbers [low, high] in mm";
constexpr std::string_view kRingWords = "an array of at least three points [x, y]";

// NaN in every place.
constexpr Box kUnreadBox{kUnread, kUnread, kUnread, kUnread};

// Both sides of a box.
Box read_sides(const Fields& fields, const Slot& slot) {
  Box box = kUnreadBox;
  if (const auto x = fields.need("x", "[left, right] in mm")) {
    read_interval(*x, SetupDetail::x, slot, box);
  }
  if (const auto y = fields.need("y", "[front, back] in mm")) {
    read_interval(*y, SetupDetail::y, slot, box);
  }
  return box;
}

// NaN where there is none.
double read_radius(const std::optional<JsonValue>& value, const Slot& slot) {
  if (!value) return kUnread;
  return read_number(*value, NumberRange::radius, slot.at(SetupDetail::radius)).value_or(kUnread);
}

Shape read_rectangle(JsonValue value, const Slot& slot) {
  return read_sides(Fields(value, {"x", "y"}, "{\"x\": [left, right], \"y\": [front, back]}"),
                    slot);
}

Shape read_rounded_rectangle(JsonValue value, const Slot& slot) {
  const Fields fields(value, {"x", "y", "radius"},
                      "{\"x\": [left, right], \"y\": [front, back], \"radius\": r}");
  const Box box = read_sides(fields, slot);
  return RoundedBox{box, read_radius(fields.need("radius", kRadiusWords), slot)};
}

Shape read_disc(JsonValue value, const Slot& slot) {
  Disc disc{{kUnread, kUnread}, kUnread};
  const Fields fields(value, {"center", "radius"}, "{\"center\": [x, y], \"radius\": r}");
  const auto center = fields.need("center", "[x, y] in mm");
  const auto radius = fields.need("radius", kRadiusWords);
  if (center) {
    disc.center = read_pair(*center, NumberRange::length, kPointWords, slot, SetupDetail::center_x,
                            SetupDetail::center_y)
                      .value_or(disc.center);
  }
  disc.radius = read_radius(radius, slot);
  return disc;
}

// Rings of a polygon as they are read.
class RingReader {
 public:
  explicit RingReader(const Slot& slot) : slot_(slot) {}

  // A ring that is none is empty, and has no place.
  Ring read(JsonValue value, std::size_t polygon, std::size_t number) {
    if (!value.is(JsonKind::array)) {
      read_items(value, kRingWords);
      return {};
    }
    Ring ring;
    for (const JsonValue item : value.children()) ring.push_back(read_point(item));
    return put(value, polygon, number, ring, true);
  }

  // Puts down where the ring stands, and leaves out what repeats.
  Ring put(JsonValue value, std::size_t polygon, std::size_t number, const Ring& ring,
           bool points_have_places) {
    Slot at = slot_.at(SetupDetail::ring);
    at.place.polygon = polygon;
    at.place.ring = number;
    std::vector<std::size_t> kept = kept_vertices(ring);
    Ring tidy;
    for (const std::size_t i : kept) tidy.push_back(ring[i]);
    if (!points_have_places) kept.clear();
    slot_.places.put_ring(at.place, value, kept);
    return tidy;
  }

 private:
  // Its numbers are found by way of the ring.
  static Point read_point(JsonValue value) {
    Point point{kUnread, kUnread};
    const std::vector<JsonValue> items = pair_items(value, kPointWords);
    if (items.empty()) return point;
    point.x = plain_number(items[0], words(NumberRange::length)).value_or(kUnread);
    point.y = plain_number(items[1], words(NumberRange::length)).value_or(kUnread);
    return point;
  }

  const Slot& slot_;
};

Shape read_polygon(JsonValue value, const Slot& slot) {
  const Fields fields(value, {"outer", "holes"},
                      "{\"outer\": [[x, y], ...], \"holes\": [[[x, y], ...], ...]}");
  if (!fields.is_object()) return Point{};
  slot.places.put(slot.place, value);
  RingReader rings(slot);
  Polygon polygon;
  if (const auto outer = fields.need("outer", kRingWords)) polygon.outer = rings.read(*outer, 0, 0);
  if (const auto holes = fields.find("holes")) {
    for (const JsonValue hole : read_items(*holes, "an array of rings, each an array of points")) {
      polygon.holes.push_back(rings.read(hole, 0, polygon.holes.size() + 1));
    }
  }
  return MultiPolygon{std::move(polygon)};
}

Shape read_wkt(JsonValue value, const Slot& slot) {
  if (!value.is(JsonKind::string)) {
    if (!value.is(JsonKind::not_finite)) {
      value.fault("wrong-type", describe(value), "POLYGON (...) or MULTIPOLYGON (...) as a text");
    }
    return Point{};
  }
  MultiPolygon polygons;
  if (const auto fault = parse_wkt(value.text(), polygons)) {
    value.fault("bad-wkt",
                fmt::format("{} at character {} of the text", fault->found, fault->character),
                fault->allowed);
    return Point{};
  }
  slot.places.put(slot.place, value);
  RingReader rings(slot);
  for (std::size_t i = 0; i < polygons.size(); ++i) {
    polygons[i].outer = rings.put(value, i, 0, polygons[i].outer, false);
    for (std::size_t h = 0; h < polygons[i].holes.size(); ++h) {
      polygons[i].holes[h] = rings.put(value, i, h + 1, polygons[i].holes[h], false);
    }
  }
  return polygons;
}

Shape read_kind(JsonValue value, std::string_view kind, const Slot& slot) {
  if (kind == "rectangle") return read_rectangle(value, slot);
  if (kind == "rounded_rectangle") return read_rounded_rectangle(value, slot);
  if (kind == "disc") return read_disc(value, slot);
  return kind == "polygon" ? read_polygon(value, slot) : read_wkt(value, slot);
}

}  // namespace

void read_interval(JsonValue value, SetupDetail axis, const Slot& slot, Box& into) {
  const bool along_x = axis == SetupDetail::x;
  const auto pair = read_pair(value, NumberRange::length, kBoundsWords, slot,
                              along_x ? SetupDetail::x0 : SetupDetail::y0,
                              along_x ? SetupDetail::x1 : SetupDetail::y1);
  if (!pair) return;
  slot.places.put(slot.at(axis).place, value);
  (along_x ? into.x0 : into.y0) = pair->x;
  (along_x ? into.x1 : into.y1) = pair->y;
}

Shape read_shape(JsonValue value, const Slot& slot) {
  const WordList kinds = {"rectangle", "rounded_rectangle", "disc", "polygon", "wkt"};
  const Fields fields(value, kinds, kOneShapeWords);
  if (!fields.is_object()) return Point{};
  Shape shape;
  WordList present;
  for (const std::string_view kind : kinds) {
    if (const auto given = fields.find(kind)) {
      present.push_back(kind);
      shape = read_kind(*given, kind, slot);
    }
  }
  if (present.empty() && value.children().empty()) {
    value.fault("no-shape", "an object without a shape", std::string(kOneShapeWords));
  }
  if (present.size() > 1) {
    value.fault("several-shapes", "several shapes in one object: " + listed(present),
                std::string(kOneShapeWords));
  }
  return shape;
}

}  // namespace leeway
