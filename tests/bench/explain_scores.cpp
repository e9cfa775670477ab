// How good `explain` is on stories: a table by kind, and what its probabilities are worth.
//
//   explain_scores [tuning|judging] [stories a kind] [picture.svg]
//
// tests/bench/explain.sh builds and runs it.

#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <string>

#include "reliability_svg.h"
#include "tasks/stories/scores.h"

int main(int argc, char** argv) {
  using namespace leeway;
  const bool judging = argc > 1 && std::strcmp(argv[1], "judging") == 0;
  const std::size_t each = argc > 2 ? static_cast<std::size_t>(std::atoi(argv[2])) : 50;
  const Scores scores = scores_of(judging ? kJudgingSeeds : 1, each);
  std::fputs(table_of(scores).c_str(), stdout);
  std::fputs(("\n" + reliability_of(scores)).c_str(), stdout);
  if (argc <= 3) return 0;
  std::ofstream picture(argv[3]);
  picture << reliability_svg(scores);
  picture.close();
  return picture ? 0 : 1;
}
