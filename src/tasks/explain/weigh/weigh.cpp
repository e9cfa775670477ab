#include "tasks/explain/weigh/weigh.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "tasks/explain/effect.h"
#include "tasks/explain/hypotheses/mistake_table.h"
#include "tasks/explain/questions/observed.h"
#include "tasks/explain/questions/questions.h"
#include "tasks/explain/weigh/log_sum.h"
#include "tasks/explain/weigh/machine_likelihood.h"
#include "tasks/explain/weigh/request_likelihood.h"
#include "tasks/explain/weigh/tried.h"

namespace leeway {
namespace {

// People are less regular than the rules of thumb: what these say counts a little less. Chosen on
// stories, so that of what is called probable by so much, so much is right.
constexpr double kTrust = 0.6;

// A machine that nobody has may be one with a mistake that is not in the table.
constexpr double kLeastMachine = -45;

// What remedies less is no explanation; what remedies a part needs a second fault.
constexpr double kMostOf = 0.6;
constexpr double kSecondFault = 0.08;
// What somebody saw is so whether it remedies anything or not: too much is asked for besides as
// often as anyhow.
constexpr double kSeenBesides = 0.4;

// How many trials of a mistake are verified, and below which share of the best none is.
constexpr std::size_t kMostVerified = 30;
constexpr double kFarBelow = 11;

constexpr double kLeastShown = 0.02;

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
  std::size_t trial = 0;
  double request = 0;  // logarithm, if all of it were reachable
  double guess = 0;    // the same with all else that needs no trial
};

// All explanations of what is stated, against one another, after some answers.
struct Posterior {
  std::vector<MistakeFound> mistakes;  // each of them, best first
  double asked_too_much = 0;
};

class Weighing {
 public:
  Weighing(const Rig& rig, const CheckResult& checked, const std::vector<Observed>& observed,
           const std::vector<Answer>& answers, TriedTrials& trials)
      : rig_(rig), checked_(checked), observed_(observed), answers_(answers), trials_(trials) {
    failing_ = checked.counts.marginal + checked.counts.unreachable;
    // Where nothing else fails, it is what is left out that wants an explanation.
    contradicted_ = contradicted(answers, rig.setup());
    unexplained_ = count_unexplained(observed, rig) + contradicted_.size();
    by_observed_ = failing_ == 0 && unexplained_ > 0;
    by_skipped_ = failing_ == 0 && !by_observed_;
    if (by_skipped_ && !std::holds_alternative<Box>(rig.setup().machine.bed)) {
      // The corners of a grid round a disc: not quite a quarter of its points, and a few.
      const std::size_t all = checked.counts.points + checked.counts.skipped;
      usual_ = std::min(3 * all / 10, checked.counts.skipped - 1);
    }
  }

  Posterior run() {
    weigh_the_others();
    for (const Judged& judged : by_guess()) {
      if (judged.guess < best_ - kFarBelow) break;
      std::size_t& verified = verified_[trial_of(judged).mistake];
      if (verified >= kMostVerified || !trials_.in_mount(judged.trial)) continue;
      ++verified;
      if (const Tried* tried = trials_.tried(judged.trial)) take(judged, *tried);
    }
    return posterior();
  }

 private:
  const MistakeTrial& trial_of(const Judged& judged) const {
    return trials_.trials()[judged.trial];
  }

  void weigh_the_others() {
    const Setup& setup = rig_.setup();
    const double machine = log_machine(setup, Unknown::nothing);
    const double seen = log_agreement(answers_, setup) + log_observed(observed_, rig_);
    const double left_out = log_left_out(setup, checked_.counts.skipped) + seen;
    const double request = by_observed_ ? log_fitting_request(setup) : log_careless_request(setup);
    too_much_ = std::log(kPriorTooMuch) + machine + request + left_out;
    other_ = std::log(kPriorOther) + std::max(machine, kLeastMachine) + log_any_request(setup);
    if (!observed_.empty()) other_ += unexplained_ > 0 ? std::log(0.05) : 0;
    best_ = std::max(too_much_, other_);
  }

  double request_of(const Setup& changed) const {
    if (by_observed_) return log_fitting_request(rig_.setup());
    const double fitting = log_fitting_request(changed);
    return is_as_seen(changed) ? std::max(fitting, too_large_as_seen(changed)) : fitting;
  }

  // What was seen is so, and too much is asked for besides. Who has a wrong number may have asked
  // by it.
  double too_large_as_seen(const Setup& changed) const {
    return std::log(kSeenBesides) +
           std::max(log_careless_request(changed), log_careless_request(rig_.setup()));
  }

  std::vector<Judged> by_guess() const {
    std::vector<Judged> all;
    const std::vector<MistakeTrial>& trials = trials_.trials();
    for (std::size_t i = 0; i < trials.size(); ++i) {
      const MistakeTrial& trial = trials[i];
      if (!is_sound(trial.changed)) continue;
      const double prior = mistake_table()[static_cast<std::size_t>(trial.mistake)].prior;
      const double request = request_of(trial.changed);
      all.push_back({i, request,
                     std::log(prior * trial.weight) + log_machine(trial.changed, trial.unknown) +
                         request + log_agreement(answers_, trial.changed)});
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const Judged& a, const Judged& b) { return a.guess > b.guess; });
    return all;
  }

  // Where all points pass here, it is the controller that has another number: then what it does
  // counts, not which request would have been made of its numbers.
  void take_observed(const Judged& judged, const Tried& tried) {
    if (tried.unexplained + contradicted(answers_, trial_of(judged).changed).size() > 0) return;
    MistakeFound found;
    found.of = unexplained_;
    found.fixes = unexplained_;
    found.of_observed = true;
    note(judged, found, judged.guess + tried.log_observed);
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

  // Whether something was seen that contradicts what is stated, and would be so.
  bool is_as_seen(const Setup& changed) const {
    return !contradicted_.empty() && contradicted(answers_, changed).size() < contradicted_.size();
  }

  void take(const Judged& judged, const Tried& tried) {
    if (by_observed_) return take_observed(judged, tried);
    const MistakeTrial& trial = trial_of(judged);
    const std::size_t of = by_skipped_ ? checked_.counts.skipped - usual_ : failing_;
    const std::size_t still = still_failing(tried.counts);
    const double remedied = 1 - static_cast<double>(still) / static_cast<double>(of);
    const bool as_seen = is_as_seen(trial.changed);
    if ((still > of || remedied < kMostOf) && !as_seen) return;
    double score = judged.guess;
    if (still > 0) {
      score += (as_seen ? too_large_as_seen(trial.changed)
                        : std::log(kSecondFault) + log_careless_request(trial.changed)) -
               judged.request;
    }
    score += log_left_out(trial.changed, tried.counts.skipped) + tried.log_observed;
    MistakeFound found;
    found.of = of;
    found.fixes = of - std::min(of, still);
    found.of_left_out = by_skipped_;
    note(judged, found, score);
  }

  void note(const Judged& judged, MistakeFound found, double score) {
    const MistakeTrial& trial = trial_of(judged);
    best_ = std::max(best_, score);
    found.mistake = trial.mistake;
    const bool guessed = trial.mistake == Mistake::offset_elsewhere ||
                         trial.mistake == Mistake::travel_begins_at_zero;
    const auto [at, is_new] =
        sums_.try_emplace(trial.mistake, Sum{score, score, found, judged.trial, guessed});
    if (is_new) return;
    Sum& sum = at->second;
    sum.all = log_sum(sum.all, score);
    if (score <= sum.best) return;
    sum.best = score, sum.found = found, sum.trial = judged.trial, sum.guessed = guessed;
  }

  Posterior posterior() {
    double most = std::max(too_much_, other_);
    for (const auto& [mistake, sum] : sums_) most = std::max(most, sum.all);
    const auto share = [&](double score) { return std::exp(kTrust * (score - most)); };
    double whole = share(too_much_) + share(other_);
    for (const auto& [mistake, sum] : sums_) whole += share(sum.all);
    Posterior out;
    out.asked_too_much = share(too_much_) / whole;
    for (auto& [mistake, sum] : sums_) {
      const MistakeTrial& trial = trials_.trials()[sum.trial];
      sum.found.changes = trial.changes;
      sum.found.changed = trial.changed;
      sum.found.probability = share(sum.all) / whole;
      sum.found.likely = !sum.guessed && sum.found.probability >= MistakeFound::kLikely &&
                         out.asked_too_much <= most_too_much(mistake);
      out.mistakes.push_back(std::move(sum.found));
    }
    std::stable_sort(
        out.mistakes.begin(), out.mistakes.end(),
        [](const MistakeFound& a, const MistakeFound& b) { return a.probability > b.probability; });
    return out;
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
    std::size_t trial = 0;
    bool guessed = false;  // a request that is too large would account for it as well
  };

  const Rig& rig_;
  const CheckResult& checked_;
  const std::vector<Observed>& observed_;
  const std::vector<Answer>& answers_;
  TriedTrials& trials_;
  std::size_t failing_ = 0;
  bool by_skipped_ = false;
  std::vector<Contradicted> contradicted_;  // by the stated numbers
  std::size_t unexplained_ = 0;             // of what was seen and what the controller did, by them
  bool by_observed_ = false;
  std::size_t usual_ = 0;  // of the points left out, as many as a round bed explains
  double too_much_ = 0;
  double other_ = 0;
  double best_ = 0;
  std::map<Mistake, std::size_t> verified_;
  std::map<Mistake, Sum> sums_;
};

// Of what is shown: what it does point by point. Likely is said of what accounts for all of it.
void count_effect(const Rig& rig, const CheckResult& checked, MistakeFound& found) {
  if (!found.of_observed && !found.of_left_out) {
    const Effect effect = effect_of(rig, checked, rig.with(found.changed));
    found.fixes = effect.fixes;
    found.breaks = effect.breaks;
  }
  found.likely = found.likely && found.fixes == found.of && found.breaks == 0;
}

// What will be said after an answer: weighed in the same way.
PossibleAnswer possible_answer(Answer answer, const Posterior& then) {
  PossibleAnswer out{answer, std::nullopt, then.asked_too_much};
  if (then.mistakes.empty()) return out;
  const MistakeFound& first = then.mistakes.front();
  if (first.probability < kLeastShown || first.probability <= then.asked_too_much) return out;
  out.mistake = first.mistake;
  out.probability = first.probability;
  return out;
}

}  // namespace

Weighed weigh(const Rig& rig, const CheckResult& checked, const ExplainOptions& options,
              const BeforeTrial& before) {
  TriedTrials trials(rig, options.observed, before);
  const auto after = [&](const std::vector<Answer>& answers) {
    return Weighing(rig, checked, options.observed, answers, trials).run();
  };
  Posterior now = after(options.answers);
  Weighed out;
  out.asked_too_much = now.asked_too_much;
  std::vector<Explanation> explanations{{now.asked_too_much, &rig.setup()}};
  for (const MistakeFound& found : now.mistakes) {
    explanations.push_back({found.probability, &found.changed});
  }
  if (const auto kind = next_question(explanations, options.answers)) {
    out.question = Question{*kind, {}};
    for (const Answer answer : answers_to(*kind)) {
      std::vector<Answer> answers = options.answers;
      answers.push_back(answer);
      out.question->answers.push_back(possible_answer(answer, after(answers)));
    }
  }
  for (MistakeFound& found : now.mistakes) {
    const bool shown =
        found.probability >= kLeastShown && out.mistakes.size() < ExplainResult::kMostMistakes;
    if (!shown) break;
    count_effect(rig, checked, found);
    out.mistakes.push_back(std::move(found));
  }
  return out;
}

}  // namespace leeway
