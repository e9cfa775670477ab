#pragma once
// Runs the benchmarks of a program and prints rows of a Markdown table: ours, GEOS, ratio, aim.

#include <string>
#include <vector>

namespace leeway::bench {

struct Row {
  std::string work;
  std::string ours;  // names of benchmarks
  std::string theirs;
  double aim = 0;  // the ratio wanted; 0 for none
  // How many times over theirs would have to do what it did: it may be asked for a sample.
  double times = 1;
};

// The console report goes to standard error, the rows to standard output. Times are the medians of
// the repetitions, in processor time: neither side uses threads. Returns the exit status of main.
int run(int argc, char** argv, const std::vector<Row>& rows);

// "1.23 ms" of nanoseconds.
std::string time_text(double ns);

}  // namespace leeway::bench
