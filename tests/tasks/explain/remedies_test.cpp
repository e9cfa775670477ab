// What is advised works: by `check`, and by `bracket` where it moves the probe. LEEWAY_STORIES:
// how many stories of each kind.

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <map>

#include "leeway/bracket.h"
#include "leeway/explain.h"
#include "leeway/fit.h"
#include "leeway/validate.h"
#include "model/setups.h"
#include "tasks/stories/stories.h"
#include "tasks/wrong_setups.h"

namespace leeway {
namespace {

constexpr std::uint64_t kRemedySeeds = 500'000;

std::size_t stories_a_kind() {
  const char* stories = std::getenv("LEEWAY_STORIES");
  return stories == nullptr ? 2 : static_cast<std::size_t>(std::atol(stories));
}

std::size_t failing_of(const CheckResult& checked) {
  return checked.counts.marginal + checked.counts.unreachable;
}

bool lies_within(const Box& inner, const Box& outer) {
  return inner.x0 >= outer.x0 - 1e-6 && inner.x1 <= outer.x1 + 1e-6 &&
         inner.y0 >= outer.y0 - 1e-6 && inner.y1 <= outer.y1 + 1e-6;
}

bool of_the_grid(Remedy::Parameter parameter) {
  return parameter == Remedy::Parameter::one_side || parameter == Remedy::Parameter::margins ||
         parameter == Remedy::Parameter::bounds;
}

void expect_nothing_further_out(const Remedy& remedy, const leeway::Setup& setup,
                                const leeway::Setup& changed) {
  if (of_the_grid(remedy.parameter)) {
    EXPECT_TRUE(lies_within(grid_bounds_for_probe(changed, *changed.request.grid),
                            grid_bounds_for_probe(setup, *setup.request.grid)));
  }
  const UncoveredStrips& further = remedy.further;
  EXPECT_LE(std::max({further.left, further.right, further.front, further.back}), 15);
}

// The number beside it, by a hundredth, is not enough: it is the smallest change.
void expect_smallest(const Remedy& remedy, const leeway::Setup& changed) {
  if (remedy.parameter != Remedy::Parameter::offset_uncertainty) return;
  leeway::Setup worse = changed;
  worse.probe.offset_uncertainty = worse.probe.offset_uncertainty + Point{0.01, 0.01};
  EXPECT_GT(failing_of(check(Rig(worse))), 0u);
}

void expect_works(const Remedy& remedy, const leeway::Setup& setup) {
  const leeway::Setup changed = applied(remedy.changes, setup);
  const Rig rig(changed);
  const CheckResult after = check(rig);
  EXPECT_GT(after.counts.points, 0u);
  EXPECT_EQ(failing_of(after), remedy.still_failing);
  EXPECT_EQ(after.moves.blocked.size(), remedy.blocked_moves);
  expect_nothing_further_out(remedy, setup, changed);
  expect_smallest(remedy, changed);
  if (changed.probe.offset == setup.probe.offset) return;
  const BracketResult window = bracket({&changed, 1});
  EXPECT_TRUE(window.present.inside);
  EXPECT_TRUE(window.out_of_reach.empty());
}

TEST(ExplainRemedies, HoldInCheckAndBracket) {
  std::map<Remedy::Parameter, std::size_t> seen;
  for (const std::string& kind : story_kinds()) {
    for (const Story& story : stories_of(kind, kRemedySeeds, stories_a_kind())) {
      for (const Remedy& remedy : explain(Rig(story.stated)).remedies) {
        SCOPED_TRACE(kind + ": " + word(remedy.parameter));
        ++seen[remedy.parameter];
        expect_works(remedy, story.stated);
      }
    }
  }
  EXPECT_GE(seen.size(), 6u);
  for (const auto& [parameter, count] : seen) {
    RecordProperty(word(parameter), static_cast<int>(count));
  }
}

// Where the bracket holds a probe, by boxes alone.
struct PlainMount {
  Box envelope;
  Box belt;    // kept clear
  double arm;  // half the width of the body

  bool allows(Point o) const {
    const bool within =
        o.x >= envelope.x0 && o.x <= envelope.x1 && o.y >= envelope.y0 && o.y <= envelope.y1;
    const bool clear = o.x + arm <= belt.x0 || o.x - arm >= belt.x1 || o.y + arm <= belt.y0 ||
                       o.y - arm >= belt.y1;
    return within && clear;
  }
};

// `bracket` would refuse what is advised: nothing is, of explain and of fit, as a mistake or as a
// remedy.
TEST(ExplainRemedies, NoOffsetThatTheMountDoesNotAllow) {
  const PlainMount mount{{-30, 30, -26, 60}, {-40, 8, -60, -10}, 4};
  std::size_t offsets = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    leeway::Setup setup = wrong_setup(seed).setup;
    setup.probe.body = ProbeBody{Box{-mount.arm, mount.arm, -mount.arm, mount.arm}, 1};
    setup.machine.head.clear();
    setup.mount = {mount.envelope, {{"belt", mount.belt}}};
    if (seed % 2 == 0) setup.request.home = Home{{60, 60}, Frame::nozzle};
    if (!validate(setup).empty()) continue;
    const auto expect_allowed = [&](const leeway::Setup& changed) {
      const Point offset = changed.probe.offset;
      if (offset == setup.probe.offset) return;
      ++offsets;
      EXPECT_TRUE(mount.allows(offset)) << offset.x << ", " << offset.y << ", seed " << seed;
    };
    const ExplainResult result = explain(Rig(setup));
    for (const MistakeFound& found : result.mistakes) expect_allowed(found.changed);
    for (const Remedy& remedy : result.remedies) expect_allowed(applied(remedy.changes, setup));
    try {
      for (const FitRemedy& remedy : fit(setup).remedies) {
        if (const auto* moved = std::get_if<ProbeOffset>(&remedy.change)) {
          expect_allowed(applied({*moved}, setup));
        }
      }
    } catch (const FitRefused&) {
    }
  }
  EXPECT_GE(offsets, 8u);
}

// Asked for with an offset that is hardly known: how well it must be known is told.
TEST(ExplainRemedies, ABetterMeasuredOffset) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{-50, 250, -50, 250});
  setup.probe.offset = {-30, 0};
  setup.probe.offset_uncertainty = {0.8, 0.8};
  setup.request.grid = Grid{3, 3, Box{1, 199, 1, 199}, Frame::probe, false};
  const ExplainResult result = explain(Rig(setup));
  const auto at = std::find_if(result.remedies.begin(), result.remedies.end(), [](const Remedy& r) {
    return r.parameter == Remedy::Parameter::offset_uncertainty;
  });
  ASSERT_NE(at, result.remedies.end());
  // Twice a half is the millimetre that there is.
  EXPECT_EQ(applied(at->changes, setup).probe.offset_uncertainty, (Point{0.5, 0.5}));
}

TEST(ExplainRemedies, AnotherPlaceToHome) {
  leeway::Setup setup = bare(Box{0, 200, 0, 200}, Box{0, 200, 0, 200});
  setup.probe.offset = {-30, 0};
  setup.request.grid = Grid{3, 3, Box{10, 160, 10, 190}, Frame::probe, false};
  setup.request.home = Home{{20, 100}, Frame::nozzle};
  const ExplainResult result = explain(Rig(setup));
  ASSERT_FALSE(result.remedies.empty());
  EXPECT_EQ(result.remedies.front().parameter, Remedy::Parameter::home);
  expect_works(result.remedies.front(), setup);
}

}  // namespace
}  // namespace leeway
