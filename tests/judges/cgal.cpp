#include "judges/cgal.h"

#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Polygon_2.h>
#include <CGAL/Polygon_set_2.h>
#include <CGAL/Polygon_with_holes_2.h>
#include <CGAL/minkowski_sum_2.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>
#include <vector>

#include "geometry/plane/polygons.h"

namespace leeway::judges {
namespace {

using Kernel = CGAL::Exact_predicates_exact_constructions_kernel;
using ExactRing = CGAL::Polygon_2<Kernel>;
using ExactPolygon = CGAL::Polygon_with_holes_2<Kernel>;
using PolygonSet = CGAL::Polygon_set_2<Kernel>;

ExactRing exact(const Ring& ring, CGAL::Orientation winding) {
  ExactRing result;
  for (const Point p : normalized(ring)) {
    result.push_back(Kernel::Point_2(std::round(p.x * 1000), std::round(p.y * 1000)));
  }
  if (result.orientation() != winding) result.reverse_orientation();
  return result;
}

ExactPolygon exact(const Polygon& polygon) {
  ExactPolygon result(exact(polygon.outer, CGAL::COUNTERCLOCKWISE));
  for (const Ring& hole : polygon.holes) result.add_hole(exact(hole, CGAL::CLOCKWISE));
  return result;
}

// Without the holes that are narrower than the other polygon: of these nothing is left in the sum.
// CGAL 5.5 leaves them out too, but erases several from a deque by iterators that the first erasing
// made invalid (Hole_filter_2.h), and crashes now and then; so none is left for it to erase.
Polygon without_filled_holes(Polygon polygon, const Polygon& other) {
  const Box size = bounding_box(other.outer);
  const auto um = [](double mm) { return std::round(mm * 1000); };
  const auto is_narrow = [&](const Ring& hole) {
    const Box box = bounding_box(hole);
    return um(box.x1) - um(box.x0) < um(size.x1) - um(size.x0) ||
           um(box.y1) - um(box.y0) < um(size.y1) - um(size.y0);
  };
  polygon.holes.erase(std::remove_if(polygon.holes.begin(), polygon.holes.end(), is_narrow),
                      polygon.holes.end());
  return polygon;
}

Kernel::FT area(const ExactPolygon& polygon) {
  Kernel::FT sum = polygon.outer_boundary().area();
  for (auto hole = polygon.holes_begin(); hole != polygon.holes_end(); ++hole) sum += hole->area();
  return sum;
}

}  // namespace

struct ExactSet::Impl {
  PolygonSet set;
};

namespace {

ExactSet wrap(PolygonSet set) {
  return ExactSet(std::make_shared<const ExactSet::Impl>(ExactSet::Impl{std::move(set)}));
}

}  // namespace

ExactSet cgal_minkowski_sum(const Polygon& a, const Polygon& b) {
  return wrap(PolygonSet(
      CGAL::minkowski_sum_2(exact(without_filled_holes(a, b)), exact(without_filled_holes(b, a)))));
}

ExactSet cgal_erosion(const Polygon& a, const Polygon& b) {
  const Polygon mirror = mirrored(MultiPolygon{b}).front();
  const Box box = bounding_box(a.outer);
  const Box size = bounding_box(b.outer);
  const double air = 1 + size.width() + size.depth();
  const Ring frame = to_polygon({box.x0 - air, box.x1 + air, box.y0 - air, box.y1 + air}).outer;
  PolygonSet left(exact(a));
  left.difference(cgal_minkowski_sum({frame, {a.outer}}, mirror).get().set);
  for (const Ring& hole : a.holes) {
    left.difference(cgal_minkowski_sum({hole, {}}, mirror).get().set);
  }
  // Beyond the bed, as far as the reference point may be outside of what it belongs to, the frame
  // does not reach: but there nothing fits either.
  return wrap(std::move(left));
}

ExactSet union_of(const std::vector<Ring>& rings) {
  std::vector<ExactRing> all;
  for (const Ring& ring : rings) all.push_back(exact(ring, CGAL::COUNTERCLOCKWISE));
  PolygonSet set;
  set.join(all.begin(), all.end());
  return wrap(std::move(set));
}

ExactSet exact(const MultiPolygon& polygons) {
  PolygonSet set;
  for (const Polygon& polygon : polygons) set.join(exact(polygon));
  return wrap(std::move(set));
}

double area_of_difference(const ExactSet& a, const ExactSet& b) {
  PolygonSet difference = a.get().set;
  difference.symmetric_difference(b.get().set);
  std::vector<ExactPolygon> parts;
  difference.polygons_with_holes(std::back_inserter(parts));
  Kernel::FT sum = 0;
  for (const ExactPolygon& part : parts) sum += area(part);
  return CGAL::to_double(sum) / 1e6;
}

double perimeter(const MultiPolygon& polygons) {
  double sum = 0;
  const auto add = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point d = ring[(i + 1) % ring.size()] - ring[i];
      sum += std::hypot(d.x, d.y);
    }
  };
  for (const Polygon& polygon : polygons) {
    add(polygon.outer);
    for (const Ring& hole : polygon.holes) add(hole);
  }
  return sum;
}

}  // namespace leeway::judges
