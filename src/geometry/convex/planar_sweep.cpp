#include "geometry/convex/planar_sweep.h"

#include <algorithm>
#include <iterator>

#include "geometry/plane/orientation.h"

namespace leeway::decomposition {

// 1 when `p` is above the edge.
int PlanarSweep::side(const Edge& edge, Point p) const {
  return orientation(at_[edge.left], at_[edge.right], p);
}

bool PlanarSweep::Below::operator()(std::size_t a, std::size_t b) const {
  if (a == b) return false;
  const Edge& e = sweep->edges_[a];
  const Edge& f = sweep->edges_[b];
  // Edges that do not cross compare alike wherever both are. Here it is at the later of their left
  // ends.
  if (e.left == f.left) return sweep->side(e, sweep->at_[f.right]) > 0;
  return e.left < f.left ? sweep->side(e, sweep->at_[f.left]) > 0
                         : sweep->side(f, sweep->at_[e.left]) < 0;
}
bool PlanarSweep::Below::operator()(std::size_t edge, Point p) const {
  return sweep->side(sweep->edges_[edge], p) > 0;
}
bool PlanarSweep::Below::operator()(Point p, std::size_t edge) const {
  return sweep->side(sweep->edges_[edge], p) < 0;
}

PlanarSweep::PlanarSweep(const std::vector<Point>& whole, const std::vector<Directed>& boundary)
    : at_(whole), starting_(whole.size()), status_(Below{this}) {
  for (const Directed edge : boundary) {
    add({std::min(edge.from, edge.to), std::max(edge.from, edge.to), edge.from < edge.to, 0,
         false});
  }
}

std::size_t PlanarSweep::add(const Edge& edge) {
  edges_.push_back(edge);
  starting_[edge.left].push_back(edges_.size() - 1);
  return edges_.size() - 1;
}

bool PlanarSweep::run() {
  for (int vertex = 0; vertex < static_cast<int>(at_.size()); ++vertex) {
    if (!visit(vertex)) return false;
  }
  return status_.empty();
}

// Ties the vertex to the latest one of the gap above an edge when either of the two needs it.
void PlanarSweep::tie(int vertex, std::size_t edge_below, bool needed) {
  const Edge& below = edges_[edge_below];
  if (!below.interior_above || !(needed || below.waiting)) return;
  result_.push_back({below.latest, vertex});
  result_.push_back({vertex, below.latest});
}

bool PlanarSweep::visit(int vertex) {
  // The edges that end here or pass through are neighbours: those that the vertex is neither above
  // nor below.
  const auto first = status_.lower_bound(at_[vertex]);
  auto last = first;
  while (last != status_.end() && side(edges_[*last], at_[vertex]) == 0) ++last;
  const bool none_to_the_left = first == last;
  const bool is_lowest = first == status_.begin();
  const std::size_t below = is_lowest ? 0 : *std::prev(first);

  // A gap that closes here may have a vertex that still waits for a tie to the right.
  for (auto edge = first; edge != last; ++edge) tie(vertex, *edge, false);
  if (!close(vertex, first, last)) return false;
  const std::vector<std::size_t> right = open(vertex);
  if (none_to_the_left && right.empty()) return true;  // all its edges were dropped

  // Without an edge to its left a vertex needs a tie to the left. Without one to its right it waits
  // for the next vertex of its gap.
  if (!is_lowest) tie(vertex, below, none_to_the_left);
  for (const std::size_t edge : right) {
    edges_[edge].latest = vertex;
    if (!status_.insert(edge).second) return false;
  }
  if (!is_lowest) {
    edges_[below].latest = vertex;
    edges_[below].waiting = right.empty();
  }
  return true;
}

// Ends the edges that come from the left; of one that passes through, the rest starts anew.
bool PlanarSweep::close(int vertex, Status::iterator first, Status::iterator last) {
  for (auto it = first; it != last; ++it) {
    Edge& edge = edges_[*it];
    // It should have ended before. The order is broken, as it is where edges cross.
    if (edge.right < vertex) return false;
    result_.push_back(edge.interior_above ? Directed{edge.left, vertex}
                                          : Directed{vertex, edge.left});
    if (edge.right > vertex) {
      Edge rest = edge;
      rest.left = vertex;
      rest.waiting = false;
      edge.right = vertex;
      add(rest);
    }
  }
  status_.erase(first, last);
  return true;
}

// The edges to the right, from below. Those along one line are cut at the nearest end, and what
// then lies on itself both ways has no inside and is dropped.
std::vector<std::size_t> PlanarSweep::open(int vertex) {
  std::vector<std::size_t> all = starting_[vertex];
  std::sort(all.begin(), all.end(), [&](std::size_t a, std::size_t b) {
    const int turn = side(edges_[a], at_[edges_[b].right]);
    return turn != 0 ? turn > 0 : edges_[a].right < edges_[b].right;
  });
  std::vector<std::size_t> kept;
  for (std::size_t i = 0; i < all.size();) {
    const int end = edges_[all[i]].right;
    int balance = 0;
    std::size_t j = i;
    for (; j < all.size() && side(edges_[all[i]], at_[edges_[all[j]].right]) == 0; ++j) {
      Edge edge = edges_[all[j]];
      balance += edge.interior_above ? 1 : -1;
      if (edge.right == end) continue;
      edge.left = end;
      add(edge);
      edges_[all[j]].right = end;
    }
    if (balance != 0) {
      edges_[all[i]].interior_above = balance > 0;
      kept.push_back(all[i]);
    }
    i = j;
  }
  return kept;
}

}  // namespace leeway::decomposition
