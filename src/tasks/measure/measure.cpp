#include "leeway/measure.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "geometry/plane/assert.h"
#include "tasks/measure/statistics.h"

namespace leeway {
namespace {

using Values = std::vector<double>;

// Every reading carries resolution / sqrt(12) (JCGM 100, F.2.2.1). A pair has two of them, and
// more pairs do not average it out: the same digit may be cut each time.
double of_resolution(double resolution) { return resolution / std::sqrt(6.0); }

AxisMeasure measure_axis(const Values& offsets, double resolution) {
  AxisMeasure axis;
  axis.offset = mean(offsets);
  const double fixed = of_resolution(resolution);
  double of_mean = 0;
  const auto n = static_cast<double>(offsets.size());
  if (offsets.size() > 1) {
    axis.standard_deviation = standard_deviation(offsets);
    of_mean = *axis.standard_deviation / std::sqrt(n);  // JCGM 100, 4.2.3
  } else if (resolution <= 0) {
    return axis;
  }
  const double combined = std::hypot(of_mean, fixed);
  axis.standard_uncertainty = combined;
  // Welch-Satterthwaite (JCGM 100, G.4.1); the resolution has infinite degrees of freedom.
  axis.degrees_of_freedom = of_mean > 0
                                ? (n - 1) * std::pow(combined / of_mean, 4)
                                : (fixed > 0 ? std::numeric_limits<double>::infinity() : n - 1);
  axis.coverage_factor = t_factor(MeasureResult::kProbability, *axis.degrees_of_freedom);
  axis.expanded_uncertainty = *axis.coverage_factor * combined;
  return axis;
}

void find_outliers(const Values& offsets, const std::vector<std::size_t>& kept, int axis,
                   std::vector<Outlier>& outliers) {
  if (offsets.size() < 3) return;
  const Values scores = modified_z_scores(offsets);
  for (std::size_t i = 0; i < scores.size(); ++i) {
    if (std::abs(scores[i]) > MeasureResult::kOutlierLimit) {
      outliers.push_back({kept[i], axis, scores[i]});
    }
  }
}

bool varies(const Values& values) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  return *high - *low > 1e-6;
}

}  // namespace

std::optional<Point> MeasureResult::uncertainty() const {
  if (!axes[0].standard_uncertainty || !axes[1].standard_uncertainty) return std::nullopt;
  return Point{*axes[0].standard_uncertainty, *axes[1].standard_uncertainty};
}

MeasureResult measure(const std::vector<Reading>& readings, const MeasureOptions& options) {
  MeasureResult result;
  std::vector<std::size_t> kept;
  std::array<Values, 2> offsets;
  std::array<Values, 3> along;  // x, y, order
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (i < options.dropped.size() && options.dropped[i]) {
      ++result.dropped;
      continue;
    }
    kept.push_back(i);
    const Point offset = readings[i].offset();
    offsets[0].push_back(offset.x);
    offsets[1].push_back(offset.y);
    along[0].push_back(readings[i].nozzle_over.x);
    along[1].push_back(readings[i].nozzle_over.y);
    along[2].push_back(static_cast<double>(i + 1));
  }
  LEEWAY_ASSERT(!kept.empty());
  result.pairs = kept.size();
  for (std::size_t axis = 0; axis < 2; ++axis) {
    result.axes[axis] = measure_axis(offsets[axis], options.resolution);
    find_outliers(offsets[axis], kept, static_cast<int>(axis), result.outliers);
  }
  if (kept.size() >= 3) {
    const double r = correlation(offsets[0], offsets[1]);
    if (std::isfinite(r)) result.correlation = r;
  }
  // Three pairs leave one degree of freedom: any line fits nearly.
  if (kept.size() >= 4) {
    for (int axis = 0; axis < 2; ++axis) {
      for (int k = 0; k < 3; ++k) {
        const Values& where = along[static_cast<std::size_t>(k)];
        if (!varies(where)) continue;
        const Line line = fitted_line(where, offsets[static_cast<std::size_t>(axis)]);
        result.trends.push_back({axis, static_cast<Trend::Along>(k), line.slope, line.p});
      }
    }
  }
  return result;
}

}  // namespace leeway
