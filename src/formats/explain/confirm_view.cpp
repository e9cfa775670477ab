#include "formats/explain/confirm_view.h"

#include <fmt/format.h>

#include "formats/explain/mistake_view.h"
#include "formats/text/change_text.h"
#include "formats/text/numbers.h"
#include "formats/text/words.h"

namespace leeway {
namespace {

Confirmation look_at_probe(const MistakeFound& mistake, const Setup& setup) {
  return {"With the machine off, look from where the operator stands",
          "a probe " + offset_words(mistake.changed.probe.offset),
          "a probe " + offset_words(setup.probe.offset)};
}

std::string extent_words(const Shape& shape) {
  const Box box = bounding_box(shape);
  return fmt::format("{} by {}", decimal(box.width()), decimal(box.depth()));
}

std::string box_words(const Shape& shape) { return shape_words(bounding_box(shape)); }

std::string corner_words(const Shape& shape) {
  const Box box = bounding_box(shape);
  return "near " + pair(Point{box.x0, box.y0});
}

Confirmation read_travel(const MistakeFound& mistake, const Setup& setup) {
  return {"Raise the nozzle, move it slowly to each end and read where it stops",
          box_words(mistake.changed.machine.travel), box_words(setup.machine.travel)};
}

// By its size, or where that is the same, by where it lies.
Confirmation measure_bed(const MistakeFound& mistake, const Setup& setup) {
  const Shape& stated = setup.machine.bed;
  const Shape& meant = mistake.changed.machine.bed;
  if (extent_words(stated) != extent_words(meant)) {
    return {"Measure the bed from left to right and from front to back with a ruler, in mm",
            extent_words(meant), extent_words(stated)};
  }
  return {"Raise the nozzle, move it slowly over the front left corner of the bed and read X and Y",
          corner_words(meant), corner_words(stated)};
}

// REQUIRES: a grid.
Confirmation measure_grid(const MistakeFound& mistake, const Setup& setup) {
  const auto words = [](const Setup& s) {
    return shape_words(grid_bounds_for_probe(s, *s.request.grid));
  };
  return {"Measure on the bed where the outermost points shall be", words(mistake.changed),
          words(setup)};
}

// What is several times as large, or as deep as it is wide.
Confirmation measure_changed(const MistakeFound& mistake, const Setup& setup) {
  if (changes_any<ProbeOffset>(mistake.changes)) {
    return {"Measure from nozzle to probe, sideways and front to back, with a ruler, in mm",
            "a probe " + offset_words(mistake.changed.probe.offset),
            "a probe " + offset_words(setup.probe.offset)};
  }
  const bool bed = changes_any<BedShape>(mistake.changes);
  const bool same_size =
      extent_words(setup.machine.bed) == extent_words(mistake.changed.machine.bed);
  const bool travel = changes_any<TravelShape>(mistake.changes);
  if (bed && !(same_size && travel)) return measure_bed(mistake, setup);
  return travel ? read_travel(mistake, setup) : measure_grid(mistake, setup);
}

Confirmation find_origin(const MistakeFound& mistake, const Setup& setup) {
  const Box bed = bounding_box(setup.machine.bed);
  const std::string centre = "near 0, 0";
  const std::string corner = "near " + pair(Point{bed.width() / 2, bed.depth() / 2});
  const bool at_centre = mistake.mistake == Mistake::origin_at_centre;
  return {"Raise the nozzle, move it slowly over the middle of the bed and read X and Y",
          at_centre ? centre : corner, at_centre ? corner : centre};
}

Confirmation count_columns(const MistakeFound& mistake, const Setup& setup) {
  return {"Count the points from left to right as the machine takes them, raised",
          std::to_string(mistake.changed.request.grid->columns),
          std::to_string(setup.request.grid->columns)};
}

const char* look_for(Mistake mistake) {
  switch (mistake) {
    case Mistake::offset_left_at_zero:
    case Mistake::offset_elsewhere:
      return "Measure how far the probe stands from the nozzle's tip, sideways and front to back; "
             "only a nozzle that probes by itself has the offset 0, 0.";
    case Mistake::frame:
      return "Raise the nozzle, move it slowly until it is the probe that stands where you want "
             "the first point, and read X and Y: if they are the numbers that were given, those "
             "are numbers for the nozzle; if they are off by the offset, for the probe.";
    case Mistake::home_frame:
      return "Look whether it is the nozzle or the probe that shall stand at the homing point.";
    case Mistake::margins_from_travel:
    case Mistake::margins_from_bed:
    case Mistake::one_margin:
      return "Look up what your controller counts its margins from, and measure from the edge of "
             "the bed to the outermost point that you want.";
    case Mistake::margins_exchanged:
      return "Measure from the left edge of the bed to the leftmost point that you want, and from "
             "the front edge to the foremost.";
    case Mistake::counted_from_back:
      return "Raise the nozzle, move it slowly towards the back and watch Y: where it falls, Y is "
             "counted from the back.";
    case Mistake::travel_beyond_bed:
      return "Raise the nozzle, move it slowly towards each side and read where it really stops: "
             "at the edge of the bed, or past it?";
    case Mistake::bounds_exchanged:
      return "Look which two of the bounds are from left to right and which from front to back.";
    case Mistake::bed_size:
      return "Measure the bed from left to right and from front to back with a ruler, in mm.";
    case Mistake::diameter_as_radius:
      return "Look up or measure how wide the sensing area is from side to side: half of that is "
             "its radius.";
    case Mistake::uncertainty_scale:
      return "An uncertainty is a length in mm, as 0.1 or 0.2: how far off the number may be.";
    default:  // of the travel
      return "Raise the nozzle, move it slowly towards each side past the edge of the bed and "
             "read where it really stops.";
  }
}

Confirmation to_see(const MistakeFound& mistake, const Setup& setup) {
  switch (mistake.mistake) {
    case Mistake::sign_of_x:
    case Mistake::sign_of_y:
    case Mistake::both_signs:
    case Mistake::axes_swapped:
    case Mistake::axes_from_side:
      return look_at_probe(mistake, setup);
    case Mistake::origin_at_centre:
    case Mistake::origin_at_corner:
      return find_origin(mistake, setup);
    case Mistake::inches:
    case Mistake::decimal_point:
    case Mistake::width_and_depth_exchanged:
      return measure_changed(mistake, setup);
    case Mistake::columns_and_rows_exchanged:
      return count_columns(mistake, setup);
    default:
      return {look_for(mistake.mistake), "", ""};
  }
}

}  // namespace

Confirmation confirmation_of(const MistakeFound& mistake, const Setup& setup) {
  Confirmation seen = to_see(mistake, setup);
  if (!seen.confirms.empty() && seen.confirms == seen.refutes) {
    return {"No look at the machine tells this one: what it changes is too small to see.", "", ""};
  }
  return seen;
}

std::string confirm_sentence(const MistakeFound& mistake, const Setup& setup) {
  const Confirmation seen = confirmation_of(mistake, setup);
  if (seen.confirms.empty()) return seen.look;
  return fmt::format("{}: {} would confirm it, {} refute it.", seen.look, seen.confirms,
                     seen.refutes);
}

}  // namespace leeway
