#pragma once
// The result of `measure` in its three formats.

#include <vector>

#include "leeway/measure.h"
#include "leeway/write_check.h"

namespace leeway {

// `text` and Markdown are for people, JSON for programs; offsets are from nozzle to probe, in mm.

// What goes into a setup: the offset to 0.001 mm, its standard uncertainty rounded up to that, and,
// where 95 % asks for clearly more than the usual 2, the coverage factor rounded up to 0.01.
struct MeasuredProbe {
  Point offset;
  Point uncertainty;
  std::optional<double> coverage_factor;
};
// Nothing where the uncertainty is unknown. Whether to use it while a reading is undecided
// (MeasureResult) is the caller's to say; the writers keep it back.
std::optional<MeasuredProbe> measured_probe(const MeasureResult& result);

// `readings` and `options` are those that were measured.
void write_measure_text(const MeasureResult&, const std::vector<Reading>& readings,
                        const MeasureOptions& options, const TextSink&);
void write_measure_json(const MeasureResult&, const std::vector<Reading>& readings,
                        const MeasureOptions& options, const TextSink&);
void write_measure_markdown(const MeasureResult&, const std::vector<Reading>& readings,
                            const MeasureOptions& options, const TextSink&);

}  // namespace leeway
