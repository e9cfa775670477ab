#pragma once
// The rules of one shape, and of numbers, names and points within a setup.

#include <cmath>
#include <string>
#include <vector>

#include "leeway/validate.h"

namespace leeway {

using SetupFaults = std::vector<SetupFault>;

// `place` with another detail.
inline SetupPlace detail_of(SetupPlace place, SetupDetail detail) {
  place.detail = detail;
  return place;
}

// These return whether all is well.
bool check_number(double number, NumberRange range, SetupPlace place, SetupFaults& faults);
bool check_pair(Point pair, NumberRange range, SetupPlace place, SetupFaults& faults);

// The lower bound first; equal ones where a single place will do.
bool check_bounds(const Box& box, bool equal_x, bool equal_y, SetupPlace place,
                  SetupFaults& faults);

enum class PointAllowed { no, yes };
bool check_shape(const Shape& shape, PointAllowed point, SetupPlace place, SetupFaults& faults);

// Each place is looked at alike, whatever was found before.
inline bool both(bool a, bool b) { return a && b; }

}  // namespace leeway
