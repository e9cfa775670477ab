#include "formats/write/fit_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/text/change_text.h"
#include "formats/text/numbers.h"
#include "formats/write/check_view.h"
#include "geometry/plane/assert.h"
#include "geometry/plane/by_kind.h"

namespace leeway {
namespace {

std::string range(const char* axis, double low, double high) {
  return fmt::format("{} {} to {}", axis, decimal(low), decimal(high));
}

std::string bounds_words(const Box& box) {
  return range("x", box.x0, box.x1) + " and " + range("y", box.y0, box.y1);
}

std::string mesh_size_words(int columns, int rows) { return fmt::format("{} x {}", columns, rows); }

std::string cover_words(const Coverage& coverage) {
  if (!coverage.fraction) return "covers nothing, for nothing can be printed with this setup";
  return fmt::format("covers {} % of what can be printed", percent(*coverage.fraction));
}

CheckedPoint as_checked(const FitPoint& point) {
  CheckedPoint out;
  out.probe = point.probe;
  out.finding = point.finding;
  return out;
}

// Where the numbers of a row would not do in three decimals.
constexpr const char* kNone = "-";

FitRow bounds_row(const char* what, const std::optional<Box>& box) {
  if (!box) return {what, kNone, kNone, kNone, kNone};
  return {what, "x = " + decimal(box->x0), "x = " + decimal(box->x1), "y = " + decimal(box->y0),
          "y = " + decimal(box->y1)};
}

FitRow margins_row(const char* what, const std::optional<Margins>& margins) {
  if (!margins) return {what, kNone, kNone, kNone, kNone};
  return {what, decimal(margins->left), decimal(margins->right), decimal(margins->front),
          decimal(margins->back)};
}

// "left from 20 to 5, right from 210 to 197"; empty when nothing did.
std::string changes(const FitResult& result) {
  const Box& before = *result.before;
  const Box& now = result.mesh->bounds;
  std::vector<std::string> parts;
  const auto side = [&parts](const char* name, double from, double to) {
    if (decimal(from) == decimal(to)) return;
    parts.push_back(fmt::format("{} from {} to {}", name, decimal(from), decimal(to)));
  };
  side("left", before.x0, now.x0);
  side("right", before.x1, now.x1);
  side("front", before.y0, now.y0);
  side("back", before.y1, now.y1);
  const FitMesh& mesh = *result.mesh;
  if (mesh.columns != result.columns_before || mesh.rows != result.rows_before) {
    parts.push_back(fmt::format("{} points instead of {}", mesh_size_words(mesh.columns, mesh.rows),
                                mesh_size_words(result.columns_before, result.rows_before)));
  }
  return joined(parts);
}

std::string request_sentence(const FitResult& result) {
  if (!result.before) return "";
  const std::string before = fmt::format("You asked for {}, which {}", bounds_words(*result.before),
                                         cover_words(*result.coverage_before));
  const std::string changed = changes(result);
  if (changed.empty()) return before + "; it stays as it is.";
  const std::string failing =
      result.failing_before > 0
          ? fmt::format("{} of its {} points {}", result.failing_before, result.points_before,
                        result.failing_before == 1 ? "fails" : "fail")
          : fmt::format("All its {} points are reachable", result.points_before);
  return fmt::format("{}. Uncovered strips: {}. {}. What changes, for the probe: {}.", before,
                     strips_words(result.coverage_before->uncovered), failing, changed);
}

constexpr std::size_t kMovesNamed = 3;

std::string moves_words(const FitResult& result, const Setup& setup, const Words& words) {
  const CheckResult& checked = result.checked;
  std::string out = moves_sentence(checked, setup, words);
  const std::vector<BlockedMove>& blocked = checked.moves.blocked;
  if (blocked.empty()) return out;
  const auto name = [&](std::size_t i) { return words.point(checked.points[i]); };
  const std::size_t shown = std::min(kMovesNamed, blocked.size());
  for (std::size_t i = 0; i < shown; ++i) {
    const BlockedMove& move = blocked[i];
    out +=
        fmt::format(" From {} to {}: {}.", name(move.from), name(move.to), words.stop(move.stop));
  }
  if (shown < blocked.size()) {
    out += fmt::format(" And {} more.", blocked.size() - shown);
  }
  out += result.gave_up_on_moves ? " None of the many grids that were tried has clear moves."
                                 : " No grid of this size has clear moves at that height.";
  return "WATCH OUT. " + out + (checked.moves.safe.least ? " Raise it." : "");
}

std::string higher_words(const FitResult& result, const Setup& setup) {
  const FitHigher& higher = *result.higher;
  return fmt::format(
      "All its moves are clear with the nozzle {} above the bed, as stated. With the nozzle {} "
      "above it a larger grid fits: {}; it {}.",
      decimal(*setup.probe.travel_height), at_least(higher.height),
      bounds_words(higher.mesh.bounds), cover_words(higher.mesh.coverage));
}

std::string tightest_words(const FitMesh& mesh, const Words& words) {
  const CheckedPoint point = as_checked(mesh.tightest);
  return fmt::format("The tightest point has the probe at {}: {}.{}", pair(point.probe),
                     room_sentence(point, words), unguarded_sentence(words));
}

std::string homing_words(const FitHome& home, const Words& words, const std::string& less) {
  return fmt::format(
      "Homing: with the nozzle at {} the probe is at {}, with {} of leeway{}. Watch the first "
      "time: homing with the probe off the bed drives the nozzle into it.",
      pair(words.nozzle(home.probe)), pair(home.probe), at_most(home.leeway), less);
}

std::string home_words(const FitResult& result, const Words& words) {
  if (!result.home) {
    return "Homing: there is no place where the probe can be relied on. Do not home with it: the "
           "nozzle would be driven into the bed.";
  }
  const FitHome& home = *result.home;
  const std::string less =
      home.leeway < result.home_wanted
          ? fmt::format(", the most there is, though {} was wanted", decimal(result.home_wanted))
          : "";
  return homing_words(home, words, less);
}

std::string unmet_words(const FitUnmet& unmet, const Words& words) {
  return fmt::format("No grid mends this: {}, probe at {}: {}.", words.name(unmet.name),
                     pair(unmet.point.probe), words.reason(as_checked(unmet.point)));
}

std::string covers_nothing_sentence(const FitLimiting& limiting, const Words& words) {
  if (limiting.why_unprintable) {
    return fmt::format(
        "Nothing can be printed with this setup, so that no mesh covers anything: {}.",
        *limiting.why_unprintable);
  }
  const std::string says = "No such mesh covers anything that can be printed.";
  const CheckedPoint place = as_checked(limiting.place);
  if (place.finding.verdict == Verdict::reachable) return says;
  return fmt::format(
      "{} The limit that stops it is {}: at {}, the nearest place that can be printed on, {}.",
      says, words.limit(place.finding.limit), pair(place.probe), words.reason(place));
}

std::string kept_words(const FitResult& result) {
  if (!(result.keep > 0)) return "";
  return fmt::format("Every point keeps at least {} of leeway on top of its guard band, as asked.",
                     decimal(result.keep));
}

std::string mesh_of(const FitResult& result) {
  if (result.columns > 0 && result.rows > 0) {
    return fmt::format("no grid of {} points", mesh_size_words(result.columns, result.rows));
  }
  return "no grid with that spacing";
}

}  // namespace

std::string fit_summary(const FitResult& result, const Words&) {
  if (result.most_kept) {
    return fmt::format(
        "{} keeps {} of leeway at every point on top of the guard band; {} is the most",
        mesh_of(result), decimal(result.keep), decimal(*result.most_kept));
  }
  if (!result.mesh) return mesh_of(result) + " fits";
  const FitMesh& mesh = *result.mesh;
  const std::string skipped =
      mesh.skipped > 0 ? fmt::format(" ({} left out, off the bed)", mesh.skipped) : "";
  return fmt::format("a grid of {} points{} fits, {} for the probe; it {}",
                     mesh_size_words(mesh.columns, mesh.rows), skipped, bounds_words(mesh.bounds),
                     cover_words(mesh.coverage));
}

std::string unguarded_mesh_sentence(const FitResult& result, const Rig& rig) {
  if (!result.mesh) return "";
  const Setup& setup = rig.setup();
  const Point u = setup.probe.offset_uncertainty;
  const bool nothing_at_edge = std::holds_alternative<Point>(setup.probe.spot) &&
                               setup.probe.edge_distance == 0 &&
                               std::max({u.x, u.y, setup.machine.bed_uncertainty}) == 0;
  std::string out;
  if (nothing_at_edge) {
    out =
        "Nothing keeps this grid from the very edge of the bed: state probe.spot, "
        "probe.edge_distance or the uncertainty.";
  }
  const bool at_travel =
      rig.limits().info(result.mesh->tightest.finding.limit).group == LimitGroup::travel;
  if (at_travel && setup.machine.travel_uncertainty == 0) {
    out += out.empty() ? "" : " ";
    out +=
        "Its tightest limit is the travel, which is taken to be exact: state "
        "machine.uncertainty.travel, or measure where the nozzle really stops.";
  }
  return out;
}

std::vector<FitRow> mesh_rows(const MeshNumbers& numbers) {
  return {
      bounds_row("bounds, where the probe goes", numbers.probe),
      bounds_row("bounds, where the nozzle goes", numbers.nozzle),
      margins_row("margins of the probe from the bed's edges", numbers.probe_from_bed),
      margins_row("margins of the nozzle from the ends of its travel", numbers.nozzle_from_travel)};
}

std::string missing_sentence(const MeshNumbers& numbers) {
  if (numbers.nozzle && numbers.probe_from_bed && numbers.nozzle_from_travel) return "";
  return "A row of dashes: rounded to a thousandth of a millimetre those numbers would no longer "
         "be safe at every point; enter one of the others.";
}

std::string spacing_sentence(const MeshNumbers& numbers) {
  if (!numbers.spacing_x || !numbers.spacing_y) return "";
  return fmt::format("Spacing: {} between columns, {} between rows.", decimal(*numbers.spacing_x),
                     decimal(*numbers.spacing_y));
}

std::vector<std::string> mesh_sentences(const FitResult& result, const Setup& setup,
                                        const Words& words) {
  const FitMesh& mesh = *result.mesh;
  std::vector<std::string> out;
  const auto say = [&out](std::string sentence) {
    if (!sentence.empty()) out.push_back(std::move(sentence));
  };
  if (!result.checked.moves.clear()) say(moves_words(result, setup, words));
  if (result.higher) say(higher_words(result, setup));
  say(missing_sentence(result.numbers));
  if (result.uniform_margin) {
    say(fmt::format(
        "If all four margins must be one number, from the bed's edges: {} (a grid of its own).",
        decimal(*result.uniform_margin)));
  } else {
    say("No single margin from the bed's edges works on all four sides.");
  }
  say(spacing_sentence(result.numbers));
  say(tightest_words(mesh, words));
  say(kept_words(result));
  say(request_sentence(result));
  say(fmt::format("Uncovered strips, printable but outside the mesh bounds: {}.",
                  strips_words(mesh.coverage.uncovered)));
  return out;
}

namespace {

std::string counts_around(int count) {
  constexpr int kMore = 3;
  return fmt::format("{}..{}", std::max(2, count - kMore), count + kMore);
}

std::string neighbour_words(const FitResult& result) {
  const FitMesh& more = *result.neighbour;
  return fmt::format(
      "A grid of {} x {} points would cover {} % instead of {} % (--columns {} --rows {}). "
      "--columns {} --rows {} compares more of them.",
      more.columns, more.rows, percent(*more.coverage.fraction),
      percent(*result.mesh->coverage.fraction), more.columns, more.rows,
      counts_around(more.columns), counts_around(more.rows));
}

}  // namespace

std::string offset_sentence(Point offset) {
  return fmt::format(
      "Offset, nozzle to probe: {} (add it to where the nozzle is, to get where the probe is). "
      "Probe to nozzle: {}.",
      pair(offset), pair(Point{-offset.x + 0.0, -offset.y + 0.0}));
}

std::string homing_sentence(const FitHome& home, const Words& words) {
  return homing_words(home, words, "");
}

std::vector<std::string> other_sentences(const FitResult& result, const Words& words) {
  std::vector<std::string> out;
  if (result.neighbour) out.push_back(neighbour_words(result));
  out.push_back(offset_sentence(result.offset));
  out.push_back(home_words(result, words));
  for (const FitUnmet& unmet : result.unmet) out.push_back(unmet_words(unmet, words));
  return out;
}

std::string limiting_sentence(const FitResult& result, const Words& words) {
  if (result.most_kept) {
    return fmt::format("A grid that keeps {} on top of the guard band fits.",
                       decimal(*result.most_kept));
  }
  if (!result.limiting) return "";
  const CheckedPoint place = as_checked(result.limiting->place);
  if (result.limiting->covers_nothing) return covers_nothing_sentence(*result.limiting, words);
  if (!result.limiting->why_empty) {
    return place.finding.verdict == Verdict::reachable
               ? "There are places that the probe can reach, but no such grid among them."
               : fmt::format("The limit that stops it is {}. With the probe at {}, {}.",
                             words.limit(place.finding.limit), pair(place.probe),
                             words.reason(place));
  }
  return fmt::format(
      "No place at all is reachable: {}. The limit that stops it is {}: even at {}, the place with "
      "most leeway, {}.",
      *result.limiting->why_empty, words.limit(place.finding.limit), pair(place.probe),
      words.reason(place));
}

namespace {

std::string remedy_change(const FitRemedy& remedy, Point offset) {
  const auto instead = [&](const char* what, double to) {
    return fmt::format("{} of {} instead of {}", what, decimal(to), decimal(remedy.from));
  };
  return by_kind(
      remedy.change,
      [&](const SideLetGo& c) {
        return fmt::format("the {} side let go, from {} to {}", word_of(c.edge),
                           decimal(remedy.from), decimal(c.to));
      },
      [](const WithinLetGo&) { return std::string("the bounds to stay within let go"); },
      [&](const SearchStep& c) { return instead("a step", c.to); },
      [&](const GridColumns& c) {
        return fmt::format("{} columns instead of {}", c.to, remedy.from);
      },
      [&](const GridRows& c) { return fmt::format("{} rows instead of {}", c.to, remedy.from); },
      [&](const EdgeDistance& c) { return instead("an edge distance", c.to); },
      [&](const CoverageFactor& c) {
        return instead("a coverage factor", c.to) + " (a smaller guard band, less sure)";
      },
      [&](const ProbeOffset& c) {
        return fmt::format("an offset of {} instead of {} (the probe moved {})", pair(c.to),
                           pair(offset), move_words(c.to - offset));
      });
}

}  // namespace

std::vector<std::string> remedy_sentences(const FitResult& result) {
  std::vector<std::string> out;
  if (result.mesh) return out;
  if (result.most_kept) {
    out.push_back(fmt::format("{} instead of {} to be kept (--keep {})", decimal(*result.most_kept),
                              decimal(result.keep), decimal(*result.most_kept)));
  }
  for (const FitRemedy& remedy : result.remedies) {
    out.push_back(fmt::format("{}: then {} fits, and {}", remedy_change(remedy, result.offset),
                              bounds_words(remedy.mesh.bounds), cover_words(remedy.mesh.coverage)));
  }
  return out;
}

std::string no_remedy_sentence() {
  return "A finer step, fewer columns or rows, a smaller edge distance, a smaller guard band and "
         "the probe moved in 16 directions were tried, one at a time: none of them lets one fit.";
}

std::string fit_rows_lead() { return "Enter one of these; they are the same grid"; }

std::string fit_remedies_lead() { return "Each of these alone was tried, and would let one fit"; }

}  // namespace leeway
