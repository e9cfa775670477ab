#pragma once
// The sweep that cuts a polygon with holes into parts which every vertical meets at most once.

#include <cstddef>
#include <set>
#include <vector>

#include "leeway/geometry.h"

namespace leeway::decomposition {

// Vertices are indices into a list sorted from left to right (lexicographic, orientation.h).
struct Directed {
  int from = 0;
  int to = 0;
};

// Goes over the vertices from left to right and ties every vertex that has no edge to one side to
// a vertex on that side, inside the polygon. (Lee and Preparata 1977; de Berg et al.,
// Computational Geometry, section 3.2.) It works on places, not on corners of rings: rings that
// touch at a vertex, repeated vertices and holes need no care of their own. An edge that passes
// through a vertex is cut there; an edge that is there both ways is dropped.
class PlanarSweep {
 public:
  // `boundary` has the interior on the left. `whole`, in whole picometres, must outlive the sweep.
  PlanarSweep(const std::vector<Point>& whole, const std::vector<Directed>& boundary);

  PlanarSweep(const PlanarSweep&) = delete;
  PlanarSweep& operator=(const PlanarSweep&) = delete;

  // False when edges cross.
  bool run();

  // The boundary, cut and cleaned, and the diagonals both ways.
  const std::vector<Directed>& result() const { return result_; }

 private:
  struct Edge {
    int left = 0;
    int right = 0;
    bool interior_above = false;
    // Of the gap above the edge: its rightmost vertex so far, and whether that still waits for a
    // tie to the right.
    int latest = 0;
    bool waiting = false;
  };
  struct Below {
    using is_transparent = void;
    const PlanarSweep* sweep;
    bool operator()(std::size_t a, std::size_t b) const;
    bool operator()(std::size_t edge, Point p) const;
    bool operator()(Point p, std::size_t edge) const;
  };
  using Status = std::set<std::size_t, Below>;

  bool visit(int vertex);
  void tie(int vertex, std::size_t edge_below, bool needed);
  bool close(int vertex, Status::iterator first, Status::iterator last);
  std::vector<std::size_t> open(int vertex);
  std::size_t add(const Edge& edge);
  int side(const Edge& edge, Point p) const;

  const std::vector<Point>& at_;
  std::vector<Edge> edges_;
  std::vector<std::vector<std::size_t>> starting_;  // the edges to the right of each vertex
  Status status_;                                   // the edges on the sweep line, from below
  std::vector<Directed> result_;
};

}  // namespace leeway::decomposition
