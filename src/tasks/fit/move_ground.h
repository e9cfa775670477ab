#pragma once
// Where the moves over a mesh are clear at the stated travel height.

#include <optional>
#include <span>

#include "geometry/areas/slices.h"
#include "leeway/rig.h"

namespace leeway {

class MoveGround {
 public:
  // `around` holds all meshes that are asked about.
  MoveGround(const Rig& rig, const Box& around);

  // Whether every move from a position of the probe to the next is clear.
  bool clear(std::span<const Point> way) const;

  // Whether the move that was not clear last is not clear in this mesh either: most meshes that
  // fail, fail there. REQUIRES: no point is left out.
  bool fails_again(const Box& bounds, int columns, int rows) const;

  // Whether so many meshes were refused that it is time to give up: where points are left out no
  // region tells beforehand which moves are clear.
  bool gives_up() const { return refused_ > kMostRefused; }

  // The y at which a row over all of [x0, x1] may be clear; never too few. REQUIRES: x0 < x1.
  Intervals rows_over(double x0, double x1) const;

  // The y at which no x of [x0, x1] is clear; never too much. REQUIRES: x0 <= x1.
  Intervals blocked_at(double x0, double x1) const;

 private:
  // Made when it is first asked for. Nothing where all is clear.
  const std::optional<Slices>& clear_places() const;

  Rig rig_;
  Box around_;
  MoveLimits limits_;
  double shortfall_;
  Interval ends_;
  mutable std::optional<std::optional<Slices>> clear_;
  static constexpr long kMostRefused = 20'000;  // about a second
  mutable long refused_ = 0;
  mutable std::size_t failed_last_ = 0;  // the move's number in its way
};

// The moves over a mesh in travel order: row by row, every second one from right to left.
Point serpentine_point(const Box& bounds, int columns, int rows, std::size_t number);

}  // namespace leeway
