#include "model/limits/swept_sets.h"

#include <algorithm>

#include "geometry/plane/assert.h"
#include "geometry/plane/micrometres.h"
#include "geometry/plane/polygons.h"

namespace leeway {
namespace {

bool same_growth(const Growth& a, const Growth& b) {
  return a.base == b.base && a.spread.factor == b.spread.factor && a.spread.x == b.spread.x &&
         a.spread.y == b.spread.y && a.spread.all == b.spread.all;
}

}  // namespace

const SharedField& SweptSet::outside() const {
  if (!outside_) outside_ = leeway::outside(swept_, frame_);
  return outside_;
}

const SharedField& SweptSet::outside_by_pieces() const {
  if (!by_pieces_) by_pieces_ = leeway::outside_by_pieces(swept_);
  if (!by_pieces_) by_pieces_ = outside();
  return by_pieces_;
}

const std::vector<Polygon>& SweptSet::grown(const Growth& growth) const {
  for (const Grown& known : grown_) {
    if (same_growth(known.growth, growth)) return known.parts;
  }
  // As many as there are regions and windows.
  constexpr std::size_t kMost = 4;
  if (grown_.size() == kMost) grown_.erase(grown_.begin());
  grown_.push_back({growth, leeway::grown(swept_, growth)});
  return grown_.back().parts;
}

std::vector<Polygon> SweptSet::grown(const Growth& growth, Point by) const {
  if (by == Point{0, 0}) return grown(growth);
  // The lattice is the same after a move along it.
  if (!on_lattice(by)) return leeway::grown(moved(swept_, by), growth);
  std::vector<Polygon> parts;
  for (const Polygon& part : grown(growth)) parts.push_back(moved_on_lattice(part, by));
  return parts;
}

std::shared_ptr<SweptSets> SweptSets::for_change() const {
  auto changed = std::make_shared<SweptSets>();
  changed->before_ = entries_;
  return changed;
}

template <typename Make>
SharedSweptSet SweptSets::known_or(const Shape& still, const Shape& moving, bool around,
                                   const Make& make) {
  const auto same = [&](const Entry& entry) {
    return entry.around == around && entry.moving == moving && entry.still == still;
  };
  // Looked for one by one: a machine has few obstacles and parts.
  auto known = std::find_if(entries_.begin(), entries_.end(), same);
  if (known != entries_.end()) return known->set;
  // Of the sums before the change those are taken over that are asked for again.
  known = std::find_if(before_.begin(), before_.end(), same);
  entries_.push_back({still, moving, around, known != before_.end() ? known->set : make()});
  return entries_.back().set;
}

SharedSweptSet SweptSets::of(const Shape& obstacle, const Shape& part,
                             const std::string& obstacle_name, const std::string& part_name) {
  return known_or(obstacle, part, false, [&] {
    return std::make_shared<const SweptSet>(
        swept_obstacle(obstacle, part, obstacle_name, part_name));
  });
}

SharedSweptSet SweptSets::around(const MultiPolygon& bed, const Shape& spot) {
  return known_or(bed, spot, true, [&] {
    const Box box = bounding_box(Shape(bed));
    const Core core = core_of(spot);
    LEEWAY_ASSERT(!point_of(core));
    const Box spot_box = box_of(core);
    // The surroundings have to end somewhere. This far out the end does not show inside the frame,
    // where alone the spot may be on the bed.
    const double beyond = 10 + spot_box.width() + spot_box.depth();
    const Box all{box.x0 - beyond, box.x1 + beyond, box.y0 - beyond, box.y1 + beyond};
    return std::make_shared<const SweptSet>(swept_surroundings(bed, core, all),
                                            eroded(box, spot_box));
  });
}

Box eroded(const Box& box, const Box& spot) {
  return {box.x0 - spot.x0, box.x1 - spot.x1, box.y0 - spot.y0, box.y1 - spot.y1};
}

}  // namespace leeway
