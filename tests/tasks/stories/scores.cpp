#include "tasks/stories/scores.h"

#include <algorithm>
#include <cstdio>

#include "tasks/explain/hypotheses/mistake_table.h"
#include "tasks/stories/twins.h"

namespace leeway {
namespace {

ExplainResult guesses(const Setup& stated) {
  ExplainOptions options;
  options.remedies = false;
  return explain(Rig(stated), options);
}

// How often a kind is met, in the measure of the priors.
double prior_of(const std::string& kind) {
  for (const MistakeRow& row : mistake_table()) {
    if (kind == row.word) return row.prior;
  }
  return kPriorTooMuch;
}

void count_statement(double probability, bool right, double weight, Scores& scores) {
  const int tenth = std::clamp(static_cast<int>(probability * 10), 0, 9);
  Reliability& reliability = scores.tenths[static_cast<std::size_t>(tenth)];
  ++reliability.statements;
  reliability.weight += weight;
  reliability.right += right ? weight : 0;
  reliability.stated += weight * probability;
  const double off = probability - (right ? 1 : 0);
  scores.squares += weight * off * off;
}

void count(const ExplainResult& result, bool twin, double weight, KindScore& score,
           Scores& scores) {
  ++score.stories;
  const auto is_true = [&](const MistakeFound& m) { return score.kind == word(m.mistake); };
  const std::vector<MistakeFound>& found = result.mistakes;
  const bool is_first = !found.empty() && is_true(found.front());
  const double first = found.empty() ? 0 : found.front().probability;
  const bool too_much = score.kind == kTooMuch;
  if (!found.empty() && found.front().likely) {
    ++score.likely;
    score.likely_right += is_first;
  }
  if (twin) return;
  ++score.told;
  const bool guessed_too_much = result.asked_too_much >= first;
  score.best += too_much ? guessed_too_much : is_first && !guessed_too_much;
  score.first += too_much ? guessed_too_much : is_first;
  score.shown += too_much || std::any_of(found.begin(), found.end(), is_true);
  for (const MistakeFound& m : found) count_statement(m.probability, is_true(m), weight, scores);
  count_statement(result.asked_too_much, too_much, weight, scores);
}

}  // namespace

Scores scores_of(std::uint64_t from, std::size_t each) {
  Scores scores;
  for (const std::string& kind : story_kinds()) {
    KindScore score;
    score.kind = kind;
    const std::vector<Story> stories = stories_of(kind, from, each);
    const double weight = prior_of(kind) / static_cast<double>(stories.size());
    for (const Story& story : stories) {
      const bool twin = kind != kTooMuch && has_twin(kind, story);
      count(guesses(story.stated), twin, weight, score, scores);
    }
    scores.kinds.push_back(score);
  }
  return scores;
}

KindScore in_all(const Scores& scores) {
  KindScore all;
  all.kind = "all mistakes";
  for (const KindScore& kind : scores.kinds) {
    if (kind.kind == kTooMuch) continue;
    all.stories += kind.stories;
    all.told += kind.told;
    all.first += kind.first;
    all.best += kind.best;
    all.shown += kind.shown;
    all.likely += kind.likely;
    all.likely_right += kind.likely_right;
  }
  return all;
}

std::string table_of(const Scores& scores) {
  std::string out =
      "kind                                      n  told   best  first  shown  likely  right\n";
  const auto line = [&](const KindScore& k) {
    const auto share = [&](int part, int of) { return of == 0 ? 0.0 : 100.0 * part / of; };
    char text[160];
    std::snprintf(text, sizeof text, "%-37s %5d %5d  %4.0f%%  %4.0f%%  %4.0f%%  %6d  %4.0f%%\n",
                  k.kind.c_str(), k.stories, k.told, share(k.best, k.told), share(k.first, k.told),
                  share(k.shown, k.told), k.likely, share(k.likely_right, k.likely));
    out += text;
  };
  for (const KindScore& kind : scores.kinds) line(kind);
  line(in_all(scores));
  return out;
}

std::string reliability_of(const Scores& scores) {
  std::string out = "stated     n  mean  right\n";
  double weight = 0;
  for (std::size_t i = 0; i < scores.tenths.size(); ++i) {
    const Reliability& r = scores.tenths[i];
    weight += r.weight;
    if (r.statements == 0) continue;
    char text[120];
    std::snprintf(text, sizeof text, "%.1f-%.1f %5d  %.2f   %.2f\n", 0.1 * static_cast<double>(i),
                  0.1 * static_cast<double>(i + 1), r.statements, r.stated / r.weight,
                  r.right / r.weight);
    out += text;
  }
  char text[80];
  std::snprintf(text, sizeof text, "Brier's score %.4f\n",
                weight > 0 ? scores.squares / weight : 0);
  return out + text;
}

}  // namespace leeway
