#include "formats/explain/explain_view.h"

#include <fmt/format.h>

#include <cctype>
#include <cmath>

#include "formats/text/change_text.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/text/sides.h"
#include "formats/text/summary.h"
#include "formats/write/check_view.h"
#include "geometry/plane/assert.h"

namespace leeway {
namespace {

constexpr std::size_t kMostPointNames = 6;

// "38.5", "(-38.5)".
std::string in_sum(double value) { return value < 0 ? "(" + decimal(value) + ")" : decimal(value); }

bool at_high_end(LimitSide side) { return side == LimitSide::right || side == LimitSide::back; }

double coordinate(Point p, LimitSide side) { return along_x(side) ? p.x : p.y; }

double end_of(const Box& box, LimitSide side) {
  switch (side) {
    case LimitSide::left:
      return box.x0;
    case LimitSide::right:
      return box.x1;
    case LimitSide::front:
      return box.y0;
    default:
      return box.y1;
  }
}

// "12.5 short", or what is asked for of the room that is left.
std::string outcome(const Finding& finding) {
  if (finding.leeway < 0) return at_least(-finding.leeway) + " mm short";
  return fmt::format("{} of leeway, and the stated uncertainty asks for {}",
                     at_most(finding.leeway), at_least(finding.guard));
}

// probe 210 - offset (-38.5) = nozzle 248.5; the travel ends at 236: 12.5 mm short
std::string travel_sum(const LimitInfo& limit, const CheckedPoint& point, const Setup& setup) {
  const double probe = coordinate(point.probe, limit.side);
  const double offset = coordinate(setup.probe.offset, limit.side);
  return fmt::format("in {}, probe {} - offset {} = nozzle {}; the travel {} at {}: {}",
                     along_x(limit.side) ? "x" : "y", decimal(probe), in_sum(offset),
                     decimal(rounded(probe - offset)), at_high_end(limit.side) ? "ends" : "begins",
                     decimal(end_of(bounding_box(setup.machine.travel), limit.side)),
                     outcome(point.finding));
}

// probe 2 + spot (-4) = -2; the bed begins at 0, and 1 inside it is wanted: 3 mm short
std::string bed_sum(const LimitInfo& limit, const CheckedPoint& point, const Setup& setup) {
  const double probe = coordinate(point.probe, limit.side);
  const double spot = end_of(bounding_box(setup.probe.spot), limit.side);
  const double edge = end_of(bounding_box(setup.machine.bed), limit.side);
  const std::string reach = spot == 0 ? ""
                                      : fmt::format(" + sensing area {} = {}", in_sum(spot),
                                                    decimal(rounded(probe + spot)));
  const std::string wanted =
      limit.wanted > 0 ? fmt::format(", and {} inside it is wanted", decimal(limit.wanted)) : "";
  return fmt::format("in {}, probe {}{}; the bed {} at {}{}: {}", along_x(limit.side) ? "x" : "y",
                     decimal(probe), reach, at_high_end(limit.side) ? "ends" : "begins",
                     decimal(edge), wanted, outcome(point.finding));
}

std::string names_of(const std::vector<std::size_t>& points, const CheckResult& checked,
                     const Words& words) {
  std::vector<std::string> names;
  const std::size_t shown = points.size() > kMostPointNames + 1 ? kMostPointNames : points.size();
  for (std::size_t i = 0; i < shown; ++i) names.push_back(words.point(checked.points[points[i]]));
  if (shown < points.size()) names.push_back(fmt::format("{} more", points.size() - shown));
  return joined(names);
}

std::string sides_words(const UncoveredStrips& further) {
  std::vector<std::string> parts;
  const auto side = [&parts](double mm, const char* words) {
    if (mm > 0) parts.push_back(fmt::format("{} {}", decimal(mm), words));
  };
  side(further.left, "at the left");
  side(further.right, "at the right");
  side(further.front, "at the front");
  side(further.back, "at the back");
  return joined(parts);
}

// "the right margin 10 -> 32.5"
std::string side_words(const Remedy& remedy, const Setup& setup) {
  const Grid& grid = *setup.request.grid;
  const auto words = [](const char* side, const char* what, double from, double to) {
    return fmt::format("the {} {} {} -> {}", side, what, decimal(from), decimal(to));
  };
  const Change& change = remedy.changes.front();
  if (const GridMargin* margin = std::get_if<GridMargin>(&change)) {
    const Margins& m = std::get<Margins>(grid.extent);
    const double from = margin->edge == GridSide::left    ? m.left
                        : margin->edge == GridSide::right ? m.right
                        : margin->edge == GridSide::front ? m.front
                                                          : m.back;
    return words(word_of(margin->edge), "margin", from, margin->to);
  }
  const Box& b = std::get<Box>(grid.extent);
  if (const GridAlongX* x = std::get_if<GridAlongX>(&change)) {
    return x->from != b.x0 ? words("left", "bound", b.x0, x->from)
                           : words("right", "bound", b.x1, x->to);
  }
  const GridAlongY& y = std::get<GridAlongY>(change);
  return y.from != b.y0 ? words("front", "bound", b.y0, y.from)
                        : words("back", "bound", b.y1, y.to);
}

std::string still_words(const Remedy& remedy) {
  if (remedy.still_failing == 0) return "";
  return fmt::format(" The grid then works; {} that {} not of it still fail{}.",
                     counted(remedy.still_failing, "point"),
                     remedy.still_failing == 1 ? "is" : "are",
                     remedy.still_failing == 1 ? "s" : "");
}

// "0.1", "0.1 sideways and 0.2 front to back".
std::string uncertainty_words(Point u) {
  if (u.x == u.y) return decimal(u.x);
  return fmt::format("{} sideways and {} front to back", decimal(u.x), decimal(u.y));
}

std::string home_words(const Setup& remedied) {
  const Home& home = *remedied.request.home;
  const Point offset = remedied.probe.offset;
  const Point probe = probe_position(home.at, home.frame, offset);
  return fmt::format("Home with the nozzle at {}: then the probe is at {}.", pair(probe - offset),
                     pair(probe));
}

std::string others_words(const Remedy& remedy) {
  if (remedy.still_failing == 0) return "";
  return fmt::format(" {} still fail{}.", counted(remedy.still_failing, "point"),
                     remedy.still_failing == 1 ? "s" : "");
}

}  // namespace

std::string asked_sentence(const ExplainResult& result, const Setup& setup, const Words& words) {
  std::vector<std::string> parts;
  if (const std::optional<Grid>& grid = setup.request.grid) {
    const Box box = grid_bounds_for_probe(setup, *grid);
    const std::string points = grid->columns == 1 && grid->rows == 1
                                   ? "one point"
                                   : fmt::format("{} x {} points", grid->columns, grid->rows);
    parts.push_back(fmt::format("a grid of {} over {} for the probe", points, shape_words(box)));
  }
  if (const std::size_t n = setup.request.points.size(); n > 0) {
    parts.push_back(setup.request.grid
                        ? fmt::format("{} further {}", n, n == 1 ? "point" : "points")
                        : counted(n, "point"));
  }
  if (setup.request.home) parts.push_back("a homing point");
  const std::string asked =
      parts.empty() ? "Nothing was asked for." : fmt::format("Asked for: {}.", joined(parts));
  const Counts& counts = result.check.counts;
  if (counts.points == 0) {
    std::string why = summary(result.check, setup, words);
    why[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(why[0])));
    return asked + " " + why + ".";
  }
  const std::size_t failing = counts.marginal + counts.unreachable;
  if (failing == 0) {
    if (counts.points == 1) return asked + " It is reachable.";
    if (counts.points == 2) return asked + " Both points are reachable.";
    return fmt::format("{} All {} are reachable.", asked, counted(counts.points, "point"));
  }
  if (counts.points == 1) return asked + " It is not reachable.";
  if (failing == counts.points) {
    return fmt::format("{} None of {} is reachable.", asked, counted(counts.points, "point"));
  }
  return fmt::format("{} {} of {} {} not reachable.", asked, failing,
                     counted(counts.points, "point"), failing == 1 ? "is" : "are");
}

std::string group_gist(const FailingGroup& group, const ExplainResult& result, const Words& words) {
  const bool short_of_guard = result.check.points[group.points.front()].finding.leeway >= 0;
  const std::string shortfall =
      std::isinf(group.largest_shortfall) ? ""
      : short_of_guard
          ? fmt::format(" only within the stated uncertainty: up to {} mm of leeway is missing",
                        at_least(group.largest_shortfall))
          : fmt::format(", by up to {} mm", at_least(group.largest_shortfall));
  return fmt::format("{} fail{} at {}{}", counted(group.points.size(), "point"),
                     group.points.size() == 1 ? "s" : "", words.where(group.limit), shortfall);
}

std::string group_sentence(const FailingGroup& group, const ExplainResult& result,
                           const Words& words) {
  return fmt::format("{}: {}.", group_gist(group, result, words),
                     names_of(group.points, result.check, words));
}

std::string arithmetic_sentence(const FailingGroup& group, const ExplainResult& result,
                                const Rig& rig, const Words& words) {
  const CheckedPoint& worst = result.check.points[group.points.front()];
  const LimitInfo& limit = rig.limits().info(group.limit);
  const std::string who = words.point(worst);
  const bool sums = is_straight(limit.side) && !std::isinf(worst.finding.leeway);
  const std::string in_words =
      fmt::format("{}, probe at {}, nozzle at {}: {}.", who, pair(worst.probe),
                  pair(words.nozzle(worst.probe)), words.reason(worst));
  if (!sums) return in_words;
  switch (limit.group) {
    case LimitGroup::travel:
      return fmt::format("{}: {}.", who, travel_sum(limit, worst, rig.setup()));
    case LimitGroup::bed:
      return fmt::format("{}: {}.", who, bed_sum(limit, worst, rig.setup()));
    case LimitGroup::obstacle:
    case LimitGroup::head:
    case LimitGroup::envelope:
    case LimitGroup::beside:
      break;
  }
  return in_words;
}

namespace {

std::string remedy_words(const Remedy& remedy, const Setup& setup) {
  const Setup remedied = applied(remedy.changes, setup);
  switch (remedy.parameter) {
    case Remedy::Parameter::one_side:
      return fmt::format("Change only this: {}.{}", side_words(remedy, setup), still_words(remedy));
    case Remedy::Parameter::margins:
      return fmt::format(
          "Margins: {} from the edges of the bed on all sides, for the probe, is the smallest "
          "multiple of 0.5 that works and moves no side outward.{}",
          decimal(std::get<Margins>(remedied.request.grid->extent).left), still_words(remedy));
    case Remedy::Parameter::bounds:
      return fmt::format("Bounds: of what was asked for, {} for the probe cover most.{}",
                         shape_words(std::get<Box>(remedied.request.grid->extent)),
                         still_words(remedy));
    case Remedy::Parameter::offset: {
      const Point offset = remedied.probe.offset;
      return fmt::format(
          "Bracket: a probe at {} instead of {}, moved {}, reaches every "
          "point.",
          pair(offset), pair(setup.probe.offset), move_words(offset - setup.probe.offset));
    }
    case Remedy::Parameter::travel:
      return fmt::format(
          "Travel: does the machine really stop there? It would have to go further: {}.",
          sides_words(remedy.further));
    case Remedy::Parameter::bed:
      return fmt::format("Bed: does it really end there? It would have to go further: {}.",
                         sides_words(remedy.further));
    case Remedy::Parameter::home:
      return home_words(remedied) + others_words(remedy);
    case Remedy::Parameter::offset_uncertainty:
      return fmt::format(
          "Measure the offset better: known to +-{} it would do (a standard uncertainty of {} "
          "instead of {}).",
          uncertainty_words(remedied.coverage_factor * remedied.probe.offset_uncertainty),
          uncertainty_words(remedied.probe.offset_uncertainty),
          uncertainty_words(setup.probe.offset_uncertainty));
    case Remedy::Parameter::fewer_points:
      return fmt::format("Fewer points: {} x {} over the same bounds.{}",
                         remedied.request.grid->columns, remedied.request.grid->rows,
                         still_words(remedy));
    case Remedy::Parameter::edge_distance:
      break;
  }
  return fmt::format(
      "Edge distance: {} instead of {} from the sensing area to the edge of the bed.",
      decimal(remedied.probe.edge_distance), decimal(setup.probe.edge_distance));
}

}  // namespace

std::string remedy_sentence(const Remedy& remedy, const Setup& setup) {
  const std::string says = remedy_words(remedy, setup);
  if (remedy.blocked_moves == 0) return says;
  return fmt::format("{} WATCH OUT: {} between the points would then run into something.", says,
                     counted(remedy.blocked_moves, "move"));
}

std::string watch_moves_sentence(const CheckResult& checked, const Setup& setup,
                                 const Words& words) {
  return checked.moves.clear() ? "" : "WATCH OUT. " + moves_sentence(checked, setup, words);
}

std::vector<std::string> tightest_sentences(const ExplainResult& result, const Words& words) {
  std::vector<std::string> out;
  for (const std::size_t i : result.tightest) {
    const CheckedPoint& point = result.check.points[i];
    out.push_back(fmt::format("{}, probe at {}: {}.", words.point(point), pair(point.probe),
                              room_sentence(point, words)));
  }
  return out;
}

std::string tightest_lead(const ExplainResult& result, const Setup& setup) {
  const bool questioned = !first_remark(setup, result.check, text_name).empty();
  if (questioned) return "Every point that is left is reachable. The tightest";
  if (!result.check.moves.clear()) return "Every point is reachable. The tightest";
  return "Nothing is wrong by these numbers. The tightest points";
}

std::string compare_lead() {
  return "If the machine refuses a point all the same, it has other numbers than these. Compare, "
         "in "
         "this order";
}

std::vector<std::string> compare_sentences(const Setup& setup) {
  const Box travel = bounding_box(setup.machine.travel);
  const Box bed = bounding_box(setup.machine.bed);
  return {
      fmt::format("The offset that the controller holds, with its signs. Here the probe is {}; a "
                  "controller may count from the probe to the nozzle instead.",
                  offset_words(setup.probe.offset)),
      fmt::format("Its travel. Send the nozzle slowly towards each end and read the position "
                  "where it stops: here x {}..{}, y {}..{}.",
                  decimal(travel.x0), decimal(travel.x1), decimal(travel.y0), decimal(travel.y1)),
      fmt::format("Where its zero lies. With the nozzle lifted, send it to {}: here that is the "
                  "middle of the bed.",
                  pair(Point{(bed.x0 + bed.x1) / 2, (bed.y0 + bed.y1) / 2})),
      "The margins or bounds in its settings: whether they are for the probe or for the nozzle, "
      "and from which edge they count."};
}

std::string remedies_lead() { return "What would remedy it, each alone and tried"; }

}  // namespace leeway
