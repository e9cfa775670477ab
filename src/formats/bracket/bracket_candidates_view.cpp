#include "formats/bracket/bracket_view.h"

#include <fmt/format.h>

#include "formats/text/numbers.h"
#include "formats/write/failures.h"

namespace leeway {
namespace {

std::string strips_cell(const UncoveredStrips& uncovered) {
  return fmt::format("{} / {} / {} / {}", decimal(uncovered.left), decimal(uncovered.right),
                     decimal(uncovered.front), decimal(uncovered.back));
}

// "26 would be the most".
std::string most_of(const RankedCandidate& ranked) {
  if (ranked.most == ranked.at_most) return fmt::format("{} would be the most", ranked.most);
  return fmt::format("{} would do, and perhaps {}", ranked.most, ranked.at_most);
}

std::string missed_words(const CheckResult& checked, const Setup& setup, const Words& words) {
  const std::vector<FailureGroup> groups = failure_groups(checked, setup, words);
  std::vector<std::string> names;
  for (const FailureGroup& group : groups) {
    if (names.size() == kMostOutOfReachShown) {
      names.push_back(fmt::format("{} more", groups.size() - names.size()));
      break;
    }
    names.push_back(group.who);
  }
  return joined(names);
}

}  // namespace

std::string full_name(const Candidate& candidate) {
  const bool same = !candidate.probe || candidate.probe->name == candidate.name;
  return same ? candidate.name : candidate.name + ", " + candidate.probe->name;
}

std::vector<std::string> missed_names(const CandidateCover& cover, const Setup& setup) {
  std::vector<std::string> names;
  for (const CheckedPoint& point : cover.checked.points) {
    if (point.finding.verdict == Verdict::reachable) continue;
    names.push_back(point_name(setup, point));
  }
  return names;
}

std::vector<CandidateRow> BracketView::candidates() const {
  std::vector<CandidateRow> rows;
  for (const RankedCandidate& ranked : report_.candidates) {
    for (std::size_t s = 0; s < ranked.covers.size(); ++s) {
      const CandidateCover& cover = ranked.covers[s];
      std::string points = fmt::format("{} of {}", cover.points - cover.failing, cover.points);
      if (!cover.mount.empty()) points += fmt::format("; the mount: {}", style_(cover.mount));
      std::string mesh = "none";
      if (cover.mesh) {
        const Box& b = cover.mesh->bounds;
        mesh = fmt::format("x {} to {}, y {} to {}", decimal(b.x0), decimal(b.x1), decimal(b.y0),
                           decimal(b.y1));
      }
      rows.push_back({std::to_string(ranked.rank), style_(full_name(ranked.candidate)),
                      pair(ranked.candidate.offset), setup_name(s), share_text(cover.share),
                      strips_cell(cover.uncovered), mesh,
                      cover.leeway ? signed_amount(*cover.leeway) : "-", points});
    }
  }
  return rows;
}

std::vector<std::string> BracketView::misses() const {
  std::vector<std::string> out;
  const bool several = report_.setups.size() > 1;
  for (const RankedCandidate& ranked : report_.candidates) {
    for (std::size_t s = 0; s < ranked.covers.size(); ++s) {
      const CandidateCover& cover = ranked.covers[s];
      if (cover.failing == 0) continue;
      const Words words(report_.window->rigs[s], style_);
      out.push_back(fmt::format("{}{}: {} of {}{}; not {}.", style_(full_name(ranked.candidate)),
                                at_setup(s), cover.points - cover.failing, cover.points,
                                several ? "" : ", " + most_of(ranked),
                                missed_words(cover.checked, report_.setups[s], words)));
    }
  }
  return out;
}

std::vector<std::string> BracketView::ties() const {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < report_.candidates.size();) {
    std::vector<std::string> names;
    const std::size_t rank = report_.candidates[i].rank;
    for (; i < report_.candidates.size() && report_.candidates[i].rank == rank; ++i) {
      names.push_back(style_(full_name(report_.candidates[i].candidate)));
    }
    if (names.size() > 1) {
      out.push_back(fmt::format("{} tie for rank {}.", joined(names), rank));
    }
  }
  return out;
}

}  // namespace leeway
