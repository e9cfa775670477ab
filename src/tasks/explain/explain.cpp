#include "leeway/explain.h"

#include <algorithm>
#include <map>

#include "leeway/remarks.h"
#include "tasks/check/trusted_check.h"
#include "tasks/explain/effect.h"
#include "tasks/explain/explain_remedies.h"
#include "tasks/explain/questions/observed.h"
#include "tasks/explain/questions/questions.h"
#include "tasks/explain/weigh/weigh.h"
#include "tasks/go_on.h"

namespace leeway {
namespace {

double shortfall(const Finding& finding) {
  return finding.leeway < 0 ? -finding.leeway : finding.guard - finding.leeway;
}

std::vector<FailingGroup> groups_of(const CheckResult& checked) {
  std::map<std::uint32_t, FailingGroup> groups;
  for (std::size_t i = 0; i < checked.points.size(); ++i) {
    const Finding& finding = checked.points[i].finding;
    if (finding.verdict == Verdict::reachable) continue;
    FailingGroup& group = groups[finding.limit];
    group.limit = finding.limit;
    group.points.push_back(i);
    group.largest_shortfall = std::max(group.largest_shortfall, shortfall(finding));
  }
  std::vector<FailingGroup> out;
  for (auto& [limit, group] : groups) {
    std::stable_sort(group.points.begin(), group.points.end(), [&](std::size_t a, std::size_t b) {
      return shortfall(checked.points[a].finding) > shortfall(checked.points[b].finding);
    });
    out.push_back(std::move(group));
  }
  std::stable_sort(out.begin(), out.end(), [](const FailingGroup& a, const FailingGroup& b) {
    return a.largest_shortfall > b.largest_shortfall;
  });
  return out;
}

std::vector<std::size_t> tightest_points(const CheckResult& checked) {
  std::vector<std::size_t> points;
  for (std::size_t i = 0; i < checked.points.size(); ++i) points.push_back(i);
  const auto spare = [&](std::size_t i) {
    const Finding& finding = checked.points[i].finding;
    return finding.leeway - finding.guard;
  };
  const std::size_t shown = std::min<std::size_t>(3, points.size());
  std::partial_sort(points.begin(), points.begin() + static_cast<std::ptrdiff_t>(shown),
                    points.end(), [&](std::size_t a, std::size_t b) {
                      return spare(a) != spare(b) ? spare(a) < spare(b) : a < b;
                    });
  points.resize(shown);
  return points;
}

// A grid that leaves out more of its points than the bed's shape explains hides what fails.
bool leaves_out_too_many(const Setup& setup, const CheckResult& checked) {
  const std::vector<Remark> all = remarks(setup, checked);
  return std::any_of(all.begin(), all.end(),
                     [](const Remark& remark) { return remark.kind == RemarkKind::many_left_out; });
}

ChangedSince changed_since(const Setup& before, const Rig& rig) {
  const Rig stated(before);
  CheckOptions checking;
  checking.regions = RegionsWanted::none;
  const CheckResult checked = check(stated, checking);
  const Effect effect = effect_of(stated, checked, rig);
  return {before, checked.counts.points, checked.counts.marginal + checked.counts.unreachable,
          effect.fixes, effect.breaks};
}

// What is said twice is known once.
ExplainOptions seen_once(ExplainOptions options, const Setup& setup) {
  const auto known = [](auto& all, const auto& same) {
    for (auto one = all.begin(); one != all.end();) {
      const bool before = std::any_of(all.begin(), one, [&](auto& o) { return same(o, *one); });
      one = before ? all.erase(one) : one + 1;
    }
  };
  known(options.answers, [](Answer a, Answer b) { return a == b; });
  known(options.observed, [&](const Observed& a, const Observed& b) {
    return sent_to(a, setup) == sent_to(b, setup);
  });
  return options;
}

}  // namespace

const char* word(Remedy::Parameter parameter) {
  switch (parameter) {
    case Remedy::Parameter::one_side:
      return "one side";
    case Remedy::Parameter::margins:
      return "margins";
    case Remedy::Parameter::bounds:
      return "bounds";
    case Remedy::Parameter::offset:
      return "offset";
    case Remedy::Parameter::travel:
      return "travel";
    case Remedy::Parameter::fewer_points:
      return "fewer points";
    case Remedy::Parameter::home:
      return "home";
    case Remedy::Parameter::offset_uncertainty:
      return "uncertainty of the offset";
    case Remedy::Parameter::bed:
      return "bed";
    case Remedy::Parameter::edge_distance:
      break;
  }
  return "edge distance";
}

ExplainResult explain(const Rig& rig, const ExplainOptions& asked) {
  require_valid(rig.setup());
  const ExplainOptions options = seen_once(asked, rig.setup());
  ExplainResult result;
  CheckOptions checking;
  checking.regions = RegionsWanted::empty;
  result.check = check_trusted(rig, checking);
  result.groups = groups_of(result.check);
  if (options.before) result.since = changed_since(*options.before, rig);
  result.contradicted = contradicted(options.answers, rig.setup());
  if (result.groups.empty()) {
    result.tightest = tightest_points(result.check);
    const bool as_seen =
        result.contradicted.empty() && count_unexplained(options.observed, rig) == 0;
    if (as_seen && !leaves_out_too_many(rig.setup(), result.check)) return result;
  }
  const BeforeTrial before = [&] { go_on(options.progress); };
  Weighed weighed = weigh(rig, result.check, options, before);
  result.mistakes = std::move(weighed.mistakes);
  result.asked_too_much = weighed.asked_too_much;
  result.question = std::move(weighed.question);
  const bool something_fails = !result.groups.empty();
  if (options.remedies && something_fails)
    result.remedies = remedies_of(rig, result.check, options, before);
  for (Remedy& remedy : result.remedies) {
    remedy.blocked_moves = count_blocked_moves(rig.with(applied(remedy.changes, rig.setup())));
  }
  return result;
}

}  // namespace leeway
