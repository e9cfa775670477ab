// The regions against the verdicts, which come from the limits alone. Design: the two agree away
// from the boundary, and a region errs on the safe side.
//
// GEOS (https://libgeos.org) says whether a point lies in a region.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "judges/complaints.h"
#include "judges/geos.h"
#include "judges/random_points.h"
#include "judges/random_setup.h"
#include "leeway/limits.h"
#include "leeway/regions.h"

namespace leeway::judges {
namespace {

// A point of a region may be short of its limits by this much, no more: where slanted edges cross,
// the crossing is rounded to a whole micrometre (regions.h).
constexpr double kOutside_mm = 1e-3;
// With more leeway than this at every limit a point must be in the region.
constexpr double kInside_mm = 0.003;
// One setup in so many: regions cost more than verdicts.
constexpr std::uint64_t kEvery = 16;

std::string text(Point p) { return fmt::format("({}, {})", p.x, p.y); }

// The least leeway of all limits, or with guards the least leeway minus guard.
double leeway_left(const Limits& limits, Point p, bool guarded) {
  double least = 1e9;
  for (std::size_t i = 0; i < limits.size(); ++i) {
    const LimitReading r = limits.reading(i, p);
    least = std::min(least, r.leeway - (guarded ? r.guard : 0));
  }
  return least;
}

// Whether a position no farther away than kOutside_mm keeps every limit. The guard may jump, or
// nearly so, around a corner when the offset is uncertain along one axis only.
bool keeps_limits(const Limits& limits, Point p, bool guarded) {
  if (leeway_left(limits, p, guarded) >= -kOutside_mm) return true;
  for (const double away : {2e-6, 0.25 * kOutside_mm, 0.5 * kOutside_mm, kOutside_mm}) {
    for (int i = 0; i < 8; ++i) {
      const double turn = i * std::numbers::pi / 4;
      const Point beside = p + away * Point{std::cos(turn), std::sin(turn)};
      if (leeway_left(limits, beside, guarded) >= -kOutside_mm) return true;
    }
  }
  return false;
}

// Where the guard is not the same in all directions a reachable region may keep off corners, and
// off what lies behind a thin wall, by as much as the largest guard: on the safe side.
double leeway_needed(const Setup& setup, bool guarded) {
  const Point u = setup.probe.offset_uncertainty;
  if (!guarded || u.x == u.y) return kInside_mm;
  const double all = setup.machine.bed_uncertainty;
  return kInside_mm + setup.coverage_factor * std::hypot(std::max(u.x, u.y), all);
}

// Vertices and the middles of edges: where a region reaches farthest.
std::vector<Point> rim_points(const MultiPolygon& region, Random& random, std::size_t most) {
  std::vector<Point> all;
  const auto add = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      all.push_back(ring[i]);
      all.push_back(0.5 * (ring[i] + ring[(i + 1) % ring.size()]));
    }
  };
  for (const Polygon& polygon : region) {
    add(polygon.outer);
    for (const Ring& hole : polygon.holes) add(hole);
  }
  if (all.size() <= most) return all;
  std::vector<Point> some;
  while (some.size() < most) some.push_back(random.pick_from(all));
  return some;
}

class Comparison {
 public:
  explicit Comparison(const CaseRange& run)
      : unsafe("a point of a region keeps every limit", run),
        lost("a point with leeway to all limits is in the region", run),
        faults("the program has no fault of its own", run) {}

  void look_at(std::uint64_t index, const Setup& setup, Random& random) {
    const Limits limits(setup);
    const Regions regions(setup);
    for (const bool guarded : {false, true}) {
      const MultiPolygon& region =
          regions.get(guarded ? RegionKind::reachable : RegionKind::within_limits);
      const geos::Geometry geometry = geos::polygons(region);
      const geos::Prepared ready = geos::prepared(geometry);
      const auto in_region = [&](Point p) {
        const geos::Geometry at = geos::point(p);
        return geos::checked(GEOSPreparedIntersects_r(geos::context(), ready.get(), at.get()));
      };
      const double needed = leeway_needed(setup, guarded);
      std::vector<Point> points = random_points(setup, random, 30);
      const auto near = points_near_change(
          points, [&](Point p) { return leeway_left(limits, p, guarded) >= needed; }, random, 10);
      points.insert(points.end(), near.begin(), near.end());
      const auto say = [&](Point p, double has) {
        return fmt::format("{} {} has {}", guarded ? "guarded" : "reachable", text(p), has);
      };
      for (const Point& p : points) {
        const double has = leeway_left(limits, p, guarded);
        const bool in = in_region(p);
        if (in) ++inside;
        if (in && !keeps_limits(limits, p, guarded)) unsafe.add(index, setup, say(p, has));
        if (!in && has > needed) lost.add(index, setup, say(p, has));
      }
      for (const Point& p : rim_points(region, random, 60)) {
        const double has = leeway_left(limits, p, guarded);
        ++rims;
        if (!keeps_limits(limits, p, guarded)) {
          unsafe.add(index, setup, "on the rim: " + say(p, has));
        } else {
          worst = std::min(worst, has);
        }
      }
      points_seen += points.size();
    }
    ++setups;
  }

  Complaints unsafe;
  Complaints lost;
  Complaints faults;
  std::size_t setups = 0;
  std::size_t points_seen = 0;
  std::size_t inside = 0;
  std::size_t rims = 0;
  double worst = 0;
};

TEST(RegionsAgainstVerdicts, AgreeAwayFromTheBoundaryAndErrOnTheSafeSide) {
  const CaseRange run = cases_to_look_at();
  Comparison c(run);
  look_at_cases(run, kEvery, [&](std::uint64_t i) {
    Random random(seed_of_case(run.seed, i));
    const leeway::Setup setup = random_setup(random.bits());
    try {
      c.look_at(i, setup, random);
    } catch (const OverlayFault& fault) {
      c.faults.add(i, setup, fault.what());
    }
  });
  fmt::print(
      "seed {}, cases {} to {}: {} setups, {} points ({} in a region), {} points of rims (least "
      "leeway {:.3g} mm)\nunsafe {}, lost {}, faults {}\n",
      run.seed, run.first, run.end, c.setups, c.points_seen, c.inside, c.rims, c.worst,
      c.unsafe.count(), c.lost.count(), c.faults.count());
  EXPECT_EQ(c.unsafe.count(), 0u);
  EXPECT_EQ(c.lost.count(), 0u);
  EXPECT_EQ(c.faults.count(), 0u);
  EXPECT_GT(c.setups, 0u);
}

}  // namespace
}  // namespace leeway::judges
