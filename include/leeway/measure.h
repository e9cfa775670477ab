#pragma once
// `measure`: the offset of a probe from paired readings, with its uncertainty (JCGM 100).

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "leeway/error.h"
#include "leeway/geometry.h"

namespace leeway {

// The nozzle brought over a dot, then the probe over the same dot: the position of the nozzle that
// the controller reported each time. In mm.
struct Reading {
  std::string label;  // the user's, or "row 3"
  Point nozzle_over;
  Point probe_over;
  // Whether it tells the offset in x, in y. Edges that were met in one direction tell one of them;
  // then the other coordinate of probe_over means nothing.
  std::array<bool, 2> tells = {true, true};
  std::size_t row = 0;  // of a table, from 1; of several the first

  Point offset() const { return nozzle_over - probe_over; }
};

// A probe without a tip to see: over an edge by where it switched. `from_low` and `from_high` are
// the nozzle's positions along one axis as the probe switched, coming from the left or front and
// from the right or back. Their middle has the probe over the edge, or over the middle of a strip:
// what it switches too early or too late cancels.
inline double over_edge(double from_low, double from_high) {
  return from_low + (from_high - from_low) / 2;
}

struct MeasureOptions {
  double resolution = 0;      // of every reading, in mm: the last digit that is shown
  std::vector<bool> dropped;  // beside the readings; empty for none
  std::vector<bool> kept;     // the same: not asked about again when they stand out
};

struct AxisMeasure {
  std::size_t pairs = 0;                     // that tell of it
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
  // In what fraction of sets of so many pairs without any mistake a score comes out as far from 0,
  // at most; 1 for more than half of them. By simulation; nothing for more than 101 pairs.
  std::optional<double> chance;
  bool kept = false;  // by the options
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
  // Of the readings that stand out and are not kept, so that someone has to decide: the offset
  // without them. Nothing where there are none, or no other readings.
  std::optional<Point> offset_without;
  std::vector<Trend> trends;  // all that could be tested

  Point offset() const { return {axes[0].offset, axes[1].offset}; }
  // Whether a reading stands out that is not kept by the options.
  bool undecided() const;
  // Standard uncertainties; nothing where unknown.
  std::optional<Point> uncertainty() const;
};

// Readings that no offset can be had from; what() says which.
class InvalidReadings : public Error {
 public:
  using Error::Error;
};

// The mean offset and its standard uncertainty (JCGM 100, 4.2), what is odd about single readings,
// and trends over the bed. Linear in the readings. Outliers are named and stay in: to drop one is
// the user's to decide.
//
// Throws InvalidReadings where a number is not finite or larger than 1e6, the resolution is below
// 0, or no reading that is not dropped tells of x, or of y.
MeasureResult measure(const std::vector<Reading>& readings, const MeasureOptions& options = {});

}  // namespace leeway
