#include "formats/explain/since_view.h"

#include <fmt/format.h>

#include "formats/text/numbers.h"

namespace leeway {
namespace {

constexpr std::size_t kMostDifferences = 12;

std::string failing_words(std::size_t failing, std::size_t points) {
  return fmt::format("{} of {}", failing, counted(points, "point"));
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
  return fmt::format("{}: before, {} {} not reachable; now {}.", effect,
                     failing_words(since.failing, since.points),
                     since.failing == 1 ? "was" : "were",
                     failing_words(counts.marginal + counts.unreachable, counts.points));
}

}  // namespace leeway
