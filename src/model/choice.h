#pragma once
// The limits that can be the reason for some position within a box.

#include <cstdint>
#include <span>
#include <vector>

#include "model/prepared_limit.h"

namespace leeway {

// A limit, and what gives its distances within the box.
struct Candidate {
  std::uint32_t limit = 0;
  const Distances* distances = nullptr;

  friend bool operator==(const Candidate&, const Candidate&) = default;
};

struct Choice {
  std::vector<Candidate> candidates;
  bool some_may_fail = true;
  bool some_may_pass = true;

  friend bool operator==(const Choice&, const Choice&) = default;
};

// Where the positions of the probe are.
struct Around {
  Point middle;
  double half_width = 0;
  double half_depth = 0;

  explicit Around(const Box& box)
      : middle{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2},
        half_width(box.width() / 2),
        half_depth(box.depth() / 2) {}
  double reach() const { return std::hypot(half_width, half_depth); }
};

// All limits, each with its own field.
std::vector<Candidate> all_of(const std::vector<PreparedLimit>& limits);

// Every leeway changes by at most 1 mm per mm, so that the one in the middle bounds all others.
// `at_middle` is room for a number a candidate; `from` are all limits or the candidates of a box
// around this one.
void choose(const std::vector<PreparedLimit>& limits, Point offset, const Around& around,
            std::span<const Candidate> from, std::vector<double>& at_middle, Choice& choice);

}  // namespace leeway
