#include "geometry/distance/pieces_distances.h"

#include <algorithm>

#include "geometry/plane/infinity.h"
#include "geometry/plane/vector.h"
#include "geometry/plane/wide.h"

namespace leeway {
namespace {

LEEWAY_WIDE void take_side(Side side, const double* __restrict xs, const double* __restrict ys,
                           double* __restrict beyond, std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) {
    const double here = side.beyond(xs[i], ys[i]);
    beyond[i] = here > beyond[i] ? here : beyond[i];
  }
}

LEEWAY_WIDE void take_less(const double* __restrict values, double* __restrict least,
                           std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) least[i] = values[i] < least[i] ? values[i] : least[i];
}

}  // namespace

PiecesDistances::PiecesDistances(const std::vector<Piece>& pieces,
                                 const std::vector<Segment>& exposed, std::optional<Box> frame)
    : frame_(frame) {
  for (const Segment& s : exposed) boundary_.add(s.a, s.b);
  for (const Piece& piece : pieces) {
    covers_.push_back({piece.box, piece.sides});
    for (std::size_t i = 0; i < piece.ring.size(); ++i) {
      edges_.add(piece.ring[i], piece.ring[(i + 1) % piece.ring.size()]);
    }
  }
}

double PiecesDistances::distance(Point p) const {
  return covered(p) ? -boundary_.distance(p) : edges_.distance(p);
}

void PiecesDistances::distances(const double* xs, const double* ys, double* out,
                                std::size_t count) const {
  for (std::size_t at = 0; at < count; at += Block::kMost) {
    const std::size_t size = std::min(Block::kMost, count - at);
    block_distances(make_block(xs + at, ys + at, size), out + at);
  }
}

bool PiecesDistances::covered(Point p) const {
  if (frame_ && outside_frame(*frame_, p)) return true;
  for (const Cover& cover : covers_) {
    if (box_distance(cover.box, p) > kSeam) continue;
    double most = -kInfinity;
    for (const Side& side : cover.sides) most = std::max(most, side.beyond(p.x, p.y));
    if (most <= kSeam) return true;
  }
  return false;
}

void PiecesDistances::block_distances(const Block& block, double* out) const {
  // A boundary that is farther from the middle than any position leaves the whole block on one side
  // of it. Only where it comes nearer is each position asked.
  const bool inside = covered(block.middle);
  const EdgeSet& there = inside ? boundary_ : edges_;
  const double from_middle = there.distance(block.middle);
  if (from_middle > block.reach + EdgeSet::kDoubt) {
    there.distances(block, from_middle, out);
    for (std::size_t i = 0; inside && i < block.count; ++i) out[i] = -out[i];
    return;
  }
  double within[Block::kMost];
  double least[Block::kMost];
  edges_.distances(block, edges_.distance(block.middle), out);
  boundary_.distances(block, boundary_.distance(block.middle), within);
  least_beyond(block, least);
  for (std::size_t i = 0; i < block.count; ++i) {
    const bool outside = frame_ && outside_frame(*frame_, {block.xs[i], block.ys[i]});
    if (least[i] <= kSeam || outside) out[i] = -within[i];
  }
}

// How far each position is beyond the sides of the piece that it is least beyond.
void PiecesDistances::least_beyond(const Block& block, double* least) const {
  std::fill_n(least, block.count, kInfinity);
  double most[Block::kMost];
  for (const Cover& cover : covers_) {
    if (box_distance(cover.box, block.middle) > block.reach + EdgeSet::kDoubt) continue;
    std::fill_n(most, block.count, -kInfinity);
    for (const Side& side : cover.sides) {
      take_side(side, block.xs, block.ys, most, block.count);
    }
    take_less(most, least, block.count);
  }
}

}  // namespace leeway
