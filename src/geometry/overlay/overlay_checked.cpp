#include "geometry/overlay/overlay_checked.h"

#include <algorithm>
#include <cmath>
#include <exception>
#include <optional>
#include <sstream>
#include <string>
#include <utility>

#include "geometry/overlay/overlay_check.h"
#include "geometry/overlay/overlay_rings.h"
#include "geometry/plane/micrometres.h"

namespace leeway::overlay {
namespace {

constexpr Way kWays[] = {
    {0, 0, {0, 0}, false},
    {1, 0, {1, -3}, true},
    {0, 1, {0, 0}, false},
};

template <typename Map>
void for_each_point(MultiPolygon& polygons, Map map) {
  for (Polygon& polygon : polygons) {
    for (Point& p : polygon.outer) p = map(p);
    for (Ring& hole : polygon.holes) {
      for (Point& p : hole) p = map(p);
    }
  }
}

MultiPolygon put_back(const Way& way, MultiPolygon polygons) {
  for_each_point(polygons, [&way](Point p) {
    p = p - way.shift;
    p.x -= way.shear * p.y;
    for (int i = 0; i < way.quarter_turns; ++i) p = {p.y, -p.x};
    return p;
  });
  return polygons;
}

double length(const Ring& ring) {
  double sum = 0;
  Point p = ring.back();
  for (const Point q : ring) {
    sum += std::abs(q.x - p.x) + std::abs(q.y - p.y);
    p = q;
  }
  return sum;
}

double length(const MultiPolygon& polygons) {
  double sum = 0;
  for (const Polygon& polygon : polygons) {
    sum += length(polygon.outer);
    for (const Ring& hole : polygon.holes) sum += length(hole);
  }
  return sum;
}

// A wrong strip of this width (um) along all edges is taken for rounding: far more than a double
// loses, far less than the lattice does later.
constexpr double kRoundingStrip = 1e-4;

std::string fault(Operation operation, const MultiPolygon& a, const MultiPolygon& b) {
  const char* const name = operation == Operation::unite       ? "union"
                           : operation == Operation::intersect ? "intersection"
                                                               : "difference";
  const Box box = box_of(operation == Operation::intersect ? b : a);
  std::ostringstream text;
  text << "overlay: no way of computing the " << name << " of " << a.size();
  if (operation != Operation::unite) text << " and " << b.size();
  text << " polygons stood the check, x from " << box.x0 / kMicrometresPerMillimetre << " to "
       << box.x1 / kMicrometresPerMillimetre << " mm, y from " << box.y0 / kMicrometresPerMillimetre
       << " to " << box.y1 / kMicrometresPerMillimetre << " mm";
  return text.str();
}

// What the last resort has to say; nothing when that is wrong.
std::optional<MultiPolygon> last_answer(Operation operation, const MultiPolygon& a,
                                        const MultiPolygon& b, double allowed, Engine& engine) {
  ++engine.last_resorts;
  try {
    LatticeResult answer = engine.last_resort(operation, a, b);
    if (wrong_area(operation, a, b, answer.polygons) <= allowed + answer.moved) {
      return std::move(answer.polygons);
    }
  } catch (const std::exception&) {
    // As good as a wrong answer.
  }
  return std::nullopt;
}

}  // namespace

MultiPolygon put(const Way& way, MultiPolygon polygons) {
  for_each_point(polygons, [&way](Point p) {
    for (int i = 0; i < way.quarter_turns; ++i) p = {-p.y, p.x};
    return Point{p.x + way.shear * p.y, p.y} + way.shift;
  });
  return polygons;
}

MultiPolygon checked(Operation operation, const MultiPolygon& a, const MultiPolygon& b,
                     Engine& engine, const std::function<MultiPolygon(const Way&)>& work) {
  const double allowed = kRoundingStrip * (length(a) + length(b));
  std::optional<MultiPolygon> tangled;  // right, but its rings cross by a fraction of a micrometre
  for (const Way& way : kWays) {
    try {
      const MultiPolygon answer = put_back(way, work(way));
      if (wrong_area(operation, a, b, answer) <= allowed) {
        MultiPolygon result = rounded(answer);
        if (untangled(answer, result)) return result;
        ++engine.tangled;
        tangled = std::move(result);
        break;
      }
    } catch (const std::exception&) {
      // Boost gives up on some inputs: as good as a wrong answer.
    }
    ++engine.rejected;
  }
  std::optional<MultiPolygon> last = last_answer(operation, a, b, allowed, engine);
  if (last) return *std::move(last);
  if (tangled) return *std::move(tangled);
  throw OverlayFault(fault(operation, a, b));
}

}  // namespace leeway::overlay
