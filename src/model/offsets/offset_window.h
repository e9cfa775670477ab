#pragma once
// The window: the offsets with which every requested point is reachable, as polygons.
//
// With N the positions of the nozzle at which neither travel nor obstacles stop it, guards taken
// off, the window is the intersection over the points p of p - N, cut with where the mount can hold
// the probe. N is a convex set less some parts: the hull of the travel, less its notches and holes,
// less the obstacles swept by the head. For the convex set only the hull of the points matters;
// the parts are taken away point by point.

#include <vector>

#include "leeway/rig.h"
#include "leeway/tolerance.h"
#include "model/regions/region_draft.h"

namespace leeway {

class WindowMaker {
 public:
  // How many copies of such parts one window may need.
  static constexpr std::size_t kMostCopies = 20'000;

  // Throws SetupTooDetailed, OverlayFault.
  explicit WindowMaker(const Rig& rig);

  // Allows the offsets at which the convex set holds all of `probes`. REQUIRES: at least one.
  void allow(const std::vector<Point>& probes, RegionDraft& draft) const;
  // Forbids the offsets of `within` at which a part stops some of `probes`. Throws
  // SetupTooDetailed.
  void forbid(const std::vector<Point>& probes, const Box& within, RegionDraft& draft) const;

  // Where the bracket can hold the probe.
  void allow_mount(RegionDraft& draft) const;
  void forbid_mount(RegionDraft& draft) const;

 private:
  void allow_in(const Disc& travel, const std::vector<Point>& probes, RegionDraft& draft) const;
  void allow_in_hull(const std::vector<Point>& probes, RegionDraft& draft) const;

  Setup setup_;  // without its request
  std::shared_ptr<SweptSets> swept_sets_;
  Spread spread_;
  bool travel_is_empty_ = false;
  Ring hull_;                   // of a polygonal travel
  std::vector<Polygon> parts_;  // of -N, on the lattice
  std::vector<Polygon> wider_;  // the same for points between whole micrometres
};

// What the points of one setup want of the offset.
struct WindowPart {
  const WindowMaker* maker = nullptr;
  std::vector<Point> probes;
};

// The common window of several setups, in whole micrometres and on the safe side: a vertex may
// stand outside the true window by 0.001 mm. A part without points takes its mount only. Unbounded
// windows end at `frame`. Throws SetupTooDetailed, OverlayFault.
MultiPolygon offset_window(const std::vector<WindowPart>& parts, const Box& frame);
// What of a window is left when the bracket may be off: on the safe side too. Throws OverlayFault.
MultiPolygon shrunk_window(const MultiPolygon& window, const Tolerance& tolerance);
// Whether it is empty, in a fraction of the time.
bool offset_window_is_empty(const std::vector<WindowPart>& parts, const Box& frame);

// The window of a rectangular travel without its parts, exact: it may be a line or a point. Empty
// when there is none; nothing for other kinds of travel. REQUIRES: at least one probe position.
std::optional<Box> window_of_box(const Setup& setup, const std::vector<Point>& probes);

}  // namespace leeway
