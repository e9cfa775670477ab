// All regions of Curlew, its four clips and its head: ours, and the same on GEOS.

#include <benchmark/benchmark.h>

#include "bench/example.h"
#include "bench/ratios.h"
#include "geometry/convex/minkowski.h"
#include "geometry/overlay/overlay.h"
#include "judges/geos_regions.h"
#include "leeway/regions.h"

namespace leeway::bench {
namespace {

const Setup& curlew() {
  static const Setup setup = example("curlew-clips");
  return setup;
}

void leeway_regions(benchmark::State& state) {
  for (auto _ : state) {
    const Regions regions(curlew());
    for (int kind = 0; kind < kRegionKinds; ++kind) {
      benchmark::DoNotOptimize(regions.get(static_cast<RegionKind>(kind)).data());
    }
  }
}
BENCHMARK(leeway_regions);

void geos_regions(benchmark::State& state) {
  for (auto _ : state) {
    const judges::GeosRegions regions(curlew(), judges::Rounding::buffer);
    for (int kind = 0; kind < kRegionKinds; ++kind) {
      benchmark::DoNotOptimize(regions.region(static_cast<RegionKind>(kind)).get());
    }
  }
}
BENCHMARK(geos_regions);

// The bed less its clips: one union and one difference.
struct Overlaid {
  MultiPolygon bed = std::get<MultiPolygon>(curlew().machine.bed);
  std::vector<Polygon> clips;

  Overlaid() {
    for (const Obstacle& o : curlew().machine.obstacles) {
      if (const auto* b = std::get_if<Box>(&o.shape)) {
        clips.push_back({{{b->x0, b->y0}, {b->x1, b->y0}, {b->x1, b->y1}, {b->x0, b->y1}}, {}});
      } else {
        for (const Polygon& p : std::get<MultiPolygon>(o.shape)) clips.push_back(p);
      }
    }
  }
};

void leeway_overlay(benchmark::State& state) {
  const Overlaid work;
  for (auto _ : state) benchmark::DoNotOptimize(subtract(work.bed, unite(work.clips)).data());
}
BENCHMARK(leeway_overlay);

void geos_overlay(benchmark::State& state) {
  const Overlaid work;
  const geos::Geometry bed = geos::polygons(work.bed, {}, 1000);
  const geos::Geometry clips = geos::polygons(work.clips, {}, 1000);
  for (auto _ : state) {
    const auto united = geos::checked(GEOSUnaryUnion_r(geos::context(), clips.get()));
    benchmark::DoNotOptimize(
        geos::checked(GEOSDifference_r(geos::context(), bed.get(), united.get())).get());
  }
}
BENCHMARK(geos_overlay);

}  // namespace
}  // namespace leeway::bench

int main(int argc, char** argv) {
  return leeway::bench::run(argc, argv,
                            {{"all five regions of Curlew", "leeway_regions", "geos_regions"},
                             {"bed of Curlew less its clips (checked; GEOS unchecked)",
                              "leeway_overlay", "geos_overlay"}});
}
