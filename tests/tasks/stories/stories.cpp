#include "tasks/stories/stories.h"

#include <algorithm>

#include "leeway/check.h"
#include "leeway/remarks.h"
#include "leeway/validate.h"
#include "tasks/stories/made_mistakes.h"
#include "tasks/stories/true_machine.h"

namespace leeway {
namespace {

enum class Outcome { unusable, fails, passes };

Outcome outcome_of(const Setup& setup) {
  if (!validate(setup).empty()) return Outcome::unusable;
  CheckOptions options;
  options.regions = RegionsWanted::none;
  const CheckResult result = check(Rig(setup), options);
  const std::vector<Remark> all = remarks(setup, result);
  const bool left_out = std::any_of(all.begin(), all.end(), [](const Remark& remark) {
    return remark.kind == RemarkKind::many_left_out;
  });
  return result.verdict == Verdict::reachable && !left_out ? Outcome::passes : Outcome::fails;
}

std::uint64_t number_of(const std::string& kind) {
  std::uint64_t number = 1469598103934665603u;
  for (const char c : kind) number = (number ^ static_cast<unsigned char>(c)) * 1099511628211u;
  return number;
}

std::optional<Story> too_much(Rolls& rolls) {
  Story story;
  story.truth = true_machine(rolls);
  story.truth.request = careless_request(story.truth, rolls);
  story.stated = story.truth;
  if (outcome_of(story.stated) != Outcome::fails) return std::nullopt;
  return story;
}

}  // namespace

bool fails(const Setup& setup) { return outcome_of(setup) == Outcome::fails; }

std::vector<std::string> story_kinds() {
  std::vector<std::string> kinds;
  for (const MadeMistake& made : made_mistakes()) kinds.push_back(made.kind);
  kinds.push_back(kTooMuch);
  return kinds;
}

std::optional<Story> story_of(const std::string& kind, std::uint64_t seed) {
  Rolls rolls(seed ^ number_of(kind));
  if (kind == kTooMuch) return too_much(rolls);
  for (const MadeMistake& made : made_mistakes()) {
    if (made.kind != kind) continue;
    Story story;
    story.truth = true_machine(rolls);
    story.truth.request = fitting_request(story.truth, rolls);
    if (outcome_of(story.truth) != Outcome::passes) return std::nullopt;
    story.stated = story.truth;
    if (!made.make(story.stated, rolls)) return std::nullopt;
    if (outcome_of(story.stated) != Outcome::fails) return std::nullopt;
    return story;
  }
  return std::nullopt;
}

std::vector<Story> stories_of(const std::string& kind, std::uint64_t from, std::size_t count,
                              std::uint64_t seeds) {
  std::vector<Story> stories;
  for (std::uint64_t seed = from; seed < from + seeds && stories.size() < count; ++seed) {
    if (auto story = story_of(kind, seed)) stories.push_back(std::move(*story));
  }
  return stories;
}

}  // namespace leeway
