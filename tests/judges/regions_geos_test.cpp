// The regions against GEOS (https://libgeos.org) on random setups: what of ours GEOS does not have,
// and what of GEOS's we do not have, by area.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "judges/complaints.h"
#include "judges/geos_regions.h"
#include "judges/random_setup.h"
#include "judges/shapes.h"
#include "leeway/limits.h"

namespace leeway::judges {
namespace {

constexpr double kUm2 = 1e6;  // per mm2
// What rounding may leave however small the region.
constexpr double kSpeck_mm2 = 1e-3;
// A region may keep off its true edge by this much: the chords of a circle and two roundings to
// whole micrometres (growth.h: 0.0025 mm), and the rounding of crossings by the overlays.
constexpr double kInside_mm = 0.003;
// It may not be larger than the true one but for GEOS's own circles (0.0005 mm) and the rounding
// of crossings of slanted edges to whole micrometres.
constexpr double kOutside_mm = 0.001;

struct Difference {
  double extra = 0;    // ours, not GEOS's, in mm2
  double missing = 0;  // GEOS's, not ours
  double edge = 0;     // the longer outline, in mm
};

// A ring of ours may touch itself at a vertex (overlay.h), which GEOS does not take. Parted there
// it has the same area; where it crossed itself it would not.
geos::Geometry valid(const MultiPolygon& ours) {
  geos::Geometry mine = geos::polygons(ours, {}, 1000);
  if (geos::checked(GEOSisValid_r(geos::context(), mine.get()))) return mine;
  geos::Geometry parted = geos::checked(GEOSMakeValid_r(geos::context(), mine.get()));
  if (std::abs(geos::area(parted) / kUm2 - area(ours)) > kSpeck_mm2) {
    throw geos::Error("GEOS: the rings of a region cross");
  }
  return parted;
}

Difference compare(const MultiPolygon& ours, const geos::Geometry& theirs) {
  const geos::Geometry mine = valid(ours);
  const auto extra = geos::checked(GEOSDifference_r(geos::context(), mine.get(), theirs.get()));
  const auto missing = geos::checked(GEOSDifference_r(geos::context(), theirs.get(), mine.get()));
  return {geos::area(extra) / kUm2, geos::area(missing) / kUm2,
          std::max(geos::length(mine), geos::length(theirs)) / 1000};
}

bool is_exact(const Ring& ring) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point way = ring[(i + 1) % ring.size()] - ring[i];
    const bool diagonal = std::abs(std::abs(way.x) - std::abs(way.y)) < 1e-9;
    if (way.x != 0 && way.y != 0 && !diagonal) return false;
  }
  return true;
}

bool is_exact(const Shape& shape) {
  if (taken_apart(shape).radius > 0) return false;
  const auto* polygons = std::get_if<MultiPolygon>(&shape);
  if (polygons == nullptr) return true;
  return std::all_of(polygons->begin(), polygons->end(), [](const Polygon& p) {
    return is_exact(p.outer) && std::all_of(p.holes.begin(), p.holes.end(),
                                            [](const Ring& hole) { return is_exact(hole); });
  });
}

// Whether every edge runs along an axis or a diagonal, so that every crossing is a whole
// micrometre.
bool is_exact(const Setup& s) {
  const Machine& m = s.machine;
  return is_exact(m.bed) && is_exact(m.travel) && is_exact(s.probe.spot) &&
         (!s.probe.body || is_exact(s.probe.body->outline)) &&
         std::all_of(m.obstacles.begin(), m.obstacles.end(),
                     [](const Obstacle& o) { return is_exact(o.shape); }) &&
         std::all_of(m.head.begin(), m.head.end(),
                     [](const HeadPart& h) { return is_exact(h.outline); });
}

// Most setups have no distances and no discs: polygons alone, of each family in turn.
struct Case {
  Setup setup;
  bool exact = false;
};

constexpr std::uint64_t kAllShapesEvery = 8;

Case make_case(std::uint64_t seed, std::uint64_t index) {
  RandomSetupOptions options;
  options.isotropic = true;
  if (index % kAllShapesEvery == 0) return {random_setup(seed, options), false};
  options.discs = options.distances = options.uncertainties = false;
  options.family = static_cast<Family>(index / kAllShapesEvery % kFamilies);
  Case made{random_setup(seed, options)};
  made.exact = is_exact(made.setup) && options.family != Family::near_copies;
  return made;
}

class Comparison {
 public:
  explicit Comparison(const CaseRange& run)
      : larger("a region is never larger than the true one", run),
        smaller("a region is smaller than the true one by no more than a strip of 0.003 mm", run),
        faults("the program has no fault of its own", run) {}

  void look_at(std::uint64_t index, const Case& c) {
    const Regions regions(c.setup);
    const GeosRegions geos(c.setup);
    compare(index, c, regions, geos, RegionKind::within_limits);
    constexpr std::array kOthers{RegionKind::printable, RegionKind::reachable, RegionKind::sensing};
    if (index % 4 == 0) compare(index, c, regions, geos, kOthers[index / 4 % kOthers.size()]);
    if (index % 16 == 1) compare(index, c, regions, geos, RegionKind::bed);
    ++setups;
  }

  Complaints larger;
  Complaints smaller;
  Complaints faults;
  std::size_t setups = 0;
  std::size_t regions_seen = 0;
  std::size_t empty = 0;
  std::size_t exact = 0;
  double worst_exact = 0;
  double worst_extra = 0;  // as a strip along the edge, in mm
  double worst_missing = 0;

 private:
  void compare(std::uint64_t index, const Case& c, const Regions& regions, const GeosRegions& geos,
               RegionKind kind) {
    const MultiPolygon& ours = regions.get(kind);
    const geos::Geometry theirs = geos.region(kind);
    const Difference d = judges::compare(ours, theirs);
    ++regions_seen;
    if (ours.empty()) ++empty;
    const auto say = [&] {
      return fmt::format(
          "{} ({}): ours {} mm2, GEOS {} mm2; extra {:.3g}, missing {:.3g}, outline {} mm",
          word(kind), c.setup.name, area(ours), geos::area(theirs) / kUm2, d.extra, d.missing,
          d.edge);
    };
    const double edge = c.exact ? 0 : d.edge;
    if (d.extra > kSpeck_mm2 + kOutside_mm * edge) larger.add(index, c.setup, say());
    if (d.missing > kSpeck_mm2 + kInside_mm * edge) smaller.add(index, c.setup, say());
    if (c.exact) {
      ++exact;
      worst_exact = std::max({worst_exact, d.extra, d.missing});
    } else if (d.edge > 1) {
      worst_extra = std::max(worst_extra, (d.extra - kSpeck_mm2) / d.edge);
      worst_missing = std::max(worst_missing, (d.missing - kSpeck_mm2) / d.edge);
    }
  }
};

TEST(RegionsAgainstGeos, HaveTheAreaThatGeosFinds) {
  const CaseRange run = cases_to_look_at();
  Comparison c(run);
  std::size_t too_detailed = 0;
  for (std::uint64_t i = run.first; i < run.end; ++i) {
    const Case one = make_case(seed_of_case(run.seed, i), i);
    try {
      c.look_at(i, one);
    } catch (const SetupTooDetailed&) {
      ++too_detailed;
    } catch (const OverlayFault& fault) {
      c.faults.add(i, one.setup, fault.what());
    }
  }
  fmt::print(
      "seed {}, cases {} to {}: {} setups ({} too detailed), {} regions ({} empty, {} exact)\n"
      "larger {}, smaller {}, faults {}; worst exact {:.3g} mm2, widest strip extra {:.3g} mm, "
      "missing {:.3g} mm\n",
      run.seed, run.first, run.end, c.setups, too_detailed, c.regions_seen, c.empty, c.exact,
      c.larger.count(), c.smaller.count(), c.faults.count(), c.worst_exact, c.worst_extra,
      c.worst_missing);
  EXPECT_EQ(c.larger.count(), 0u);
  EXPECT_EQ(c.smaller.count(), 0u);
  EXPECT_EQ(c.faults.count(), 0u);
  EXPECT_LE(too_detailed * 100, run.end - run.first);
  EXPECT_GT(c.setups, 0u);
}

TEST(RegionsAgainstGeos, WouldNoticeAMissingObstacle) {
  Random random(cases_to_look_at().seed);
  RandomSetupOptions options;
  options.discs = options.distances = options.uncertainties = false;
  double missed = 0;
  for (int i = 0; i < 50; ++i) {
    const leeway::Setup truth = random_setup(random.bits(), options);
    leeway::Setup ours = truth;
    if (!ours.machine.obstacles.empty()) ours.machine.obstacles.pop_back();
    const Regions regions(ours);
    missed += judges::compare(regions.get(RegionKind::sensing),
                              GeosRegions(truth).region(RegionKind::sensing))
                  .extra;
  }
  EXPECT_GT(missed, 100.0);
}

}  // namespace
}  // namespace leeway::judges
