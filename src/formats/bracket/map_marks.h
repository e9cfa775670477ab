#pragma once
// The marks of offsets on the map of a bracket.

#include "formats/drawing/svg.h"

namespace leeway {

enum class MapMark { cross, dark_disc, light_disc, square, triangle, diamond, star };

// Its centre is at a point of the picture; it reaches at most 8 units from there.
void draw_mark(SvgWriter& svg, MapMark mark, Point at);

}  // namespace leeway
