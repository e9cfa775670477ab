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

const char* word_of(Frame frame) { return frame == Frame::probe ? "probe" : "nozzle"; }
const char* word_of(Margins::From from) { return from == Margins::From::bed ? "bed" : "travel"; }

std::string pointer_to_point(std::size_t point, const char* key) {
  return fmt::format("/request/points/{}/{}", point, key);
}

}  // namespace

const char* word_of(GridSide edge) {
  switch (edge) {
    case GridSide::left:
      return "left";
    case GridSide::right:
      return "right";
    case GridSide::front:
      return "front";
    case GridSide::back:
      break;
  }
  return "back";
}

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

JsonEdit json_edit(const Change& change) {
  using Edit = JsonEdit;
  return by_kind(
      change,
      [](const CoverageFactor& c) {
        return Edit{"/coverage_factor", json_number(c.to)};
      },
      [](const BedShape& c) {
        return Edit{"/machine/bed", json_shape(c.to)};
      },
      [](const TravelShape& c) {
        return Edit{"/machine/travel", json_shape(c.to)};
      },
      [](const ProbeOffset& c) {
        return Edit{"/probe/offset", json_position(c.to)};
      },
      [](const OffsetUncertainty& c) {
        return Edit{"/probe/offset_uncertainty", json_position(c.to)};
      },
      [](const BedUncertainty& c) {
        return Edit{"/machine/uncertainty/bed", json_number(c.to)};
      },
      [](const TravelUncertainty& c) {
        return Edit{"/machine/uncertainty/travel", json_number(c.to)};
      },
      [](const SpotShape& c) {
        return Edit{"/probe/spot", json_shape(c.to)};
      },
      [](const EdgeDistance& c) {
        return Edit{"/probe/edge_distance", json_number(c.to)};
      },
      [](const GridColumns& c) {
        return Edit{"/request/grid/columns", std::to_string(c.to)};
      },
      [](const GridRows& c) {
        return Edit{"/request/grid/rows", std::to_string(c.to)};
      },
      [](const GridAlongX& c) {
        return Edit{"/request/grid/x", json_position({c.from, c.to})};
      },
      [](const GridAlongY& c) {
        return Edit{"/request/grid/y", json_position({c.from, c.to})};
      },
      [](const GridFrame& c) {
        return Edit{"/request/grid/frame", json_text(word_of(c.to))};
      },
      [](const GridMargins& c) {
        return Edit{"/request/grid/margins", json_number(c.to)};
      },
      [](const GridMargin& c) {
        return Edit{std::string("/request/grid/margins/") + word_of(c.edge), json_number(c.to)};
      },
      [](const GridMarginsFrom& c) {
        return Edit{"/request/grid/margins_from", json_text(word_of(c.to))};
      },
      [](const PointPlace& c) {
        return Edit{pointer_to_point(c.point, "at"), json_position(c.to)};
      },
      [](const PointFrame& c) {
        return Edit{pointer_to_point(c.point, "frame"), json_text(word_of(c.to))};
      },
      [](const HomePlace& c) {
        return Edit{"/request/home/at", json_position(c.to)};
      },
      [](const HomeFrame& c) {
        return Edit{"/request/home/frame", json_text(word_of(c.to))};
      });
}

std::string json_changes(const Changes& changes) {
  JsonObject out;
  for (const Change& change : changes) {
    const JsonEdit edit = json_edit(change);
    out.add(edit.pointer.c_str(), edit.value);
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
