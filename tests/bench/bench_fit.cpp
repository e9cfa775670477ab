// `fit` on Curlew with a mesh of 9 x 9: ours at three steps, and on GEOS the plain way, every
// choice of bounds at 10 mm with each point asked of the prepared reachable region (asked once a
// place).

#include <benchmark/benchmark.h>

#include <map>

#include "bench/example.h"
#include "bench/ratios.h"
#include "judges/geos_regions.h"
#include "leeway/compare_grids.h"
#include "leeway/fit.h"

namespace leeway::bench {
namespace {

constexpr int kLines = 9;

const Setup& curlew() {
  static const Setup setup = example("curlew-clips");
  return setup;
}

void with_leeway(benchmark::State& state, double step) {
  FitOptions options;
  options.columns = options.rows = kLines;
  options.step = step;
  for (auto _ : state) benchmark::DoNotOptimize(fit(curlew(), options).mesh->area);
}
void leeway_coarse(benchmark::State& state) { with_leeway(state, 10); }
void leeway_default(benchmark::State& state) { with_leeway(state, 0.5); }
void leeway_fine(benchmark::State& state) { with_leeway(state, 0.1); }
BENCHMARK(leeway_coarse)->Unit(benchmark::kMillisecond);
BENCHMARK(leeway_default)->Unit(benchmark::kMillisecond);
BENCHMARK(leeway_fine)->Unit(benchmark::kMillisecond);

class Plain {
 public:
  Plain()
      : regions_(curlew(), judges::Rounding::buffer),
        reachable_(regions_.region(RegionKind::reachable)),
        ready_(geos::prepared(reachable_)),
        printable_(regions_.region(RegionKind::printable)) {}

  double best(double step) {
    const Box bed = bounding_box(curlew().machine.bed);
    double best = 0;
    for (double x0 = bed.x0; x0 < bed.x1; x0 += step) {
      for (double x1 = x0 + step; x1 <= bed.x1; x1 += step) {
        for (double y0 = bed.y0; y0 < bed.y1; y0 += step) {
          for (double y1 = y0 + step; y1 <= bed.y1; y1 += step) {
            if (!all_inside({x0, x1, y0, y1})) continue;
            const geos::Geometry box = geos::box({x0, x1, y0, y1}, 1000);
            const auto part =
                geos::checked(GEOSIntersection_r(geos::context(), printable_.get(), box.get()));
            best = std::max(best, geos::area(part));
          }
        }
      }
    }
    return best;
  }

 private:
  bool all_inside(const Box& bounds) {
    for (int row = 0; row < kLines; ++row) {
      for (int column = 0; column < kLines; ++column) {
        if (!inside(grid_point(bounds, kLines, kLines, column, row))) return false;
      }
    }
    return true;
  }
  bool inside(Point p) {
    const auto [at, is_new] = known_.try_emplace({p.x, p.y}, false);
    if (is_new) {
      const geos::Geometry point = geos::point(1000 * p);
      at->second = GEOSPreparedCovers_r(geos::context(), ready_.get(), point.get()) == 1;
    }
    return at->second;
  }

  judges::GeosRegions regions_;
  geos::Geometry reachable_;
  geos::Prepared ready_;
  geos::Geometry printable_;
  std::map<std::pair<double, double>, bool> known_;
};

void geos_coarse(benchmark::State& state) {
  for (auto _ : state) {
    Plain plain;
    benchmark::DoNotOptimize(plain.best(10));
  }
}
BENCHMARK(geos_coarse)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace leeway::bench

namespace leeway::bench {
namespace {

// The table of 49 grids, and one of them: what each costs.
void compare_49(benchmark::State& state) {
  const Rig rig(example("curlew-clips"));
  std::vector<GridWanted> wanted;
  for (int columns = 3; columns <= 9; ++columns) {
    for (int rows = 3; rows <= 9; ++rows) wanted.push_back({columns, rows, std::nullopt});
  }
  for (auto _ : state) benchmark::DoNotOptimize(compare_grids(rig, wanted));
}
BENCHMARK(compare_49)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace leeway::bench

int main(int argc, char** argv) {
  return leeway::bench::run(
      argc, argv,
      {{"`fit`, 9 x 9 on Curlew, step 10 mm (GEOS: every choice)", "leeway_coarse", "geos_coarse"},
       {"the same, step 0.5 mm (GEOS still at 10)", "leeway_default", "geos_coarse"},
       {"the same, step 0.1 mm (GEOS still at 10)", "leeway_fine", "geos_coarse"}});
}
