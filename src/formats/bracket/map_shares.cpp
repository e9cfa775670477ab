#include "formats/bracket/map_shares.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <optional>

#include "formats/drawing/axes.h"
#include "formats/drawing/heat_colours.h"
#include "formats/text/numbers.h"
#include "geometry/areas/contour.h"

namespace leeway {
namespace {

constexpr int kBands = 40;  // of colour

// The bands of all cells, row by row from the front; -1 is blank.
struct CellBands {
  const CoverageMap& map;
  std::vector<int> bands;

  bool has(int column, int row, int least) const {
    return bands[static_cast<std::size_t>(row) * static_cast<std::size_t>(map.x.count) +
                 static_cast<std::size_t>(column)] >= least;
  }
};

std::vector<MapShares::Run> runs_of(const CellBands& cells, int row, int least) {
  std::vector<MapShares::Run> found;
  const int count = cells.map.x.count;
  for (int from = 0; from < count; ++from) {
    if (!cells.has(from, row, least)) continue;
    const int begin = from;
    while (from < count && cells.has(from, row, least)) ++from;
    found.push_back({begin, from});
  }
  return found;
}

// The cells of a band or a later one: runs along the rows, equal ones of following rows as one.
std::string cells_from(const CellBands& cells, int least, const View& view) {
  const CoverageMap& map = cells.map;
  const double dx = view.scale * (map.x.count > 1 ? map.x.step() : 1);
  const double dy = view.scale * (map.y.count > 1 ? map.y.step() : 1);
  std::string data;
  for (int row = 0; row < map.y.count;) {
    const std::vector<MapShares::Run> here = runs_of(cells, row, least);
    int end = row + 1;
    while (end < map.y.count && runs_of(cells, end, least) == here) ++end;
    for (const auto& [from, to] : here) {
      const Point corner = view(Point{map.x.at(from), map.y.at(end - 1)}) - Point{dx / 2, dy / 2};
      data += fmt::format("M{} {}h{}v{}h{}z", svg_number(corner.x), svg_number(corner.y),
                          svg_number(dx * (to - from)), svg_number(dy * (end - row)),
                          svg_number(-dx * (to - from)));
    }
    row = end;
  }
  return data;
}

}  // namespace

MapShares::MapShares(const BracketReport& report) : report_(report), map_(*report.map) {
  for (int row = 0; row < map_.y.count; ++row) {
    for (int column = 0; column < map_.x.count; ++column) {
      if (!map_.is_open(column, row)) continue;
      low_ = any_open_ ? std::min(low_, map_.at(column, row)) : map_.at(column, row);
      high_ = any_open_ ? std::max(high_, map_.at(column, row)) : map_.at(column, row);
      any_open_ = true;
    }
  }
  // All the same: it gets the lightest colour.
  if (high_ - low_ < 1e-6) low_ = high_ - 0.01;
}

Box MapShares::extent() const {
  const double half_x = map_.x.count > 1 ? map_.x.step() / 2 : 0.5;
  const double half_y = map_.y.count > 1 ? map_.y.step() / 2 : 0.5;
  return {map_.x.from - half_x, map_.x.to + half_x, map_.y.from - half_y, map_.y.to + half_y};
}

// Whether an offset or one beside it is of use: the window's outline cuts through cells.
bool MapShares::shows(int column, int row) const {
  for (int y = std::max(0, row - 1); y <= std::min(map_.y.count - 1, row + 1); ++y) {
    for (int x = std::max(0, column - 1); x <= std::min(map_.x.count - 1, column + 1); ++x) {
      if (map_.is_open(x, y)) return true;
    }
  }
  return false;
}

bool MapShares::cut_by_window() const {
  return map_.points == 0 && report_.window && !report_.window->window.region.empty();
}

int MapShares::band(int column, int row) const {
  if (cut_by_window() ? !shows(column, row) : !map_.is_open(column, row)) return -1;
  const double part = (map_.at(column, row) - low_) / (high_ - low_);
  return static_cast<int>(std::clamp(std::floor(part * kBands + 1e-9), 0.0, kBands - 1.0));
}

// A path for each band, of all cells with that or more, each painted over the one before: no cell
// ends where another begins, so that no viewer shows a seam.
void MapShares::draw_cells(SvgWriter& svg, const View& view) const {
  CellBands cells{map_, {}};
  for (int row = 0; row < map_.y.count; ++row) {
    for (int column = 0; column < map_.x.count; ++column) cells.bands.push_back(band(column, row));
  }
  svg.open("clipPath", {{"id", "map-window"}});
  if (cut_by_window()) {
    svg.empty("path",
              {{"clip-rule", "evenodd"}, {"d", path_data(report_.window->window.region, view)}});
  } else {
    svg.rect("", view(extent()));
  }
  svg.close();
  svg.open("g", {{"class", "cells"}, {"clip-path", "url(#map-window)"}});
  for (int least = 0; least < kBands; ++least) {
    const bool any =
        least == 0 || std::find(cells.bands.begin(), cells.bands.end(), least) != cells.bands.end();
    if (!any) continue;
    svg.empty("path", {{"class", "cell"},
                       {"fill", heat_colour((least + 0.5) / kBands)},
                       {"d", cells_from(cells, least, view)}});
  }
  svg.close();
}

// As many lines as can be told apart: 10, 5, 2 or 1 % from one to the next.
double MapShares::contour_step() const {
  for (const double step : {0.1, 0.05, 0.02}) {
    if ((high_ - low_) / step >= 4) return step;
  }
  return 0.01;
}

// Whether the cell of an offset is open.
bool MapShares::is_open(Point offset) const {
  const auto index = [](const Steps& steps, double value) {
    return std::clamp(static_cast<int>(std::lround((value - steps.from) / steps.step())), 0,
                      steps.count - 1);
  };
  return map_.is_open(index(map_.x, offset.x), index(map_.y, offset.y));
}

void MapShares::draw_contours(SvgWriter& svg, const View& view, std::vector<Label>& labels) const {
  using Line = std::vector<Point>;
  if (map_.points > 0 || !any_open_) return;  // numbers of points have no lines between them
  const double step = contour_step();
  svg.open("g", {{"class", "contours"}, {"clip-path", "url(#map-window)"}});
  for (int i = 0; i * step <= 1 + 1e-9; ++i) {
    const double level = i * step;
    const std::vector<Line> lines = contour_lines(map_.x, map_.y, map_.coverage, level);
    const Line* longest = nullptr;
    for (const Line& line : lines) {
      Line drawn;
      for (const Point p : line) drawn.push_back(view(p));
      const std::string data = line_data(drawn);
      svg.path("contour-rim", data);
      svg.path("contour", data);
      if (longest == nullptr || line.size() > longest->size()) longest = &line;
    }
    if (longest == nullptr || longest->size() < 4) continue;
    Label label{fmt::format("{} %", decimal(std::round(level * 1000) / 10)), {}, 0};
    label.around = false;
    label.otherwise = "";
    for (const double t : {0.5, 0.4, 0.6, 0.25, 0.75, 0.1, 0.9}) {
      const Point at =
          (*longest)[static_cast<std::size_t>(t * static_cast<double>(longest->size() - 1))];
      if (is_open(at)) label.places.push_back(view(at));
    }
    if (label.places.empty()) continue;
    label.at = label.places.front();
    labels.push_back(label);
  }
  svg.close();
}

std::string MapShares::tip(int column, int row) const {
  const std::string offset = pair({map_.x.at(column), map_.y.at(row)});
  const double share = map_.at(column, row);
  if (map_.points > 0) {
    return fmt::format("{}: {} of {} points", offset,
                       std::lround(share * static_cast<double>(map_.points)), map_.points);
  }
  return fmt::format("{}: {} % of the printable area", offset, percent(share));
}

// Of a patch of cells the open one nearest to its middle.
std::optional<std::pair<int, int>> MapShares::open_cell(Run columns, Run rows) const {
  std::optional<std::pair<int, int>> best;
  int best_by = 0;
  for (int y = rows.first; y < rows.second; ++y) {
    for (int x = columns.first; x < columns.second; ++x) {
      const int by = std::abs(2 * x - columns.first - columns.second + 1) +
                     std::abs(2 * y - rows.first - rows.second + 1);
      if (!map_.is_open(x, y) || (best && by >= best_by)) continue;
      best = {x, y};
      best_by = by;
    }
  }
  return best;
}

// A patch is large enough to be pointed at.
void MapShares::draw_tips(SvgWriter& svg, const View& view) const {
  constexpr double kPatch = 14;  // units of the picture
  const auto patches = [&](const Steps& steps) {
    const double cells = steps.count > 1 ? std::ceil(kPatch / (view.scale * steps.step())) : 1;
    std::vector<Run> runs;
    for (int from = 0; from < steps.count; from = runs.back().second) {
      runs.push_back({from, std::min(from + std::max(1, static_cast<int>(cells)), steps.count)});
    }
    return runs;
  };
  const Box all = extent();
  const double dx = all.width() / map_.x.count;
  const double dy = all.depth() / map_.y.count;
  const std::vector<Run> columns = patches(map_.x);
  svg.group("tips");
  for (const Run& y : patches(map_.y)) {
    for (const Run& x : columns) {
      const auto cell = open_cell(x, y);
      if (!cell) continue;
      const Box patch{all.x0 + dx * x.first, all.x0 + dx * x.second, all.y0 + dy * y.first,
                      all.y0 + dy * y.second};
      svg.open("path", {{"d", path_data(view(patch))}});
      svg.text_element("title", {}, tip(cell->first, cell->second));
      svg.close();
    }
  }
  svg.close();
}

void MapShares::draw_scale(SvgWriter& svg, const Box& drawing) const {
  if (!any_open_) return;
  const double x = drawing.x1 + 18;
  const double height = std::min(drawing.depth(), 260.0);
  const double top = drawing.y0;
  svg.group("bar-of-colours");
  for (int i = 0; i < kBands; ++i) {
    const double y = top + height * (1 - (i + 1.0) / kBands);
    svg.empty("path", {{"class", "cell"},
                       {"fill", heat_colour((i + 0.5) / kBands)},
                       {"d", path_data(Box{x, x + 14, y, y + height / kBands + 0.3})}});
  }
  svg.path("tick", path_data(Box{x, x + 14, top, top + height}));
  const double most = map_.points > 0 ? static_cast<double>(map_.points) : 100;
  const double step =
      std::max(map_.points > 0 ? 1.0 : 0.01, tick_step(height / (most * (high_ - low_)), 24));
  for (const double amount : ticks(most * low_, most * high_, step)) {
    const double y = top + height * (1 - (amount / most - low_) / (high_ - low_));
    svg.line("tick", {x + 14, y}, {x + 18, y});
    svg.text("", {x + 21, y + 4}, Anchor::start,
             tick_text(amount, step) + (map_.points > 0 ? "" : " %"));
  }
  svg.close();
}

}  // namespace leeway
