#include "leeway/coverage_map.h"
#include "tasks/bracket/coverage_map_steps.h"

#include <algorithm>
#include <cmath>

#include "leeway/bracket.h"
#include "leeway/validate.h"
#include "tasks/bracket/offset_cover.h"
#include "tasks/go_on.h"

namespace leeway {
namespace {

bool are_offsets(const Steps& steps) {
  const bool finite =
      in_range(steps.from, NumberRange::length) && in_range(steps.to, NumberRange::length);
  return finite && steps.count >= 1 && (steps.count == 1 || steps.from < steps.to);
}

}  // namespace

void require_map_steps(const Steps& x, const Steps& y) {
  if (!are_offsets(x) || !are_offsets(y) ||
      static_cast<std::int64_t>(x.count) * y.count > kMostMapOffsets) {
    throw BracketRefused(
        "the offsets to look at must rise, be at most 1e6 mm either way, and at most " +
        std::to_string(kMostMapOffsets) + " in all");
  }
}

std::optional<CoverageMap> coverage_map(const Setup& setup, const Steps& x, const Steps& y,
                                        const Progress& progress) {
  require_map_steps(x, y);
  const OffsetCover cover{Rig(setup)};
  if (cover.printable_area() <= 0) return std::nullopt;
  CoverageMap map{x, y, {}, cover.printable_area(), {}, 0};
  const std::size_t columns = static_cast<std::size_t>(x.count);
  map.coverage.resize(columns * static_cast<std::size_t>(y.count));
  for (int row = 0; row < y.count; ++row) {
    go_on(progress, static_cast<double>(row) / y.count);
    cover.row(x, y.at(row),
              std::span(map.coverage).subspan(static_cast<std::size_t>(row) * columns, columns));
  }
  return map;
}

CommonMap common_coverage_map(std::span<const Setup> setups, const Steps& x, const Steps& y,
                              const Progress& progress) {
  CommonMap least;
  for (std::size_t s = 0; s < setups.size(); ++s) {
    const Progress part = [&](double done) {
      return !progress ||
             progress((static_cast<double>(s) + done) / static_cast<double>(setups.size()));
    };
    const auto map = coverage_map(setups[s], x, y, part);
    if (!map) return {std::nullopt, s};
    if (!least.map) {
      least.map = map;
      continue;
    }
    for (std::size_t i = 0; i < map->coverage.size(); ++i) {
      least.map->coverage[i] = std::min(least.map->coverage[i], map->coverage[i]);
    }
  }
  return least;
}

MapSteps map_around(std::span<const Setup> setups, const std::optional<Box>& window,
                    const std::vector<Point>& more, int steps) {
  Box box{0, 0, 0, 0};
  const auto take = [&box](const Box& other) {
    if (other.empty()) return;
    box = {std::min(box.x0, other.x0), std::max(box.x1, other.x1), std::min(box.y0, other.y0),
           std::max(box.y1, other.y1)};
  };
  const auto take_point = [&](Point p) { take({p.x, p.x, p.y, p.y}); };
  for (const Setup& setup : setups) {
    take_point(setup.probe.offset);
    for (const HeadPart& part : setup.machine.head) take(bounding_box(part.outline));
    if (setup.mount.envelope) take(bounding_box(*setup.mount.envelope));
    for (const KeptClear& kept : setup.mount.keep_clear) take(bounding_box(kept.outline));
  }
  for (const Point offset : more) take_point(offset);
  if (window) take(*window);
  const double longer = std::max({box.width(), box.depth(), 20.0});
  const double step = std::max(0.5, std::ceil(longer / steps * 2) / 2);
  const auto along = [&](double from, double to) {
    const double air = std::max(4.0, 0.06 * longer);
    const double low = std::floor((from - air) / step);
    const double high = std::ceil((to + air) / step);
    return Steps{low * step, high * step, static_cast<int>(high - low) + 1};
  };
  return {along(box.x0, box.x1), along(box.y0, box.y1)};
}

}  // namespace leeway
