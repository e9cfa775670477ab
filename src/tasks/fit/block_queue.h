#pragma once
// The blocks that a search still has to look at, in bounded memory.

#include <queue>
#include <vector>

#include "geometry/plane/assert.h"

namespace leeway {

// The best first (the largest by operator<). Where very many wait, a block that is added goes
// before all of them: the search then goes deep, where few wait at a time, until there is room.
template <typename Block>
class BlockQueue {
 public:
  bool empty() const { return waiting_.empty() && urgent_.empty(); }

  void push(const Block& block) {
    if (waiting_.size() < kMostWaiting) {
      waiting_.push(block);
    } else {
      urgent_.push_back(block);
    }
  }

  // REQUIRES: not empty.
  Block pop() {
    LEEWAY_ASSERT(!empty());
    Block block;
    if (urgent_.empty()) {
      block = waiting_.top();
      waiting_.pop();
    } else {
      block = urgent_.back();
      urgent_.pop_back();
    }
    return block;
  }

 private:
  static constexpr std::size_t kMostWaiting = 100'000;

  std::priority_queue<Block> waiting_;
  std::vector<Block> urgent_;
};

}  // namespace leeway
