#include "formats/drawing/heat_colours.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace leeway {
namespace {

struct ColourStop {
  double at;
  int r, g, b;
};
constexpr ColourStop kStops[] = {{0.0, 0x00, 0x20, 0x4c},
                                 {64 / 255.0, 0x41, 0x4d, 0x6b},
                                 {128 / 255.0, 0x7c, 0x7b, 0x78},
                                 {192 / 255.0, 0xbd, 0xaf, 0x6e},
                                 {1.0, 0xff, 0xe9, 0x45}};

}  // namespace

std::string heat_colour(double share) {
  share = std::clamp(share, 0.0, 1.0);
  const ColourStop* high = kStops + 1;
  while (high->at < share) ++high;
  const ColourStop& low = *(high - 1);
  const double t = (share - low.at) / (high->at - low.at);
  const auto mix = [t](int a, int b) { return std::lround(a + t * (b - a)); };
  return fmt::format("#{:02x}{:02x}{:02x}", mix(low.r, high->r), mix(low.g, high->g),
                     mix(low.b, high->b));
}

}  // namespace leeway
