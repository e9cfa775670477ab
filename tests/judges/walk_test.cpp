// The programs of `walk` against GEOS (https://libgeos.org): each is read back, and each of its
// moves is judged with parts that are swept along the way as hulls.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "judges/complaints.h"
#include "judges/geos_moves.h"
#include "judges/motion_words.h"
#include "judges/random_setup.h"
#include "leeway/walk.h"
#include "leeway/write_walk.h"

namespace leeway::judges {
namespace {

constexpr double kDoubt_mm = 1e-6;
constexpr double kThousandth_mm = 1e-3;
// One setup in so many.
constexpr std::uint64_t kEvery = 40;

double way_length(const std::vector<Point>& way) {
  double sum = 0;
  for (std::size_t i = 0; i + 1 < way.size(); ++i) {
    sum += std::hypot(way[i + 1].x - way[i].x, way[i + 1].y - way[i].y);
  }
  return sum;
}

class WalksJudged {
 public:
  explicit WalksJudged(const CaseRange& run)
      : wrong("a walk is safe, short, and goes over each point once", run) {}

  void look_at(std::uint64_t index, const Setup& setup) {
    const Rig rig(setup);
    WalkOptions options;
    options.points = static_cast<WalkPoints>(index / kEvery % 5);
    const WalkResult result = walk(rig, options);
    ++setups;
    points_are_accounted_for(index, setup, options, result);
    if (result.stops.empty()) return;
    ++walks;
    std::string text;
    write_walk_program(result, rig, {}, [&](std::string_view piece) { text += piece; });
    const MotionProgram program = read_motion_words(text);
    for (const std::string& fault : program.faults) wrong.add(index, setup, fault);
    if (!program.ended) wrong.add(index, setup, "no M2");
    heights_and_speeds(index, setup, result, program);
    moves_are_clear(index, setup, program);
    stops_are_gone_over(index, setup, result, program);
    if (options.points == WalkPoints::all) is_not_longer(index, setup, result);
  }

  void points_are_accounted_for(std::uint64_t index, const Setup& setup, const WalkOptions& options,
                                const WalkResult& result) {
    std::vector<int> seen(result.check.points.size(), 0);
    for (const WalkStop& stop : result.stops) {
      ++seen[stop.point];
      if (result.check.points[stop.point].finding.verdict != Verdict::reachable) {
        wrong.add(index, setup, "a stop at a point that is not reachable");
      }
    }
    for (const WalkLeftOut& left : result.left_out) {
      ++seen[left.point];
      no_way += left.why == WalkLeftOut::Why::no_way;
    }
    const bool whole = options.points == WalkPoints::all || options.points == WalkPoints::in_turn;
    for (const int times : seen) {
      if (times > 1 || (whole && times == 0)) {
        wrong.add(index, setup, fmt::format("a point is gone over {} times", times));
      }
    }
  }

  void heights_and_speeds(std::uint64_t index, const Setup& setup, const WalkResult& result,
                          const MotionProgram& program) {
    const double height = result.safe.least.value_or(0) + kWalkHeightAbove;
    for (std::size_t i = 0; i < program.motions.size(); ++i) {
      const Motion& motion = program.motions[i];
      if (motion.moves_z != (i == 0) || motion.moves_xy == (i == 0)) {
        wrong.add(index, setup, "the first move alone goes up");
      }
      if (motion.z < height - kDoubt_mm) wrong.add(index, setup, "too low");
      if (motion.feed <= 0 || motion.feed > 20 * 60) wrong.add(index, setup, "too fast");
    }
  }

  void moves_are_clear(std::uint64_t index, const Setup& setup, const MotionProgram& program) {
    const GeosMoveJudge judge(setup);
    for (std::size_t i = 1; i + 1 < program.motions.size(); ++i) {
      const Motion& from = program.motions[i];
      const Motion& to = program.motions[i + 1];
      ++moves;
      const double left = judge.left(Point{from.x, from.y} + setup.probe.offset,
                                     Point{to.x, to.y} + setup.probe.offset, to.z);
      if (left >= -kDoubt_mm) continue;
      wrong.add(index, setup,
                fmt::format("nozzle from ({}, {}) to ({}, {}) at {}: swept parts leave {}", from.x,
                            from.y, to.x, to.y, to.z, left));
    }
  }

  // In their order, each as it is said.
  void stops_are_gone_over(std::uint64_t index, const Setup& setup, const WalkResult& result,
                           const MotionProgram& program) {
    std::size_t at = 1;
    for (const WalkStop& stop : result.stops) {
      detours += !stop.via.empty();
      at += stop.via.size();
      const Point exact = result.check.points[stop.point].probe - setup.probe.offset;
      if (at >= program.motions.size() ||
          std::abs(program.motions[at].x - exact.x) > 2 * kThousandth_mm ||
          std::abs(program.motions[at].y - exact.y) > 2 * kThousandth_mm) {
        return wrong.add(index, setup, "a stop is elsewhere than its point");
      }
      ++at;
    }
    if (program.dwells != result.stops.size()) wrong.add(index, setup, "a stop without a dwell");
  }

  // Than the same points in the order of the check.
  void is_not_longer(std::uint64_t index, const Setup& setup, const WalkResult& result) {
    std::vector<Point> walked;
    std::vector<std::size_t> numbers;
    for (const WalkStop& stop : result.stops) {
      if (!stop.via.empty()) return;
      walked.push_back(stop.probe);
      numbers.push_back(stop.point);
    }
    std::vector<Point> in_turn;
    const int rows = setup.request.grid ? setup.request.grid->rows : 0;
    for (int row = 1; row <= rows; ++row) {
      std::vector<std::size_t> in_row;
      for (const std::size_t i : numbers) {
        if (result.check.points[i].row == row) in_row.push_back(i);
      }
      std::sort(in_row.begin(), in_row.end());
      if (row % 2 == 0) std::reverse(in_row.begin(), in_row.end());
      for (const std::size_t i : in_row) in_turn.push_back(result.check.points[i].probe);
    }
    for (const std::size_t i : numbers) {
      if (result.check.points[i].row == 0) in_turn.push_back(result.check.points[i].probe);
    }
    ++compared;
    if (way_length(walked) > way_length(in_turn) + 0.01 * static_cast<double>(numbers.size())) {
      wrong.add(
          index, setup,
          fmt::format("{} long, {} in the grid's order", way_length(walked), way_length(in_turn)));
    }
  }

  Complaints wrong;
  std::size_t setups = 0;
  std::size_t walks = 0;
  std::size_t moves = 0;
  std::size_t detours = 0;
  std::size_t no_way = 0;
  std::size_t compared = 0;
};

TEST(WalkAgainstGeos, RunsIntoNothing) {
  const CaseRange run = cases_to_look_at();
  WalksJudged c(run);
  std::size_t refused = 0;
  const std::size_t too_detailed = look_at_cases(run, kEvery, [&](std::uint64_t i) {
    try {
      c.look_at(i, random_setup(seed_of_case(run.seed, i)));
    } catch (const WalkRefused&) {
      ++refused;
    }
  });
  fmt::print(
      "seed {}, cases {} to {}: {} setups, {} walks ({} refused), {} moves, {} detours, {} points "
      "without a way, {} held against the grid's order; wrong {}\n",
      run.seed, run.first, run.end, c.setups, c.walks, refused + too_detailed, c.moves, c.detours,
      c.no_way, c.compared, c.wrong.count());
  EXPECT_EQ(c.wrong.count(), 0u);
  if (!run.repeats_one()) {
    EXPECT_GT(c.moves, 0u);
    EXPECT_GT(c.detours, 0u);
    EXPECT_GT(c.compared, 0u);
  }
}

}  // namespace
}  // namespace leeway::judges
