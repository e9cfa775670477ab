#include "leeway/measure.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "leeway/setup.h"
#include "tasks/measure/outlier_chance.h"
#include "tasks/measure/statistics.h"

namespace leeway {
namespace {

using Values = std::vector<double>;

// Every reading carries resolution / sqrt(12) (JCGM 100, F.2.2.1). A pair has two of them, and
// more pairs do not average it out: the same digit may be cut each time.
double of_resolution(double resolution) { return resolution / std::sqrt(6.0); }

AxisMeasure measure_axis(const Values& offsets, double resolution) {
  AxisMeasure axis;
  axis.pairs = offsets.size();
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

// What there is to tell of one axis.
struct AxisReadings {
  std::vector<std::size_t> reading;
  Values offset;
  std::array<Values, 3> along;  // x, y, order
};

bool is_set(const std::vector<bool>& flags, std::size_t i) { return i < flags.size() && flags[i]; }

AxisReadings readings_along(const std::vector<Reading>& readings, const std::vector<bool>& dropped,
                            std::size_t axis) {
  AxisReadings out;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (is_set(dropped, i) || !readings[i].tells[axis]) continue;
    const Point offset = readings[i].offset();
    out.reading.push_back(i);
    out.offset.push_back(axis == 0 ? offset.x : offset.y);
    out.along[0].push_back(readings[i].nozzle_over.x);
    out.along[1].push_back(readings[i].nozzle_over.y);
    out.along[2].push_back(static_cast<double>(i + 1));
  }
  return out;
}

// The resolution alone makes no reading stand out: scores are of no less than what it carries.
void find_outliers(const AxisReadings& of, int axis, const MeasureOptions& options,
                   std::vector<Outlier>& outliers) {
  if (of.offset.size() < 3) return;
  const Values scores = modified_z_scores(of.offset, of_resolution(options.resolution));
  for (std::size_t i = 0; i < scores.size(); ++i) {
    if (std::abs(scores[i]) <= MeasureResult::kOutlierLimit) continue;
    outliers.push_back({of.reading[i], axis, scores[i], chance_of_score(scores.size(), scores[i]),
                        is_set(options.kept, of.reading[i])});
  }
}

bool varies(const Values& values) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  return *high - *low > 1e-6;
}

// Three pairs leave one degree of freedom: any line fits nearly.
void find_trends(const AxisReadings& of, int axis, std::vector<Trend>& trends) {
  if (of.offset.size() < 4) return;
  for (int k = 0; k < 3; ++k) {
    const Values& where = of.along[static_cast<std::size_t>(k)];
    if (!varies(where)) continue;
    const Line line = fitted_line(where, of.offset);
    trends.push_back({axis, static_cast<Trend::Along>(k), line.slope, line.p});
  }
}

// Of the readings that tell of both.
std::optional<double> correlation_of(const std::vector<Reading>& readings,
                                     const std::vector<bool>& dropped) {
  std::array<Values, 2> offsets;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (is_set(dropped, i) || !readings[i].tells[0] || !readings[i].tells[1]) continue;
    offsets[0].push_back(readings[i].offset().x);
    offsets[1].push_back(readings[i].offset().y);
  }
  if (offsets[0].size() < 3) return std::nullopt;
  const double r = correlation(offsets[0], offsets[1]);
  return std::isfinite(r) ? std::optional<double>(r) : std::nullopt;
}

std::optional<Point> without_undecided(const std::vector<Reading>& readings,
                                       const MeasureOptions& options,
                                       const std::vector<Outlier>& outliers) {
  std::vector<bool> dropped = options.dropped;
  dropped.resize(readings.size(), false);
  for (const Outlier& outlier : outliers) {
    if (!outlier.kept) dropped[outlier.reading] = true;
  }
  const Values x = readings_along(readings, dropped, 0).offset;
  const Values y = readings_along(readings, dropped, 1).offset;
  if (x.empty() || y.empty()) return std::nullopt;
  return Point{mean(x), mean(y)};
}

// As large as a length of a setup may be.
bool is_length(double value) { return std::abs(value) <= kLargestLength; }

void require_readings(const std::vector<Reading>& readings, const MeasureOptions& options) {
  if (!is_length(options.resolution) || options.resolution < 0) {
    throw InvalidReadings("the resolution is no length of 0 to 1e6 mm");
  }
  std::array<bool, 2> told = {false, false};
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (is_set(options.dropped, i)) continue;
    const Reading& reading = readings[i];
    for (std::size_t axis = 0; axis < 2; ++axis) {
      const Point nozzle = reading.nozzle_over;
      const Point probe = reading.probe_over;
      if (is_length(axis == 0 ? nozzle.x : nozzle.y) &&
          (!reading.tells[axis] || is_length(axis == 0 ? probe.x : probe.y))) {
        told[axis] = told[axis] || reading.tells[axis];
        continue;
      }
      throw InvalidReadings("reading " + std::to_string(i + 1) + " of " +
                            std::to_string(readings.size()) +
                            " holds what is no length of at most 1e6 mm either way");
    }
  }
  if (!told[0] || !told[1]) {
    throw InvalidReadings(std::string("no reading tells the offset in ") + (told[0] ? "y" : "x"));
  }
}

}  // namespace

std::optional<Point> MeasureResult::uncertainty() const {
  if (!axes[0].standard_uncertainty || !axes[1].standard_uncertainty) return std::nullopt;
  return Point{*axes[0].standard_uncertainty, *axes[1].standard_uncertainty};
}

bool MeasureResult::undecided() const {
  return std::any_of(outliers.begin(), outliers.end(),
                     [](const Outlier& outlier) { return !outlier.kept; });
}

MeasureResult measure(const std::vector<Reading>& readings, const MeasureOptions& options) {
  require_readings(readings, options);
  MeasureResult result;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    ++(is_set(options.dropped, i) ? result.dropped : result.pairs);
  }
  for (int axis = 0; axis < 2; ++axis) {
    const auto of_axis = static_cast<std::size_t>(axis);
    const AxisReadings of = readings_along(readings, options.dropped, of_axis);
    result.axes[of_axis] = measure_axis(of.offset, options.resolution);
    find_outliers(of, axis, options, result.outliers);
    find_trends(of, axis, result.trends);
  }
  result.correlation = correlation_of(readings, options.dropped);
  if (result.undecided()) {
    result.offset_without = without_undecided(readings, options, result.outliers);
  }
  return result;
}

}  // namespace leeway
