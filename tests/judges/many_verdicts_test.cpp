// The verdicts of many positions at once, which are found block by block, against those of one
// position at a time: the same to the bit, on random setups, at positions on limits and in whatever
// order.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "judges/complaints.h"
#include "judges/random_points.h"
#include "judges/random_setup.h"
#include "leeway/limits.h"

namespace leeway::judges {
namespace {

// One setup in so many.
constexpr std::uint64_t kEvery = 80;
constexpr int kAcross = 160;
constexpr int kBack = 140;

// A grid over the bed and a little beyond, its rows now and then askew, and among it
// positions on limits.
std::vector<Point> many_points(const Setup& setup, Random& random) {
  const Box box = bounding_box(setup.machine.bed);
  const double beyond = random.pick({-0.2, 0.0, 0.05}) * box.width();
  const double askew = random.pick({0.0, 0.0, 0.37});
  std::vector<Point> points;
  for (int row = 0; row < kBack; ++row) {
    for (int column = 0; column < kAcross; ++column) {
      const double x = (column + askew * row / kBack) / (kAcross - 1);
      const double y = static_cast<double>(row) / (kBack - 1);
      points.push_back({box.x0 - beyond + x * (box.width() + 2 * beyond),
                        box.y0 - beyond + y * (box.depth() + 2 * beyond)});
    }
  }
  for (const Point& p : random_points(setup, random, 600)) {
    points[static_cast<std::size_t>(random.whole(0, kAcross * kBack - 1))] = p;
  }
  if (random.one_in(3)) {
    for (std::size_t i = points.size() - 1; i > 0; --i) {
      std::swap(points[i], points[static_cast<std::size_t>(random.whole(0, static_cast<int>(i)))]);
    }
  }
  return points;
}

bool same(const Finding& a, const Finding& b) {
  return a.leeway == b.leeway && a.guard == b.guard && a.limit == b.limit && a.verdict == b.verdict;
}

std::string words(const Limits& limits, const Finding& finding) {
  return fmt::format("{} by {}, leeway {}, guard {}", word(finding.verdict),
                     limits.info(finding.limit).name, finding.leeway, finding.guard);
}

TEST(ManyVerdicts, AreTheSameAsOneByOneOnRandomSetups) {
  const CaseRange run = cases_to_look_at();
  Complaints different("many at once are the same as one by one", run);
  std::size_t setups = 0;
  std::size_t seen = 0;
  for (std::uint64_t index = run.first; index < run.end; ++index) {
    if (index % kEvery != 0 && run.end - run.first > 1) continue;
    Random random(seed_of_case(run.seed, index));
    const leeway::Setup setup = random_setup(random.bits());
    const Limits limits(setup);
    const std::vector<Point> points = many_points(setup, random);
    std::vector<Finding> findings(points.size());
    limits.evaluate(points, findings);
    for (std::size_t i = 0; i < points.size(); ++i) {
      const Finding one = limits.evaluate(points[i]);
      if (same(findings[i], one)) continue;
      different.add(index, setup,
                    fmt::format("({}, {}): {}; alone {}", points[i].x, points[i].y,
                                words(limits, findings[i]), words(limits, one)));
    }
    seen += points.size();
    ++setups;
  }
  EXPECT_EQ(different.count(), 0U);
  EXPECT_GT(setups, 0U);
  fmt::print("{} setups, {} positions\n", setups, seen);
}

}  // namespace
}  // namespace leeway::judges
