#pragma once
// Outside a union of convex pieces, without ever uniting them.
//
// Outside, the distance to the union is the least distance to any edge of any piece. Inside, it is
// that to the exposed parts of the edges: those that no other piece covers.

#include <optional>

#include "geometry/distance/edge_set.h"
#include "geometry/distance/pieces.h"

namespace leeway {

class PiecesDistances {
 public:
  // Beyond the frame, where there is one, all is covered.
  PiecesDistances(const std::vector<Piece>& pieces, const std::vector<Segment>& exposed,
                  std::optional<Box> frame);

  double distance(Point p) const;
  void distances(const double* xs, const double* ys, double* out, std::size_t count) const;

 private:
  // What decides whether a piece covers a position.
  struct Cover {
    Box box;
    std::vector<Side> sides;
  };

  bool covered(Point p) const;
  void block_distances(const Block& block, double* out) const;
  void least_beyond(const Block& block, double* least) const;

  std::vector<Cover> covers_;
  EdgeSet boundary_;  // what is exposed
  EdgeSet edges_;     // every edge of every piece
  std::optional<Box> frame_;
};

}  // namespace leeway
