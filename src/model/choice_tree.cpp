#include "model/choice_tree.h"

#include <algorithm>

#include "geometry/plane/infinity.h"
#include "geometry/plane/wide.h"

namespace leeway {
namespace {

constexpr std::size_t kStep = 16;
// Boxes are a little larger than their share, so that rounding leaves no position between two: by
// this much of a cell's side.
constexpr double kMargin = 1e-6;

// Whether kStep positions are all in the box.
LEEWAY_WIDE bool all_in(const Box& box, const double* xs, const double* ys) {
  std::int64_t out = 0;
  for (std::size_t i = 0; i < kStep; ++i) {
    out |= (xs[i] < box.x0) | (xs[i] > box.x1) | (ys[i] < box.y0) | (ys[i] > box.y1) ? 1 : 0;
  }
  return out == 0;
}

bool holds(const Box& box, Point p) {
  return p.x >= box.x0 && p.x <= box.x1 && p.y >= box.y0 && p.y <= box.y1;
}

}  // namespace

ChoiceTree::ChoiceTree(const std::vector<PreparedLimit>& limits, Point offset, const Box& area)
    : limits_(limits), offset_(offset), cells_(kCells * kCells) {
  const double size = std::max({area.width(), area.depth(), 1e-3});
  square_ = {area.x0, area.x0 + size, area.y0, area.y0 + size};
  side_ = size / static_cast<double>(kCells);
  cells_per_mm_ = 1 / side_;
  outside_.choice.candidates = all_of(limits);
  outside_.box = {-kInfinity, kInfinity, -kInfinity, kInfinity};
  outside_stretch_ = {outside_.box, &outside_.choice};
  root_ = make(square_, outside_.choice.candidates);
}

std::size_t ChoiceTree::along(double from_start) const {
  return std::min(static_cast<std::size_t>(from_start * cells_per_mm_), kCells - 1);
}

const ChoiceTree::Leaf& ChoiceTree::leaf(std::size_t column, std::size_t row) {
  const Leaf* known = cells_[row * kCells + column].leaf;
  return known ? *known : find(column, row);
}

const ChoiceTree::Leaf& ChoiceTree::leaf(Point p) {
  if (!holds(square_, p)) return outside_;
  return leaf(along(p.x - square_.x0), along(p.y - square_.y0));
}

const ChoiceTree::Stretch& ChoiceTree::stretch(Point p) {
  if (!holds(square_, p)) return outside_stretch_;
  const std::size_t column = along(p.x - square_.x0);
  const std::size_t row = along(p.y - square_.y0);
  Cell* cells = &cells_[row * kCells];
  if (cells[column].stretch.choice) return cells[column].stretch;
  const Leaf& here = leaf(column, row);
  std::size_t from = column;
  std::size_t to = column;
  while (from > 0 && leaf(from - 1, row).choice == here.choice) --from;
  while (to + 1 < kCells && leaf(to + 1, row).choice == here.choice) ++to;
  const double front = square_.y0 + static_cast<double>(row) * side_;
  const double margin = side_ * kMargin;
  const Stretch stretch{
      {leaf(from, row).box.x0, leaf(to, row).box.x1, front - margin, front + side_ + margin},
      &here.choice};
  for (std::size_t c = from; c <= to; ++c) cells[c].stretch = stretch;
  return cells[column].stretch;
}

std::size_t ChoiceTree::run_length(const Box& box, const double* xs, const double* ys,
                                   std::size_t count) {
  std::size_t length = 0;
  while (length + kStep <= count && all_in(box, xs + length, ys + length)) length += kStep;
  while (length < count && holds(box, {xs[length], ys[length]})) ++length;
  return std::max<std::size_t>(length, 1);
}

ChoiceTree::Node* ChoiceTree::make(Box box, std::span<const Candidate> from) {
  const double margin = side_ * kMargin;
  Node& node = nodes_.emplace_back();
  node.leaf.box = {box.x0 - margin, box.x1 + margin, box.y0 - margin, box.y1 + margin};
  Choice& choice = node.leaf.choice;
  choose(limits_, offset_, Around(node.leaf.box), from, at_middle_, choice);
  // What one limit decides needs no telling apart.
  if (choice.candidates.size() == 1) choice.some_may_fail = choice.some_may_pass = true;
  narrow(node);
  std::size_t edges = 0;
  for (const Candidate& candidate : choice.candidates) edges += candidate.distances->edges();
  node.simple = edges <= 1;
  return &node;
}

void ChoiceTree::narrow(Node& node) {
  const Around around(node.leaf.box);
  for (Candidate& candidate : node.leaf.choice.candidates) {
    const bool at_nozzle = limits_[candidate.limit].limit.at_nozzle;
    const Point middle = at_nozzle ? around.middle - offset_ : around.middle;
    std::unique_ptr<Distances> narrowed = candidate.distances->narrowed(middle, around.reach());
    if (!narrowed) continue;
    if (const std::int64_t identity = narrowed->identity(); identity != 0) {
      std::unique_ptr<Distances>& known = single_[{candidate.limit, identity}];
      if (!known) known = std::move(narrowed);
      candidate.distances = known.get();
    } else {
      candidate.distances = narrowed.get();
      node.narrowed.push_back(std::move(narrowed));
    }
  }
}

const ChoiceTree::Leaf& ChoiceTree::find(std::size_t column, std::size_t row) {
  Node* node = root_;
  std::size_t left = 0;
  std::size_t front = 0;
  std::size_t size = kCells;
  while (size > 1 && !node->simple) {
    size /= 2;
    const std::size_t right_half = column >= left + size ? 1 : 0;
    const std::size_t back_half = row >= front + size ? 1 : 0;
    left += right_half * size;
    front += back_half * size;
    Node*& quarter = node->quarters[2 * back_half + right_half];
    if (!quarter) {
      const auto at = [&](double start, std::size_t cells) {
        return start + static_cast<double>(cells) * side_;
      };
      quarter = make({at(square_.x0, left), at(square_.x0, left + size), at(square_.y0, front),
                      at(square_.y0, front + size)},
                     node->leaf.choice.candidates);
    }
    node = quarter;
  }
  node->leaf.index = leaves_++;
  for (std::size_t r = front; r < front + size; ++r) {
    for (std::size_t c = left; c < left + size; ++c) cells_[r * kCells + c].leaf = &node->leaf;
  }
  return node->leaf;
}

}  // namespace leeway
