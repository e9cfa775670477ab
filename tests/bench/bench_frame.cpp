// A frame of dragging the probe: another offset, and all that is shown of it: the verdicts of 9 x 9
// points, the regions, the coverage and the plan as SVG. Curlew. No peer: a figure in milliseconds.

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "bench/example.h"
#include "leeway/draw.h"
#include "leeway/rig.h"

namespace leeway::bench {
namespace {

constexpr int kFrames = 101;

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

// Milliseconds since `start`, which becomes now.
double lap(std::chrono::steady_clock::time_point& start) {
  const auto now = std::chrono::steady_clock::now();
  const std::chrono::duration<double, std::milli> ms = now - start;
  start = now;
  return ms.count();
}

int run() {
  Setup setup = example("curlew-clips");
  setup.request.grid->columns = 9;
  setup.request.grid->rows = 9;
  const Rig rig(setup);
  check(rig);
  std::vector<double> frames, verdicts, checks, drawings;
  std::size_t bytes = 0;
  for (int i = 0; i < kFrames; ++i) {
    const Point by{0.1 * (i % 40), 0.05 * (i % 60)};
    auto start = std::chrono::steady_clock::now();
    const Rig moved = rig.at(setup.probe.offset + by);
    CheckOptions none;
    none.regions = RegionsWanted::none;
    std::vector<Point> probes(81);
    std::vector<Finding> findings(81);
    const Box mesh = grid_bounds_for_probe(moved.setup(), *moved.setup().request.grid);
    for (int k = 0; k < 81; ++k) probes[k] = grid_point(mesh, 9, 9, k % 9, k / 9);
    start = std::chrono::steady_clock::now();
    moved.limits().evaluate(probes, findings);
    verdicts.push_back(lap(start));
    const Rig again = rig.at(setup.probe.offset + by);
    const CheckResult result = check(again);
    checks.push_back(lap(start));
    write_plan_svg(result, again, {}, [&](std::string_view text) { bytes += text.size(); });
    drawings.push_back(lap(start));
    frames.push_back(checks.back() + drawings.back());
  }
  if (bytes == 0) return EXIT_FAILURE;
  fmt::print("| a frame of dragging, Curlew, 9 x 9 points | time | aim |\n| --- | --- | --- |\n");
  fmt::print("| all of it | {:.2f} ms | 4 ms |\n", median(frames));
  fmt::print("| verdicts alone | {:.1f} us | - |\n", 1000 * median(verdicts));
  fmt::print("| check: verdicts, moves, regions, coverage | {:.2f} ms | - |\n", median(checks));
  fmt::print("| plan as SVG, {} bytes | {:.2f} ms | - |\n", bytes / kFrames, median(drawings));
  return EXIT_SUCCESS;
}

}  // namespace
}  // namespace leeway::bench

int main() { return leeway::bench::run(); }
