// Straight moves against GEOS (https://libgeos.org): what a move would run into, held against parts
// that are swept along the way as hulls.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "judges/complaints.h"
#include "judges/geos_moves.h"
#include "judges/random_points.h"
#include "judges/random_setup.h"
#include "leeway/limits.h"

namespace leeway::judges {
namespace {

constexpr double kDoubt_mm = 1e-6;
constexpr std::size_t kMoves = 20;
constexpr std::size_t kAsked = 60;
constexpr double kVeryHigh_mm = 1e6;  // above every obstacle that has a height
// One setup in so many.
constexpr std::uint64_t kEvery = 4;

// What stops a move sooner or later is no verdict, but running a head into a clip is no joke.
class Comparison {
 public:
  explicit Comparison(const CaseRange& run)
      : unsafe("a move that is called clear runs into nothing", run),
        harsh("a move that is called blocked runs into something", run) {}

  void look_at(std::uint64_t index, const Setup& setup, Random& random) {
    const MoveLimits limits(setup);
    const GeosMoveJudge judge(setup);
    const std::vector<Point> points = random_points(setup, random, kMoves + 1);
    for (std::size_t i = 0; i < kMoves; ++i) {
      const Point from = points[i];
      Point to = points[i + 1];
      // Moves of a lattice run along the axes.
      if (random.one_in(3)) to.y = from.y;
      MoveStop stop;
      const bool blocked = limits.blocked(from, to, stop);
      const double left = judge.left(from, to, *setup.probe.travel_height);
      ++moves;
      if (!blocked) ++clear;
      if (std::abs(left) <= kDoubt_mm) {
        ++doubtful;
      } else if (blocked != (left < 0)) {
        (blocked ? harsh : unsafe)
            .add(index, setup,
                 fmt::format("from ({}, {}) to ({}, {}): {}, swept parts leave {}", from.x, from.y,
                             to.x, to.y, blocked ? stop.limit.name : "clear", left));
      }
    }
    look_at_height(index, setup, limits, judge, accepted(setup, random));
    ++setups;
  }

  // Points as a controller takes them: the others are none of a way.
  static std::vector<Point> accepted(const Setup& setup, Random& random) {
    const Limits limits(setup);
    std::vector<Point> points = random_points(setup, random, kAsked);
    std::erase_if(points,
                  [&](Point p) { return limits.evaluate(p).verdict == Verdict::unreachable; });
    return points;
  }

  // At the least safe height every move of the way is clear, and below it one is not.
  void look_at_height(std::uint64_t index, const Setup& setup, const MoveLimits& limits,
                      const GeosMoveJudge& judge, const std::vector<Point>& way) {
    const SafeHeight safe = limits.safe_height(way);
    const auto least_left = [&](double height) {
      double least = std::numeric_limits<double>::infinity();
      for (std::size_t i = 0; i + 1 < way.size(); ++i) {
        least = std::min(least, judge.left(way[i], way[i + 1], height));
      }
      return least;
    };
    const double high = safe.least.value_or(kVeryHigh_mm);
    const double there = least_left(high);
    if (safe.least && there < -kDoubt_mm) {
      unsafe.add(index, setup, fmt::format("height {} is said to be enough, {} left", high, there));
    }
    if (!safe.why) return;
    if (safe.least) ++heights;
    const double below = safe.least ? least_left(high - 1e-3) : there;
    if (below > kDoubt_mm) {
      harsh.add(index, setup,
                fmt::format("height {} is said to be needed for {}, {} left below", high,
                            safe.why->limit.name, below));
    }
  }

  Complaints unsafe;
  Complaints harsh;
  std::size_t setups = 0;
  std::size_t moves = 0;
  std::size_t clear = 0;
  std::size_t doubtful = 0;
  std::size_t heights = 0;
};

TEST(MovesAgainstGeos, AgreeWithPartsThatAreSweptAlongTheWay) {
  const CaseRange run = cases_to_look_at();
  Comparison c(run);
  const std::size_t too_detailed = look_at_cases(run, kEvery, [&](std::uint64_t i) {
    Random random(seed_of_case(run.seed, i));
    const leeway::Setup setup = random_setup(random.bits());
    c.look_at(i, setup, random);
  });
  fmt::print(
      "seed {}, cases {} to {}: {} setups ({} too detailed), {} moves ({} clear, {} within {} mm), "
      "{} heights\n"
      "unsafe {}, harsh {}\n",
      run.seed, run.first, run.end, c.setups, too_detailed, c.moves, c.clear, c.doubtful, kDoubt_mm,
      c.heights, c.unsafe.count(), c.harsh.count());
  EXPECT_EQ(c.unsafe.count(), 0u);
  EXPECT_EQ(c.harsh.count(), 0u);
  EXPECT_GT(c.setups, 0u);
  if (!run.repeats_one()) {
    EXPECT_GT(c.heights, 0u);
  }
}

}  // namespace
}  // namespace leeway::judges
