#include "cli/commands/draw_place.h"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "cli/command_line.h"
#include "cli/failure.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/typed/typed_values.h"

namespace leeway {
namespace {

constexpr double kFarthest = 1e6;  // mm, as in setups

struct Halves {
  std::string_view first;
  std::string_view second;
};

// The two sides of the only comma.
std::optional<Halves> halves(std::string_view at) {
  const std::size_t comma = at.find(',');
  if (comma == std::string_view::npos || at.find(',', comma + 1) != std::string_view::npos) {
    return std::nullopt;
  }
  return Halves{at.substr(0, comma), at.substr(comma + 1)};
}

// "x=210,y=20", in mm.
std::optional<Point> millimetres(const Halves& h) {
  if (h.first.substr(0, 2) != "x=" || h.second.substr(0, 2) != "y=") return std::nullopt;
  const std::optional<double> x = typed_number(h.first.substr(2));
  const std::optional<double> y = typed_number(h.second.substr(2));
  if (!x || !y || std::abs(*x) > kFarthest || std::abs(*y) > kFarthest) return std::nullopt;
  return Point{*x, *y};
}

bool both_numbers(const Halves& h) { return typed_number(h.first) && typed_number(h.second); }

// Column and row, from 1.
Point grid_place(const Setup& setup, const Halves& h, const std::string& at, const char* option) {
  const std::string hint =
      fmt::format("for a position in mm write {} x={},y={}", option,
                  shortest(*typed_number(h.first)), shortest(*typed_number(h.second)));
  if (!setup.request.grid) {
    throw OptionFault(
        fmt::format("the option \"{}\" got \"{}\", which is a column and a row, but the setup "
                    "has no grid; {}",
                    option, at, hint));
  }
  const Grid& grid = *setup.request.grid;
  const double column = *typed_number(h.first);
  const double row = *typed_number(h.second);
  const bool whole = column == std::floor(column) && row == std::floor(row);
  if (!whole || column < 1 || column > grid.columns || row < 1 || row > grid.rows) {
    throw OptionFault(
        fmt::format("the option \"{}\" got \"{}\", but columns go from 1 to {} and rows from 1 to "
                    "{}; {}",
                    option, at, grid.columns, grid.rows, hint));
  }
  const Box bounds = grid_bounds_for_probe(setup, grid);
  return grid_point(bounds, grid.columns, grid.rows, static_cast<int>(column) - 1,
                    static_cast<int>(row) - 1);
}

Point named_place(const Setup& setup, const std::string& at, const char* option) {
  const Request& request = setup.request;
  if (at == "home" && request.home) {
    return probe_position(request.home->at, request.home->frame, setup.probe.offset);
  }
  std::vector<std::string_view> names;
  if (request.home) names.emplace_back("home");
  for (const NamedPoint& point : request.points) {
    if (point.name == at) return probe_position(point.at, point.frame, setup.probe.offset);
    names.emplace_back(point.name);
  }
  throw OptionFault(
      fmt::format("the option \"{}\" takes a column and a row such as 5,1, a position in mm such "
                  "as x=210,y=20, home, or the name of a point, not \"{}\"{}",
                  option, at, suggestion(at, names)));
}

Frame frame_named(const std::string& frame) {
  if (frame.empty() || frame == "probe") return Frame::probe;
  if (frame == "nozzle") return Frame::nozzle;
  throw OptionFault(fmt::format("the option \"--frame\" takes probe or nozzle, not \"{}\"", frame));
}

}  // namespace

std::optional<Point> draw_place(const Setup& setup, const std::string& at, bool given,
                                const std::string& frame, const char* option) {
  const Frame wanted = frame_named(frame);
  const std::optional<Halves> h = halves(at);
  const std::optional<Point> mm = h ? millimetres(*h) : std::nullopt;
  if (!frame.empty() && !mm) {
    throw OptionFault(
        fmt::format("\"--frame\" goes with a position in mm, such as {} x=210,y=20", option));
  }
  if (!given) return std::nullopt;
  if (mm) return probe_position(*mm, wanted, setup.probe.offset);
  if (h && both_numbers(*h)) return grid_place(setup, *h, at, option);
  return named_place(setup, at, option);
}

}  // namespace leeway
