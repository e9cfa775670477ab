#include "formats/text/change_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

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

constexpr const char* kGridPointer = "/request/grid";

// In a file the margins may be one number for all sides.
std::string json_margins(const Margins& m) {
  return JsonObject()
      .add("left", json_number(m.left))
      .add("right", json_number(m.right))
      .add("front", json_number(m.front))
      .add("back", json_number(m.back))
      .text();
}

JsonEdit margins_edit(const Grid& grid) {
  return {"/request/grid/margins", json_margins(std::get<Margins>(grid.extent))};
}

JsonEdit grid_edit(const Grid& grid) {
  JsonObject out;
  out.add("columns", json_number(grid.columns)).add("rows", json_number(grid.rows));
  if (const Box* box = std::get_if<Box>(&grid.extent)) {
    out.add("x", json_position({box->x0, box->x1})).add("y", json_position({box->y0, box->y1}));
  } else {
    const Margins& margins = std::get<Margins>(grid.extent);
    out.add("margins", json_margins(margins)).add("margins_from", json_text(word_of(margins.from)));
  }
  out.add("frame", json_text(word_of(grid.frame)));
  if (grid.skip_outside_bed) out.add("outside_bed", json_text("skip"));
  return {kGridPointer, out.text()};
}

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

std::string json_changes(const Changes& changes, const Setup& setup) {
  const std::optional<Grid>& stated = setup.request.grid;
  const std::optional<Grid> grid = stated ? applied(changes, setup).request.grid : std::nullopt;
  const bool whole = stated && stated->extent.index() != grid->extent.index();
  std::vector<std::string> told;
  JsonObject out;
  for (const Change& change : changes) {
    JsonEdit edit = json_edit(change);
    if (whole && edit.pointer.rfind(kGridPointer, 0) == 0) {
      edit = grid_edit(*grid);
    } else if (grid && std::holds_alternative<GridMargin>(change)) {
      edit = margins_edit(*grid);
    }
    // Several changes of what is given whole are one edit.
    if (std::find(told.begin(), told.end(), edit.pointer) != told.end()) continue;
    out.add(edit.pointer.c_str(), edit.value);
    told.push_back(edit.pointer);
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
