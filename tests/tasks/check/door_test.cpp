// Every public call refuses a setup that is not valid.

#include <gtest/gtest.h>

#include "leeway/bracket.h"
#include "leeway/candidates.h"
#include "leeway/coverage_map.h"
#include "leeway/explain.h"
#include "leeway/fit.h"
#include "leeway/validate.h"
#include "model/every_number.h"

namespace leeway {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr double kInf = std::numeric_limits<double>::infinity();

void expect_refused(const Setup& setup, const Limits& sound_limits, const std::string& what) {
  const std::vector<leeway::Setup> setups{setup};
  const std::vector<Candidate> candidates{{"side", {-38.5, 12}}};
  EXPECT_THROW(check(Rig(setup, sound_limits)), InvalidSetup) << what;
  EXPECT_THROW(fit(setup), InvalidSetup) << what;
  EXPECT_THROW(explain(Rig(setup, sound_limits)), InvalidSetup) << what;
  EXPECT_THROW(bracket(setups), InvalidSetup) << what;
  EXPECT_THROW(rank_candidates(setups, candidates), InvalidSetup) << what;
  EXPECT_THROW(coverage_map(setup, {-40, -30, 2}, {10, 20, 2}), InvalidSetup) << what;
}

TEST(Door, NoNumberThatIsNonePasses) {
  const Limits limits(full_setup());
  for (const SetupNumber& number : every_number()) {
    for (const double bad : {kNan, kInf, -kInf}) {
      if (bad == kInf && number.place == "machine.obstacles[1].height") continue;
      leeway::Setup setup = full_setup();
      number.in(setup) = bad;
      expect_refused(setup, limits, number.place);
    }
  }
}

TEST(Door, ASetupWithoutAMachineDoesNotPass) {
  const Limits limits(full_setup());
  expect_refused(leeway::Setup{}, limits, "a default setup");
  leeway::Setup setup = full_setup();
  setup.machine.bed = polygon({{0, 0}, {200, 200}, {200, 0}, {0, 200}});
  expect_refused(setup, limits, "a bed that crosses itself");
}

TEST(Door, CandidatesAreNumbersToo) {
  const std::vector<leeway::Setup> setups{full_setup()};
  EXPECT_THROW(rank_candidates(setups, {{"lost", {kNan, 0}}}), InvalidSetup);
  EXPECT_THROW(rank_candidates(setups, {{"lost", {0, kInf}}}), InvalidSetup);
}

TEST(Door, OffsetsToLookAtAreNumbersToo) {
  EXPECT_THROW(coverage_map(full_setup(), {kNan, 1, 2}, {0, 1, 2}), BracketRefused);
  EXPECT_THROW(coverage_map(full_setup(), {0, 1, 2}, {0, kInf, 2}), BracketRefused);
  EXPECT_THROW(coverage_map(full_setup(), {0, 1, 0}, {0, 1, 2}), BracketRefused);
  EXPECT_THROW(coverage_map(full_setup(), {0, 1, 3000}, {0, 1, 3000}), BracketRefused);
}

TEST(Door, OptionsOfFitAreNumbersToo) {
  FitOptions options;
  options.within = Box{kNan, 100, 0, 100};
  EXPECT_THROW(fit(full_setup(), options), FitRefused);
  options = {};
  options.step = kNan;
  EXPECT_THROW(fit(full_setup(), options), FitRefused);
  options = {};
  options.spacing = kNan;
  EXPECT_THROW(fit(full_setup(), options), FitRefused);
  options = {};
  options.sides.left = kNan;
  EXPECT_THROW(fit(full_setup(), options), FitRefused);
  options = {};
  options.home_leeway = kNan;
  EXPECT_THROW(fit(full_setup(), options), FitRefused);
}

TEST(Door, WhatPassedWorks) {
  const leeway::Setup setup = full_setup();
  const Limits limits(setup);
  EXPECT_GT(check(Rig(setup, limits)).counts.reachable, 0u);
  // Trials inside may leave the ranges of a setup; the call does not trip over them.
  const std::vector<leeway::Setup> setups{setup};
  EXPECT_EQ(rank_candidates(setups, {{"far", {1e6, -1e6}}}).size(), 1u);
  EXPECT_NO_THROW(explain(Rig(setup, limits)));
}

}  // namespace
}  // namespace leeway
