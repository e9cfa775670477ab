#pragma once
// Counts what disagrees, and shows the first few in full.

#include <gtest/gtest.h>

#include <string>

#include "judges/run.h"

namespace leeway::judges {

class Complaints {
 public:
  Complaints(std::string claim, CaseRange run) : claim_(std::move(claim)), run_(run) {}

  void add(std::uint64_t index, const Setup& setup, const std::string& what) {
    if (++count_ > kShown) return;
    ADD_FAILURE() << claim_ << "\n  " << what << "\n  " << how_to_repeat(run_, index) << "\n  "
                  << setup_file(setup);
  }
  std::size_t count() const { return count_; }

 private:
  static constexpr std::size_t kShown = 3;
  std::string claim_;
  CaseRange run_;
  std::size_t count_ = 0;
};

}  // namespace leeway::judges
