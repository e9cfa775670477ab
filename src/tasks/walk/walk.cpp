#include "leeway/walk.h"

#include <algorithm>
#include <cmath>

#include "tasks/check/requested_points.h"
#include "tasks/check/trusted_check.h"
#include "tasks/enter/rounding.h"
#include "tasks/go_on.h"
#include "tasks/walk/clear_ways.h"
#include "tasks/walk/short_order.h"

namespace leeway {
namespace {

constexpr std::size_t kTightest = 5;

class Walker {
 public:
  Walker(const Rig& rig, const WalkOptions& options) : rig_(rig), options_(options), ways_(rig) {
    CheckOptions checking;
    checking.regions = RegionsWanted::none;
    result_.check = check_trusted(rig, checking);
    if (!options.from) return;
    result_.from = rounding_.nearest(*options.from);
    at_ = *result_.from + offset();
  }

  WalkResult walk() {
    for (const std::vector<std::size_t>& group : groups()) go_over(group);
    std::sort(result_.left_out.begin(), result_.left_out.end(),
              [](const WalkLeftOut& a, const WalkLeftOut& b) { return a.point < b.point; });
    if (result_.stops.empty()) return std::move(result_);
    go_to_the_end();
    take_height();
    return std::move(result_);
  }

 private:
  Point offset() const { return rig_.setup().probe.offset; }
  const CheckedPoint& point(std::size_t i) const { return result_.check.points[i]; }

  // In the order of the check's moves, the unreachable ones behind.
  std::vector<std::size_t> all_points() const {
    std::vector<std::size_t> all = travel_order(result_.check.points);
    std::vector<bool> there(result_.check.points.size(), false);
    for (const std::size_t i : all) there[i] = true;
    for (std::size_t i = 0; i < there.size(); ++i) {
      if (!there[i]) all.push_back(i);
    }
    return all;
  }
  std::vector<std::size_t> corners() const {
    const std::optional<Grid>& grid = rig_.setup().request.grid;
    return grid ? those([&](const CheckedPoint& p) {
      return (p.column == 1 || p.column == grid->columns) && (p.row == 1 || p.row == grid->rows);
    })
                : std::vector<std::size_t>{};
  }
  std::vector<std::size_t> homes() const {
    return those([](const CheckedPoint& p) { return p.row == 0 && p.name_index == kHomeIndex; });
  }
  template <typename Is>
  std::vector<std::size_t> those(Is is) const {
    std::vector<std::size_t> out;
    for (const std::size_t i : all_points()) {
      if (is(point(i))) out.push_back(i);
    }
    return out;
  }
  // Of what can be reached and is not in `besides`.
  std::vector<std::size_t> tightest(const std::vector<std::size_t>& besides) const {
    std::vector<std::size_t> out =
        those([](const CheckedPoint& p) { return p.finding.verdict == Verdict::reachable; });
    out.erase(std::remove_if(out.begin(), out.end(),
                             [&](std::size_t i) {
                               return std::find(besides.begin(), besides.end(), i) != besides.end();
                             }),
              out.end());
    const auto left = [&](std::size_t i) {
      return point(i).finding.leeway - point(i).finding.guard;
    };
    std::stable_sort(out.begin(), out.end(),
                     [&](std::size_t a, std::size_t b) { return left(a) < left(b); });
    out.resize(std::min(out.size(), kTightest));
    return out;
  }

  std::vector<std::vector<std::size_t>> groups() const {
    switch (options_.points) {
      case WalkPoints::corners:
        return {corners()};
      case WalkPoints::tightest:
        return {tightest({})};
      case WalkPoints::all:
        return {all_points()};
      case WalkPoints::home:
        return {homes()};
      case WalkPoints::in_turn:
        break;
    }
    std::vector<std::size_t> first = corners();
    const std::vector<std::size_t> second = tightest(first);
    first.insert(first.end(), second.begin(), second.end());
    return {corners(), second, those([&](const CheckedPoint& p) {
              const auto i = static_cast<std::size_t>(&p - result_.check.points.data());
              return std::find(first.begin(), first.end(), i) == first.end();
            })};
  }

  void leave_out(std::size_t i, WalkLeftOut::Why why) { result_.left_out.push_back({i, why}); }

  // The stop at a point as it is printed, if that is reachable: of the places in thousandths round
  // it the nearest.
  std::optional<WalkStop> stop_at(std::size_t i) const {
    std::optional<WalkStop> best;
    const Point exact = point(i).probe - offset();
    for (int dx = -1; dx <= 1; ++dx) {
      for (int dy = -1; dy <= 1; ++dy) {
        WalkStop stop;
        stop.point = i;
        stop.nozzle = rounding_.nearest(rounding_.nearest(exact) + Point{dx * 0.001, dy * 0.001});
        stop.probe = stop.nozzle + offset();
        stop.finding = rig_.limits().evaluate(stop.probe);
        if (stop.finding.verdict != Verdict::reachable) continue;
        if (!best || distance(stop.nozzle, exact) < distance(best->nozzle, exact)) best = stop;
      }
    }
    return best;
  }
  static double distance(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

  void go_over(const std::vector<std::size_t>& group) {
    std::vector<WalkStop> stops;
    for (const std::size_t i : group) {
      if (point(i).finding.verdict != Verdict::reachable) {
        leave_out(i, WalkLeftOut::Why::not_reachable);
      } else if (std::optional<WalkStop> stop = stop_at(i)) {
        stops.push_back(std::move(*stop));
      } else {
        leave_out(i, WalkLeftOut::Why::rounding);
      }
    }
    if (result_.stops.size() + stops.size() > kMostWalkStops) {
      throw WalkRefused(
          "more than 1000 points to walk over: nobody watches so many; "
          "walk over the corners or the tightest ones");
    }
    keep_what_hangs_together(stops);
    std::vector<Point> places;
    for (const WalkStop& stop : stops) places.push_back(stop.probe);
    for (const std::size_t next : short_order(places, at_)) {
      go_on(options_.progress);
      go_to(std::move(stops[next]));
    }
  }

  // Takes those out to which a way leads.
  std::vector<WalkStop> taken_out(std::vector<WalkStop>& stops, Point from) const {
    const auto beyond =
        std::stable_partition(stops.begin(), stops.end(), [&](const WalkStop& stop) {
          return stop.probe == from || ways_.between(from, stop.probe).has_value();
        });
    std::vector<WalkStop> taken(stops.begin(), beyond);
    stops.erase(stops.begin(), beyond);
    return taken;
  }
  void leave_out_without_way(const std::vector<WalkStop>& stops) {
    for (const WalkStop& stop : stops) leave_out(stop.point, WalkLeftOut::Why::no_way);
  }

  // Of stops between which there is no way, those with a way from where the probe is; where it is
  // nowhere yet, the most that hang together.
  void keep_what_hangs_together(std::vector<WalkStop>& stops) {
    std::vector<WalkStop> kept;
    while (stops.size() > kept.size()) {
      std::vector<WalkStop> together = taken_out(stops, at_ ? *at_ : stops.front().probe);
      if (at_ || together.size() > kept.size()) std::swap(together, kept);
      leave_out_without_way(together);
      if (at_) break;
    }
    leave_out_without_way(stops);
    stops = std::move(kept);
  }

  void go_to(WalkStop stop) {
    if (at_) {
      std::optional<std::vector<Point>> via = ways_.between(*at_, stop.probe);
      if (!via) return leave_out(stop.point, WalkLeftOut::Why::no_way);
      take_way(std::move(*via), stop);
    }
    at_ = stop.probe;
    result_.stops.push_back(std::move(stop));
  }
  void take_way(std::vector<Point> via, WalkStop& stop) const {
    for (const Point probe : via) stop.via.push_back(rounding_.nearest(probe - offset()));
  }

  // Where someone can get at the head, away from what stands at the edges.
  void go_to_the_end() {
    const Box bed = bounding_box(rig_.setup().machine.bed);
    WalkStop stop;
    stop.nozzle = rounding_.nearest(Point{(bed.x0 + bed.x1) / 2, (bed.y0 + bed.y1) / 2});
    stop.probe = stop.nozzle + offset();
    std::optional<std::vector<Point>> via = ways_.between(*at_, stop.probe);
    if (!via) return;
    take_way(std::move(*via), stop);
    result_.end = std::move(stop);
  }

  std::vector<Point> whole_way() const {
    std::vector<Point> way;
    if (result_.from) way.push_back(*result_.from + offset());
    const auto add = [&](const WalkStop& stop) {
      for (const Point nozzle : stop.via) way.push_back(nozzle + offset());
      way.push_back(stop.probe);
    };
    for (const WalkStop& stop : result_.stops) add(stop);
    if (result_.end) add(*result_.end);
    return way;
  }

  void take_height() {
    std::vector<Point> way = whole_way();
    if (way.size() == 1) way.push_back(way.front());
    result_.safe = rig_.move_limits().safe_height(way);
    // All moves are clear above everything that has a height; so some height is enough.
    if (!result_.safe.least) throw WalkRefused("no height makes all moves of the walk clear");
    result_.least = std::max(rounding_.up(*result_.safe.least), kLeastWalkHeight);
    result_.height =
        options_.height ? rounding_.up(*options_.height) : result_.least + kWalkHeightAbove;
    if (result_.height < result_.least) throw WalkHeightTooLow(result_.least);
  }

  const Rig& rig_;
  const WalkOptions& options_;
  ClearWays ways_;
  Rounding rounding_{3};
  WalkResult result_;
  std::optional<Point> at_;  // where the probe is
};

}  // namespace

WalkResult walk(const Rig& rig, const WalkOptions& options) {
  require_valid(rig.setup());
  return Walker(rig, options).walk();
}

}  // namespace leeway
