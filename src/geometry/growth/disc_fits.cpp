#include "geometry/growth/disc_fits.h"

#include <algorithm>
#include <cmath>
#include <queue>

namespace leeway {
namespace {

constexpr int kMostCells = 5000;
constexpr double kExact = 5e-7;  // mm; half of what leeways are rounded to

struct Cell {
  Point center;
  double half = 0;  // of its side
  double most = 0;  // what no position in the cell exceeds

  friend bool operator<(const Cell& a, const Cell& b) { return a.most < b.most; }
};

}  // namespace

// Branch and bound, the cell with the most promise first. Giving up with a yes is safe: a limit
// takes the radius off each distance anyway, so that positions still fall short by themselves. A
// wrong no would rule out a whole bed.
bool disc_fits(const Field& allowed, const Box& box, double radius) {
  std::priority_queue<Cell> cells;
  bool found = false;
  const auto add = [&](Point center, double half) {
    const double here = allowed.distance(center);
    found = found || here >= radius - kExact;
    // A distance changes by no more than the way gone: here half a diagonal.
    const double most = here + half * std::sqrt(2.0);
    if (most >= radius - kExact) cells.push({center, half, most});
  };
  add({(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2}, std::max(box.width(), box.depth()) / 2);
  for (int i = 0; i < kMostCells && !found && !cells.empty(); ++i) {
    const Cell cell = cells.top();
    cells.pop();
    const double half = cell.half / 2;
    for (const double dx : {-half, half}) {
      for (const double dy : {-half, half}) add(cell.center + Point{dx, dy}, half);
    }
  }
  return found || !cells.empty();
}

}  // namespace leeway
