#include "leeway/explain.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "model/offsets/probe_beside.h"
#include "tasks/check/requested_points.h"
#include "tasks/check/trusted_check.h"
#include "tasks/explain/explain_remedies.h"
#include "tasks/explain/mistakes.h"
#include "tasks/explain/plausibility.h"
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

constexpr double kLikelySetup = 0.2;

// How well a change of some size goes with what is lacking: who is 5 mm short has hardly swapped a
// sign that moves everything by 80.
double measure_for_measure(double size, double lacking) {
  if (!(size > 0) || std::isinf(lacking)) return 1;
  return std::clamp(2 * lacking / size, 0.15, 1.0);
}

// Whether a number was ten times off, or in another unit, shows by itself: in the setup as it is
// something is out of all proportion.
bool is_of_scale(Mistake mistake) {
  return mistake == Mistake::inches || mistake == Mistake::decimal_point;
}

// Whether the change explains what fails well enough to be called likely.
bool is_likely(const MistakeFound& found, double lacking, double size, double after,
               double before) {
  if (found.fixes < found.of || after < kLikelySetup) return false;
  switch (found.mistake) {
    case Mistake::travel_equals_bed:
    case Mistake::travel_beyond_bed:
    case Mistake::columns_and_rows_exchanged:
    case Mistake::offset_left_at_zero:
      // Whatever stops at the travel, a longer travel would remedy; so would many an offset.
      return false;
    default:
      break;
  }
  // What is far out of reach is seldom so on purpose.
  constexpr double kFar = 15;
  if (is_of_scale(found.mistake)) return before < after * 0.1;
  // A bed turned round must go better with the travel than before.
  if (found.mistake == Mistake::width_and_depth_exchanged && before > 0.8 * after) return false;
  return before < after * 0.1 || (lacking >= kFar && 4 * lacking >= size);
}

// Whether a file could hold it: its mesh is no wider than where it stands, its numbers not beyond
// what may be written.
bool is_sound(const Setup& setup) {
  constexpr double kFarthest = 1e6;
  const Point o = setup.probe.offset;
  if (std::abs(o.x) > kFarthest || std::abs(o.y) > kFarthest) return false;
  if (!setup.request.grid) return true;
  const Grid& grid = *setup.request.grid;
  const Box box = grid_bounds(grid, setup.machine);
  return box.width() >= (grid.columns > 1 ? 1e-3 : 0) && box.depth() >= (grid.rows > 1 ? 1e-3 : 0);
}

std::vector<MistakeFound> find_mistakes(const Rig& rig, const ExplainResult& result,
                                        const BeforeTrial& before_trial) {
  const std::size_t failing = result.check.counts.marginal + result.check.counts.unreachable;
  const double lacking = result.groups.front().largest_shortfall;
  const double before = plausibility(rig.setup());
  std::map<Mistake, MistakeFound> best;
  std::vector<MistakeTrial> trials = mistake_trials(rig.setup());
  if (std::optional<MistakeTrial> trial = true_offset_trial(rig, result.check, before_trial)) {
    trials.push_back(*trial);
  }
  const ProbeBeside beside(rig);
  for (const MistakeTrial& trial : trials) {
    if (!is_sound(trial.changed)) continue;
    // A probe in its own head is no way out.
    const Point offset = trial.changed.probe.offset;
    if (offset != rig.setup().probe.offset && !beside.has_room(offset)) continue;
    before_trial();
    std::size_t still = 0;
    try {
      still = count_failing(rig.with(trial.changed), result.check.counts.skipped);
    } catch (const SetupTooDetailed&) {
      continue;
    } catch (const InvalidSetup&) {
      continue;  // Scaled down, say, until nothing is left of an outline.
    }
    // What remedies a part only accounts for little.
    constexpr double kMostOf = 0.6;
    const double remedied = 1 - static_cast<double>(still) / static_cast<double>(failing);
    if (remedied < kMostOf) continue;
    MistakeFound found;
    found.mistake = trial.mistake;
    found.of = failing;
    found.fixes = failing - still;
    found.changes = trial.changes;
    const double after = plausibility(trial.changed);
    const bool shows = !is_of_scale(trial.mistake) || before < 0.3 * after;
    if (!shows) continue;
    found.rank = std::pow(remedied, 4) * frequency(trial, rig.setup()) * after;
    if (found.fixes == found.of) found.rank *= 2;
    // How far the travel really goes is not known: as far as is lacking.
    const double size = trial.mistake == Mistake::travel_equals_bed
                            ? lacking
                            : size_of_change(rig.setup(), trial.changed);
    found.rank *= measure_for_measure(size, lacking);
    found.changed = trial.changed;
    found.likely = is_likely(found, lacking, size, after, before);
    const auto [at, is_new] = best.try_emplace(trial.mistake, found);
    if (!is_new && found.rank > at->second.rank) at->second = found;
  }
  std::vector<MistakeFound> mistakes;
  for (auto& [mistake, found] : best) mistakes.push_back(std::move(found));
  std::stable_sort(mistakes.begin(), mistakes.end(),
                   [](const MistakeFound& a, const MistakeFound& b) { return a.rank > b.rank; });
  // A hypothesis that leaves next to nothing likely is none.
  constexpr double kLeast = 1e-3;
  while (!mistakes.empty() &&
         (mistakes.size() > ExplainResult::kMostMistakes ||
          mistakes.back().rank < std::max(kLeast, mistakes.front().rank / 200))) {
    mistakes.pop_back();
  }
  // Two that do as well leave the question open.
  if (mistakes.size() > 1 && mistakes[1].rank > 0.7 * mistakes[0].rank) mistakes[0].likely = false;
  for (std::size_t i = 1; i < mistakes.size(); ++i) mistakes[i].likely = false;
  return mistakes;
}

}  // namespace

const char* word(Mistake mistake) {
  switch (mistake) {
    case Mistake::sign_of_x:
      return "sign of x";
    case Mistake::sign_of_y:
      return "sign of y";
    case Mistake::both_signs:
      return "both signs";
    case Mistake::axes_swapped:
      return "axes swapped";
    case Mistake::frame:
      return "frame";
    case Mistake::margins_from_travel:
      return "margins from the travel";
    case Mistake::margins_from_bed:
      return "margins from the bed";
    case Mistake::origin_at_centre:
      return "origin at the centre";
    case Mistake::origin_at_corner:
      return "origin at the corner";
    case Mistake::travel_equals_bed:
      return "travel equals bed";
    case Mistake::travel_beyond_bed:
      return "travel beyond bed";
    case Mistake::offset_left_at_zero:
      return "offset left at zero";
    case Mistake::inches:
      return "inches";
    case Mistake::decimal_point:
      return "decimal point";
    case Mistake::columns_and_rows_exchanged:
      return "columns and rows exchanged";
    case Mistake::width_and_depth_exchanged:
      break;
  }
  return "width and depth exchanged";
}

const char* word(Remedy::Parameter parameter) {
  switch (parameter) {
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
    case Remedy::Parameter::edge_distance:
      break;
  }
  return "edge distance";
}

ExplainResult explain(const Rig& rig, const ExplainOptions& options) {
  require_valid(rig.setup());
  ExplainResult result;
  CheckOptions checking;
  checking.regions = RegionsWanted::empty;
  result.check = check_trusted(rig, checking);
  result.groups = groups_of(result.check);
  if (result.groups.empty()) {
    result.tightest = tightest_points(result.check);
    return result;
  }
  const BeforeTrial before = [&] { go_on(options.progress); };
  result.mistakes = find_mistakes(rig, result, before);
  if (options.remedies) result.remedies = remedies_of(rig, result.check, options, before);
  return result;
}

}  // namespace leeway
