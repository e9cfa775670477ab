// Outlines as people trace them: many vertices, not convex. Processor time, each the median of
// some runs of the whole work from a setup: limits, verdicts, regions.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ctime>
#include <functional>
#include <numbers>
#include <string>
#include <vector>

#include "leeway/bracket.h"
#include "leeway/check.h"
#include "leeway/explain.h"
#include "leeway/rig.h"
#include "model/setups.h"

namespace {

using namespace leeway;

// A traced outline: bays and bulges round an ellipse, in hundredths of a millimetre.
Shape traced(Point middle, double half_width, double half_depth, int vertices, double phase) {
  Ring ring;
  for (int i = 0; i < vertices; ++i) {
    const double angle = 2 * std::numbers::pi * i / vertices;
    const double bulge = 1 + 0.18 * std::sin(3 * angle + phase) +
                         0.07 * std::sin(7 * angle + 2 * phase) +
                         0.08 * std::sin(2.3 * i * i + phase);  // an unsteady hand
    const Point p{half_width * bulge * std::cos(angle), half_depth * bulge * std::sin(angle)};
    ring.push_back(
        {std::round((middle.x + p.x) * 100) / 100, std::round((middle.y + p.y) * 100) / 100});
  }
  return polygon(ring);
}

Setup without_clips() {
  Setup setup = godwit();
  setup.machine.obstacles.clear();
  setup.machine.head.clear();
  setup.request.points.clear();
  return setup;
}

// A fan duct over clips at the corners.
Setup duct_over_clips(int vertices) {
  Setup setup = without_clips();
  setup.machine.head = {{"fan duct", traced({0, -19}, 22, 12, vertices, 0.4), 3}};
  const Point corners[] = {{15, 3}, {215, 3}, {15, 207}, {215, 207}};
  double phase = 0;
  for (const Point at : corners) {
    setup.machine.obstacles.push_back(
        {fmt::format("clip {}", phase), traced(at, 12, 7, vertices, phase), 6, 1});
    phase += 1;
  }
  setup.request.grid = Grid{12, 12, Box{20, 185, 25, 185}, Frame::probe, false};
  return setup;
}

// Ten obstacles round the bed, two parts.
Setup crowded(int vertices) {
  Setup setup = without_clips();
  setup.machine.head = {{"fan duct", traced({0, -19}, 22, 12, vertices, 0.4), 3},
                        {"cable guide", traced({24, 14}, 9, 15, vertices, 1.7), 4}};
  for (int i = 0; i < 10; ++i) {
    const double angle = 2 * std::numbers::pi * i / 10;
    const Point at{115 + 110 * std::cos(angle), 105 + 100 * std::sin(angle)};
    setup.machine.obstacles.push_back(
        {fmt::format("clip {}", i), traced(at, 10 + 0.3 * i, 7, vertices, 0.7 * i), 6, 1});
  }
  setup.request.grid = Grid{9, 9, Box{40, 180, 40, 170}, Frame::probe, false};
  return setup;
}

double median_ms(int runs, const std::function<void()>& work) {
  std::vector<double> times;
  for (int i = 0; i < runs; ++i) {
    const std::clock_t start = std::clock();
    work();
    times.push_back(1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
  }
  std::sort(times.begin(), times.end());
  return times[times.size() / 2];
}

void whole_check(const Setup& setup) {
  const Rig rig(setup);
  check(rig);
}

void row(const std::string& work, double ms, double aim) {
  fmt::print("| {} | {:.1f} ms | {:g} ms |\n", work, ms, aim);
}

}  // namespace

int main() {
  const Setup duct = duct_over_clips(40);
  fmt::print("| heavy outlines | leeway | aim |\n| --- | --- | --- |\n");
  row("`check`, duct of 40 vertices, four clips of 40, 12 x 12 points",
      median_ms(5, [&] { whole_check(duct); }), 40);
  row("`check`, two parts and ten obstacles of 100, 9 x 9",
      median_ms(3, [&] { whole_check(crowded(100)); }), 400);
  const Setup many = crowded(100);
  const Rig rig(many);
  check(rig);
  row("the same with another offset, verdicts and regions",
      median_ms(5,
                [&] {
                  static double by = 0;
                  by += 0.1;
                  check(rig.at(many.probe.offset + Point{by, 0}));
                }),
      15);
  row("`explain`, the duct", median_ms(1, [&] { explain(Rig(duct)); }), 250);
  row("`bracket`, the duct", median_ms(1, [&] { bracket({&duct, 1}); }), 250);
  fmt::print("\n| vertices of each outline | `check` |\n| --- | --- |\n");
  for (const int vertices : {25, 50, 100, 200, 400}) {
    try {
      fmt::print("| {} | {:.1f} ms |\n", vertices,
                 median_ms(3, [&] { whole_check(duct_over_clips(vertices)); }));
    } catch (const SetupTooDetailed& refused) {
      fmt::print("| {} | refused: {} |\n", vertices, refused.what());
    }
  }
}
