// A bed stated too small or too large: it begins where it does, and ends elsewhere.

#include "tasks/explain/hypotheses/mistake_table.h"

namespace leeway {

void add_beds(Trials& trials) {
  const Box* bed = std::get_if<Box>(&trials.setup().machine.bed);
  if (bed == nullptr) return;
  const double width = bed->width();
  const double depth = bed->depth();
  for (const double x : {-60.0, -40.0, -25.0, -15.0, -10.0, 0.0, 10.0, 15.0, 25.0, 40.0, 60.0}) {
    for (const double y : {-60.0, -40.0, -25.0, -15.0, -10.0, 0.0, 10.0, 15.0, 25.0, 40.0, 60.0}) {
      if (width + x < 80 || depth + y < 80) continue;
      trials.add(Mistake::bed_size, {BedShape{Box{bed->x0, bed->x1 + x, bed->y0, bed->y1 + y}}},
                 (x == 0 ? 0.3 : 0.1) * (y == 0 ? 0.3 : 0.1));
    }
  }
}

}  // namespace leeway
