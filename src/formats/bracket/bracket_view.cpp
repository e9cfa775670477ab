#include "formats/bracket/bracket_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/text/numbers.h"
#include "formats/text/summary.h"
#include "geometry/plane/assert.h"

namespace leeway {
namespace {

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

// What was asked for comes first where there is none.
std::string BracketView::too_much_leeway() const {
  const BracketResult& r = *report_.window;
  if (!r.leeway_wanted || r.asked || !r.best) return "";
  return fmt::format("no offset has a leeway of {}, the most is {}; ",
                     decimal(*r.leeway_wanted, true), signed_amount(r.best->leeway));
}

std::string BracketView::summary() const {
  LEEWAY_ASSERT(report_.window.has_value());
  std::vector<std::string> names;
  for (std::size_t s = 0; s < report_.setups.size(); ++s) names.push_back(setup_name(s));
  const BracketResult& r = *report_.window;
  std::string lead = joined(names) + ": " + too_much_leeway();
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

}  // namespace leeway
