#pragma once
// What a person sees of a machine at a glance: four sides.

#include "leeway/setup.h"

namespace leeway {

struct Sides {
  double left = 0;
  double right = 0;
  double front = 0;
  double back = 0;
};

// How far `inner` keeps from the sides of `outer`; negative where it sticks out.
Sides inside_by(const Box& inner, const Box& outer);

// What the probe reaches by bed and travel, guard bands kept, by their boxes: obstacles and corners
// are left to the check.
Box reach_by_boxes(const Setup& setup);

// What is asked for, for the probe: the grid's bounds, else the box of the named points. Nothing
// where neither is there.
std::optional<Box> asked_box(const Setup& setup);

// How much further the travel would have to go on each side for the box that is asked for; 0 where
// it goes far enough.
Sides lacking_travel(const Setup& setup);

}  // namespace leeway
