// How long `fit` and `explain` take at worst over 1,000 setups with wrong numbers in them. No peer:
// the aims are times.

#include <algorithm>
#include <ctime>
#include <functional>
#include <iostream>
#include <string>
#include <vector>

#include "bench/ratios.h"
#include "leeway/explain.h"
#include "leeway/fit.h"
#include "tasks/wrong_setups.h"

namespace leeway::bench {
namespace {

constexpr std::uint64_t kSetups = 1000;

// In processor time: nothing here uses threads.
double milliseconds(const std::function<void()>& work) {
  const std::clock_t start = std::clock();
  work();
  return 1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

class Times {
 public:
  void add(std::uint64_t seed, double ms) { times_.push_back({ms, seed}); }

  void report(const std::string& what, double aim) {
    if (times_.empty()) return;
    std::sort(times_.begin(), times_.end());
    const auto [worst, seed] = times_.back();
    std::cout << "| " << what << " | " << times_.size() << " | "
              << time_text(1e6 * times_[times_.size() / 2].ms) << " | " << time_text(1e6 * worst)
              << " (seed " << seed << ") | " << time_text(1e6 * aim) << " |\n";
  }

 private:
  struct Time {
    double ms = 0;
    std::uint64_t seed = 0;

    bool operator<(const Time& other) const { return ms < other.ms; }
  };

  std::vector<Time> times_;
};

bool says_at_once(const FitResult& result) {
  return result.limiting && (result.limiting->why_empty || result.limiting->covers_nothing);
}

void measure_all() {
  Times fits;
  Times nothing;
  Times explains;
  for (std::uint64_t seed = 1; seed <= kSetups; ++seed) {
    const WrongSetup wrong = wrong_setup(seed);
    try {
      FitResult result;
      const double ms = milliseconds([&] { result = fit(wrong.setup, wrong.options); });
      fits.add(seed, ms);
      FitOptions without = wrong.options;
      without.remedies = false;
      if (says_at_once(result)) {
        nothing.add(seed, milliseconds([&] { fit(wrong.setup, without); }));
      }
    } catch (const FitRefused&) {
    }
    explains.add(seed, milliseconds([&] { explain(Rig(wrong.setup)); }));
  }
  std::cout << "| setups with wrong numbers | how many | median | worst | aim |\n"
            << "| --- | --- | --- | --- | --- |\n";
  fits.report("`fit`, with what would mend it", 500);
  nothing.report("`fit`, where no mesh covers anything: the answer alone", 100);
  explains.report("`explain`", 1000);
}

}  // namespace
}  // namespace leeway::bench

int main() { leeway::bench::measure_all(); }
