#pragma once
// The inner steps of the overlay, apart so that tests can reach them. Inside namespace overlay
// every coordinate is a micrometre, and outer rings are counter-clockwise, holes clockwise.

#include <cstddef>
#include <functional>
#include <vector>

#include "leeway/geometry.h"

namespace leeway::overlay {

enum class Operation { unite, intersect, subtract };

// Whether a point is in the result, by whether it is in a and in b.
inline bool holds(Operation operation, bool in_a, bool in_b) {
  switch (operation) {
    case Operation::unite:
      return in_a || in_b;
    case Operation::intersect:
      return in_a && in_b;
    case Operation::subtract:
      break;
  }
  return in_a && !in_b;
}

struct LatticeResult {
  MultiPolygon polygons;  // whole micrometres, simple rings
  double moved = 0;       // the area that rounding may have moved from one side to the other, um2
};

// Who does the work. Either function may be wrong or throw: what they return is checked.
struct Engine {
  // The members of `a` do not overlap among themselves, nor do those of `b`.
  std::function<MultiPolygon(Operation, const MultiPolygon& a, const MultiPolygon& b)> attempt;
  // The members of `a`, and those of `b`, may overlap among themselves.
  std::function<LatticeResult(Operation, const MultiPolygon& a, const MultiPolygon& b)> last_resort;

  // Counted for tests: answers that failed the check, results whose rings would not have stayed
  // simple when rounded, and calls of the last resort.
  std::size_t rejected = 0;
  std::size_t tangled = 0;
  std::size_t last_resorts = 0;
};

// Boost.Geometry and snap rounding.
Engine usual_engine();

// As the functions of overlay.h (in mm), by a given engine.
MultiPolygon unite(const std::vector<Polygon>& parts, Engine& engine);
MultiPolygon subtract(const MultiPolygon& a, const MultiPolygon& b, Engine& engine);
MultiPolygon intersect(const MultiPolygon& a, const MultiPolygon& b, Engine& engine);

}  // namespace leeway::overlay
