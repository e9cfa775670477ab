#include "geometry/overlay/overlay.h"
#include "geometry/overlay/overlay_steps.h"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <numeric>
#include <utility>

#include "geometry/overlay/overlay_boost.h"
#include "geometry/overlay/overlay_checked.h"
#include "geometry/overlay/overlay_lattice.h"
#include "geometry/overlay/overlay_rings.h"

namespace leeway {
namespace overlay {
namespace {

void append(MultiPolygon&& from, MultiPolygon& to) {
  std::move(from.begin(), from.end(), std::back_inserter(to));
}

// Moves the polygons whose box keeps off `box` from `polygons` to `aside`.
// What keeps off the other operand cannot be changed by it. It is spared the overlay and the check.
void set_aside(MultiPolygon& polygons, const Box& box, MultiPolygon& aside) {
  const auto away = std::stable_partition(
      polygons.begin(), polygons.end(), [&box](const Polygon& p) { return touch(box_of(p), box); });
  std::move(away, polygons.end(), std::back_inserter(aside));
  polygons.erase(away, polygons.end());
}

MultiPolygon united_halves(MultiPolygon a, MultiPolygon b, Engine& engine) {
  MultiPolygon result;
  set_aside(a, box_of(b), result);
  set_aside(b, box_of(a), result);
  if (a.empty() || b.empty()) {
    append(std::move(a), result);
    append(std::move(b), result);
  } else {
    append(checked(Operation::unite, a, b, engine), result);
  }
  return result;
}

// Halves are united first: what is united often stays small, and so does what is checked.
MultiPolygon balanced_union(MultiPolygon::const_iterator first, MultiPolygon::const_iterator last,
                            Engine& engine) {
  if (last - first == 1) return {*first};
  const auto middle = first + (last - first) / 2;
  return united_halves(balanced_union(first, middle, engine), balanced_union(middle, last, engine),
                       engine);
}

std::vector<Box> boxes_of(const MultiPolygon& polygons) {
  std::vector<Box> boxes;
  boxes.reserve(polygons.size());
  for (const Polygon& polygon : polygons) boxes.push_back(box_of(polygon));
  return boxes;
}

bool within(const Box& inner, const Box& outer) {
  return inner.x0 >= outer.x0 && inner.x1 <= outer.x1 && inner.y0 >= outer.y0 &&
         inner.y1 <= outer.y1;
}

// Without the members that surely lie in another one, of equals all but one.
MultiPolygon without_hidden(MultiPolygon parts) {
  // Sorted, so that the result does not depend on the order of the parts.
  std::sort(parts.begin(), parts.end(),
            [](const Polygon& a, const Polygon& b) { return before(a, b); });
  parts.erase(std::unique(parts.begin(), parts.end()), parts.end());
  const std::vector<Box> boxes = boxes_of(parts);
  std::vector<char> hidden(parts.size());
  for (std::size_t i = 0; i < parts.size(); ++i) {
    for (std::size_t j = 0; j < parts.size() && !hidden[i]; ++j) {
      // What is hidden hides nothing itself: else two that hide one another would both go.
      hidden[i] =
          i != j && !hidden[j] && within(boxes[i], boxes[j]) && surely_inside(parts[i], parts[j]);
    }
  }
  MultiPolygon kept;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (!hidden[i]) kept.push_back(std::move(parts[i]));
  }
  return kept;
}

// The parts in groups: boxes of different groups do not touch.
// Parts of different groups cannot overlap. Each group is united, and checked, by itself.
std::vector<MultiPolygon> clusters(MultiPolygon parts) {
  const std::vector<Box> boxes = boxes_of(parts);
  std::vector<std::size_t> waiting(parts.size());
  std::iota(waiting.begin(), waiting.end(), std::size_t{0});
  std::vector<MultiPolygon> result;
  while (!waiting.empty()) {
    std::vector<std::size_t> members{waiting.front()};
    waiting.erase(waiting.begin());
    for (std::size_t at = 0; at < members.size(); ++at) {
      const Box box = boxes[members[at]];
      const auto found = std::stable_partition(
          waiting.begin(), waiting.end(), [&](std::size_t i) { return !touch(boxes[i], box); });
      members.insert(members.end(), found, waiting.end());
      waiting.erase(found, waiting.end());
    }
    std::sort(members.begin(), members.end());
    MultiPolygon cluster;
    for (const std::size_t i : members) cluster.push_back(std::move(parts[i]));
    result.push_back(std::move(cluster));
  }
  return result;
}

// Takes from `from` the members that surely lie in a member of `in`.
MultiPolygon taken_inside(MultiPolygon& from, const MultiPolygon& in) {
  const std::vector<Box> boxes = boxes_of(in);
  const auto inside = std::stable_partition(from.begin(), from.end(), [&](const Polygon& p) {
    const Box box = box_of(p);
    for (std::size_t i = 0; i < in.size(); ++i) {
      if (within(box, boxes[i]) && surely_inside(p, in[i])) return false;
    }
    return true;
  });
  MultiPolygon taken(std::make_move_iterator(inside), std::make_move_iterator(from.end()));
  from.erase(inside, from.end());
  return taken;
}

MultiPolygon cut(Operation operation, const MultiPolygon& a, const MultiPolygon& b,
                 Engine& engine) {
  if (a.empty() || b.empty()) return {};
  return settled(checked(operation, a, b, engine), engine);
}

}  // namespace

Engine usual_engine() {
  Engine engine;
  engine.attempt = boost_overlay;
  engine.last_resort = lattice_overlay;
  return engine;
}

MultiPolygon unite(const std::vector<Polygon>& parts, Engine& engine) {
  MultiPolygon result;
  for (MultiPolygon& together : clusters(from_millimetres(parts))) {
    const MultiPolygon cluster = without_hidden(std::move(together));
    append(settled(balanced_union(cluster.begin(), cluster.end(), engine), engine), result);
  }
  return to_millimetres(std::move(result));
}

MultiPolygon subtract(const MultiPolygon& a, const MultiPolygon& b, Engine& engine) {
  MultiPolygon from = from_millimetres(a);
  MultiPolygon what = from_millimetres(b);
  MultiPolygon result;
  MultiPolygon idle;
  set_aside(what, box_of(from), idle);
  set_aside(from, box_of(what), result);
  // What lies in a member of `what` is gone: no overlay is needed to say so.
  taken_inside(from, what);
  if (what.empty()) {
    append(std::move(from), result);
  } else {
    append(cut(Operation::subtract, from, what, engine), result);
  }
  return to_millimetres(std::move(result));
}

MultiPolygon intersect(const MultiPolygon& a, const MultiPolygon& b, Engine& engine) {
  MultiPolygon one = from_millimetres(a);
  MultiPolygon other = from_millimetres(b);
  MultiPolygon idle;
  set_aside(one, box_of(other), idle);
  set_aside(other, box_of(one), idle);
  // What lies in a member of the other operand is its own intersection. Neither operand overlaps
  // itself, so that nothing is taken twice.
  MultiPolygon result = taken_inside(one, other);
  append(taken_inside(other, one), result);
  append(cut(Operation::intersect, one, other, engine), result);
  return to_millimetres(std::move(result));
}

}  // namespace overlay

MultiPolygon unite(const std::vector<Polygon>& parts) {
  overlay::Engine engine = overlay::usual_engine();
  return overlay::unite(parts, engine);
}

MultiPolygon subtract(const MultiPolygon& a, const MultiPolygon& b) {
  overlay::Engine engine = overlay::usual_engine();
  return overlay::subtract(a, b, engine);
}

MultiPolygon intersect(const MultiPolygon& a, const MultiPolygon& b) {
  overlay::Engine engine = overlay::usual_engine();
  return overlay::intersect(a, b, engine);
}

}  // namespace leeway
