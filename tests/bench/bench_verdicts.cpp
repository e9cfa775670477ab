// Verdicts for a million points over the plates of Heron and Curlew: ours with reason, leeway and
// guard; GEOS says no more than whether a prepared reachable region contains the point. Its region
// and its point geometries are made before the clock starts.

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <random>

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
      points.push_back(lattice_point(box, kSide, kSide, column, row));
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

// The reachable region with a point geometry for every position, kept for all repetitions.
struct Prepared {
  geos::Geometry region;
  geos::Prepared ready;
  std::vector<geos::Geometry> points;

  Prepared(const Setup& setup, Order order)
      : region(judges::GeosRegions(setup, judges::Rounding::buffer).region(RegionKind::reachable)),
        ready(geos::prepared(region)) {
    points.reserve(kPoints);
    for (const Point& p : points_over(setup, order)) points.push_back(geos::point(1000 * p));
  }
  std::size_t contained() const {
    std::size_t count = 0;
    for (const geos::Geometry& p : points) {
      count += GEOSPreparedContains_r(geos::context(), ready.get(), p.get()) == 1;
    }
    return count;
  }
};

void with_geos(benchmark::State& state, const char* name, Order order) {
  const Prepared prepared(example(name), order);
  for (auto _ : state) benchmark::DoNotOptimize(prepared.contained());
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
  const auto contained = static_cast<double>(Prepared(setup, Order::lattice).contained());
  fmt::print(stderr, "{}: {} of {} points not unreachable, GEOS {}\n", name, allowed, kPoints,
             contained);
  return allowed > 0 && std::abs(allowed - contained) < 4.0 * kSide;
}

constexpr const char* kHeron = "heron-side-bracket";
constexpr const char* kCurlew = "curlew-clips";

#define LEEWAY_BENCH(machine, example, order)                                                     \
  void leeway_##machine##_##order(benchmark::State& s) { with_leeway(s, example, Order::order); } \
  void geos_##machine##_##order(benchmark::State& s) { with_geos(s, example, Order::order); }     \
  BENCHMARK(leeway_##machine##_##order)->Unit(benchmark::kMillisecond);                           \
  BENCHMARK(geos_##machine##_##order)->Unit(benchmark::kMillisecond)

LEEWAY_BENCH(heron, kHeron, lattice);
LEEWAY_BENCH(curlew, kCurlew, lattice);
LEEWAY_BENCH(heron, kHeron, random);
LEEWAY_BENCH(curlew, kCurlew, random);

}  // namespace
}  // namespace leeway::bench

int main(int argc, char** argv) {
  using namespace leeway::bench;
  if (!same_work(kHeron) || !same_work(kCurlew)) {
    std::fputs("leeway and GEOS do not agree: nothing to compare\n", stderr);
    return EXIT_FAILURE;
  }
  return run(argc, argv,
             {{"verdicts, 1,000,000 lattice points, Heron", "leeway_heron_lattice",
               "geos_heron_lattice", 30},
              {"verdicts, 1,000,000 lattice points, Curlew", "leeway_curlew_lattice",
               "geos_curlew_lattice", 10},
              {"the same in random order, Heron", "leeway_heron_random", "geos_heron_random"},
              {"the same in random order, Curlew", "leeway_curlew_random", "geos_curlew_random"}});
}
