// Pairs of numbers that changed places.

#include "tasks/explain/hypotheses/mistake_table.h"

#include <cmath>

namespace leeway {

void add_exchanges(Trials& trials) {
  const std::optional<Grid>& grid = trials.setup().request.grid;
  if (grid && grid->columns != grid->rows) {
    trials.add(Mistake::columns_and_rows_exchanged,
               {GridColumns{grid->rows}, GridRows{grid->columns}});
  }
  if (const Box* b = trials.bounds()) {
    trials.add(Mistake::bounds_exchanged, bounds_changes({b->y0, b->y1, b->x0, b->x1}));
  }
  const Machine& machine = trials.setup().machine;
  if (std::abs(trials.bed().width() - trials.bed().depth()) < 1e-6 &&
      std::abs(trials.travel().width() - trials.travel().depth()) < 1e-6) {
    return;
  }
  const BedShape bed{turned(machine.bed)};
  const TravelShape travel{turned(machine.travel)};
  trials.add(Mistake::width_and_depth_exchanged, {bed}, 0.4);
  trials.add(Mistake::width_and_depth_exchanged, {travel}, 0.4);
  trials.add(Mistake::width_and_depth_exchanged, {bed, travel}, 0.3);
}

}  // namespace leeway
