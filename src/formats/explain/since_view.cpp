#include "formats/explain/since_view.h"

#include <fmt/format.h>

#include "formats/text/numbers.h"

namespace leeway {
namespace {

constexpr std::size_t kMostDifferences = 12;

// "5 of 25 points were not reachable"; `one` and `several` are forms of to be.
std::string state_words(std::size_t failing, std::size_t points, const char* one,
                        const char* several) {
  if (points == 0) return fmt::format("there {} no point", one);
  if (points == 1) return fmt::format("the point {} {}reachable", one, failing == 0 ? "" : "not ");
  if (failing == 0) return fmt::format("all {} points {} reachable", points, several);
  return fmt::format("{} of {} points {} not reachable", failing, points,
                     failing == 1 ? one : several);
}

}  // namespace

std::string changed_sentence(const ExplainResult& result, const Setup& setup) {
  if (!result.since) return "";
  const std::vector<SetupDifference> all = differences_between(result.since->before, setup);
  if (all.empty()) return "Nothing is changed but perhaps the name.";
  std::vector<std::string> parts;
  for (const SetupDifference& one : all) {
    if (parts.size() == kMostDifferences) {
      parts.push_back(fmt::format("{} more", all.size() - kMostDifferences));
      break;
    }
    parts.push_back(fmt::format("{} ({} -> {})", one.what, one.one, one.other));
  }
  return fmt::format("Changed: {}.", fmt::join(parts, "; "));
}

std::string did_sentence(const ExplainResult& result) {
  if (!result.since) return "";
  const ChangedSince& since = *result.since;
  const Counts& counts = result.check.counts;
  const std::string effect = since.repaired == 0 && since.broken == 0
                                 ? "That neither repaired nor broke a point"
                                 : fmt::format("That repaired {} and broke {}",
                                               counted(since.repaired, "point"), since.broken);
  return fmt::format("{}: before, {}; now {}.", effect,
                     state_words(since.failing, since.points, "was", "were"),
                     state_words(counts.marginal + counts.unreachable, counts.points, "is", "are"));
}

}  // namespace leeway
