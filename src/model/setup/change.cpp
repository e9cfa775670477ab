#include "leeway/change.h"

#include "geometry/plane/by_kind.h"

namespace leeway {
namespace {

// What a grid says in bounds, whatever it said before.
Box& bounds_of(Setup& setup) {
  Grid& grid = *setup.request.grid;
  // Given by margins, the grid gets the bounds that it has now: a change along one axis must not
  // move the other.
  if (!std::holds_alternative<Box>(grid.extent)) grid.extent = grid_bounds(grid, setup.machine);
  return std::get<Box>(grid.extent);
}

Margins& margins_of(Setup& setup) {
  Grid& grid = *setup.request.grid;
  if (!std::holds_alternative<Margins>(grid.extent)) grid.extent = Margins{};
  return std::get<Margins>(grid.extent);
}

double& side_of(Margins& margins, GridSide edge) {
  switch (edge) {
    case GridSide::left:
      return margins.left;
    case GridSide::right:
      return margins.right;
    case GridSide::front:
      return margins.front;
    case GridSide::back:
      break;
  }
  return margins.back;
}

void apply_change(const Change& change, Setup& s) {
  Request& request = s.request;
  by_kind(
      change, [&](const CoverageFactor& c) { s.coverage_factor = c.to; },
      [&](const BedShape& c) { s.machine.bed = c.to; },
      [&](const TravelShape& c) { s.machine.travel = c.to; },
      [&](const ProbeOffset& c) { s.probe.offset = c.to; },
      [&](const OffsetUncertainty& c) { s.probe.offset_uncertainty = c.to; },
      [&](const BedUncertainty& c) { s.machine.bed_uncertainty = c.to; },
      [&](const TravelUncertainty& c) { s.machine.travel_uncertainty = c.to; },
      [&](const SpotShape& c) { s.probe.spot = c.to; },
      [&](const EdgeDistance& c) { s.probe.edge_distance = c.to; },
      [&](const GridColumns& c) { request.grid->columns = c.to; },
      [&](const GridRows& c) { request.grid->rows = c.to; },
      [&](const GridAlongX& c) {
        Box& bounds = bounds_of(s);
        bounds.x0 = c.from;
        bounds.x1 = c.to;
      },
      [&](const GridAlongY& c) {
        Box& bounds = bounds_of(s);
        bounds.y0 = c.from;
        bounds.y1 = c.to;
      },
      [&](const GridFrame& c) { request.grid->frame = c.to; },
      [&](const GridMargins& c) {
        Margins& margins = margins_of(s);
        margins = {c.to, c.to, c.to, c.to, margins.from};
      },
      [&](const GridMargin& c) { side_of(margins_of(s), c.edge) = c.to; },
      [&](const GridMarginsFrom& c) { margins_of(s).from = c.to; },
      [&](const PointPlace& c) { request.points[c.point].at = c.to; },
      [&](const PointFrame& c) { request.points[c.point].frame = c.to; },
      [&](const HomePlace& c) { request.home->at = c.to; },
      [&](const HomeFrame& c) { request.home->frame = c.to; });
}

}  // namespace

Setup applied(const Changes& changes, Setup setup) {
  for (const Change& change : changes) apply_change(change, setup);
  return setup;
}

}  // namespace leeway
