#include "judges/slabs.h"

#include <algorithm>

namespace leeway::judges {
namespace {

// An edge across one slab, from its left side to its right.
struct Crossing {
  Point left;
  Point right;
};

double y_at(Point a, Point b, double x) {
  if (x == a.x) return a.y;
  if (x == b.x) return b.y;
  return a.y + (b.y - a.y) * ((x - a.x) / (b.x - a.x));
}

std::vector<Crossing> crossings(const std::vector<Ring>& rings, double x0, double x1) {
  std::vector<Crossing> found;
  for (const Ring& ring : rings) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      Point a = ring[i];
      Point b = ring[(i + 1) % ring.size()];
      if (a.x > b.x) std::swap(a, b);
      if (a.x <= x0 && b.x >= x1) {
        found.push_back({{x0, y_at(a, b, x0)}, {x1, y_at(a, b, x1)}});
      }
    }
  }
  std::sort(found.begin(), found.end(), [](const Crossing& a, const Crossing& b) {
    return a.left.y + a.right.y < b.left.y + b.right.y;
  });
  return found;
}

}  // namespace

std::vector<Ring> slabs(const std::vector<Ring>& rings) {
  std::vector<double> xs;
  for (const Ring& ring : rings) {
    for (const Point& p : ring) xs.push_back(p.x);
  }
  std::sort(xs.begin(), xs.end());
  xs.erase(std::unique(xs.begin(), xs.end()), xs.end());
  std::vector<Ring> pieces;
  for (std::size_t i = 0; i + 1 < xs.size(); ++i) {
    const std::vector<Crossing> found = crossings(rings, xs[i], xs[i + 1]);
    for (std::size_t k = 0; k + 1 < found.size(); k += 2) {
      pieces.push_back({found[k].left, found[k].right, found[k + 1].right, found[k + 1].left});
    }
  }
  return pieces;
}

}  // namespace leeway::judges
