#pragma once
// The judge of every overlay: compares a result with its operands by their areas, without any
// polygon overlay of its own.

#include "geometry/overlay/overlay_steps.h"

namespace leeway::overlay {

// The area where `result` is not what it should be, in square micrometres: in it but not in
// `a` op `b`, or the other way round, or covered twice. 0 up to rounding means that `result` is the
// right set, and so that all area identities hold; infinity when a vertex of it is not finite. The
// members of `a`, and those of `b`, may overlap among themselves.
double wrong_area(Operation operation, const MultiPolygon& a, const MultiPolygon& b,
                  const MultiPolygon& result);

}  // namespace leeway::overlay
