// `fit` against plain exhaustive search, and what it promises besides.

#include "leeway/fit.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <map>
#include <random>
#include <set>

#include "fewer.h"
#include "geometry/plane/by_kind.h"
#include "leeway/check.h"
#include "model/setups.h"

namespace leeway {
namespace {

// ---- Exhaustive search: every choice of bounds, every point of each, by the limits themselves.

struct Best {
  bool any = false;
  Box bounds;
  double area = 0;
  double least = 0;
  double off = 0;
};

double sixth(double v) { return std::round(v * 1e6) / 1e6; }

struct Rules {
  int columns = 2;
  int rows = 2;
  bool skip = false;
  bool inside = false;
  bool clear_moves = false;
  double keep = 0;
};

class Exhaustive {
 public:
  Exhaustive(const Setup& setup, const Rules& rules)
      : limits_(setup), regions_(setup), moves_(setup), rules_(rules) {
    const Box bed = bounding_box(setup.machine.bed);
    centre_ = {(bed.x0 + bed.x1) / 2, (bed.y0 + bed.y1) / 2};
  }

  void look_at(const Box& bounds) {
    double least = std::numeric_limits<double>::infinity();
    std::set<std::pair<int, int>> skipped;
    for (int r = 0; r < rules_.rows; ++r) {
      for (int c = 0; c < rules_.columns; ++c) {
        const Point p = grid_point(bounds, rules_.columns, rules_.rows, c, r);
        const Place& place = place_at(p);
        if (rules_.skip && place.off_bed) {
          skipped.insert({c, r});
          continue;
        }
        if (!place.reachable) return;
        least = std::min(least, place.least);
      }
    }
    // Each side keeps its middle point, or its middle two.
    for (const int c : {(rules_.columns - 1) / 2, rules_.columns / 2}) {
      if (skipped.count({c, 0}) + skipped.count({c, rules_.rows - 1}) > 0) return;
    }
    for (const int r : {(rules_.rows - 1) / 2, rules_.rows / 2}) {
      if (skipped.count({0, r}) + skipped.count({rules_.columns - 1, r}) > 0) return;
    }
    if (rules_.inside) {
      const double inside = area_within(regions_.get(RegionKind::reachable), bounds);
      if (inside < bounds.width() * bounds.depth() - 1e-7) return;
    }
    if (rules_.clear_moves && !moves_are_clear(bounds, skipped)) return;
    const double area = sixth(area_within(regions_.get(RegionKind::printable), bounds));
    if (area <= 0) return;  // covers nothing, and is none
    const double off = sixth(std::hypot((bounds.x0 + bounds.x1) / 2 - centre_.x,
                                        (bounds.y0 + bounds.y1) / 2 - centre_.y));
    const bool better =
        !best.any || area > best.area ||
        (area == best.area && (least > best.least || (least == best.least && off < best.off)));
    if (better) best = {true, bounds, area, least, off};
  }

  Best best;

 private:
  struct Place {
    bool off_bed = false;
    bool reachable = false;
    double least = 0;
  };

  // Row by row, every second one from right to left.
  bool moves_are_clear(const Box& bounds, const std::set<std::pair<int, int>>& skipped) const {
    std::optional<Point> before;
    MoveStop stop;
    for (int r = 0; r < rules_.rows; ++r) {
      for (int i = 0; i < rules_.columns; ++i) {
        const int c = r % 2 == 0 ? i : rules_.columns - 1 - i;
        if (skipped.count({c, r}) > 0) continue;
        const Point p = grid_point(bounds, rules_.columns, rules_.rows, c, r);
        if (before && moves_.blocked(*before, p, stop)) return false;
        before = p;
      }
    }
    return true;
  }

  // Many meshes share their points.
  const Place& place_at(Point p) {
    const auto [at, is_new] = places_.try_emplace({p.x, p.y});
    if (is_new) {
      Place& place = at->second;
      place.off_bed = limits_.on_bed(p) < 0;
      const Finding finding = limits_.evaluate(p);
      place.reachable = finding.verdict == Verdict::reachable &&
                        sixth(finding.leeway - finding.guard) >= rules_.keep;
      place.least = std::numeric_limits<double>::infinity();
      for (std::size_t i = 0; i < limits_.size(); ++i) {
        place.least = std::min(place.least, limits_.reading(i, p).leeway);
      }
    }
    return at->second;
  }

  Limits limits_;
  Regions regions_;
  MoveLimits moves_;
  Rules rules_;
  std::map<std::pair<double, double>, Place> places_;
  Point centre_;
};

std::vector<double> multiples(double low, double high, double step) {
  std::vector<double> out;
  for (double k = std::floor(low / step); k * step <= high + step; ++k) {
    out.push_back(sixth(k * step));
  }
  return out;
}

Best exhaustive(const Setup& setup, const Rules& rules, const FitOptions& options) {
  Exhaustive search(setup, rules);
  const Box bed = bounding_box(setup.machine.bed);
  const std::vector<double> xs = multiples(bed.x0, bed.x1, options.step);
  const std::vector<double> ys = multiples(bed.y0, bed.y1, options.step);
  const auto or_held = [](const std::optional<double>& held, const std::vector<double>& all) {
    return held ? std::vector<double>{*held} : all;
  };
  const Box within = options.within.value_or(Box{-1e9, 1e9, -1e9, 1e9});
  for (const double x0 : or_held(options.sides.left, xs)) {
    for (const double x1 : or_held(options.sides.right, xs)) {
      if (x0 >= x1 || x0 < within.x0 || x1 > within.x1) continue;
      for (const double y0 : or_held(options.sides.front, ys)) {
        for (const double y1 : or_held(options.sides.back, ys)) {
          if (y0 >= y1 || y0 < within.y0 || y1 > within.y1) continue;
          search.look_at({x0, x1, y0, y1});
        }
      }
    }
  }
  return search.best;
}

// ---- Small random setups: every shape of bed and travel, obstacles, holes, head parts.

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  int below(int n) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(n)); }
  // A multiple of 0.1 in [low, high].
  double tenths(double low, double high) {
    return std::round((low + 0.1 * below(static_cast<int>((high - low) * 10) + 1)) * 10) / 10;
  }
  bool one_in(int n) { return below(n) == 0; }

 private:
  std::mt19937_64 engine_;
};

Shape bed_shape(Dice& dice, double w, double d) {
  switch (dice.below(4)) {
    case 0:
      return Disc{{w / 2, d / 2}, std::min(w, d) / 2};
    case 1:
      return polygon({{0, 0}, {w, 0}, {w, d - 4}, {w - 5, d}, {0, d}},
                     {{{w / 2, d / 2}, {w / 2 + 3, d / 2}, {w / 2 + 2, d / 2 + 2}}});
    default:
      return Box{0, w, 0, d};
  }
}

Shape small_shape(Dice& dice, Point at) {
  const double size = dice.tenths(0.5, 3);
  switch (dice.below(3)) {
    case 0:
      return Disc{at, size};
    case 1:
      return polygon({at, at + Point{2 * size, 0.5}, at + Point{size, size}});
    default:
      return Box{at.x, at.x + size, at.y, at.y + 2 * size};
  }
}

Setup small_setup(Dice& dice) {
  const double w = dice.tenths(12, 22);
  const double d = dice.tenths(10, 18);
  Setup setup = bare(bed_shape(dice, w, d), Shape{});
  setup.machine.travel = dice.one_in(5) ? Shape(Disc{{w / 2, d / 2}, dice.tenths(8, 14)})
                                        : Shape(Box{dice.tenths(-3, 1), dice.tenths(w - 2, w + 3),
                                                    dice.tenths(-3, 1), dice.tenths(d - 2, d + 3)});
  setup.probe.offset = {dice.tenths(-4, 4), dice.tenths(-4, 4)};
  setup.machine.print_inset = dice.one_in(3) ? dice.tenths(0, 4) : 0;
  setup.probe.edge_distance = dice.one_in(2) ? dice.tenths(0, 1) : 0;
  if (dice.one_in(3)) setup.probe.spot = small_shape(dice, {-0.5, -0.5});
  if (dice.one_in(2)) setup.probe.offset_uncertainty = {0.1, dice.one_in(3) ? 0.3 : 0.1};
  if (dice.one_in(2)) setup.machine.bed_uncertainty = 0.07;
  if (dice.one_in(2)) setup.machine.travel_uncertainty = 0.05;
  for (int i = dice.below(4); i > 0; --i) {
    const Point at{dice.tenths(0, w), dice.tenths(0, d)};
    setup.machine.obstacles.push_back(
        {"peg " + std::to_string(i), small_shape(dice, at), dice.tenths(0, 5), dice.tenths(0, 1)});
  }
  if (dice.one_in(2)) {
    setup.machine.head.push_back({"duct", small_shape(dice, {dice.tenths(-3, 1), -3}), 1.5});
  }
  return setup;
}

struct Case {
  leeway::Setup setup;
  Rules rules;
  FitOptions options;
};

Case random_case(std::uint64_t seed) {
  Dice dice(seed);
  Case c;
  c.setup = small_setup(dice);
  c.rules.columns = 2 + dice.below(4);
  c.rules.rows = 2 + dice.below(4);
  c.rules.skip = dice.one_in(4);
  c.rules.inside = !c.rules.skip && dice.one_in(5);
  c.setup.request.grid =
      Grid{c.rules.columns, c.rules.rows, Box{0, 1, 0, 1}, Frame::probe, c.rules.skip};
  c.options.remedies = false;
  c.options.inside = c.rules.inside;
  c.options.step = dice.one_in(3) ? 1 : dice.one_in(2) ? 1.5 : 2;
  if (dice.one_in(6)) c.options.sides.left = dice.tenths(2, 7);
  if (dice.one_in(6)) c.options.sides.back = dice.tenths(7, 10);
  if (dice.one_in(8)) c.options.sides.front = dice.tenths(1, 4);
  if (dice.one_in(6)) c.options.within = Box{1.5, 17, 0, 14};
  return c;
}

std::string said(const Box& b) {
  return std::to_string(b.x0) + ".." + std::to_string(b.x1) + " x " + std::to_string(b.y0) + ".." +
         std::to_string(b.y1);
}

// LEEWAY_SEED chooses other setups.
std::uint64_t first_seed() {
  const char* seed = std::getenv("LEEWAY_SEED");
  return seed == nullptr ? 1 : std::strtoull(seed, nullptr, 10);
}

bool all_reachable(const leeway::Setup& setup) {
  const Counts counts = check(Rig(setup)).counts;
  return counts.reachable == counts.points;
}

TEST(Fit, IsTheBestOfAllChoices) {
  constexpr std::uint64_t kCases = fewer(1500u);
  const std::uint64_t first = first_seed();
  std::size_t feasible = 0;
  for (std::uint64_t seed = first; seed < first + kCases; ++seed) {
    const Case c = random_case(seed);
    const Best best = exhaustive(c.setup, c.rules, c.options);
    const FitResult result = fit(c.setup, c.options);
    ASSERT_EQ(result.mesh.has_value(), best.any)
        << "seed " << seed << ": exhaustive search finds " << said(best.bounds);
    if (!best.any) continue;
    ++feasible;
    const FitMesh& mesh = *result.mesh;
    ASSERT_NEAR(mesh.area, best.area, 2e-6)
        << "seed " << seed << ": " << said(mesh.bounds) << " but " << said(best.bounds);
    ASSERT_NEAR(mesh.least_leeway, best.least, 1e-9)
        << "seed " << seed << ": " << said(mesh.bounds) << " but " << said(best.bounds);
    const Box bed = bounding_box(c.setup.machine.bed);
    const double off = std::hypot((mesh.bounds.x0 + mesh.bounds.x1 - bed.x0 - bed.x1) / 2,
                                  (mesh.bounds.y0 + mesh.bounds.y1 - bed.y0 - bed.y1) / 2);
    ASSERT_NEAR(off, best.off, 2e-6)
        << "seed " << seed << ": " << said(mesh.bounds) << " but " << said(best.bounds);
  }
  EXPECT_GT(feasible, kCases / 2);
  EXPECT_LT(feasible, kCases);
}

// Between the bed's edge distance and the clip's clearance a line is left, and points on it work:
// `check` says so, and no region shows it.
TEST(Fit, TakesAPassageOfNoWidth) {
  leeway::Setup setup = bare(Box{0, 100, 0, 90}, square(500));
  setup.probe.edge_distance = 2;
  setup.machine.obstacles = {{"clip", Box{40, 60, 5, 20}, 6, 3}};
  setup.request.grid = Grid{3, 3, Box{2, 98, 2, 88}, Frame::probe, false};
  ASSERT_TRUE(all_reachable(setup));
  EXPECT_EQ(fit(setup).mesh->bounds, (Box{2, 98, 2, 88}));
  setup.machine.obstacles = {{"clip", Box{5, 20, 40, 50}, 6, 3}};
  ASSERT_TRUE(all_reachable(setup));
  EXPECT_EQ(fit(setup).mesh->bounds, (Box{2, 98, 2, 88}));
  setup.machine.obstacles = {{"clip", Box{4.99, 20, 40, 50}, 6, 3}};
  ASSERT_FALSE(all_reachable(setup));
  EXPECT_TRUE(all_reachable(with_mesh(setup, *fit(setup).mesh))) << "a line that is none";
}

// Every limit is asked for more than its guard: of many, the one that lacks most decides. Kept off
// polygons and rounded corners, an edge lies a few thousandths farther in.
TEST(Fit, KeepsWhatIsAskedOnTopOfTheGuard) {
  constexpr std::uint64_t kCases = fewer(400u);
  std::size_t feasible = 0;
  std::size_t too_much = 0;
  for (std::uint64_t seed = first_seed(); seed < first_seed() + kCases; ++seed) {
    Case c = random_case(seed);
    c.rules.inside = c.options.inside = false;
    c.options.keep = c.rules.keep = 0.1 * static_cast<double>(1 + seed % 40) + 0.03;
    const Best best = exhaustive(c.setup, c.rules, c.options);
    const FitResult result = fit(c.setup, c.options);
    ASSERT_EQ(result.mesh.has_value(), best.any) << "seed " << seed << ": " << said(best.bounds);
    if (result.most_kept) {
      ++too_much;
      c.options.keep = *result.most_kept;
      EXPECT_TRUE(fit(c.setup, c.options).mesh) << "seed " << seed;
      c.options.keep += 0.1;
      EXPECT_FALSE(fit(c.setup, c.options).mesh) << "seed " << seed;
    }
    if (!best.any) continue;
    ++feasible;
    ASSERT_NEAR(result.mesh->area, best.area, 2e-6) << "seed " << seed;
    ASSERT_NEAR(result.mesh->least_leeway, best.least, 0.011) << "seed " << seed;
  }
  EXPECT_GT(feasible, kCases / 5);
  EXPECT_GT(too_much, kCases / 10);
}

// With moves that may run into something, and a travel height from where the probe triggers on.
Case random_case_with_moves(std::uint64_t seed) {
  Case c = random_case(seed);
  Dice dice(seed + 1'000'000);
  c.setup.probe.trigger_height = 0.5;
  c.setup.probe.travel_height = dice.tenths(0.5, 4);
  if (dice.one_in(3)) {
    c.setup.probe.body = ProbeBody{small_shape(dice, {-1, -1}), dice.tenths(-0.5, 2)};
  }
  for (int i = dice.below(3); i > 0; --i) {
    const double side = dice.one_in(2) ? -1 : 1;
    const Point at{10 + side * dice.tenths(4, 10), dice.tenths(0, 16)};
    c.setup.machine.obstacles.push_back({"post " + std::to_string(i), small_shape(dice, at), 5, 0});
  }
  return c;
}

// Where the moves over the best mesh are not clear, the best of those whose moves are is wanted,
// and the other with the height that it needs.
TEST(Fit, MindsTheMovesOverTheMesh) {
  constexpr std::uint64_t kCases = fewer(500u);
  const std::uint64_t first = first_seed();
  std::size_t others = 0;
  for (std::uint64_t seed = first; seed < first + kCases; ++seed) {
    Case c = random_case_with_moves(seed);
    const FitResult result = fit(c.setup, c.options);
    if (!result.mesh) continue;
    if (!result.higher && result.checked.moves.clear()) continue;
    if (result.checked.moves.drags) continue;
    const Best largest = exhaustive(c.setup, c.rules, c.options);
    c.rules.clear_moves = true;
    const Best clear = exhaustive(c.setup, c.rules, c.options);
    ASSERT_EQ(result.checked.moves.clear(), clear.any) << "seed " << seed << said(clear.bounds);
    ASSERT_NEAR(result.mesh->area, clear.any ? clear.area : largest.area, 2e-6) << "seed " << seed;
    if (!clear.any) continue;  // the largest stands, and its moves are told
    ++others;
    ASSERT_NEAR(result.mesh->least_leeway, clear.least, 1e-9) << "seed " << seed;
    if (!result.higher) continue;  // a way out of the travel, which no height mends
    ASSERT_NEAR(result.higher->mesh.area, largest.area, 2e-6) << "seed " << seed;
    c.setup.probe.travel_height = result.higher->height;
    EXPECT_TRUE(check(Rig(with_mesh(c.setup, result.higher->mesh))).moves.clear());
    c.setup.probe.travel_height = result.higher->height - 1e-6;
    EXPECT_FALSE(check(Rig(with_mesh(c.setup, result.higher->mesh))).moves.clear());
  }
  EXPECT_GT(others, fewer(30u));
}

// Whether every point of the setup with this grid is reachable and every move clear, by `check`;
// where no grid has clear moves, the points alone.
bool all_well(leeway::Setup setup, const Grid& grid, const FitResult& result) {
  setup.request = {grid, {}, {}};
  const CheckResult checked = check(Rig(setup));
  if (checked.verdict != Verdict::reachable) return false;
  return checked.moves.clear() || !result.checked.moves.clear();
}

TEST(Fit, AllItsNumbersAreRight) {
  std::size_t meshes = 0;
  std::size_t without = 0;
  for (std::uint64_t seed = 1; seed <= fewer(600u); ++seed) {
    Case c = seed % 3 == 0 ? random_case_with_moves(seed) : random_case(seed);
    // An offset finer than micrometres, so that the nozzle's numbers must be rounded.
    if (seed % 2 == 0) c.setup.probe.offset = c.setup.probe.offset + Point{1.0 / 7e3, -1.0 / 3e3};
    c.options.decimals = static_cast<int>(seed % (kMostDecimals + 1));
    const FitResult result = fit(c.setup, c.options);
    if (!result.mesh) continue;
    ++meshes;
    const FitMesh& mesh = *result.mesh;
    const MeshNumbers& numbers = result.numbers;
    Grid grid{mesh.columns, mesh.rows, mesh.bounds, Frame::probe, c.rules.skip};
    EXPECT_TRUE(all_well(c.setup, grid, result)) << "seed " << seed;
    EXPECT_EQ(check(Rig(with_mesh(c.setup, mesh))).verdict, Verdict::reachable);
    if (numbers.probe) {
      grid.extent = *numbers.probe;
      EXPECT_TRUE(all_well(c.setup, grid, result)) << "seed " << seed;
    }
    // Start, spacing and count, as a controller may take them instead of the far bounds.
    const auto from = [&](const Box& b) {
      const double x = numbers.spacing_x.value_or(0) * (mesh.columns - 1);
      const double y = numbers.spacing_y.value_or(0) * (mesh.rows - 1);
      return Box{b.x0, b.x0 + x, b.y0, b.y0 + y};
    };
    if (numbers.probe && numbers.spacing_x) {
      grid.extent = from(*numbers.probe);
      EXPECT_TRUE(all_well(c.setup, grid, result)) << "seed " << seed;
    }
    if (numbers.probe_from_bed) {
      grid.extent = *numbers.probe_from_bed;
      EXPECT_TRUE(all_well(c.setup, grid, result)) << "seed " << seed;
    }
    if (result.uniform_margin) {
      const double m = *result.uniform_margin;
      grid.extent = Margins{m, m, m, m, Margins::From::bed};
      EXPECT_TRUE(all_well(c.setup, grid, result)) << "seed " << seed;
    }
    grid.frame = Frame::nozzle;
    if (numbers.nozzle) {
      grid.extent = *numbers.nozzle;
      EXPECT_TRUE(all_well(c.setup, grid, result)) << "seed " << seed;
    }
    if (numbers.nozzle && numbers.spacing_x) {
      grid.extent = from(*numbers.nozzle);
      EXPECT_TRUE(all_well(c.setup, grid, result)) << "seed " << seed;
    }
    if (numbers.nozzle_from_bed) {
      grid.extent = *numbers.nozzle_from_bed;
      EXPECT_TRUE(all_well(c.setup, grid, result)) << "seed " << seed;
    }
    if (numbers.nozzle_from_travel) {
      grid.extent = *numbers.nozzle_from_travel;
      EXPECT_TRUE(all_well(c.setup, grid, result)) << "seed " << seed;
      const Box now = grid_bounds_for_probe(c.setup, grid);
      EXPECT_GE(now.x0, mesh.bounds.x0 - 1e-9);
      EXPECT_LE(now.x1, mesh.bounds.x1 + 1e-9);
    }
    if (c.options.decimals == 0) continue;
    if (!numbers.nozzle || !numbers.probe_from_bed || !numbers.nozzle_from_travel) ++without;
  }
  EXPECT_GT(meshes, fewer(300u));
  EXPECT_LT(without * 20, meshes);  // rounding inward seldom costs a row
}

TEST(Fit, UniformMarginIsTheSmallestThatWorks) {
  std::size_t found = 0;
  for (std::uint64_t seed = 2000; seed < 2150; ++seed) {
    Case c = random_case(seed);
    c.options.sides = {};
    c.options.within.reset();
    c.options.uniform = true;
    const FitResult result = fit(c.setup, c.options);
    const Box bed = bounding_box(c.setup.machine.bed);
    Exhaustive search(c.setup, c.rules);
    for (double m = 0; 2 * m < std::min(bed.width(), bed.depth()); m += c.options.step) {
      const Box mesh{sixth(bed.x0 + m), sixth(bed.x1 - m), sixth(bed.y0 + m), sixth(bed.y1 - m)};
      if (mesh.width() > 0 && mesh.depth() > 0) search.look_at(mesh);
    }
    ASSERT_EQ(result.mesh.has_value(), search.best.any) << "seed " << seed;
    if (!result.mesh) continue;
    ++found;
    EXPECT_NEAR(result.mesh->area, search.best.area, 2e-6) << "seed " << seed;
    EXPECT_NEAR(*result.numbers.uniform, result.mesh->bounds.x0 - bed.x0, 1e-9);
  }
  EXPECT_GT(found, 50u);
}

TEST(Fit, SpacingTakesTheFewestThatKeepToIt) {
  leeway::Setup setup = godwit();
  FitOptions options;
  options.spacing = 30;
  const FitResult result = fit(setup, options);
  ASSERT_TRUE(result.mesh);
  const FitMesh& mesh = *result.mesh;
  EXPECT_LE(mesh.spacing.x, 30);
  EXPECT_LE(mesh.spacing.y, 30);
  EXPECT_GT(mesh.bounds.width() / (mesh.columns - 2), 30);
  EXPECT_GT(mesh.bounds.depth() / (mesh.rows - 2), 30);
  options.spacing = 500;
  const FitResult wide = fit(setup, options);
  ASSERT_TRUE(wide.mesh);
  EXPECT_EQ(wide.mesh->columns, 2);
  EXPECT_EQ(wide.mesh->rows, 2);
}

TEST(Fit, HeldSidesStayAndWithinIsKept) {
  FitOptions options;
  options.sides.left = 20.125;
  options.within = Box{10, 150, 60, 190};
  const FitResult result = fit(godwit(), options);
  ASSERT_TRUE(result.mesh);
  EXPECT_EQ(result.mesh->bounds, (Box{20.125, 150, 60, 190}));
}

TEST(Fit, RefusesWhatCannotBeLookedFor) {
  const auto refused = [](leeway::Setup setup, const FitOptions& options) {
    EXPECT_THROW(fit(setup, options), FitRefused);
  };
  leeway::Setup none = godwit();
  none.request.grid.reset();
  refused(none, {});
  leeway::Setup one = godwit();
  one.request.grid->columns = 1;
  refused(one, {});
  FitOptions options;
  options.step = 0.04;
  refused(godwit(), options);
  options.step = 0.123;
  refused(godwit(), options);
  options = {};
  options.sides = {50, 40, {}, {}};
  refused(godwit(), options);
  options.sides = {50.12345, {}, {}, {}};
  refused(godwit(), options);
  options.sides = {50, {}, {}, {}};
  options.uniform = true;
  refused(godwit(), options);
  options = {};
  options.spacing = 10;
  options.columns = 4;
  refused(godwit(), options);
  options = {};
  options.spacing = 1e-3;
  refused(godwit(), options);
  options = {};
  options.within = Box{10, 10, 0, 5};
  refused(godwit(), options);
}

// However many: the number of points it would take stands in the message.
TEST(Fit, RefusesSpacingsThatTakeTooManyPoints) {
  const auto message = [](double spacing, FitSides sides = {}) -> std::string {
    FitOptions options;
    options.spacing = spacing;
    options.sides = sides;
    try {
      fit(godwit(), options);
    } catch (const FitRefused& refused) {
      return refused.what();
    }
    return "";
  };
  // The bed is 233 x 207: (233 / 1e-4 + 1) (207 / 1e-4 + 1).
  EXPECT_NE(message(1e-4).find("not 4823104400001"), std::string::npos) << message(1e-4);
  EXPECT_NE(message(1e-9).find("not about 4.82e+22"), std::string::npos) << message(1e-9);
  EXPECT_NE(message(1e-300).find("not about"), std::string::npos) << message(1e-300);
  // 2331 x 2071.
  EXPECT_EQ(message(0.1), "a grid may have at most 100000 points, not 4827501");
  // Sides may be held anywhere.
  EXPECT_NE(message(1, {-1e6, {}, -1e6, {}}).find("not 1000"), std::string::npos);
}

TEST(Fit, TellsWhichPointsNoMeshMends) {
  leeway::Setup setup = godwit();
  setup.request.points.push_back({"far right", {225, 100}, Frame::probe});
  const FitResult result = fit(setup);
  ASSERT_EQ(result.unmet.size(), 1u);
  EXPECT_EQ(result.unmet[0].name, "far right");
  EXPECT_EQ(Limits(setup).info(result.unmet[0].point.finding.limit).name, "travel right");
}

// Homing, by search over a lattice of 0.1 mm.
TEST(Fit, HomesNearestTheCentreWithTheLeewayWanted) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    Case c = random_case(seed);
    c.options.home_leeway = 0.5 * static_cast<double>(seed % 8);
    const FitResult result = fit(c.setup, c.options);
    const Limits limits(c.setup);
    const Box bed = bounding_box(c.setup.machine.bed);
    const Point centre{(bed.x0 + bed.x1) / 2, (bed.y0 + bed.y1) / 2};
    double nearest = 1e9;
    double most = -1e9;
    for (double x = bed.x0; x <= bed.x1; x += 0.1) {
      for (double y = bed.y0; y <= bed.y1; y += 0.1) {
        if (limits.evaluate({x, y}).verdict != Verdict::reachable) continue;
        const double leeway = limits.least_leeway({x, y});
        most = std::max(most, leeway);
        // A place with a guard's worth of leeway more is never refused.
        if (leeway < std::max(c.options.home_leeway, 0.7)) continue;
        nearest = std::min(nearest, std::hypot(x - centre.x, y - centre.y));
      }
    }
    if (!result.home) {
      EXPECT_LT(most, 0.1) << "seed " << seed;
      continue;
    }
    const FitHome& home = *result.home;
    EXPECT_EQ(limits.evaluate(home.probe).verdict, Verdict::reachable) << "seed " << seed;
    EXPECT_EQ(home.leeway, limits.least_leeway(home.probe));
    if (home.leeway < c.options.home_leeway) {
      EXPECT_GE(home.leeway, most - 0.01) << "seed " << seed;
    } else if (nearest < 1e9) {
      EXPECT_LE(std::hypot(home.probe.x - centre.x, home.probe.y - centre.y), nearest + 0.03)
          << "seed " << seed;
    }
  }
}

// With what the remedy changes of the setup. Its mesh has the columns and rows already.
leeway::Setup changed(const leeway::Setup& setup, const FitRemedy& remedy) {
  const auto with = [&](const Change& change) { return applied({change}, setup); };
  const auto as_is = [&](const auto&) { return setup; };
  return std::visit(Cases{as_is, [&](const EdgeDistance& c) { return with(c); },
                          [&](const CoverageFactor& c) { return with(c); },
                          [&](const ProbeOffset& c) { return with(c); }},
                    remedy.change);
}

TEST(Fit, RemediesRemedy) {
  std::set<std::size_t> seen;
  const auto expect_remedied = [&](const leeway::Setup& setup, const FitOptions& options) {
    const FitResult result = fit(setup, options);
    ASSERT_FALSE(result.mesh);
    ASSERT_TRUE(result.limiting);
    EXPECT_NE(result.limiting->place.finding.verdict, Verdict::reachable);
    for (const FitRemedy& remedy : result.remedies) {
      seen.insert(remedy.change.index());
      const leeway::Setup mended = with_mesh(changed(setup, remedy), remedy.mesh);
      leeway::Setup only = mended;
      only.request.points.clear();
      only.request.home.reset();
      EXPECT_EQ(check(Rig(only)).verdict, Verdict::reachable);
    }
  };
  leeway::Setup far = godwit();
  far.probe.offset = {-300, 12};
  expect_remedied(far, {});
  leeway::Setup greedy = godwit();
  greedy.probe.edge_distance = 120;
  expect_remedied(greedy, {});
  leeway::Setup unsure = godwit();
  unsure.machine.bed_uncertainty = 60;
  expect_remedied(unsure, {});
  FitOptions options;
  options.sides.left = 2;
  expect_remedied(godwit(), options);
  // A bar between the outer columns: no third column can stand on it.
  leeway::Setup bars = bare(Box{0, 60, 0, 60}, Box{0, 60, 0, 60});
  bars.machine.obstacles = {{"bar", Box{20, 40, 5, 55}, 5, 0}};
  bars.request.grid = Grid{3, 3, Box{0, 60, 0, 60}, Frame::probe, false};
  options = {};
  options.sides = {10, 50, 10, 50};
  expect_remedied(bars, options);
  EXPECT_TRUE(seen.count(FitChange(ProbeOffset{}).index()));
  EXPECT_TRUE(seen.count(FitChange(EdgeDistance{}).index()));
  EXPECT_TRUE(seen.count(FitChange(CoverageFactor{}).index()));
  EXPECT_TRUE(seen.count(FitChange(SideLetGo{}).index()));
  EXPECT_TRUE(seen.count(FitChange(GridColumns{}).index()));
}

}  // namespace
}  // namespace leeway
