#include "formats/write/bracket_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/text/numbers.h"
#include "formats/text/summary.h"
#include "geometry/plane/assert.h"

namespace leeway {
namespace {

const char* const kSideWords[] = {"left", "right", "front", "back"};

std::string counted(std::size_t count, const char* what) {
  return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

// A change of a share, in percentage points.
std::string change(double by) {
  const double points = std::round(by * 10000) / 100 + 0.0;
  return (points > 0 ? "+" : "") + decimal(points);
}

std::string points_of(double share) {
  return decimal(std::round(share * 1000) / 10) + " percentage points";
}

std::string blocked_words(std::size_t moves) {
  return fmt::format("{} between the points would run into something (`leeway check` names {})",
                     counted(moves, "move"), moves == 1 ? "it" : "them");
}

}  // namespace

std::string share_text(const std::optional<double>& share) {
  return share ? percent(*share) + " %" : "-";
}

std::string BracketView::setup_name(std::size_t setup) const {
  const std::string& name = report_.setups[setup].name;
  return name.empty() ? fmt::format("setup {}", setup + 1) : style_(name);
}

std::string BracketView::at_setup(std::size_t setup) const {
  return report_.setups.size() > 1 ? fmt::format(" ({})", setup_name(setup)) : "";
}

std::string BracketView::summary() const {
  LEEWAY_ASSERT(report_.window.has_value());
  std::vector<std::string> names;
  for (std::size_t s = 0; s < report_.setups.size(); ++s) names.push_back(setup_name(s));
  const BracketResult& r = *report_.window;
  std::string lead = joined(names) + ": ";
  const std::size_t within_reach = r.points - r.out_of_reach.size();
  if (within_reach == 0) return lead + "all the points asked for are out of reach with any offset.";
  const std::string points = within_reach == 1 ? "the point" : counted(within_reach, "point");
  const char* const lead_in = within_reach == 1 ? "" : r.out_of_reach.empty() ? "all " : "the ";
  const std::string all =
      lead_in + points + (r.out_of_reach.empty() ? "" : " within reach of some offset");
  if (r.window.empty) {
    if (r.out_of_reach.empty()) return lead + fmt::format("no single offset reaches {}.", all);
    return lead + fmt::format(
                      "{} of {} points {} out of reach with any offset, and no single "
                      "offset reaches the other {}.",
                      r.out_of_reach.size(), r.points, r.out_of_reach.size() == 1 ? "is" : "are",
                      within_reach);
  }
  if (r.present.inside) {
    const std::string moves =
        r.present.blocked_moves == 0
            ? "."
            : fmt::format(", but {}.", blocked_words(r.present.blocked_moves));
    return lead + fmt::format("the probe may stay where it is: the offset {} reaches {}{}",
                              exact_pair(r.present.offset), all, moves);
  }
  if (!r.present.overlaps.empty()) {
    return lead + fmt::format(
                      "with the offset {} the probe sits in its own head: seen from above it "
                      "overlaps {}.{}",
                      exact_pair(r.present.offset), overlapped_words(r.present.overlaps, style_),
                      r.nearest ? fmt::format(" Moved {} it is clear, and reaches {}.",
                                              move_words(r.nearest->offset - r.present.offset), all)
                                : "");
  }
  if (!r.nearest)
    return lead +
           fmt::format("the offset {} does not reach {}.", exact_pair(r.present.offset), all);
  return lead + fmt::format("the offset {} does not reach {}; move the probe {}, and it does.",
                            exact_pair(r.present.offset), all,
                            move_words(r.nearest->offset - r.present.offset));
}

std::string BracketView::conventions() const {
  const Tolerance& tolerance = report_.window ? report_.window->tolerance : Tolerance{};
  std::string off;
  if (tolerance.round > 0) {
    off = fmt::format(" The bracket may be off by {} in any direction: all below keeps that.",
                      decimal(tolerance.round, true));
  } else if (!tolerance.none()) {
    off = fmt::format(" The bracket may be off by {} along x and {} along y: all below keeps that.",
                      decimal(tolerance.box.x, true), decimal(tolerance.box.y, true));
  }
  return "Lengths are in mm; offsets are from nozzle to probe. The points stay where they are, and "
         "keep their guard bands. Shares of the printable area are without guard bands. Leeway of "
         "an offset: how far it may move in any direction before something stops it; below 0, how "
         "far it "
         "must move until it works." +
         off;
}

std::vector<std::string> BracketView::out_of_reach() const {
  std::vector<std::string> out;
  const std::vector<PointOutOfReach>& lost = report_.window->out_of_reach;
  for (std::size_t s = 0; s < report_.setups.size(); ++s) {
    const bool any = std::any_of(lost.begin(), lost.end(),
                                 [s](const PointOutOfReach& u) { return u.point.setup == s; });
    if (!any) continue;
    const Words words(report_.window->rigs[s], style_);
    for (const PointOutOfReach& u : lost) {
      if (u.point.setup != s) continue;
      if (out.size() == kMostOutOfReachShown) {
        out.push_back(fmt::format("And {} more.", lost.size() - kMostOutOfReachShown));
        return out;
      }
      CheckedPoint point;
      point.probe = u.point.probe;
      point.finding = {u.leeway, u.guard, u.limit,
                       u.leeway < 0 ? Verdict::unreachable : Verdict::marginal};
      out.push_back(fmt::format("{}{} at {}: {}.", style_(u.point.name), at_setup(s),
                                pair(u.point.probe), words.reason(point)));
    }
  }
  return out;
}

std::vector<OffsetRow> BracketView::offsets() const {
  const BracketResult& r = *report_.window;
  std::vector<OffsetRow> rows;
  const Point from = r.present.offset;
  const bool several = report_.setups.size() > 1;
  rows.push_back({several ? fmt::format("present, of {}", setup_name(0)) : "present",
                  exact_pair(from), signed_amount(r.present.leeway), share_text(r.present.coverage),
                  "-"});
  const auto add = [&](const std::string& what, Point offset, double leeway,
                       const std::optional<double>& coverage) {
    const Point move = offset - from;
    const double by = std::hypot(move.x, move.y);
    const bool both = rounded(move.x) != 0 && rounded(move.y) != 0;
    rows.push_back({what, exact_pair(offset), signed_amount(leeway), share_text(coverage),
                    move_words(move) + (both ? fmt::format(" ({} in all)", decimal(by)) : "")});
  };
  const auto add_trade = [&](const std::string& what, const BracketTrade& trade) {
    add(what, trade.offset, trade.leeway, trade.coverage);
  };
  if (!r.present.inside && r.nearest) {
    add("nearest that works", r.nearest->offset, r.nearest->leeway, r.nearest->coverage);
  }
  if (r.asked) {
    add_trade(fmt::format("at least {} of leeway", decimal(*r.leeway_wanted, true)),
              r.asked->trade);
  }
  if (r.trade_off && r.trade_off->curve.size() > 1) {
    add_trade("most coverage", r.trade_off->most_coverage.trade);
    if (r.trade_off->knee) add_trade("between them", r.trade_off->knee->trade);
  }
  if (r.best) add("most leeway", r.best->offset, r.best->leeway, r.best->coverage);
  return rows;
}

std::vector<std::string> BracketView::advice() const {
  const BracketResult& r = *report_.window;
  std::vector<std::string> out;
  if (r.leeway_wanted && !r.asked && r.best) {
    out.push_back(fmt::format("No offset has a leeway of {}: the most is {}.",
                              decimal(*r.leeway_wanted, true), signed_amount(r.best->leeway)));
  }
  if (!r.trade_off) return out;
  const BracketTradeOff& t = *r.trade_off;
  if (t.curve.size() == 1) {
    out.push_back("No offset that works covers more than the one with most leeway.");
    return out;
  }
  if (t.knee) {
    const BracketTrade& knee = t.knee->trade;
    out.push_back(fmt::format(
        "Recommended: {}. Of the {} % that could be reached it gives up {}, for {} of leeway; the "
        "last {} of leeway would cost {} more.",
        exact_pair(knee.offset), percent(t.most_coverage.trade.coverage),
        points_of(t.most_coverage.trade.coverage - knee.coverage), at_most(knee.leeway),
        decimal(t.most_leeway.trade.leeway - knee.leeway),
        points_of(knee.coverage - t.most_leeway.trade.coverage)));
  } else {
    out.push_back(
        "Leeway costs coverage evenly here: take as much as printing and fitting the bracket may "
        "be off, and no more.");
  }
  return out;
}

std::string BracketView::stop(const BracketStop& stop) const {
  const LimitInfo& limit = stop.limit;
  const std::string where =
      stop.point ? fmt::format("at {}{} ", style_(stop.point->name), at_setup(stop.setup)) : "";
  switch (limit.group) {
    case LimitGroup::travel:
      if (limit.side <= LimitSide::back) {
        return fmt::format("{}the nozzle would be past the {} end of its travel", where,
                           kSideWords[static_cast<int>(limit.side)]);
      }
      return where + "the nozzle would leave its travel";
    case LimitGroup::envelope:
      return "the mount's envelope ends" + at_setup(stop.setup);
    case LimitGroup::beside:
      if (limit.part_id.kind == PartId::Kind::nozzle) {
        return "the nozzle would stand in the body of the probe" + at_setup(stop.setup);
      }
      if (limit.part_id.kind == PartId::Kind::kept_clear) {
        return fmt::format("the probe would be in {}, which is kept clear{}", style_(limit.part),
                           at_setup(stop.setup));
      }
      return fmt::format("the probe would sit in {}{}", style_(limit.part), at_setup(stop.setup));
    case LimitGroup::bed:
    case LimitGroup::obstacle:
    case LimitGroup::head:
      break;
  }
  return fmt::format("{}{} would come down on {}", where, part_words(limit, style_(limit.part)),
                     style_(limit.obstacle));
}

std::vector<std::string> BracketView::moves() const {
  std::vector<std::string> out;
  const BracketResult& r = *report_.window;
  std::vector<Point> told{r.present.offset};
  const auto say = [&](Point offset, std::size_t blocked) {
    if (blocked == 0 || std::find(told.begin(), told.end(), offset) != told.end()) return;
    told.push_back(offset);
    out.push_back(
        fmt::format("WATCH OUT. With the offset {}, {}. The window is about points alone.",
                    exact_pair(offset), blocked_words(blocked)));
  };
  if (r.nearest) say(r.nearest->offset, r.nearest->blocked_moves);
  if (r.asked) say(r.asked->trade.offset, r.asked->blocked_moves);
  if (r.trade_off) {
    say(r.trade_off->most_coverage.trade.offset, r.trade_off->most_coverage.blocked_moves);
    if (r.trade_off->knee) {
      say(r.trade_off->knee->trade.offset, r.trade_off->knee->blocked_moves);
    }
  }
  if (r.best) say(r.best->offset, r.best->blocked_moves);
  return out;
}

std::vector<std::string> BracketView::sides() const {
  std::vector<std::string> out;
  const BracketWindow& window = report_.window->window;
  for (std::size_t i = 0; i < window.sides.size(); ++i) {
    out.push_back(fmt::format("To the {} as far as {} = {}; beyond it {}.", kSideWords[i],
                              i < 2 ? "x" : "y", decimal(window.sides[i].at, true),
                              stop(window.sides[i].stop)));
  }
  if (window.region.size() > 1) {
    out.push_back(fmt::format("It falls into {} parts; these are the ends of all together.",
                              window.region.size()));
  } else if (window.bounds &&
             window.area < 0.999 * window.bounds->width() * window.bounds->depth()) {
    out.push_back("These are its ends; not every pair between them works (see the map).");
  }
  if (!window.empty && window.region.empty()) {
    out.push_back("It is as thin as a line or a point: nothing may be off at all.");
  }
  const bool bodies = std::all_of(report_.setups.begin(), report_.setups.end(),
                                  [](const Setup& s) { return s.probe.body.has_value(); });
  if (!window.empty && !bodies) {
    out.push_back(
        "No body of the probe is stated, so that nothing keeps it off the nozzle: not "
        "every one of these can be built.");
  }
  constexpr double kEdge = 0.1;
  const BracketResult& r = *report_.window;
  if (!r.present.inside && r.nearest && r.nearest->leeway < kEdge && r.tolerance.none()) {
    out.push_back(
        "The nearest that works is at the very edge: add what printing and fitting the bracket "
        "may be off, and measure the offset once it is built.");
  }
  return out;
}

std::string BracketView::point_words(const BracketPoint& point) const {
  return fmt::format("{}{} at {}", style_(point.name), at_setup(point.setup), pair(point.probe));
}

std::string BracketView::most_words(const BracketMost& most) const {
  const bool exact = most.reached == most.at_most;
  std::vector<std::string> names;
  for (const BracketPoint& point : most.missed) {
    if (names.size() == kMostOutOfReachShown) {
      names.push_back(fmt::format("{} more", most.missed.size() - names.size()));
      break;
    }
    names.push_back(point_words(point));
  }
  return fmt::format(
      "{} {} of these {}: {}, with leeway {} then. It misses {}; without {} the window opens{}.",
      exact ? "The most that one offset reaches is" : "One offset reaches", most.reached,
      most.reached + most.missed.size(), pair(most.offset), signed_amount(most.leeway),
      joined(names), names.size() == 1 ? "it" : "them",
      exact ? ", and no fewer would do"
            : fmt::format(". Whether another reaches up to {} is not known", most.at_most));
}

namespace {

using Of = BracketInfluence::Of;

const char* const kEdgeWords[] = {"left edge", "right edge", "front edge", "back edge", "radius"};

std::string edge_words(const BracketInfluence& influence, const std::string& owner) {
  return fmt::format("the {} of {}", kEdgeWords[static_cast<int>(influence.edge)], owner);
}

std::string number_words(const BracketInfluence& influence, const std::string& name) {
  switch (influence.of) {
    case Of::travel:
      return edge_words(influence, "the travel");
    case Of::bed:
      return edge_words(influence, "the bed");
    case Of::obstacle:
    case Of::part:
      return edge_words(influence, name);
    case Of::clearance:
      return "the clearance of " + name;
    case Of::obstacle_height:
      return "the height of " + name;
    case Of::underside:
      return "the underside of " + name;
    case Of::trigger_height:
      return "the trigger height";
    case Of::body:
      return edge_words(influence, "the probe's body");
    case Of::envelope:
      return edge_words(influence, "the envelope");
  }
  return "";
}

}  // namespace

std::vector<InfluenceRow> BracketView::influences() const {
  std::vector<InfluenceRow> rows;
  for (const BracketInfluence& one : report_.window->influences) {
    rows.push_back({number_words(one, style_(one.name)) + at_setup(one.setup),
                    fmt::format("{} end", kSideWords[one.end]),
                    fmt::format("{}{}", one.moves > 0 ? "+" : "", decimal(one.moves))});
  }
  return rows;
}

std::vector<std::string> BracketView::conflict() const {
  std::vector<std::string> out;
  const BracketResult& r = *report_.window;
  if (!r.window.empty || r.points == r.out_of_reach.size()) return out;
  if (r.mount_alone) {
    out.push_back(
        "The mount alone leaves no place for the probe: the head's parts and what is kept clear "
        "take "
        "up all of it.");
    return out;
  }
  std::vector<std::string> names;
  for (const BracketPoint& point : r.conflict) names.push_back(point_words(point));
  if (names.size() == 1) {
    const bool mount = std::any_of(report_.setups.begin(), report_.setups.end(),
                                   [](const Setup& setup) { return setup.mount != Mount{}; });
    out.push_back(fmt::format("No offset{} reaches {}, even by itself.",
                              mount ? " that the mount allows" : "", names.front()));
  } else {
    out.push_back(
        fmt::format("No offset reaches all of these, though one would if any of them were left "
                    "out: {}.",
                    joined(names)));
  }
  if (r.most) out.push_back(most_words(*r.most));
  if (!r.shrink) return out;
  std::vector<std::string> ways;
  const auto add = [&](const std::optional<double>& by, const char* which) {
    if (by) ways.push_back(fmt::format("{} inward by {}", which, decimal(*by)));
  };
  add(r.shrink->all, "all four sides");
  add(r.shrink->x, "left and right");
  add(r.shrink->y, "front and back");
  if (ways.empty()) {
    out.push_back("No smaller grid would mend that.");
  } else {
    std::string text;
    for (const std::string& way : ways) text += (text.empty() ? "" : ", or ") + way;
    out.push_back(fmt::format("A smaller grid would work: {}.", text));
  }
  return out;
}

std::vector<std::string> BracketView::setups() const {
  std::vector<std::string> out;
  const BracketResult& r = *report_.window;
  if (r.setups.size() < 2) return out;
  for (std::size_t s = 0; s < r.setups.size(); ++s) {
    const BracketSetup& setup = r.setups[s];
    std::string text = fmt::format("{}: {}, its offset now {}", setup_name(s),
                                   counted(setup.points, "point"), exact_pair(setup.offset));
    if (setup.leeway_at_best) {
      text += fmt::format("; leeway {} with the common one", signed_amount(*setup.leeway_at_best));
    }
    out.push_back(text + ".");
  }
  return out;
}

std::string BracketView::cost(const std::string& when, const BracketCover& cover) const {
  const std::string left = change(cover.left - cover.share);
  const std::string right = change(cover.right - cover.share);
  const std::string front = change(cover.front - cover.share);
  const std::string back = change(cover.back - cover.share);
  const std::string reach = fmt::format(
      "With the {} the probe can reach {} % of the printable area.", when, percent(cover.share));
  if (left == right && front == back && left == front) {
    return fmt::format("{} A millimetre more to any side changes that by {} percentage points.",
                       reach, left);
  }
  std::vector<std::string> parts;
  const auto add = [&parts](const std::string& by, const char* side) {
    if (by == "0") return;
    parts.push_back(
        fmt::format("{}{} to the {}", by, parts.empty() ? " percentage points" : "", side));
  };
  add(left, "left");
  add(right, "right");
  add(front, "front");
  add(back, "back");
  return fmt::format("{} A millimetre more changes that by {}.", reach, joined(parts));
}

std::vector<std::string> BracketView::costs() const {
  std::vector<std::string> out;
  const BracketResult& r = *report_.window;
  for (std::size_t s = 0; s < r.setups.size(); ++s) {
    const std::string lead = r.setups.size() > 1 ? setup_name(s) + ": " : "";
    const BracketSetup& setup = r.setups[s];
    if (setup.cover) out.push_back(lead + cost("present offset", *setup.cover));
    if (setup.cover_at_best && r.best && !(r.best->offset == r.present.offset)) {
      out.push_back(lead + cost("offset of most leeway", *setup.cover_at_best));
    }
  }
  const bool down = std::any_of(r.rigs.begin(), r.rigs.end(),
                                [](const Rig& rig) { return !rig.setup().probe.stowed; });
  if (down) {
    out.push_back(
        "These shares take the probe as stowed while printing. Where it stays down, what can be "
        "printed depends on the offset: `leeway check` tells it of one.");
  }
  return out;
}

std::string BracketView::map_amount(double share) const {
  const std::size_t points = report_.map->points;
  if (points == 0) return percent(share) + " %";
  return fmt::format("{} of {} points", std::lround(share * static_cast<double>(points)), points);
}

std::string BracketView::map_ground() const {
  const bool window = report_.map->points == 0 && report_.window && !report_.window->window.empty;
  return window ? "in the window" : "where the mount and the head allow a probe";
}

std::vector<std::string> BracketView::map() const {
  LEEWAY_ASSERT(report_.map.has_value());
  const CoverageMap& f = *report_.map;
  const bool points = f.points > 0;
  std::vector<std::string> out;
  out.push_back(fmt::format(
      "The map: offsets x {} to {} in {}, y {} to {} in {}; {}.", decimal(f.x.from),
      decimal(f.x.to), counted(static_cast<std::size_t>(f.x.count), "value"), decimal(f.y.from),
      decimal(f.y.to), counted(static_cast<std::size_t>(f.y.count), "value"),
      points ? "how many of the points each of them reaches, guard bands kept"
             : "the share of the printable area that the probe can reach, without guard bands"));
  std::optional<Point> first;
  double most = 0;
  std::size_t equal = 0;
  for (int row = 0; row < f.y.count; ++row) {
    for (int column = 0; column < f.x.count; ++column) {
      if (!f.is_open(column, row)) continue;
      const double share = f.at(column, row);
      if (!first || share > most + 1e-9) {
        first = {f.x.at(column), f.y.at(row)};
        most = share;
        equal = 0;
      }
      equal += share >= most - 1e-9;
    }
  }
  if (!first) {
    out.push_back(fmt::format("None of these offsets lies {}.", map_ground()));
  } else {
    out.push_back(fmt::format("The most {} is {}, {} {}.", map_ground(), map_amount(most),
                              equal > 1 ? fmt::format("at {} offsets, the first", equal) : "at",
                              exact_pair(*first)));
  }
  return out;
}

std::vector<std::string> BracketView::map_picture() const {
  const CoverageMap& f = *report_.map;
  constexpr int kColumns = 61;
  constexpr int kRows = 25;
  const int columns = std::min(f.x.count, kColumns);
  const int rows = std::min(f.y.count, kRows);
  const auto nearest = [](int i, int of, int count) {
    return of > 1 ? static_cast<int>(std::lround(static_cast<double>(i) * (count - 1) / (of - 1)))
                  : 0;
  };
  std::vector<std::string> lines;
  for (int row = rows - 1; row >= 0; --row) {
    const int at_y = nearest(row, rows, f.y.count);
    std::string line = fmt::format("{:>9} ", decimal(f.y.at(at_y)));
    for (int column = 0; column < columns; ++column) {
      const int at_x = nearest(column, columns, f.x.count);
      const double share = f.at(at_x, at_y);
      const int tenths = static_cast<int>(std::floor(share * 10 + 1e-9));
      line += !f.is_open(at_x, at_y) ? ' '
              : tenths >= 10         ? '*'
              : share > 0            ? static_cast<char>('0' + tenths)
                                     : '.';
    }
    lines.push_back(line);
  }
  const std::string from = decimal(f.x.from);
  const std::string to = decimal(f.x.to);
  const std::size_t width = static_cast<std::size_t>(columns);
  const std::size_t gap = width > from.size() + to.size() ? width - from.size() - to.size() : 1;
  lines.push_back(std::string(10, ' ') + from + std::string(gap, ' ') + to);
  lines.push_back("");
  lines.push_back(fmt::format("          tenths of {}: 9 is 90 to 99 %, * all, . nothing",
                              f.points > 0 ? "the points" : "the printable area"));
  lines.push_back(fmt::format("          blank: not {}", map_ground()));
  if (columns < f.x.count || rows < f.y.count) {
    lines.push_back(fmt::format("          (thinned to {} by {}; csv, json and svg have it all)",
                                columns, rows));
  }
  return lines;
}

}  // namespace leeway
