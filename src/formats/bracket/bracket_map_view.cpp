// The map of the window in words and in characters.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/bracket/bracket_view.h"
#include "formats/text/numbers.h"
#include "geometry/plane/assert.h"

namespace leeway {

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
