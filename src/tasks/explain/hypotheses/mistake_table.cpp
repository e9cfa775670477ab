#include "tasks/explain/hypotheses/mistake_table.h"
#include "leeway/explain.h"

#include "geometry/plane/assert.h"

namespace leeway {

const std::vector<MistakeRow>& mistake_table() {
  static const std::vector<MistakeRow> rows{
      {Mistake::sign_of_x, "sign of x", 1},
      {Mistake::sign_of_y, "sign of y", 1},
      {Mistake::both_signs, "both signs", 0.8},
      {Mistake::axes_swapped, "axes swapped", 0.5},
      {Mistake::axes_from_side, "axes as seen from the side", 0.4},
      {Mistake::frame, "frame", 0.8},
      {Mistake::home_frame, "frame of home", 0.4},
      {Mistake::margins_from_travel, "margins from the travel", 0.8},
      {Mistake::margins_from_bed, "margins from the bed", 0.6},
      {Mistake::margins_exchanged, "margins exchanged", 0.3},
      {Mistake::one_margin, "one margin", 0.5},
      {Mistake::origin_at_centre, "origin at the centre", 0.6},
      {Mistake::origin_at_corner, "origin at the corner", 0.6},
      {Mistake::counted_from_back, "y counted from the back", 0.25},
      {Mistake::travel_equals_bed, "travel equals bed", 2},
      {Mistake::print_area_as_travel, "print area taken for travel", 0.6},
      {Mistake::travel_beyond_bed, "travel beyond bed", 0.3},
      {Mistake::travel_begins_at_zero, "negative end of the travel left out", 0.6},
      {Mistake::travel_size_as_end, "size of the travel taken for its end", 0.5},
      {Mistake::offset_left_at_zero, "offset left at zero", 0.8},
      {Mistake::offset_elsewhere, "offset measured elsewhere", 0.4},
      {Mistake::inches, "inches", 0.3},
      {Mistake::decimal_point, "decimal point", 0.35},
      {Mistake::columns_and_rows_exchanged, "columns and rows exchanged", 0.2},
      {Mistake::width_and_depth_exchanged, "width and depth exchanged", 0.5},
      {Mistake::bounds_exchanged, "x and y of the bounds exchanged", 0.4},
      {Mistake::bed_size, "size of the bed", 0.4},
      {Mistake::diameter_as_radius, "diameter taken for radius", 0.4},
      {Mistake::uncertainty_scale, "scale of an uncertainty", 0.4},
  };
  return rows;
}

const char* word(Mistake mistake) {
  const MistakeRow& row = mistake_table()[static_cast<std::size_t>(mistake)];
  LEEWAY_ASSERT(row.mistake == mistake);
  return row.word;
}

std::vector<MistakeTrial> mistake_trials(const Setup& setup) {
  Trials trials(setup);
  for (const auto add : {add_offsets, add_frames, add_margins, add_origins, add_travels, add_units,
                         add_exchanges, add_beds, add_probes}) {
    add(trials);
  }
  return trials.take();
}

}  // namespace leeway
