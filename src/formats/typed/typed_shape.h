#pragma once
// Shapes as people type them.

#include <optional>
#include <string>
#include <string_view>

#include "leeway/geometry.h"

namespace leeway {

// Where 0, 0 lies in a shape that says only how large it is. `usual`: the front left corner of a
// rectangle, the centre of a disc.
enum class TypedOrigin { usual, corner, centre };

struct TypedShape {
  std::optional<Shape> shape;
  bool placed = false;  // it says itself where it is
  std::string hint;     // of what could not be read: "; did you mean ...?", or empty
};

// "233x207" and "round:94.5", either with "@x,y" behind it for where the front left corner or the
// centre is; "-5..239,-2..211"; or well-known text (wkt.h). Without a shape for anything else.
TypedShape typed_shape(std::string_view text, TypedOrigin origin = TypedOrigin::usual);

// What such a text looks like.
inline constexpr const char* kTypedShapes =
    "a size such as 233x207 or 233x207@-5,-2, bounds such as -5..239,-2..211, round:RADIUS or "
    "round:RADIUS@x,y, or a POLYGON in well-known text";

}  // namespace leeway
