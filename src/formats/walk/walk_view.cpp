#include "formats/walk/walk_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/text/numbers.h"

namespace leeway {
namespace {

// The nearer side along each axis.
struct NearSides {
  double x = 0, y = 0;
  bool left = false, front = false;
};

NearSides near_sides(Point probe, const Box& bed) {
  const double left = probe.x - bed.x0;
  const double front = probe.y - bed.y0;
  return {std::min(left, bed.x1 - probe.x), std::min(front, bed.y1 - probe.y),
          left <= bed.x1 - probe.x, front <= bed.y1 - probe.y};
}

}  // namespace

std::string stop_name(const WalkStop& stop, const WalkResult& result, const Rig& rig,
                      const Words& words) {
  return words.name(point_name(rig.setup(), result.check.points[stop.point]));
}

std::string seen_at(const WalkStop& stop, const Rig& rig) {
  const Box* bed = std::get_if<Box>(&rig.setup().machine.bed);
  if (bed == nullptr) {
    return fmt::format("{} from the edge", decimal(rig.limits().on_bed(stop.probe)));
  }
  const NearSides near = near_sides(stop.probe, *bed);
  return fmt::format("{} from the {}, {} from the {}", decimal(near.x),
                     near.left ? "left" : "right", decimal(near.y), near.front ? "front" : "back");
}

std::string height_words(const WalkResult& result) { return decimal(result.height); }

}  // namespace leeway
