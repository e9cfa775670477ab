// The map of coverage over 201 x 201 offsets, regions and all; on GEOS the plain way: the regions
// that do not move built once, then one overlay an offset. GEOS looks at every 40th column and row
// and is counted as often as it would have to work.

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include "bench/example.h"
#include "bench/ratios.h"
#include "judges/geos_regions.h"
#include "leeway/bracket.h"
#include "leeway/coverage_map.h"

namespace leeway::bench {
namespace {

constexpr int kSteps = 201;
constexpr int kEvery = 40;
constexpr int kLooks = (kSteps + kEvery - 1) / kEvery;
constexpr double kSampled = double{kSteps} * kSteps / (double{kLooks} * kLooks);
const Steps kX{-60, 60, kSteps};
const Steps kY{-50, 50, kSteps};

// Without what only the bare nozzle and the head would come down on.
Setup without_head(Setup setup) {
  setup.machine.head.clear();
  for (Obstacle& obstacle : setup.machine.obstacles) obstacle.height = setup.probe.trigger_height;
  return setup;
}

Setup on_disc_travel(Setup setup) {
  setup.machine.travel = Disc{{152, 128}, 190};
  return setup;
}

const Setup& named(int which) {
  static const Setup setups[] = {without_head(example("godwit-side-bracket")),
                                 example("godwit-side-bracket"), example("curlew-clips"),
                                 on_disc_travel(example("curlew-clips")), example("plover-round")};
  return setups[which];
}

template <int kWhich>
void leeway_field(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(coverage_map(named(kWhich), kX, kY)->coverage[0]);
}

// What of the bed the probe can sense and the nozzle print does not move; the nozzle's set does.
class Plain {
 public:
  explicit Plain(const Setup& setup)
      : everywhere_(with_endless_travel(setup)), regions_(setup, judges::Rounding::buffer) {
    Setup still = setup;
    still.probe.offset = {};
    judges::GeosRegions sensing(everywhere_, judges::Rounding::buffer);
    ground_ = geos::checked(GEOSIntersection_r(geos::context(),
                                               regions_.region(RegionKind::printable).get(),
                                               sensing.region(RegionKind::sensing).get()));
    nozzle_ = nozzle_set(setup);
  }

  double share(Point offset) const {
    const auto move = [](double* x, double* y, void* by) {
      *x += 1000 * static_cast<Point*>(by)->x;
      *y += 1000 * static_cast<Point*>(by)->y;
      return 1;
    };
    const geos::Geometry moved =
        geos::checked(GEOSGeom_transformXY_r(geos::context(), nozzle_.get(), move, &offset));
    return geos::area(
        geos::checked(GEOSIntersection_r(geos::context(), ground_.get(), moved.get())));
  }

 private:
  static Setup with_endless_travel(Setup setup) {
    setup.machine.travel = Box{-1e4, 1e4, -1e4, 1e4};
    return setup;
  }

  // Where the nozzle may be: with a bed without end, no obstacles for the spot (a height of 0
  // would block nothing) and no offset, it is what the probe can reach.
  static geos::Geometry nozzle_set(const Setup& given) {
    Setup setup = given;
    setup.machine.bed = Box{-1e4, 1e4, -1e4, 1e4};
    setup.probe.offset = {};
    setup.probe.spot = Point{};
    setup.probe.edge_distance = 0;
    setup.probe.body.reset();
    const judges::GeosRegions regions(setup, judges::Rounding::buffer);
    return regions.region(RegionKind::within_limits);
  }

  Setup everywhere_;
  judges::GeosRegions regions_;
  geos::Geometry ground_;
  geos::Geometry nozzle_;
};

template <int kWhich>
void geos_field(benchmark::State& state) {
  const Plain plain(named(kWhich));
  std::int64_t overlays = 0;
  double sum = 0;
  for (auto _ : state) {
    for (int row = 0; row < kSteps; row += kEvery) {
      for (int column = 0; column < kSteps; column += kEvery) {
        sum += plain.share({kX.at(column), kY.at(row)});
        ++overlays;
      }
    }
  }
  benchmark::DoNotOptimize(sum);
}

void leeway_window(benchmark::State& state) {
  Setup setup = example("curlew-clips");
  setup.request.grid->columns = setup.request.grid->rows = 25;
  setup.request.grid->extent = Box{60, 240, 60, 200};
  const Setup setups[] = {setup};
  for (auto _ : state) benchmark::DoNotOptimize(bracket(setups).window.area);
}

BENCHMARK(leeway_field<0>)->Unit(benchmark::kMillisecond);
BENCHMARK(geos_field<0>)->Unit(benchmark::kMillisecond);
BENCHMARK(leeway_field<1>)->Unit(benchmark::kMillisecond);
BENCHMARK(geos_field<1>)->Unit(benchmark::kMillisecond);
BENCHMARK(leeway_field<2>)->Unit(benchmark::kMillisecond);
BENCHMARK(geos_field<2>)->Unit(benchmark::kMillisecond);
BENCHMARK(leeway_field<3>)->Unit(benchmark::kMillisecond);
BENCHMARK(geos_field<3>)->Unit(benchmark::kMillisecond);
BENCHMARK(leeway_field<4>)->Unit(benchmark::kMillisecond);
BENCHMARK(geos_field<4>)->Unit(benchmark::kMillisecond);
BENCHMARK(leeway_window)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace leeway::bench

int main(int argc, char** argv) {
  using leeway::bench::Row;
  const auto row = [](const char* what, int which, double aim) {
    return Row{fmt::format("field of 201 x 201 offsets, {}", what),
               fmt::format("leeway_field<{}>", which), fmt::format("geos_field<{}>", which), aim,
               leeway::bench::kSampled};
  };
  return leeway::bench::run(
      argc, argv,
      {row("Godwit without its head's parts", 0, 1000), row("Godwit", 1, 50),
       row("Curlew (cut-out, clips, head)", 2, 50), row("the same with a disc of travel", 3, 50),
       row("Plover (disc of travel)", 4, 50)});
}
