#pragma once
// The window of a problem, and the offsets of it that are worth naming.

#include <optional>

#include "leeway/bracket.h"
#include "tasks/bracket/bracket_problem.h"

namespace leeway {

// Keeps a reference to the problem. Every offset that it names was tried by the verdicts of
// `check`.
class OffsetFinder {
 public:
  OffsetFinder(const BracketProblem& problem, Point present);

  // What the polygons are too coarse to show. REQUIRES: the offset works.
  void take(Point offset) {
    thin_ = ThinWindow{{offset.x, offset.x, offset.y, offset.y}, {offset}};
  }

  bool empty() const { return region_.empty() && !thin_; }
  BracketWindow window() const;
  // The middle of the window; the one nearest to the present offset, or that itself. To hundredths
  // or thousandths where those do.
  std::optional<Point> best() const;
  std::optional<Point> nearest() const;
  // Where the window is as thin as a line: offsets of it that work, from end to end.
  const std::optional<ThinWindow>& thin() const { return thin_; }

 private:
  BracketSide side(Point out) const;
  double end(Point place, Point out) const;

  const BracketProblem& problem_;
  Point present_;
  MultiPolygon region_;
  std::optional<ThinWindow> thin_;
};

}  // namespace leeway
