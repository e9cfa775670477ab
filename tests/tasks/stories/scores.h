#pragma once
// What `explain` makes of stories, counted.

#include <string>
#include <vector>

#include "leeway/explain.h"
#include "tasks/stories/stories.h"

namespace leeway {

struct KindScore {
  std::string kind;
  int stories = 0;
  int first = 0;         // the true mistake is the first shown; too much: it is the first guess
  int shown = 0;         // it is among those shown
  int likely = 0;        // the first is called likely
  int likely_right = 0;  // and is right
};

struct Scores {
  std::vector<KindScore> kinds;  // the last one is kTooMuch
};

// Of `each` stories of every kind, from a seed on.
Scores scores_of(std::uint64_t from, std::size_t each);

// Of every kind but kTooMuch.
KindScore in_all(const Scores& scores);

std::string table_of(const Scores& scores);

}  // namespace leeway
