#pragma once
// The limits that matter, place by place: what makes very many positions cheap in any order.

#include <deque>
#include <map>
#include <memory>
#include <span>
#include <utility>
#include <vector>

#include "model/choice.h"

namespace leeway {

// A square quartered again and again, until few edges matter within a leaf or it is small. Only
// what is asked for is made.
class ChoiceTree {
 public:
  ChoiceTree(const std::vector<PreparedLimit>& limits, Point offset, const Box& area);

  // Fewer positions than this are not worth a tree.
  static constexpr std::size_t kWorthwhile = 20'000;

  struct Leaf {
    Choice choice;
    Box box;
    std::uint32_t index = 0;
  };

  // The leaf of a position; outside the area that is one for all the rest, with every limit.
  const Leaf& leaf(Point p);

  // No index of a leaf is as large.
  static constexpr std::size_t kIndices = 64 * 64 + 1;

  // What has the same choice to the left and right of a position, leaf by leaf: a row of a lattice
  // runs along it.
  struct Stretch {
    Box box;
    const Choice* choice = nullptr;
  };
  const Stretch& stretch(Point p);

  // How many of `count` positions from the first on, which is in the box, lie in it one after the
  // other.
  static std::size_t run_length(const Box& box, const double* xs, const double* ys,
                                std::size_t count);

 private:
  struct Node {
    Leaf leaf;
    std::vector<std::unique_ptr<Distances>> narrowed;  // what its own candidates point to
    bool simple = false;                               // not worth quartering
    Node* quarters[4] = {};
  };

  struct Cell {
    const Leaf* leaf = nullptr;
    Stretch stretch;
  };

  Node* make(Box box, std::span<const Candidate> from);
  void narrow(Node& node);
  const Leaf& leaf(std::size_t column, std::size_t row);
  const Leaf& find(std::size_t column, std::size_t row);
  std::size_t along(double from_start) const;

  static constexpr std::size_t kCells = 64;  // a side; a leaf is no smaller than a cell
  static_assert(kCells * kCells < kIndices);

  const std::vector<PreparedLimit>& limits_;
  Point offset_;
  Box square_;
  double side_ = 0;  // of a cell
  double cells_per_mm_ = 0;
  std::deque<Node> nodes_;
  Node* root_ = nullptr;
  Leaf outside_;
  std::uint32_t leaves_ = 1;
  Stretch outside_stretch_;
  std::vector<Cell> cells_;  // row by row
  // What is narrowed to a single edge, by limit and identity.
  std::map<std::pair<std::uint32_t, std::int64_t>, std::unique_ptr<Distances>> single_;
  std::vector<double> at_middle_;
};

}  // namespace leeway
