#include "bench/ratios.h"

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <cstdio>
#include <iostream>
#include <map>

namespace leeway::bench {
namespace {

class Collector : public benchmark::ConsoleReporter {
 public:
  Collector() : ConsoleReporter(OO_None) {}

  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& run : runs) {
      if (run.aggregate_name != "median") continue;
      median_[run.run_name.function_name] =
          run.GetAdjustedRealTime() * 1e9 / benchmark::GetTimeUnitMultiplier(run.time_unit);
    }
    ConsoleReporter::ReportRuns(runs);
  }

  // In ns; 0 when the benchmark did not run.
  double median(const std::string& name) const {
    const auto found = median_.find(name);
    return found == median_.end() ? 0 : found->second;
  }

 private:
  std::map<std::string, double> median_;
};

}  // namespace

std::string time_text(double ns) {
  if (ns < 1e3) return fmt::format("{:.3g} ns", ns);
  if (ns < 1e6) return fmt::format("{:.3g} us", ns / 1e3);
  if (ns < 1e9) return fmt::format("{:.3g} ms", ns / 1e6);
  return fmt::format("{:.3g} s", ns / 1e9);
}

int run(int argc, char** argv, const std::vector<Row>& rows) {
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 2;
  Collector collector;
  collector.SetOutputStream(&std::cerr);
  collector.SetErrorStream(&std::cerr);
  benchmark::RunSpecifiedBenchmarks(&collector);
  for (const Row& row : rows) {
    const double ours = collector.median(row.ours);
    const double theirs = collector.median(row.theirs) * row.times;
    if (ours == 0 || theirs == 0) continue;
    fmt::print("| {} | {} | {} | {:.3g} | {} |\n", row.work, time_text(ours), time_text(theirs),
               theirs / ours, row.aim > 0 ? fmt::format("{:g}", row.aim) : "-");
  }
  return 0;
}

}  // namespace leeway::bench
