#include "tasks/explain/weigh/weigh.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "leeway/validate.h"
#include "model/offsets/probe_beside.h"
#include "tasks/check/requested_points.h"
#include "tasks/explain/effect.h"
#include "tasks/explain/hypotheses/mistake_table.h"
#include "tasks/explain/questions/observed.h"
#include "tasks/explain/questions/questions.h"
#include "tasks/explain/weigh/log_sum.h"
#include "tasks/explain/weigh/machine_likelihood.h"
#include "tasks/explain/weigh/request_likelihood.h"

namespace leeway {
namespace {

// People are less regular than the rules of thumb: what these say counts a little less. Chosen on
// stories, so that of what is called probable by so much, so much is right.
constexpr double kTrust = 0.8;

// A machine that nobody has may be one with a mistake that is not in the table.
constexpr double kLeastMachine = -45;

// What remedies less is no explanation; what remedies a part needs a second fault.
constexpr double kMostOf = 0.6;
constexpr double kSecondFault = 0.08;

// How many trials of a mistake are verified, and below which share of the best none is.
constexpr std::size_t kMostVerified = 30;
constexpr double kFarBelow = 11;

constexpr double kLeastShown = 0.01;

// Whether a file could hold it: its grid is no wider than where it stands, its numbers not beyond
// what may be written.
bool is_sound(const Setup& setup) {
  if (!setup.request.grid) return true;
  const Grid& grid = *setup.request.grid;
  const Box box = grid_bounds(grid, setup.machine);
  return box.width() >= (grid.columns > 1 ? 1e-3 : 0) && box.depth() >= (grid.rows > 1 ? 1e-3 : 0);
}

// Grid points that are left out: on a round bed those at the corners, on others hardly any.
double log_left_out(const Setup& setup, std::size_t skipped) {
  if (skipped == 0 || !setup.request.grid) return 0;
  const double all = static_cast<double>(setup.request.grid->columns) * setup.request.grid->rows;
  const double share = static_cast<double>(skipped) / all;
  if (std::holds_alternative<Box>(setup.machine.bed)) return -3 - 12 * share;
  return share <= 0.45 ? 0 : -20 * (share - 0.45);
}

struct Judged {
  const MistakeTrial* trial = nullptr;
  double guess = 0;  // logarithm, if all of it were reachable
};

class Weighing {
 public:
  Weighing(const Rig& rig, const CheckResult& checked, const ExplainOptions& options,
           const BeforeTrial& before)
      : rig_(rig),
        checked_(checked),
        options_(options),
        before_(before),
        trials_(mistake_trials(rig.setup())) {
    failing_ = checked.counts.marginal + checked.counts.unreachable;
    // Where nothing else fails, it is what is left out that wants an explanation.
    unexplained_ = count_unexplained(rig);
    by_observed_ = failing_ == 0 && unexplained_ > 0;
    by_skipped_ = failing_ == 0 && !by_observed_;
    if (by_skipped_ && !std::holds_alternative<Box>(rig.setup().machine.bed)) {
      // The corners of a grid round a disc: not quite a quarter of its points, and a few.
      const std::size_t all = checked.counts.points + checked.counts.skipped;
      usual_ = std::min(3 * all / 10, checked.counts.skipped - 1);
    }
  }

  Weighed run() {
    weigh_the_others();
    for (const Judged& judged : by_guess()) {
      if (judged.guess < best_ - kFarBelow) break;
      verify(judged);
    }
    return found();
  }

 private:
  void weigh_the_others() {
    const Setup& setup = rig_.setup();
    const double machine = log_machine(setup, Unknown::nothing);
    const double left_out = log_left_out(setup, checked_.counts.skipped) + log_seen(rig_);
    const double request = by_observed_ ? log_fitting_request(setup) : log_careless_request(setup);
    too_much_ = std::log(kPriorTooMuch) + machine + request + left_out;
    other_ = std::log(kPriorOther) + std::max(machine, kLeastMachine) + log_any_request(setup);
    if (!options_.observed.empty()) other_ += unexplained_ > 0 ? std::log(0.05) : 0;
    best_ = std::max(too_much_, other_);
  }

  std::vector<Judged> by_guess() const {
    std::vector<Judged> all;
    for (const MistakeTrial& trial : trials_) {
      if (!is_sound(trial.changed)) continue;
      const double prior = mistake_table()[static_cast<std::size_t>(trial.mistake)].prior;
      all.push_back({&trial, std::log(prior * trial.weight) +
                                 log_machine(trial.changed, trial.unknown) +
                                 log_fitting_request(by_observed_ ? rig_.setup() : trial.changed)});
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const Judged& a, const Judged& b) { return a.guess > b.guess; });
    return all;
  }

  bool has_room(const Setup& changed) {
    const Point offset = changed.probe.offset;
    if (offset == rig_.setup().probe.offset) return true;
    if (!beside_) beside_.emplace(rig_);
    return beside_->has_room(offset);
  }

  void verify(const Judged& judged) {
    const MistakeTrial& trial = *judged.trial;
    std::size_t& verified = verified_[trial.mistake];
    if (verified >= kMostVerified || !has_room(trial.changed)) return;
    ++verified;
    before_();
    try {
      if (!validate(trial.changed).empty()) return;
      const Rig changed = rig_.with(trial.changed);
      take(judged, changed);
    } catch (const SetupTooDetailed&) {
    } catch (const InvalidSetup&) {
    }
  }

  std::size_t count_unexplained(const Rig& rig) const {
    return static_cast<std::size_t>(
        std::count_if(options_.observed.begin(), options_.observed.end(),
                      [&](const Observed& one) { return !explains(one, rig); }));
  }

  // What was looked at, and what the controller did, with these numbers.
  double log_seen(const Rig& rig) const {
    return log_agreement(options_.answers, rig.setup()) + log_observed(options_.observed, rig);
  }

  // Where all points pass here, it is the controller that has another number: then what it does
  // counts, not which request would have been made of its numbers.
  void take_observed(const Judged& judged, const Rig& changed) {
    const std::size_t still = count_unexplained(changed);
    if (still > 0) return;
    MistakeFound found;
    found.of = unexplained_;
    found.fixes = unexplained_;
    found.of_observed = true;
    note(judged, found, judged.guess + log_seen(changed));
  }

  // How many of the points are not reachable then; those newly left out count as such.
  std::size_t still_failing(const PointCounts& counts) const {
    if (by_skipped_) {
      return counts.failing + (counts.skipped > usual_ ? counts.skipped - usual_ : 0);
    }
    const std::size_t before = checked_.counts.skipped;
    const std::size_t more = counts.skipped > before ? counts.skipped - before : 0;
    return counts.points == 0 ? std::max<std::size_t>(counts.skipped, 1) : counts.failing + more;
  }

  void take(const Judged& judged, const Rig& changed) {
    if (by_observed_) return take_observed(judged, changed);
    const MistakeTrial& trial = *judged.trial;
    const PointCounts counts = count_points(changed.setup(), changed.limits());
    const std::size_t of = by_skipped_ ? checked_.counts.skipped - usual_ : failing_;
    const std::size_t still = still_failing(counts);
    const double remedied = 1 - static_cast<double>(still) / static_cast<double>(of);
    if (still > of || remedied < kMostOf) return;
    double score = judged.guess;
    if (still > 0) {
      score += std::log(kSecondFault) + log_careless_request(trial.changed) -
               log_fitting_request(trial.changed);
    }
    score += log_left_out(trial.changed, counts.skipped) + log_seen(changed);
    MistakeFound found;
    found.of = of;
    found.fixes = of - still;
    found.of_left_out = by_skipped_;
    note(judged, found, score);
  }

  void note(const Judged& judged, MistakeFound found, double score) {
    const MistakeTrial& trial = *judged.trial;
    best_ = std::max(best_, score);
    found.mistake = trial.mistake;
    found.changes = trial.changes;
    found.changed = trial.changed;
    const bool guessed = trial.mistake == Mistake::offset_elsewhere ||
                         trial.mistake == Mistake::travel_begins_at_zero;
    const auto [at, is_new] = sums_.try_emplace(trial.mistake, Sum{score, score, found, guessed});
    if (is_new) return;
    Sum& sum = at->second;
    sum.all = log_sum(sum.all, score);
    if (score > sum.best) sum.best = score, sum.found = found, sum.guessed = guessed;
  }

  Weighed found() {
    double most = std::max(too_much_, other_);
    for (const auto& [mistake, sum] : sums_) most = std::max(most, sum.all);
    const auto share = [&](double score) { return std::exp(kTrust * (score - most)); };
    double whole = share(too_much_) + share(other_);
    for (const auto& [mistake, sum] : sums_) whole += share(sum.all);
    Weighed out;
    out.asked_too_much = share(too_much_) / whole;
    std::vector<Explanation> explanations{{std::nullopt, out.asked_too_much, &rig_.setup()}};
    for (auto& [mistake, sum] : sums_) {
      sum.found.probability = share(sum.all) / whole;
      explanations.push_back({mistake, sum.found.probability, &sum.found.changed});
      sum.found.likely = !sum.guessed && sum.found.probability >= MistakeFound::kLikely &&
                         out.asked_too_much <= most_too_much(mistake);
      if (sum.found.probability >= kLeastShown) out.mistakes.push_back(sum.found);
    }
    out.question = next_question(explanations, options_.answers);
    std::stable_sort(
        out.mistakes.begin(), out.mistakes.end(),
        [](const MistakeFound& a, const MistakeFound& b) { return a.probability > b.probability; });
    if (out.mistakes.size() > ExplainResult::kMostMistakes) {
      out.mistakes.resize(ExplainResult::kMostMistakes);
    }
    for (MistakeFound& found : out.mistakes) count_effect(found);
    return out;
  }

  // Point by point, of what is shown only.
  void count_effect(MistakeFound& found) const {
    if (found.of_observed || found.of_left_out) return;
    const Effect effect = effect_of(rig_, checked_, rig_.with(found.changed));
    found.fixes = effect.fixes;
    found.breaks = effect.breaks;
  }

  // A wrong accusation costs an evening. What is ten times off must show by itself besides.
  static double most_too_much(Mistake mistake) {
    const bool of_scale = mistake == Mistake::inches || mistake == Mistake::decimal_point;
    return of_scale ? 0.01 : 0.03;
  }

  struct Sum {
    double all = 0;
    double best = 0;
    MistakeFound found;
    bool guessed = false;  // a request that is too large would account for it as well
  };

  const Rig& rig_;
  const CheckResult& checked_;
  const ExplainOptions& options_;
  const BeforeTrial& before_;
  std::vector<MistakeTrial> trials_;
  std::optional<ProbeBeside> beside_;
  std::size_t failing_ = 0;
  bool by_skipped_ = false;
  std::size_t unexplained_ = 0;  // of what the controller did, by the stated numbers
  bool by_observed_ = false;
  std::size_t usual_ = 0;  // of the points left out, as many as a round bed explains
  double too_much_ = 0;
  double other_ = 0;
  double best_ = 0;
  std::map<Mistake, std::size_t> verified_;
  std::map<Mistake, Sum> sums_;
};

}  // namespace

Weighed weigh(const Rig& rig, const CheckResult& checked, const ExplainOptions& options,
              const BeforeTrial& before) {
  return Weighing(rig, checked, options, before).run();
}

}  // namespace leeway
