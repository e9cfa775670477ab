#pragma once
// What is swept of a machine and a probe. None of it depends on the offset or on what is asked for:
// it is computed once, and shared by the limits and regions of every offset.

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "model/limits/swept.h"

namespace leeway {

using SharedField = std::shared_ptr<const Field>;

// One sum, with what limits and regions want of it, each made when it is first asked for.
class SweptSet {
 public:
  // With a frame everything beyond the frame counts as covered.
  explicit SweptSet(Swept swept, std::optional<Box> frame = std::nullopt)
      : swept_(std::move(swept)), frame_(frame) {}

  double radius() const { return swept_.radius; }

  // The distance to the core; the radius is not taken off. Null when the frame is all covered.
  const SharedField& outside() const;
  // The same with the inside of every polygon as convex pieces: what straight moves want.
  const SharedField& outside_by_pieces() const;

  // What the sum grown by its radius and by `growth` covers, moved by `by`, for the regions.
  std::vector<Polygon> grown(const Growth& growth, Point by) const;

 private:
  struct Grown {
    Growth growth;
    std::vector<Polygon> parts;
  };
  const std::vector<Polygon>& grown(const Growth& growth) const;

  Swept swept_;
  std::optional<Box> frame_;
  mutable SharedField outside_;
  mutable SharedField by_pieces_;
  mutable std::vector<Grown> grown_;  // the latest few
};

using SharedSweptSet = std::shared_ptr<const SweptSet>;

// The sums of a machine and a probe, each computed when it is first asked for.
// Not thread-safe.
class SweptSets {
 public:
  // Where something of the machine is changed, the sums that stay the same are these.
  std::shared_ptr<SweptSets> for_change() const;

  // An obstacle swept by the mirrored part. Throws SetupTooDetailed (limits.h); the names are for
  // its message.
  SharedSweptSet of(const Shape& obstacle, const Shape& part, const std::string& obstacle_name,
                    const std::string& part_name);

  // The surroundings of a bed swept by the mirrored spot, with a frame beyond which the spot
  // cannot be on the bed. REQUIRES: a spot whose core is no point, and for distances one no
  // larger than the bed's box. Throws SetupTooDetailed.
  SharedSweptSet around(const MultiPolygon& bed, const Shape& spot);

 private:
  struct Entry {
    Shape still;
    Shape moving;
    bool around = false;
    SharedSweptSet set;
  };
  template <typename Make>
  SharedSweptSet known_or(const Shape& still, const Shape& moving, bool around, const Make& make);

  std::vector<Entry> entries_;
  std::vector<Entry> before_;  // of what was changed
};

// The positions in which the reference point must be for the spot's box to stay in the bed's.
Box eroded(const Box& box, const Box& spot);

}  // namespace leeway
