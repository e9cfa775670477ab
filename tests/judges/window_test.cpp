// The window of offsets against plain sampling: random setups of every kind of shape, and at each
// offset the verdicts of the limits for every requested point; the mount is decided by GEOS
// (https://libgeos.org), which puts probe and head where they would be.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "judges/complaints.h"
#include "judges/geos.h"
#include "judges/random_setup.h"
#include "judges/shapes.h"
#include "leeway/bracket.h"
#include "leeway/coverage_map.h"
#include "leeway/limits.h"
#include "tasks/bracket/bracket_problem.h"

namespace leeway::judges {
namespace {

// The polygons of the window keep off its true edge by chords of circles and roundings to whole
// micrometres (growth.h), and where two slanted sides cross they may stand out by one.
constexpr double kInside_mm = 0.006;
constexpr double kOutside_mm = 0.0015;

// Hundredths, and corners so sharp that there is nothing near their tip.
constexpr double kNearest_mm = 0.4;
constexpr double kUsuallyNearest_mm = 0.03;

double tenth(double mm) { return std::round(mm * 10) / 10; }

// What is asked for lies in the middle of the bed, so that some offset often serves it.
Request random_request(const Setup& setup, Random& random) {
  const Box bed = bounding_box(setup.machine.bed);
  const auto within = [&](double low, double high, double from, double to) {
    return tenth(low + random.real(from, to) * (high - low));
  };
  const auto place = [&] {
    return Point{within(bed.x0, bed.x1, 0.15, 0.85), within(bed.y0, bed.y1, 0.15, 0.85)};
  };
  Request request;
  if (!random.one_in(4)) {
    Grid grid;
    grid.columns = random.whole(1, 4);
    grid.rows = random.whole(1, 4);
    const Point a = place();
    const Point b{a.x + tenth(random.real(1, 0.5 * bed.width())),
                  a.y + tenth(random.real(1, 0.5 * bed.depth()))};
    grid.extent = Box{a.x, b.x, a.y, b.y};
    request.grid = grid;
  }
  for (int i = random.whole(0, 3); i > 0; --i) {
    request.points.push_back({fmt::format("p{}", i), place(), Frame::probe});
  }
  if (random.one_in(2) || (!request.grid && request.points.empty())) {
    request.home = Home{place(), Frame::probe};
  }
  return request;
}

Setup random_case(std::uint64_t seed) {
  Setup setup = random_setup(seed);
  Random random(seed ^ 0x77);
  setup.request = random_request(setup, random);
  // Parts of random setups often lie where the probe is: without them there is more to see.
  if (random.one_in(3)) setup.machine.head.clear();
  if (random.one_in(3)) {
    const double r = tenth(random.real(10, 70));
    const Shape envelopes[] = {Disc{{0, 0}, r}, Box{-r, r, tenth(-r / 2), r},
                               MultiPolygon{{{{-r, 0}, {0, -r}, {r, 0}, {0, r}}, {}}}};
    setup.mount.envelope = envelopes[random.whole(0, 2)];
  }
  if (random.one_in(3)) {
    const Point at{tenth(random.real(-60, 40)), tenth(random.real(-60, 40))};
    const double size = tenth(random.real(1, 30));
    const Shape outlines[] = {Disc{at, size}, Box{at.x, at.x + size, at.y, at.y + 4},
                              MultiPolygon{{{at, at + Point{size, 0}, at + Point{0, size}}, {}}}};
    setup.mount.keep_clear = {{"belt", outlines[random.whole(0, 2)]}};
  }
  return setup;
}

// The shapes that stand in each other's way, by GEOS. Discs are rings just inside them.
geos::Geometry outline(const Shape& shape, Point at) {
  if (const Disc* disc = std::get_if<Disc>(&shape)) {
    Ring ring;
    for (int i = 0; i < 720; ++i) {
      const double angle = i * 3.14159265358979323846 / 360;
      ring.push_back(disc->center + disc->radius * Point{std::cos(angle), std::sin(angle)});
    }
    return geos::ring_polygon(ring, at);
  }
  if (const Box* box = std::get_if<Box>(&shape)) {
    return geos::box({box->x0 + at.x, box->x1 + at.x, box->y0 + at.y, box->y1 + at.y});
  }
  if (std::holds_alternative<RoundedBox>(shape)) {
    const Grown grown = taken_apart(shape);
    std::vector<Point> points;
    for (const Point& corner : vertices(grown)) {
      for (int i = 0; i < 720; ++i) {
        const double angle = i * 3.14159265358979323846 / 360;
        points.push_back(corner + at + grown.radius * Point{std::cos(angle), std::sin(angle)});
      }
    }
    return geos::hull_of(points);
  }
  if (std::holds_alternative<Point>(shape)) return geos::point(at);
  return geos::polygons(std::get<MultiPolygon>(shape), at);
}

// Whether the mount allows an offset: 1 yes, 0 no, -1 too near to tell.
int mount_allows(const Setup& setup, Point offset) {
  constexpr double kNear = 0.01;
  const Shape body = setup.probe.body ? setup.probe.body->outline : setup.probe.spot;
  int answer = 1;
  if (setup.mount.envelope) {
    const geos::Geometry envelope = outline(*setup.mount.envelope, {});
    const geos::Geometry at = geos::point(offset);
    const bool inside = geos::checked(GEOSCovers_r(geos::context(), envelope.get(), at.get()));
    if (geos::distance(geos::boundary(envelope), at) < kNear) {
      answer = std::min(answer, -1);
    } else if (!inside) {
      return 0;
    }
  }
  std::vector<HeadPart> parts = setup.machine.head;
  for (const KeptClear& kept : setup.mount.keep_clear)
    parts.push_back({kept.name, kept.outline, 0});
  if (!std::holds_alternative<Point>(body)) parts.push_back({"nozzle", Point{}, 0});
  for (const HeadPart& part : parts) {
    const geos::Geometry of_part = outline(part.outline, {});
    const geos::Geometry of_body = outline(body, offset);
    const double apart = geos::distance(of_part, of_body);
    if (apart > kNear) continue;
    if (apart > 0) {
      answer = std::min(answer, -1);
      continue;
    }
    // They overlap: by a strip that is thin, or well and truly.
    const geos::Geometry overlap =
        geos::checked(GEOSIntersection_r(geos::context(), of_part.get(), of_body.get()));
    const double depth = std::holds_alternative<Point>(body)
                             ? geos::distance(geos::boundary(of_part), of_body)
                         : std::holds_alternative<Point>(part.outline)
                             ? geos::distance(geos::boundary(of_body), of_part)
                             : geos::area(overlap) / std::max(1e-9, geos::length(overlap));
    if (depth > kNear) return 0;
    answer = std::min(answer, -1);
  }
  return answer;
}

// Whether the real verdicts call every point within reach of some offset reachable.
bool all_reachable(const Setup& setup, const std::vector<Point>& probes, Point offset) {
  Setup moved = setup;
  moved.probe.offset = offset;
  const Limits limits(moved);
  return std::all_of(probes.begin(), probes.end(),
                     [&](Point p) { return limits.evaluate(p).verdict == Verdict::reachable; });
}

class Comparison {
 public:
  explicit Comparison(const CaseRange& run)
      : unsafe("no offset inside the window fails", run),
        harsh("no offset outside the window by more than 1e-6 mm passes", run),
        wrong_amount("the leeway of an offset is the least that its points have", run),
        polygon_unsafe("the polygon of the window lies in the window", run),
        polygon_small("the polygon of the window is no smaller than its roundings", run),
        faults("best, nearest and conflict keep what they promise", run) {}

  void look_at(std::uint64_t index, std::uint64_t seed) {
    setup_ = random_case(seed);
    index_ = index;
    const std::array setups{setup_};
    const BracketProblem problem(setups);
    probes_.clear();
    for (const BracketPoint& p : problem.within_reach()) probes_.push_back(p.probe);
    if (probes_.empty()) return;
    ++windows;
    BracketOptions options;
    options.influences = false;
    const BracketResult result = bracket(setups, options);
    if (result.window.empty) ++empty;
    Random random(seed ^ 0x99);
    for (const Point offset : samples(result, random)) look_at(problem, result, offset);
    promises(problem, result);
  }

  Complaints unsafe, harsh, wrong_amount, polygon_unsafe, polygon_small, faults;
  std::size_t windows = 0;
  std::size_t empty = 0;
  std::size_t conflicts = 0;
  std::size_t inside = 0;
  std::size_t outside = 0;
  std::size_t nearest = 0;
  std::size_t near_by = 0;  // to within 0.03 mm

 private:
  std::vector<Point> samples(const BracketResult& result, Random& random) const {
    std::vector<Point> offsets;
    const Box around = result.window.bounds.value_or(Box{-80, 80, -80, 80});
    for (int i = 0; i < 30; ++i) {
      const double wide = random.pick({0.0, 0.5, 20.0});
      const Point o{random.real(around.x0 - wide, around.x1 + wide),
                    random.real(around.y0 - wide, around.y1 + wide)};
      offsets.push_back(random.one_in(2) ? Point{tenth(o.x), tenth(o.y)} : o);
    }
    // On the window's edge and a little to either side of it.
    for (const Polygon& polygon : result.window.region) {
      for (int i = 0; i < 6; ++i) {
        const Ring& ring = polygon.holes.empty() || random.one_in(2)
                               ? polygon.outer
                               : random.pick_from(polygon.holes);
        const std::size_t at =
            static_cast<std::size_t>(random.whole(0, static_cast<int>(ring.size()) - 1));
        const Point a = ring[at];
        const Point b = ring[(at + 1) % ring.size()];
        const double t = random.pick({0.0, 0.3, 0.5});
        const double by = random.pick({0.0, 2e-6, 0.002, 0.01, 0.1});
        offsets.push_back(a + t * (b - a) + Point{random.real(-by, by), random.real(-by, by)});
      }
    }
    return offsets;
  }

  void look_at(const BracketProblem& problem, const BracketResult& result, Point offset) {
    const bool passes = all_reachable(setup_, probes_, offset);
    const BracketStop stop = problem.tightest(offset);
    const double leeway = problem.leeway(offset);
    const int mount = mount_allows(setup_, offset);
    const auto say = [&] {
      return fmt::format("offset {}, {}: leeway {} ({}), check {}, mount {}", offset.x, offset.y,
                         leeway, stop.limit.name, passes ? "passes" : "fails", mount);
    };
    if (leeway >= 0) {
      ++inside;
      if (!passes || mount == 0) unsafe.add(index_, setup_, say());
    } else if (leeway < -1e-6) {
      ++outside;
      if (passes && mount == 1) harsh.add(index_, setup_, say());
    }
    // The amount too, limit by limit of the real verdicts. The mount's limits are not among them.
    const double leeway_there = leeway_of_nozzle(offset);
    const bool by_mount = is_of_mount(stop.limit.group);
    if (by_mount ? leeway > leeway_there + 1e-9 : std::abs(leeway - leeway_there) > 1e-9) {
      wrong_amount.add(index_, setup_, say() + fmt::format(", limits {}", leeway_there));
    }
    const std::optional<Point> near = closest_point(result.window.region, offset);
    const double away = near ? std::hypot(near->x - offset.x, near->y - offset.y) : 1e9;
    if (away == 0 && leeway < -kOutside_mm) polygon_unsafe.add(index_, setup_, say());
    // A part of the window that is thinner than its roundings may be lost.
    if (leeway > kInside_mm && away > 0) polygon_small.add(index_, setup_, say());
  }

  // The least leeway less guard of the limits that depend on the offset.
  double leeway_of_nozzle(Point offset) const {
    Setup moved = setup_;
    moved.probe.offset = offset;
    const Limits limits(moved);
    double least = 1e9;
    for (std::size_t i = 0; i < limits.size(); ++i) {
      const LimitInfo& info = limits.info(i);
      const bool nozzle =
          info.group == LimitGroup::travel ||
          (info.group == LimitGroup::head && info.part_id.kind != PartId::Kind::body);
      if (!nozzle) continue;
      for (const Point p : probes_) {
        const LimitReading reading = limits.reading(i, p);
        least = std::min(least, reading.leeway - reading.guard);
      }
    }
    return least;
  }

  void promises(const BracketProblem& problem, const BracketResult& result) {
    const auto complain = [&](const std::string& what) { faults.add(index_, setup_, what); };
    if (result.window.empty) {
      if (result.best || result.nearest) complain("an empty window has a best offset");
      if (result.mount_alone) return;
      ++conflicts;
      if (!problem.is_empty(result.conflict)) complain("the conflict has a common offset");
      for (std::size_t i = 0; i < result.conflict.size(); ++i) {
        std::vector<BracketPoint> fewer = result.conflict;
        fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
        if (problem.is_empty(fewer)) complain("the conflict can do without a point");
      }
      return;
    }
    if (!result.best || !result.nearest) {
      // Only where the window is next to nothing.
      if (result.window.area > 0.01) complain("no best or no nearest offset");
      return;
    }
    for (const BracketOffset& o : {*result.best, *result.nearest}) {
      if (o.leeway < 0 || !all_reachable(setup_, probes_, o.offset)) complain("an offset fails");
      if (mount_allows(setup_, o.offset) == 0) complain("the mount does not allow an offset");
    }
    const std::optional<Point> near = closest_point(result.window.region, result.present.offset);
    const auto apart = [](Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); };
    if (near && apart(result.nearest->offset, result.present.offset) >
                    apart(*near, result.present.offset) + kNearest_mm) {
      complain("the nearest offset is not the nearest");
    }
    ++nearest;
    near_by += near && apart(result.nearest->offset, result.present.offset) <=
                           apart(*near, result.present.offset) + kUsuallyNearest_mm;
  }

  Setup setup_;
  std::vector<Point> probes_;
  std::uint64_t index_ = 0;
};

TEST(WindowAgainstSampling, AgreesWithTheVerdicts) {
  const CaseRange run = cases_to_look_at();
  Comparison c(run);
  const std::uint64_t end = run.first + (run.end - run.first + 63) / 64;
  std::size_t too_detailed = 0;
  for (std::uint64_t i = run.first; i < end; ++i) {
    try {
      c.look_at(i, seed_of_case(run.seed, i));
    } catch (const SetupTooDetailed&) {
      ++too_detailed;
    } catch (const OverlayFault& fault) {
      c.faults.add(i, random_case(seed_of_case(run.seed, i)), fault.what());
    }
  }
  fmt::print(
      "{} windows, {} of them empty ({} conflicts), {} offsets inside, {} outside, {} too "
      "detailed\n",
      c.windows, c.empty, c.conflicts, c.inside, c.outside, too_detailed);
  EXPECT_EQ(c.unsafe.count(), 0u);
  EXPECT_EQ(c.harsh.count(), 0u);
  EXPECT_EQ(c.wrong_amount.count(), 0u);
  EXPECT_EQ(c.polygon_unsafe.count(), 0u);
  EXPECT_EQ(c.polygon_small.count(), 0u);
  EXPECT_EQ(c.faults.count(), 0u);
  EXPECT_GT(c.inside, c.windows);
  EXPECT_GT(c.outside, c.windows);
  EXPECT_GE(static_cast<double>(c.near_by), 0.98 * static_cast<double>(c.nearest));
}

// Whether there is a window is told without working it out: it has to be the same answer.
TEST(WindowAgainstSampling, IsEmptyWhereItHasNoArea) {
  const CaseRange run = cases_to_look_at();
  Complaints differs("a window is called empty exactly where it is", run);
  std::size_t empty = 0;
  std::size_t others = 0;
  for (std::uint64_t i = run.first; i < run.end; i += 4) {
    leeway::Setup setup = random_case(seed_of_case(run.seed, i));
    Random random(seed_of_case(run.seed, i) ^ 0x77);
    try {
      const std::array one{setup};
      const BracketProblem problem(one);
      std::vector<BracketPoint> points = problem.within_reach();
      while (!points.empty()) {
        const MultiPolygon window = problem.window(points);
        const bool none = window.empty() && !problem.thin_window(points);
        ++(none ? empty : others);
        // Slivers of a micrometre may be lost in either.
        constexpr double kSliver_mm2 = 0.01;
        if (problem.is_empty(points) != none && area(window) > kSliver_mm2) {
          differs.add(i, setup, fmt::format("{} points, {} mm2", points.size(), area(window)));
        }
        if (problem.is_empty(points) != none && none) differs.add(i, setup, "none, but not empty");
        points.resize(
            static_cast<std::size_t>(random.real(0, 1) * static_cast<double>(points.size())));
      }
    } catch (const SetupTooDetailed&) {
    }
  }
  fmt::print("{} windows empty, {} not\n", empty, others);
  EXPECT_EQ(differs.count(), 0u);
  EXPECT_GT(empty, 0u);
  EXPECT_GT(others, 0u);
}

// A larger travel never shrinks a window; one more point never grows it.
TEST(WindowAgainstSampling, IsMonotone) {
  const CaseRange run = cases_to_look_at();
  Complaints travel("a larger travel never shrinks the window", run);
  Complaints point("one more point never grows the window", run);
  const std::uint64_t end = run.first + (run.end - run.first + 39) / 40;
  for (std::uint64_t i = run.first; i < end; ++i) {
    leeway::Setup setup = random_case(seed_of_case(run.seed, i));
    Random random(seed_of_case(run.seed, i) ^ 0x55);
    // Rounding to whole micrometres on the safe side may differ along the outline.
    const auto allowance = [](const MultiPolygon& region) {
      double edge = 0;
      for (const Polygon& polygon : region)
        edge += geos::length(outline(MultiPolygon{polygon}, {}));
      return 0.01 + 0.003 * edge;
    };
    try {
      const std::array before{setup};
      const auto region_of = [](const std::array<leeway::Setup, 1>& one) {
        const BracketProblem problem(one);
        if (problem.within_reach().empty()) return MultiPolygon{};
        return problem.window(problem.within_reach());
      };
      if (BracketProblem(before).within_reach().empty()) continue;
      const MultiPolygon window = region_of(before);
      const double by = random.real(0.1, 10);
      leeway::Setup larger = setup;
      if (Box* box = std::get_if<Box>(&larger.machine.travel)) {
        *box = {box->x0 - by, box->x1 + by, box->y0 - by, box->y1 + by};
      } else if (Disc* disc = std::get_if<Disc>(&larger.machine.travel)) {
        disc->radius += by;
      } else if (auto* rounded = std::get_if<RoundedBox>(&larger.machine.travel)) {
        Box& box2 = rounded->box;
        box2 = {box2.x0 - by, box2.x1 + by, box2.y0 - by, box2.y1 + by};
        rounded->radius += by;
      } else {
        larger.machine.travel = bounding_box(larger.machine.travel);
      }
      const std::array after{larger};
      if (area(region_of(after)) < area(window) - allowance(window)) {
        travel.add(i, setup, "a larger travel");
      }
      const Box bed = bounding_box(setup.machine.bed);
      setup.request.points.push_back(
          {"one more", {random.real(bed.x0, bed.x1), random.real(bed.y0, bed.y1)}});
      const std::array more{setup};
      if (area(region_of(more)) > area(window) + allowance(window)) {
        point.add(i, setup, "one more point");
      }
    } catch (const SetupTooDetailed&) {
    }
  }
  EXPECT_EQ(travel.count(), 0u);
  EXPECT_EQ(point.count(), 0u);
}

// The trade-off against plain search: every offset of a lattice over the window.
TEST(TradeOffAgainstSearch, NoOffsetOfALatticeIsBetter) {
  const CaseRange run = cases_to_look_at();
  Complaints better("no offset is better than the curve", run);
  Complaints false_choice("each choice works and is told as it is", run);
  std::size_t curves = 0;
  std::size_t choices = 0;
  std::size_t offsets = 0;
  double missed = 0;  // of coverage, by any lattice offset with at most 0.1 mm more leeway
  const std::uint64_t end = run.first + (run.end - run.first + 999) / 1000;
  BracketOptions options;
  options.influences = false;
  for (std::uint64_t i = run.first; i < end; ++i) {
    const leeway::Setup setup = random_case(seed_of_case(run.seed, i));
    try {
      const std::array one{setup};
      const BracketProblem problem(one);
      if (problem.within_reach().empty()) continue;
      const BracketResult result = bracket(one, options);
      if (!result.trade_off) continue;
      const std::vector<BracketTrade>& curve = result.trade_off->curve;
      ++curves;
      choices += curve.size();
      const auto share_at = [&](Point o) {
        return coverage_map(setup, {o.x, o.x, 1}, {o.y, o.y, 1})->at(0, 0);
      };
      std::vector<Point> probes;
      for (const BracketPoint& p : problem.within_reach()) probes.push_back(p.probe);
      for (std::size_t k = 0; k < curve.size(); k += 1 + curve.size() / 8) {
        const BracketTrade& trade = curve[k];
        const bool told = trade.leeway == problem.leeway(trade.offset) &&
                          std::abs(trade.coverage - share_at(trade.offset)) < 1e-9;
        if (!told || trade.leeway < 0 || !all_reachable(setup, probes, trade.offset)) {
          false_choice.add(i, setup, fmt::format("{}, {}", trade.offset.x, trade.offset.y));
        }
        const bool rises = k == 0 || (curve[k - 1].leeway < trade.leeway &&
                                      curve[k - 1].coverage > trade.coverage);
        if (!rises) false_choice.add(i, setup, "a choice is dominated");
      }
      const Box& box = *result.window.bounds;
      constexpr int kAcross = 60;
      const Steps x{box.x0, box.x1, box.width() > 0 ? kAcross : 1};
      const Steps y{box.y0, box.y1, box.depth() > 0 ? kAcross : 1};
      const std::optional<CoverageMap> map = coverage_map(setup, x, y);
      for (int row = 0; row < y.count; ++row) {
        for (int column = 0; column < x.count; ++column) {
          const Point offset{x.at(column), y.at(row)};
          const double leeway = problem.leeway(offset);
          if (leeway < 0) continue;
          ++offsets;
          const auto as_good = std::find_if(curve.begin(), curve.end(), [&](const BracketTrade& t) {
            return t.leeway >= std::min(leeway - 0.1, curve.back().leeway);
          });
          const double more = map->at(column, row) - as_good->coverage;
          missed = std::max(missed, more);
          if (more > 0.002 || leeway > curve.back().leeway + 0.02) {
            better.add(i, setup,
                       fmt::format("{}, {}: leeway {}, share {}; the curve has {} with {}",
                                   offset.x, offset.y, leeway, map->at(column, row),
                                   as_good->coverage, as_good->leeway));
          }
        }
      }
    } catch (const SetupTooDetailed&) {
    }
  }
  fmt::print("{} curves of {} choices, {} offsets searched, at most {} missed\n", curves, choices,
             offsets, missed);
  EXPECT_GT(curves, 0u);
  EXPECT_EQ(better.count(), 0u);
  EXPECT_EQ(false_choice.count(), 0u);
}

}  // namespace
}  // namespace leeway::judges
