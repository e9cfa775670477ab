#include "tasks/walk/clear_ways.h"

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/dijkstra_shortest_paths.hpp>

#include "geometry/plane/vector.h"
#include "model/limits/swept.h"
#include "model/regions/region_draft.h"
#include "tasks/enter/rounding.h"
#include "tasks/fit/keeping.h"

namespace leeway {
namespace {

// Past which every obstacle of a stated height is passed above.
constexpr double kHigh = kLargestLength;
constexpr double kPast = 1;  // mm from what is in the way
constexpr std::size_t kMostTurns = 100;

Rig lifted(const Rig& rig) {
  Setup setup = rig.setup();
  setup.probe.travel_height = kHigh;
  return rig.with(setup);
}

double twice_area(const Ring& ring) {
  double sum = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    sum += cross(ring[i], ring[(i + 1) % ring.size()]);
  }
  return sum;
}

// The corners at which the inside of the ring is more than half of all round, or less.
void append_corners(const Ring& ring, bool more_than_half, std::vector<Point>& into) {
  const double sign = twice_area(ring) > 0 ? 1 : -1;
  const std::size_t n = ring.size();
  for (std::size_t i = 0; i < n; ++i) {
    const double turn = sign * cross(ring[(i + n - 1) % n], ring[i], ring[(i + 1) % n]);
    if (more_than_half ? turn < 0 : turn > 0) into.push_back(ring[i]);
  }
}

// Where the probe may be at that height, `kPast` from all that stops it.
MultiPolygon open_ground(const Rig& lifted) {
  const std::optional<Rig> keeping = rig_keeping(lifted, kPast);
  if (!keeping) return {};
  const Setup& setup = keeping->setup();
  const Point offset = setup.probe.offset;
  const Spread spread = spread_of_travel(setup);
  RegionDraft draft;
  shrink(moved(setup.machine.travel, offset), {0, spread}, draft);
  forbid_head(setup, moving_parts(setup), kHigh, offset, Guarded::yes, *keeping->limits().sweeps(),
              draft);
  return draft.finish();
}

std::vector<Point> corners_of(const MultiPolygon& ground) {
  std::vector<Point> corners;
  for (const Polygon& polygon : ground) {
    append_corners(polygon.outer, true, corners);
    for (const Ring& hole : polygon.holes) append_corners(hole, false, corners);
  }
  return corners;
}

// Round and traced outlines have many corners; of those close together one will do.
std::vector<Point> thinned(const std::vector<Point>& corners) {
  std::vector<Point> kept = corners;
  for (double apart = 0.5; kept.size() > kMostTurns; apart *= 1.5) {
    kept.clear();
    for (const Point corner : corners) {
      const bool near = std::any_of(kept.begin(), kept.end(),
                                    [&](Point other) { return distance(corner, other) < apart; });
      if (!near) kept.push_back(corner);
    }
  }
  return kept;
}

}  // namespace

Point in_thousandths(Point probe, Point offset) {
  return Rounding(3).nearest(probe - offset) + offset;
}

ClearWays::ClearWays(const Rig& rig) : rig_(lifted(rig)), limits_(rig_.move_limits()) {}

bool ClearWays::clear(Point from, Point to) const {
  MoveStop stop;
  return !limits_.blocked(from, to, stop);
}

const ClearWays::Turns& ClearWays::turns() const {
  if (turns_) return *turns_;
  Turns turns;
  for (const Point corner : thinned(corners_of(open_ground(rig_)))) {
    turns.places.push_back(in_thousandths(corner, rig_.setup().probe.offset));
  }
  turns.seen.resize(turns.places.size());
  for (std::size_t i = 0; i < turns.places.size(); ++i) {
    for (std::size_t k = i + 1; k < turns.places.size(); ++k) {
      if (clear(turns.places[i], turns.places[k])) turns.seen[i].push_back(k);
    }
  }
  turns_ = std::move(turns);
  return *turns_;
}

const std::vector<std::size_t>& ClearWays::seen_from(Point place) const {
  const auto [found, is_new] = seen_from_.try_emplace({place.x, place.y});
  if (is_new) {
    const Turns& turns = this->turns();
    for (std::size_t i = 0; i < turns.places.size(); ++i) {
      if (clear(place, turns.places[i])) found->second.push_back(i);
    }
  }
  return found->second;
}

std::optional<std::vector<Point>> ClearWays::between(Point from, Point to) const {
  if (clear(from, to)) return std::vector<Point>{};
  const Turns& turns = this->turns();
  using Graph =
      boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS, boost::no_property,
                            boost::property<boost::edge_weight_t, double>>;
  const std::size_t count = turns.places.size();
  const std::size_t start = count;
  const std::size_t goal = count + 1;
  Graph graph(count + 2);
  for (std::size_t i = 0; i < count; ++i) {
    const Point place = turns.places[i];
    for (const std::size_t k : turns.seen[i]) {
      boost::add_edge(i, k, distance(place, turns.places[k]), graph);
    }
  }
  for (const std::size_t i : seen_from(from)) {
    boost::add_edge(start, i, distance(from, turns.places[i]), graph);
  }
  for (const std::size_t i : seen_from(to)) {
    boost::add_edge(i, goal, distance(turns.places[i], to), graph);
  }
  std::vector<std::size_t> before(count + 2);
  boost::dijkstra_shortest_paths(graph, start, boost::predecessor_map(before.data()));
  if (before[goal] == goal) return std::nullopt;
  std::vector<Point> via;
  for (std::size_t at = before[goal]; at != start; at = before[at]) {
    via.push_back(turns.places[at]);
  }
  std::reverse(via.begin(), via.end());
  return via;
}

}  // namespace leeway
