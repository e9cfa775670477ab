// Verdicts for a million positions over the beds of Godwit and Curlew: ours with reason, leeway
// and guard; GEOS says no more than whether a prepared reachable region contains the position. Both
// start from coordinates, so that GEOS makes a point geometry for each; a second row gives it
// points that were made before the clock started. Its region is always ready. A figure without an
// aim: nobody probes so many points.

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <random>
#include <string>
#include <utility>

#include "bench/example.h"
#include "bench/ratios.h"
#include "judges/geos_regions.h"
#include "leeway/limits.h"

namespace leeway::bench {
namespace {

constexpr int kSide = 1000;  // a lattice of 1000 x 1000
constexpr std::size_t kPoints = std::size_t{kSide} * kSide;

enum class Order { lattice, random };

std::vector<Point> points_over(const Setup& setup, Order order) {
  const Box box = bounding_box(setup.machine.bed);
  std::vector<Point> points;
  points.reserve(kPoints);
  for (int row = 0; row < kSide; ++row) {
    for (int column = 0; column < kSide; ++column) {
      points.push_back(grid_point(box, kSide, kSide, column, row));
    }
  }
  if (order == Order::random) std::shuffle(points.begin(), points.end(), std::mt19937_64(1));
  return points;
}

void with_leeway(benchmark::State& state, const char* name, Order order) {
  const Setup setup = example(name);
  const Limits limits(setup);
  const std::vector<Point> points = points_over(setup, order);
  std::vector<Finding> findings(points.size());
  for (auto _ : state) {
    limits.evaluate(points, findings);
    benchmark::DoNotOptimize(findings.data());
  }
}

// The reachable region, ready for many questions.
struct Prepared {
  geos::Geometry region;
  geos::Prepared ready;

  explicit Prepared(const Setup& setup)
      : region(
            judges::GeosRegions(setup, judges::Rounding::buffer).region(RegionKind::within_limits)),
        ready(geos::prepared(region)) {}

  bool contains(const geos::Geometry& point) const {
    return GEOSPreparedContains_r(geos::context(), ready.get(), point.get()) == 1;
  }
  std::size_t count(const std::vector<Point>& points) const {
    std::size_t inside = 0;
    for (const Point& p : points) inside += contains(geos::point(1000 * p));
    return inside;
  }
  std::size_t count(const std::vector<geos::Geometry>& points) const {
    std::size_t inside = 0;
    for (const geos::Geometry& p : points) inside += contains(p);
    return inside;
  }
};

void with_geos(benchmark::State& state, const char* name, Order order) {
  const Setup setup = example(name);
  const Prepared prepared(setup);
  const std::vector<Point> points = points_over(setup, order);
  for (auto _ : state) benchmark::DoNotOptimize(prepared.count(points));
}

void with_geos_points(benchmark::State& state, const char* name, Order order) {
  const Setup setup = example(name);
  const Prepared prepared(setup);
  std::vector<geos::Geometry> points;
  points.reserve(kPoints);
  for (const Point& p : points_over(setup, order)) points.push_back(geos::point(1000 * p));
  for (auto _ : state) benchmark::DoNotOptimize(prepared.count(points));
}

// That both do the same work: they may differ in what lies within micrometres of the boundary.
bool same_work(const char* name) {
  const Setup setup = example(name);
  const std::vector<Point> points = points_over(setup, Order::lattice);
  std::vector<Finding> findings(points.size());
  Limits(setup).evaluate(points, findings);
  const auto allowed =
      static_cast<double>(std::count_if(findings.begin(), findings.end(), [](const Finding& f) {
        return f.verdict != Verdict::unreachable;
      }));
  const auto contained = static_cast<double>(Prepared(setup).count(points));
  fmt::print(stderr, "{}: {} of {} points not unreachable, GEOS {}\n", name, allowed, kPoints,
             contained);
  return allowed > 0 && std::abs(allowed - contained) < 4.0 * kSide;
}

constexpr const char* kGodwit = "godwit-side-bracket";
constexpr const char* kCurlew = "curlew-clips";

#define LEEWAY_ONE(function, name, example, order)                               \
  void name(benchmark::State& state) { function(state, example, Order::order); } \
  BENCHMARK(name)->Unit(benchmark::kMillisecond)->UseRealTime()

#define LEEWAY_BENCH(machine, example, order)                          \
  LEEWAY_ONE(with_leeway, leeway_##machine##_##order, example, order); \
  LEEWAY_ONE(with_geos, geos_##machine##_##order, example, order);     \
  LEEWAY_ONE(with_geos_points, geos_points_##machine##_##order, example, order)

LEEWAY_BENCH(godwit, kGodwit, lattice);
LEEWAY_BENCH(curlew, kCurlew, lattice);
LEEWAY_BENCH(godwit, kGodwit, random);
LEEWAY_BENCH(curlew, kCurlew, random);

}  // namespace
}  // namespace leeway::bench

int main(int argc, char** argv) {
  using namespace leeway::bench;
  if (!same_work(kGodwit) || !same_work(kCurlew)) {
    std::fputs("leeway and GEOS do not agree: nothing to compare\n", stderr);
    return EXIT_FAILURE;
  }
  std::vector<Row> rows;
  for (const auto& [machine, name] :
       {std::pair{"godwit", "Godwit"}, std::pair{"curlew", "Curlew"}}) {
    const std::string m = machine;
    const std::string of = std::string(", ") + name;
    rows.push_back({"verdicts, 1,000,000 lattice points" + of, "leeway_" + m + "_lattice",
                    "geos_" + m + "_lattice"});
    rows.push_back({"the same, GEOS's points made before" + of, "leeway_" + m + "_lattice",
                    "geos_points_" + m + "_lattice"});
    rows.push_back({"in random order" + of, "leeway_" + m + "_random", "geos_" + m + "_random"});
    rows.push_back({"in random order, GEOS's points made before" + of, "leeway_" + m + "_random",
                    "geos_points_" + m + "_random"});
  }
  return run(argc, argv, rows);
}
