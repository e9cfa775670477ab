#include "tasks/stories/scores.h"

#include <algorithm>
#include <cstdio>

namespace leeway {
namespace {

ExplainResult guesses(const Setup& stated) {
  ExplainOptions options;
  options.remedies = false;
  return explain(Rig(stated), options);
}

void count(const ExplainResult& result, KindScore& score) {
  ++score.stories;
  const auto is_true = [&](const MistakeFound& m) { return score.kind == word(m.mistake); };
  const std::vector<MistakeFound>& found = result.mistakes;
  const bool first = !found.empty() && is_true(found.front());
  score.first += first;
  score.shown += std::any_of(found.begin(), found.end(), is_true);
  if (found.empty() || !found.front().likely) return;
  ++score.likely;
  score.likely_right += first;
}

}  // namespace

Scores scores_of(std::uint64_t from, std::size_t each) {
  Scores scores;
  for (const std::string& kind : story_kinds()) {
    KindScore score;
    score.kind = kind;
    for (const Story& story : stories_of(kind, from, each)) count(guesses(story.stated), score);
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
    all.first += kind.first;
    all.shown += kind.shown;
    all.likely += kind.likely;
    all.likely_right += kind.likely_right;
  }
  return all;
}

std::string table_of(const Scores& scores) {
  std::string out = "kind                                      n  first  shown  likely  right\n";
  const auto line = [&](const KindScore& k) {
    const auto share = [&](int part, int of) { return of == 0 ? 0.0 : 100.0 * part / of; };
    char text[160];
    std::snprintf(text, sizeof text, "%-37s %5d  %4.0f%%  %4.0f%%  %6d  %4.0f%%\n", k.kind.c_str(),
                  k.stories, share(k.first, k.stories), share(k.shown, k.stories), k.likely,
                  share(k.likely_right, k.likely));
    out += text;
  };
  for (const KindScore& kind : scores.kinds) line(kind);
  line(in_all(scores));
  return out;
}

}  // namespace leeway
