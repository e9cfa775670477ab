// Straight moves against GEOS (https://libgeos.org): what a move would run into, held against parts
// that are swept along the way as hulls.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>

#include "judges/complaints.h"
#include "judges/geos_moves.h"
#include "judges/random_points.h"
#include "judges/random_setup.h"
#include "leeway/limits.h"

namespace leeway::judges {
namespace {

constexpr double kDoubt_mm = 1e-6;
constexpr std::size_t kMoves = 20;
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
      const double room = judge.room(from, to);
      ++moves;
      if (!blocked) ++clear;
      if (std::abs(room) <= kDoubt_mm) {
        ++doubtful;
      } else if (blocked != (room < 0)) {
        (blocked ? harsh : unsafe)
            .add(index, setup,
                 fmt::format("from ({}, {}) to ({}, {}): {}, swept parts leave {}", from.x, from.y,
                             to.x, to.y, blocked ? stop.limit.name : "clear", room));
      }
    }
    ++setups;
  }

  Complaints unsafe;
  Complaints harsh;
  std::size_t setups = 0;
  std::size_t moves = 0;
  std::size_t clear = 0;
  std::size_t doubtful = 0;
};

TEST(MovesAgainstGeos, AgreeWithPartsThatAreSweptAlongTheWay) {
  const CaseRange run = cases_to_look_at();
  Comparison c(run);
  std::size_t too_detailed = 0;
  const bool one = run.end - run.first == 1;
  for (std::uint64_t i = run.first; i < run.end; ++i) {
    if (i % kEvery != 0 && !one) continue;
    Random random(seed_of_case(run.seed, i));
    const leeway::Setup setup = random_setup(random.bits());
    try {
      c.look_at(i, setup, random);
    } catch (const SetupTooDetailed&) {
      ++too_detailed;
    }
  }
  fmt::print(
      "seed {}, cases {} to {}: {} setups ({} too detailed), {} moves ({} clear, {} within {} mm)\n"
      "unsafe {}, harsh {}\n",
      run.seed, run.first, run.end, c.setups, too_detailed, c.moves, c.clear, c.doubtful, kDoubt_mm,
      c.unsafe.count(), c.harsh.count());
  EXPECT_EQ(c.unsafe.count(), 0u);
  EXPECT_EQ(c.harsh.count(), 0u);
  EXPECT_GT(c.setups, 0u);
}

}  // namespace
}  // namespace leeway::judges
