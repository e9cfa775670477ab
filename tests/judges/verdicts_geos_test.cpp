// The verdicts against GEOS (https://libgeos.org) on random setups: every limit of every point is
// held against shapes that are placed and measured, with nothing of ours in between.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "judges/complaints.h"
#include "judges/geos_judge.h"
#include "judges/random_points.h"
#include "judges/random_setup.h"
#include "judges/run.h"
#include "leeway/limits.h"

namespace leeway::judges {
namespace {

constexpr std::size_t kPoints = 40;
constexpr std::size_t kNearPoints = 10;
// One reachable point in so many is held against an offset that is off.
constexpr std::size_t kSlipEvery = 3;
// Half a step of rounding (limits.h), and what sums of decimals lose.
constexpr double kRounding_mm = 0.5e-6 + 1e-9;
constexpr double kNone = std::numeric_limits<double>::infinity();

std::string text(Point p) { return fmt::format("({}, {})", p.x, p.y); }

// The bed's and the travel's limits answer together, as one demand of the judge.
bool belongs(const LimitInfo& limit, const Demand& demand) {
  return limit.group == demand.group && limit.part == demand.part &&
         limit.obstacle == demand.obstacle;
}

class Comparison {
 public:
  explicit Comparison(const CaseRange& run)
      : unsafe("no limit with leeway >= 0 is broken by the placed shapes", run),
        harsh("no limit with leeway < 0 is kept by the placed shapes", run),
        wrong_amount("a leeway is the measured distance less the wanted one", run),
        wrong_verdict("the verdict follows from the limits", run),
        faults("the program has no fault of its own", run),
        slipped("a reachable point stays within its limits when the offset is off", run) {}

  static Setup setup_of(std::uint64_t seed) { return random_setup(seed); }

  void look_at(std::uint64_t index, std::uint64_t seed) {
    Random random(seed);
    const Setup setup = setup_of(seed);
    index_ = index;
    setup_ = &setup;
    const Limits limits(setup);
    limits_ = &limits;
    GeosJudge judge(setup);
    judge_ = &judge;
    match_demands();

    std::vector<Point> points = random_points(setup, random, kPoints);
    const auto inside = [&](Point p) { return limits.evaluate(p).verdict != Verdict::unreachable; };
    const auto near = points_near_change(points, inside, random, kNearPoints);
    points.insert(points.end(), near.begin(), near.end());
    std::vector<Finding> findings(points.size());
    limits.evaluate(points, findings);
    for (std::size_t i = 0; i < points.size(); ++i)
      look_at(points[i], findings[i], (index + i) % kSlipEvery == 0);
    ++setups;
  }

  Complaints unsafe;
  Complaints harsh;
  Complaints wrong_amount;
  Complaints wrong_verdict;
  Complaints faults;
  Complaints slipped;
  std::size_t setups = 0;
  std::size_t points_seen = 0;
  std::size_t allowed = 0;
  std::size_t rooms_seen = 0;
  std::size_t doubtful = 0;
  std::size_t amounts = 0;
  std::size_t errors = 0;
  double worst_amount = 0;

 private:
  void match_demands() {
    const auto& demands = judge_->demands({});
    demand_of_.clear();
    for (std::size_t i = 0; i < limits_->size(); ++i) {
      const auto at = std::find_if(demands.begin(), demands.end(),
                                   [&](const Demand& r) { return belongs(limits_->info(i), r); });
      if (at == demands.end()) {
        wrong_verdict.add(index_, *setup_, "the judge knows no demand " + limits_->info(i).name);
        demand_of_.push_back(demands.size());
        continue;
      }
      demand_of_.push_back(static_cast<std::size_t>(at - demands.begin()));
    }
  }

  // The least leeway of each demand's limits; infinite where the model has no such limit.
  std::vector<double> leeways(Point p, double& least, double& least_after_guard) const {
    std::vector<double> of(judge_->demands(p).size() + 1, kNone);
    least = least_after_guard = kNone;
    for (std::size_t i = 0; i < limits_->size(); ++i) {
      const LimitReading r = limits_->reading(i, p);
      double& mine = of[demand_of_[i]];
      mine = std::min(mine, r.leeway);
      least = std::min(least, r.leeway);
      least_after_guard = std::min(least_after_guard, r.leeway - r.guard);
    }
    return of;
  }

  void look_at(Point p, const Finding& finding, bool with_error) {
    ++points_seen;
    double least = 0;
    double least_after_guard = 0;
    const std::vector<double> model = leeways(p, least, least_after_guard);
    const std::vector<Demand>& demands = judge_->demands(p);
    for (std::size_t i = 0; i < demands.size(); ++i) compare(p, model[i], demands[i]);
    const Verdict expected = least < 0               ? Verdict::unreachable
                             : least_after_guard < 0 ? Verdict::marginal
                                                     : Verdict::reachable;
    const LimitReading reason = limits_->reading(finding.limit, p);
    const double decisive =
        least < 0 ? finding.leeway - least : finding.leeway - finding.guard - least_after_guard;
    if (finding.verdict != expected || finding.leeway != reason.leeway ||
        finding.guard != reason.guard || !(std::abs(decisive) < 1e-9 || least == -kNone)) {
      wrong_verdict.add(
          index_, *setup_,
          fmt::format("at {}: {} with {} {} +- {}, the limits say {}, {} +- {}", text(p),
                      word(finding.verdict), limits_->info(finding.limit).name, finding.leeway,
                      finding.guard, word(expected), reason.leeway, reason.guard));
    }
    if (finding.verdict != Verdict::unreachable) ++allowed;
    if (finding.verdict == Verdict::reachable && with_error) move_by_error(p);
  }

  void compare(Point p, double leeway, const Demand& demand) {
    ++rooms_seen;
    const auto what = [&] {
      return fmt::format("at {}: {} {} {} leeway {}, placed shapes leave {}{}", text(p),
                         static_cast<int>(demand.group), demand.part, demand.obstacle, leeway,
                         demand.exact ? "" : "about ", demand.mm);
    };
    if (std::abs(demand.mm) <= kDoubt_mm) {
      ++doubtful;
    } else if (leeway >= 0 && demand.mm < 0) {
      unsafe.add(index_, *setup_, what());
    } else if (leeway < 0 && demand.mm > 0) {
      harsh.add(index_, *setup_, what());
    }
    if (demand.exact && leeway != -kNone && !exact_fit(leeway, demand)) {
      ++amounts;
      const double off = std::abs(leeway - demand.mm);
      worst_amount = std::max(worst_amount, off);
      if (off > kRounding_mm) wrong_amount.add(index_, *setup_, what());
    }
  }

  // A slot exactly as wide as what has to pass it is closed to the model, which then measures to
  // where it is open: less than what the touching shapes leave, never more.
  static bool exact_fit(double leeway, const Demand& demand) {
    return std::abs(demand.mm + demand.wanted) <= kDoubt_mm && leeway < demand.mm;
  }

  // The offset may be off by the expanded uncertainty in any direction. On a round bed the guard
  // is of the first order: the rim turns away by (shift)^2 / (2 r), with r at least half the
  // bed's radius where the rim can matter.
  void move_by_error(Point p) {
    const Point u = setup_->probe.offset_uncertainty;
    if (u.x == 0 && u.y == 0) return;
    for (int i = 0; i < 8; ++i) {
      const double turn = i * std::numbers::pi / 4;
      const Point by = setup_->coverage_factor * Point{u.x * std::cos(turn), u.y * std::sin(turn)};
      const auto* bed = std::get_if<Disc>(&setup_->machine.bed);
      const double second = bed ? (by.x * by.x + by.y * by.y) / bed->radius : 0;
      ++errors;
      for (const Demand& demand : judge_->demands(p, by)) {
        const double allowed_loss = kDoubt_mm + (demand.group == LimitGroup::bed ? second : 0);
        if (demand.mm >= -allowed_loss) continue;
        slipped.add(
            index_, *setup_,
            fmt::format("at {} moved by {}: {} {} {} has {}", text(p), text(by),
                        static_cast<int>(demand.group), demand.part, demand.obstacle, demand.mm));
      }
    }
  }

  std::uint64_t index_ = 0;
  const Setup* setup_ = nullptr;
  const Limits* limits_ = nullptr;
  GeosJudge* judge_ = nullptr;
  std::vector<std::size_t> demand_of_;  // of each limit, an index into the judge's demands
};

TEST(VerdictsAgainstGeos, AgreeWithShapesThatArePlacedAndMeasured) {
  const CaseRange run = cases_to_look_at();
  Comparison c(run);
  std::size_t too_detailed = 0;
  for (std::uint64_t i = run.first; i < run.end; ++i) {
    try {
      c.look_at(i, seed_of_case(run.seed, i));
    } catch (const SetupTooDetailed&) {
      ++too_detailed;
    } catch (const OverlayFault& fault) {
      c.faults.add(i, c.setup_of(seed_of_case(run.seed, i)), fault.what());
    }
  }
  fmt::print(
      "seed {}, cases {} to {}: {} setups ({} too detailed), {} points ({} not unreachable), {} "
      "limits compared ({} within {} mm of the boundary), {} amounts (worst {:.2g} mm off), {} "
      "errors of the offset\nunsafe {}, harsh {}, wrong amounts {}, wrong verdicts {}, faults {}, "
      "slipped {}\n",
      run.seed, run.first, run.end, c.setups, too_detailed, c.points_seen, c.allowed, c.rooms_seen,
      c.doubtful, kDoubt_mm, c.amounts, c.worst_amount, c.errors, c.unsafe.count(), c.harsh.count(),
      c.wrong_amount.count(), c.wrong_verdict.count(), c.faults.count(), c.slipped.count());
  EXPECT_EQ(c.unsafe.count(), 0u);
  EXPECT_EQ(c.harsh.count(), 0u);
  EXPECT_EQ(c.wrong_amount.count(), 0u);
  EXPECT_EQ(c.wrong_verdict.count(), 0u);
  EXPECT_EQ(c.faults.count(), 0u);
  EXPECT_EQ(c.slipped.count(), 0u);
  EXPECT_LE(too_detailed * 100, run.end - run.first);
  EXPECT_GT(c.setups + too_detailed, 0u);
}

// How many obstacle limits of `model` the judge of `truth` finds to be off by more than rounding.
std::size_t wrong_amounts(const Setup& model, const Setup& truth, Random& random) {
  const Limits limits(model);
  GeosJudge judge(truth);
  std::size_t wrong = 0;
  for (const Point& p : random_points(truth, random, 10)) {
    const auto& demands = judge.demands(p);
    for (std::size_t i = 0; i < limits.size(); ++i) {
      if (limits.info(i).group != LimitGroup::obstacle) continue;
      const auto demand = std::find_if(demands.begin(), demands.end(),
                                       [&](const Demand& r) { return belongs(limits.info(i), r); });
      const bool off = std::abs(limits.reading(i, p).leeway - demand->mm) > kRounding_mm;
      if (demand->exact && demand->mm > kDoubt_mm && off) ++wrong;
    }
  }
  return wrong;
}

TEST(VerdictsAgainstGeos, WouldNoticeAnErrorOfTwoMillionths) {
  Random random(cases_to_look_at().seed);
  std::size_t unchanged = 0;
  std::size_t changed = 0;
  for (int i = 0; i < 50; ++i) {
    const leeway::Setup truth = random_setup(random.bits());
    leeway::Setup model = truth;
    unchanged += wrong_amounts(model, truth, random);
    for (Obstacle& o : model.machine.obstacles) o.clearance += 2e-6;
    changed += wrong_amounts(model, truth, random);
  }
  EXPECT_EQ(unchanged, 0u);
  EXPECT_GT(changed, 100u);
}

}  // namespace
}  // namespace leeway::judges
