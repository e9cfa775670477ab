#pragma once
// `measure`: the offset of a probe from paired readings, with its uncertainty (JCGM 100).

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "leeway/geometry.h"

namespace leeway {

// The nozzle brought over a dot, then the probe over the same dot: the position of the nozzle that
// the controller reported each time. In mm.
struct Reading {
  std::string label;  // the user's, or "row 3"
  Point nozzle_over;
  Point probe_over;

  Point offset() const { return nozzle_over - probe_over; }
};

struct MeasureOptions {
  double resolution = 0;      // of every reading, in mm: the last digit that is shown
  std::vector<bool> dropped;  // beside the readings; empty for none
};

struct AxisMeasure {
  double offset = 0;                         // the mean
  std::optional<double> standard_deviation;  // experimental; nothing of a single pair
  // Of the mean, with the resolution; nothing of a single pair without one.
  std::optional<double> standard_uncertainty;
  std::optional<double> degrees_of_freedom;  // effective; infinite where only resolution counts
  std::optional<double> coverage_factor;
  std::optional<double> expanded_uncertainty;
};

// A reading that stands out, by its modified z-score on an axis.
struct Outlier {
  std::size_t reading = 0;
  int axis = 0;  // 0 x, 1 y
  double score = 0;
};

// How an offset goes along with something it should not depend on.
struct Trend {
  enum class Along { x, y, order };
  int axis = 0;  // of the offset
  Along along = Along::x;
  double slope = 0;  // mm per mm, or mm per reading
  double p = 1;
};

struct MeasureResult {
  static constexpr double kProbability = 0.95;
  static constexpr double kOutlierLimit = 3.5;
  static constexpr double kSuspicion = 0.01;  // of a trend's p

  std::size_t pairs = 0;  // that count
  std::size_t dropped = 0;
  std::array<AxisMeasure, 2> axes;
  std::optional<double> correlation;  // of the offsets in x and in y
  std::vector<Outlier> outliers;      // shown, not dropped
  std::vector<Trend> trends;          // all that could be tested

  Point offset() const { return {axes[0].offset, axes[1].offset}; }
  // Standard uncertainties; nothing where unknown.
  std::optional<Point> uncertainty() const;
};

// The mean offset and its standard uncertainty (JCGM 100, 4.2), what is odd about single readings,
// and trends over the bed. Linear in the readings. Outliers are named and stay in: to drop one is
// the user's to decide.
//
// REQUIRES: at least one reading that is not dropped.
MeasureResult measure(const std::vector<Reading>& readings, const MeasureOptions& options = {});

}  // namespace leeway
