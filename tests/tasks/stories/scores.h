#pragma once
// What `explain` makes of stories, counted.

#include <array>
#include <string>
#include <vector>

#include "leeway/explain.h"
#include "tasks/stories/stories.h"

namespace leeway {

struct KindScore {
  std::string kind;
  int stories = 0;
  // Those without a twin (twins.h), and of these:
  int told = 0;
  int first = 0;  // the true mistake is the first shown; too much: it is the best guess
  int best = 0;   // the true one is the most probable, too much among them
  int shown = 0;  // it is among those shown
  // Of all stories:
  int likely = 0;        // the first is called likely
  int likely_right = 0;  // and is right
};

// Statements of a probability, and how many of them were right. A probability is right of people
// who make each mistake as often as its prior says: a statement weighs as much as that many of its
// kind are.
struct Reliability {
  int statements = 0;
  double weight = 0;
  double right = 0;   // of the weight
  double stated = 0;  // sum of the probabilities by weight
};

struct Scores {
  std::vector<KindScore> kinds;  // the last one is kTooMuch
  std::array<Reliability, 10> tenths;
  // Sum over the statements of weight * (probability - 1 or 0)^2, for Brier's score.
  double squares = 0;
};

// Of `each` stories of every kind, from a seed on.
Scores scores_of(std::uint64_t from, std::size_t each);

// Of every kind but kTooMuch.
KindScore in_all(const Scores& scores);

std::string table_of(const Scores& scores);
std::string reliability_of(const Scores& scores);

}  // namespace leeway
