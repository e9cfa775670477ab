#include "leeway/cover.h"

#include <algorithm>
#include <cmath>

#include "geometry/plane/core.h"
#include "tasks/cover/arc.h"
#include "tasks/cover/print_limits.h"

namespace leeway {
namespace {

constexpr double kChordError = 0.001;  // mm
constexpr int kUsualLines = 5;
constexpr double kHundredths = 100;

void take_in(std::optional<Box>& into, const Box& box) {
  if (!into) {
    into = box;
    return;
  }
  *into = {std::min(into->x0, box.x0), std::max(into->x1, box.x1), std::min(into->y0, box.y0),
           std::max(into->y1, box.y1)};
}

std::optional<Box> grown_box(const std::optional<Box>& box, double by) {
  if (!box) return box;
  return Box{box->x0 - by, box->x1 + by, box->y0 - by, box->y1 + by};
}

// Rounded to millionths, as leeways are.
std::optional<double> above_zero(double value) {
  const double amount = std::round(value * 1e6) / 1e6;
  if (amount > 0) return amount;
  return std::nullopt;
}

// How far one box goes past another.
FitSides sticking_out(const Box& box, const Box& of) {
  return {above_zero(of.x0 - box.x0), above_zero(box.x1 - of.x1), above_zero(of.y0 - box.y0),
          above_zero(box.y1 - of.y1)};
}

bool no_side(const FitSides& sides) {
  return !sides.left && !sides.right && !sides.front && !sides.back;
}

// To whole hundredths, outward: what can be entered, and holds all of it. A rounding bit is none.
double down_to_hundredths(double value) {
  return std::floor(value * kHundredths + 1e-6) / kHundredths;
}
double up_to_hundredths(double value) {
  return std::ceil(value * kHundredths - 1e-6) / kHundredths;
}

FitOptions wanted_grid(const Setup& setup, const CoverOptions& options) {
  FitOptions fit;
  fit.columns = options.columns;
  fit.rows = options.rows;
  if (!setup.request.grid) {
    if (!fit.columns) fit.columns = kUsualLines;
    if (!fit.rows) fit.rows = kUsualLines;
  }
  fit.remedies = false;
  fit.progress = options.progress;
  return fit;
}

// What is found can be entered, and the head gets from point to point.
bool can_be_entered(const FitResult& found) {
  return found.mesh && found.numbers.probe &&
         (!found.checked.moves.judged || found.checked.moves.clear());
}

// The grid with these bounds; where it does not hold, the best within them.
void find_grid(const Rig& rig, const CoverOptions& options, CoverResult& result) {
  const Box around = *grown_box(result.extent, options.around);
  const Box wanted{down_to_hundredths(around.x0), up_to_hundredths(around.x1),
                   down_to_hundredths(around.y0), up_to_hundredths(around.y1)};
  FitOptions fit_wanted = wanted_grid(rig.setup(), options);
  try {
    fit_wanted.sides = {wanted.x0, wanted.x1, wanted.y0, wanted.y1};
    FitResult found = fit(rig, fit_wanted);
    if (!can_be_entered(found)) {
      fit_wanted.sides = {};
      fit_wanted.within = wanted;
      found = fit(rig, fit_wanted);
    }
    if (!can_be_entered(found)) return;
    result.grid_lacks = sticking_out(wanted, found.mesh->bounds);
    result.grid = std::move(found);
  } catch (const FitRefused& refused) {
    result.grid_refused = refused.what();
  }
}

}  // namespace

struct PrintCover::Impl {
  Impl(const Rig& of, const CoverOptions& wanted)
      : rig(of),
        options(wanted),
        limits(of, std::max(of.setup().machine.print_inset, wanted.width / 2)) {}

  void layer(const PrintedMove& move, const Box& box) {
    if (result.moves == 0 || move.highest < result.lowest) {
      result.lowest = move.highest;
      result.first_layer.reset();
    }
    if (move.highest <= result.lowest) take_in(result.first_layer, box);
    result.highest = result.moves == 0 ? move.highest : std::max(result.highest, move.highest);
  }

  void look_along(const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      limits.look(ring[i], ring[(i + 1) % ring.size()], 0, 0);
    }
  }

  void look_along_edge(const Shape& area) {
    if (const Box* box = std::get_if<Box>(&area)) look_along(corners_of(*box));
    if (const Disc* disc = std::get_if<Disc>(&area)) {
      const Point start = disc->center + Point{disc->radius, 0};
      PrintedMove circle{start, start, 0, 0, disc->center, false, 0};
      look_along(chords_of(circle, kChordError));
    }
    if (const MultiPolygon* polygons = std::get_if<MultiPolygon>(&area)) {
      for (const Polygon& polygon : *polygons) {
        look_along(polygon.outer);
        for (const Ring& hole : polygon.holes) look_along(hole);
      }
    }
  }

  const Rig& rig;
  CoverOptions options;
  PrintLimits limits;
  CoverResult result;
};

PrintCover::PrintCover(const Rig& rig, const CoverOptions& options)
    : impl_(std::make_unique<Impl>(rig, options)) {}
PrintCover::~PrintCover() = default;
PrintCover::PrintCover(PrintCover&&) noexcept = default;

void PrintCover::add(const PrintedMove& move) {
  const Box box = box_of(move);
  impl_->layer(move, box);
  ++impl_->result.moves;
  take_in(impl_->result.extent, box);
  if (!move.center) {
    impl_->limits.look(move.from, move.to, move.lowest, move.line);
    return;
  }
  const std::vector<Point> corners = chords_of(move, kChordError);
  for (std::size_t i = 1; i < corners.size(); ++i) {
    impl_->limits.look(corners[i - 1], corners[i], move.lowest, move.line);
  }
}

void PrintCover::add(const Shape& area) {
  impl_->result.of_program = false;
  take_in(impl_->result.extent, bounding_box(area));
  impl_->look_along_edge(area);
  impl_->limits.look_at(area);
}

CoverResult PrintCover::finish() {
  CoverResult result = impl_->result;
  const Setup& setup = impl_->rig.setup();
  result.setup = setup.name;
  result.width = impl_->options.width;
  result.around = impl_->options.around;
  result.extent = grown_box(result.extent, result.width / 2);
  result.first_layer = grown_box(result.first_layer, result.width / 2);
  result.stops = impl_->limits.stops();
  if (setup.request.grid) result.mesh_bounds = grid_bounds_for_probe(setup, *setup.request.grid);
  if (!result.extent) return result;
  if (result.mesh_bounds) result.past = sticking_out(*result.extent, *result.mesh_bounds);
  find_grid(impl_->rig, impl_->options, result);
  return result;
}

bool inside_mesh(const CoverResult& result) {
  return result.extent && result.mesh_bounds && no_side(result.past);
}

bool all_inside(const CoverResult& result) { return inside_mesh(result) && result.stops.empty(); }

}  // namespace leeway
