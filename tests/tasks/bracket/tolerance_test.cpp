// What a bracket may be off, the maps of what works, and what moves the window.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "leeway/bracket.h"
#include "leeway/coverage_map.h"
#include "model/setups.h"
#include "tasks/bracket/bracket_problem.h"

namespace leeway {
namespace {

// The window is x -30..30, y -40..40.
Setup of_a_grid() {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{-10, 210, -10, 210});
  setup.request.grid = Grid{3, 3, Box{20, 180, 30, 170}, Frame::probe, false};
  return setup;
}

// The offset must keep out of x 5..11, y 5..11, and out of -1..1 of the duct.
Setup beside_a_post() {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{-10, 210, -10, 210});
  setup.request.points = {{"p", {100, 100}, Frame::probe}};
  setup.machine.obstacles = {{"post", Box{90, 94, 90, 94}, 50, 0}};
  setup.machine.head = {{"duct", Box{-1, 1, -1, 1}, 3}};
  return setup;
}

BracketResult with(const Setup& setup, const Tolerance& tolerance) {
  BracketOptions options;
  options.tolerance = tolerance;
  options.influences = tolerance.none();
  return bracket(std::span(&setup, 1), options);
}

TEST(Tolerance, ShrinksTheWindowAndTheLeeway) {
  const BracketResult round = with(of_a_grid(), {0.5, {}});
  EXPECT_EQ(*round.window.bounds, (Box{-29.5, 29.5, -39.5, 39.5}));
  EXPECT_EQ(round.best->leeway, 29.5);
  const BracketResult box = with(of_a_grid(), {0, {0.5, 0.25}});
  EXPECT_EQ(*box.window.bounds, (Box{-29.5, 29.5, -39.75, 39.75}));
  EXPECT_NEAR(box.window.area, 59 * 79.5, 1e-6);
  EXPECT_EQ(box.best->leeway, 29.5);
}

TEST(Tolerance, GrowsWhatIsInTheWay) {
  const BracketResult box = with(beside_a_post(), {0, {1, 0.5}});
  EXPECT_NEAR(box.window.area, 218.0 * 219.0 - 8 * 7 - 4 * 3, 1e-6);
  const BracketResult round = with(beside_a_post(), {1, {}});
  const double hole = 8 * 8 - (4 - 3.14159265358979);
  const double duct = 4 * 4 - (4 - 3.14159265358979);
  EXPECT_NEAR(round.window.area, 218.0 * 218.0 - hole - duct, 0.05);
}

// Every answer works wherever in the tolerance the bracket ends up.
TEST(Tolerance, IsKeptByEveryAnswer) {
  leeway::Setup setup = godwit();
  const BracketProblem problem(std::span(&setup, 1));
  for (const Tolerance& tolerance : {Tolerance{0.4, {}}, Tolerance{0, {0.6, 0.2}}}) {
    const BracketResult r = with(setup, tolerance);
    ASSERT_TRUE(r.nearest && r.best && r.trade_off);
    std::vector<Point> answers{r.nearest->offset, r.best->offset};
    const auto& curve = r.trade_off->curve;
    for (std::size_t i = 0; i < curve.size(); i += 5) answers.push_back(curve[i].offset);
    for (const Point answer : answers) {
      for (int i = 0; i < 8; ++i) {
        const double angle = i * 3.14159265358979 / 4;
        const Point round = tolerance.round * Point{std::cos(angle), std::sin(angle)};
        const Point corner{(i & 1 ? 1 : -1) * tolerance.box.x, (i & 2 ? 1 : -1) * tolerance.box.y};
        EXPECT_TRUE(problem.works(answer + round + corner)) << answer.x << ", " << answer.y;
      }
    }
  }
}

TEST(Maps, AreOpenInTheWindow) {
  const leeway::Setup setup = of_a_grid();
  const Steps x{-45, 45, 91};
  const Steps y{-45, 45, 19};
  CoverageMap map = *coverage_map(setup, x, y);
  open_map(map, std::span(&setup, 1), MapOpens::in_window);
  for (int row = 0; row < y.count; ++row) {
    for (int column = 0; column < x.count; ++column) {
      const bool inside = std::abs(x.at(column)) <= 30 && std::abs(y.at(row)) <= 40;
      EXPECT_EQ(map.is_open(column, row), inside) << x.at(column) << ", " << y.at(row);
    }
  }
  open_map(map, std::span(&setup, 1), MapOpens::in_window, {2, {}});
  EXPECT_FALSE(map.is_open(15 + 1, 9));
  EXPECT_TRUE(map.is_open(15 + 2, 9));
}

TEST(Maps, CountThePointsThatAreReached) {
  leeway::Setup setup = of_a_grid();
  setup.request.points = {{"off the bed", {-5, 100}, Frame::probe}};
  const Steps x{-40, 40, 3};
  const Steps y{-50, 0, 2};
  const CoverageMap map = points_map(std::span(&setup, 1), x, y);
  EXPECT_EQ(map.points, 10u);
  const auto count = [&](int column, int row) {
    return std::lround(map.at(column, row) * static_cast<double>(map.points));
  };
  EXPECT_EQ(count(1, 1), 9);  // never the one off the bed
  EXPECT_EQ(count(0, 1), 6);
  EXPECT_EQ(count(2, 0), 4);
  setup.request = {};
  EXPECT_THROW(points_map(std::span(&setup, 1), x, y), BracketRefused);
}

// Each end of the travel moves the end of the window on the other side as far as itself.
TEST(Influences, OfARectangularTravel) {
  const BracketResult r = with(of_a_grid(), {});
  ASSERT_EQ(r.influences.size(), 4u);
  using Edge = BracketInfluence::Edge;
  const Edge opposite[] = {Edge::right, Edge::left, Edge::back, Edge::front};
  for (const BracketInfluence& one : r.influences) {
    EXPECT_EQ(one.of, BracketInfluence::Of::travel);
    EXPECT_EQ(one.edge, opposite[one.end]);
    EXPECT_EQ(one.moves, -1);
  }
}

TEST(Influences, OfAClip) {
  leeway::Setup setup = of_a_grid();
  // At y = 30 the duct, 20 before the nozzle, comes down on a clip that ends at 4: the offset must
  // be at most 6. A clip that is 1 mm lower is passed, and the nozzle beside it lets it be 26.
  setup.machine.obstacles = {{"clip", Box{-100, 300, -20, 4}, 4, 0}};
  setup.machine.head = {{"duct", Box{-5, 5, -20, -10}, 3}};
  setup.machine.travel = Box{-50, 250, 0, 250};
  const BracketResult r = with(setup, {});
  EXPECT_EQ(r.window.bounds->y1, 6);
  using Of = BracketInfluence::Of;
  const auto moves = [&](Of of, BracketInfluence::Edge edge) {
    for (const BracketInfluence& one : r.influences) {
      if (one.of == of && one.edge == edge) return one.moves;
    }
    return 0.0;
  };
  EXPECT_EQ(moves(Of::obstacle_height, BracketInfluence::Edge::none), -20);
  EXPECT_EQ(moves(Of::underside, BracketInfluence::Edge::none), 20);
}

}  // namespace
}  // namespace leeway
