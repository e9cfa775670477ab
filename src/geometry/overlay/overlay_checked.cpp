#include "geometry/overlay/overlay_checked.h"

#include <cmath>
#include <exception>
#include <optional>
#include <string>
#include <utility>

#include "geometry/overlay/overlay_check.h"
#include "geometry/overlay/overlay_rings.h"
#include "geometry/overlay/overlay_tangle.h"
#include "geometry/plane/micrometres.h"

namespace leeway::overlay {
namespace {

// Along the axes: never less than the true length, so never too strict a bound, and without roots.
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

double allowed(const MultiPolygon& a, const MultiPolygon& b) {
  return kRoundingStrip * (length(a) + length(b));
}

std::string fault(Operation operation, const MultiPolygon& a, const MultiPolygon& b) {
  const char* const name = operation == Operation::unite       ? "union"
                           : operation == Operation::intersect ? "intersection"
                                                               : "difference";
  MultiPolygon where = operation == Operation::intersect ? b : a;
  if (operation == Operation::unite) where.insert(where.end(), b.begin(), b.end());
  const Box box = box_of(where);
  const auto mm = [](double v) {
    std::string text = std::to_string(v / kMicrometresPerMillimetre);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
  };
  return std::string("overlay: no way of computing the ") + name + " of " +
         std::to_string(a.size()) + " and " + std::to_string(b.size()) +
         " polygons stood the check, x from " + mm(box.x0) + " to " + mm(box.x1) + " mm, y from " +
         mm(box.y0) + " to " + mm(box.y1) + " mm";
}

std::optional<MultiPolygon> first_answer(Operation operation, const MultiPolygon& a,
                                         const MultiPolygon& b, const Engine& engine) {
  try {
    MultiPolygon answer = engine.attempt(operation, a, b);
    if (wrong_area(operation, a, b, answer) <= allowed(a, b)) return answer;
  } catch (const std::exception&) {
    // Boost gives up on some inputs: as good as a wrong answer.
  }
  return std::nullopt;
}

// REQUIRES: whole micrometres.
std::optional<MultiPolygon> last_answer(Operation operation, const MultiPolygon& a,
                                        const MultiPolygon& b, Engine& engine) {
  ++engine.last_resorts;
  try {
    LatticeResult answer = engine.last_resort(operation, a, b);
    // The lattice moves edges on purpose. What they passed over is no fault.
    if (wrong_area(operation, a, b, answer.polygons) <= allowed(a, b) + answer.moved) {
      return std::move(answer.polygons);
    }
  } catch (const std::exception&) {
    // As good as a wrong answer.
  }
  return std::nullopt;
}

}  // namespace

MultiPolygon checked(Operation operation, const MultiPolygon& a, const MultiPolygon& b,
                     Engine& engine) {
  // The operands may lie off the lattice here. Were each step rounded, a check would have to allow
  // for the rounding, and could miss a strip as thin.
  if (std::optional<MultiPolygon> answer = first_answer(operation, a, b, engine)) {
    return *std::move(answer);
  }
  ++engine.rejected;
  if (std::optional<MultiPolygon> answer = last_answer(operation, rounded(a), rounded(b), engine)) {
    return *std::move(answer);
  }
  throw OverlayFault(fault(operation, a, b));
}

MultiPolygon settled(const MultiPolygon& answer, Engine& engine) {
  MultiPolygon result = rounded(answer);
  if (untangled(answer, result)) return result;
  ++engine.tangled;
  // What cannot be taken apart is right all the same: its rings cross by a fraction of a
  // micrometre.
  return last_answer(Operation::unite, result, {}, engine).value_or(std::move(result));
}

}  // namespace leeway::overlay
