#include "formats/text/change_text.h"

#include <fmt/format.h>

#include "formats/json/json_text.h"
#include "formats/text/numbers.h"
#include "formats/text/wkt.h"
#include "geometry/plane/by_kind.h"

namespace leeway {
namespace {

std::string json_ring(const Ring& ring) {
  std::string out = "[";
  for (const Point p : ring) out += (out.size() > 1 ? "," : "") + json_position(p);
  return out + "]";
}

std::string json_polygon(const Polygon& polygon) {
  std::string holes = "[";
  for (const Ring& hole : polygon.holes) holes += (holes.size() > 1 ? "," : "") + json_ring(hole);
  JsonObject out;
  out.add("outer", json_ring(polygon.outer));
  if (!polygon.holes.empty()) out.add("holes", holes + "]");
  return JsonObject().add("polygon", out.text()).text();
}

struct JsonValueOf {
  std::string operator()(double value) const { return json_number(value); }
  std::string operator()(Point value) const { return json_position(value); }
  std::string operator()(const std::string& value) const { return json_text(value); }
  std::string operator()(const Shape& value) const { return json_shape(value); }
};

}  // namespace

std::string json_shape(const Shape& shape) {
  return by_kind(
      shape, [](Point) { return std::string("null"); },
      [](const Box& box) { return JsonObject().add("rectangle", json_bounds(box)).text(); },
      [](const Disc& disc) {
        return JsonObject()
            .add("disc", JsonObject()
                             .add("center", json_position(disc.center))
                             .add("radius", json_number(disc.radius))
                             .text())
            .text();
      },
      [](const RoundedBox& rounded) {
        const Box& b = rounded.box;
        return JsonObject()
            .add("rounded_rectangle", JsonObject()
                                          .add("x", json_position({b.x0, b.x1}))
                                          .add("y", json_position({b.y0, b.y1}))
                                          .add("radius", json_number(rounded.radius))
                                          .text())
            .text();
      },
      [](const MultiPolygon& polygons) {
        if (polygons.size() == 1) return json_polygon(polygons.front());
        return JsonObject().add("wkt", json_text(wkt_text(polygons))).text();
      });
}

std::string json_changes(const std::vector<Change>& changes) {
  JsonObject out;
  for (const Change& change : changes) {
    out.add(change.pointer.c_str(), std::visit(JsonValueOf{}, change.value));
  }
  return out.text();
}

std::string shape_words(const Shape& shape) {
  const auto extent = [&shape] {
    const Box box = bounding_box(shape);
    return fmt::format("x {} to {} and y {} to {}", decimal(box.x0), decimal(box.x1),
                       decimal(box.y0), decimal(box.y1));
  };
  return by_kind(
      shape, [&](Point) { return extent(); }, [&](const Box&) { return extent(); },
      [](const Disc& disc) {
        return fmt::format("a disc of radius {} around {}", decimal(disc.radius),
                           pair(disc.center));
      },
      [&](const RoundedBox& rounded) {
        return extent() + fmt::format(", corners rounded by {}", decimal(rounded.radius));
      },
      [&](const MultiPolygon&) { return extent(); });
}

}  // namespace leeway
