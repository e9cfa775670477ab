#include "formats/bracket/trade_off_curve.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/drawing/axes.h"
#include "formats/text/numbers.h"

namespace leeway {
namespace {

constexpr double kNameWide = 200;

// From numbers to the picture: leeway to the right, coverage up.
struct Diagram {
  Box frame;
  double least_leeway, most_leeway;
  double least, most;  // of the share

  Point operator()(double leeway, double share) const {
    const double right = (leeway - least_leeway) / (most_leeway - least_leeway);
    const double up = (share - least) / (most - least);
    return {frame.x0 + right * frame.width(), frame.y1 - up * frame.depth()};
  }
};

Diagram diagram_of(const BracketTradeOff& trade_off, const Box& frame) {
  const BracketTrade& first = trade_off.curve.front();
  const BracketTrade& last = trade_off.curve.back();
  // Room for the names, above the first and below the last.
  const double air = std::max(0.005, 0.25 * (first.coverage - last.coverage));
  const double wide = std::max(0.1, 0.04 * (last.leeway - first.leeway));
  return {frame, std::max(0.0, first.leeway - wide), last.leeway + wide,
          std::max(0.0, last.coverage - air), first.coverage + air};
}

void write_curve_axes(SvgWriter& svg, const Diagram& d) {
  svg.path("tick", path_data(d.frame));
  const double step = tick_step(d.frame.width() / (d.most_leeway - d.least_leeway), 60);
  for (const double leeway : ticks(d.least_leeway, d.most_leeway, step)) {
    const double x = d(leeway, d.least).x;
    svg.line("tick", {x, d.frame.y1}, {x, d.frame.y1 + 4});
    svg.text("", {x, d.frame.y1 + 16}, Anchor::middle, tick_text(leeway, step));
  }
  const double percents = tick_step(d.frame.depth() / (100 * (d.most - d.least)), 24);
  for (const double percent : ticks(100 * d.least, std::min(100.0, 100 * d.most), percents)) {
    const double y = d(d.least_leeway, percent / 100).y;
    svg.line("tick", {d.frame.x0 - 4, y}, {d.frame.x0, y});
    svg.text("", {d.frame.x0 - 7, y + 4}, Anchor::end, tick_text(percent, percents) + " %");
  }
  svg.text("", {(d.frame.x0 + d.frame.x1) / 2, d.frame.y1 + 32}, Anchor::middle,
           "leeway of the offset, mm");
}

}  // namespace

void write_trade_off_curve(SvgWriter& svg, const BracketTradeOff& trade_off, Point at,
                           double width) {
  const Diagram d =
      diagram_of(trade_off, {at.x + 52, at.x + width - 12, at.y + 22, at.y + kCurveTall - 40});
  svg.group("trade-off");
  svg.text("strong", {at.x, at.y + 10}, Anchor::start,
           "What leeway costs: the greatest share within reach, for each leeway");
  write_curve_axes(svg, d);
  std::vector<Point> line;
  for (const BracketTrade& trade : trade_off.curve) line.push_back(d(trade.leeway, trade.coverage));
  svg.path("curve", line_data(line));
  struct CurveName {
    const BracketTrade* trade;
    const char* name;
    Anchor anchor;
    Point by;
  };
  // The curve falls: what stands above to the right of a place, or below to the left, is off it.
  const auto above = [](const BracketTrade& trade, const char* name) {
    return CurveName{&trade, name, Anchor::start, {4, -9}};
  };
  const auto below = [](const BracketTrade& trade, const char* name) {
    return CurveName{&trade, name, Anchor::end, {-6, 17}};
  };
  std::vector<CurveName> named{above(trade_off.most_coverage.trade, "most coverage")};
  if (trade_off.knee) {
    const BracketTrade& knee = trade_off.knee->trade;
    const bool room = d(knee.leeway, knee.coverage).x > d.frame.x0 + kNameWide;
    named.push_back(room ? below(knee, "between them") : above(knee, "between them"));
  }
  if (trade_off.curve.size() > 1) {
    named.push_back(below(trade_off.most_leeway.trade, "most leeway"));
  }
  for (const CurveName& one : named) {
    const Point p = d(one.trade->leeway, one.trade->coverage);
    svg.circle("curve-mark", p, 4);
    svg.text("label strong", p + one.by, one.anchor,
             fmt::format("{} {}", one.name, exact_pair(one.trade->offset)));
  }
  svg.close();
}

}  // namespace leeway
