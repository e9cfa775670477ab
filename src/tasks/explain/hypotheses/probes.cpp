// Numbers of the probe and of what is known how well: diameter for radius, percentages.

#include "tasks/explain/hypotheses/mistake_table.h"

namespace leeway {
namespace {

void diameter(Trials& trials) {
  if (const Disc* spot = std::get_if<Disc>(&trials.setup().probe.spot)) {
    trials.add(Mistake::diameter_as_radius, {SpotShape{Disc{spot->center, spot->radius / 2}}});
  }
}

void uncertainties(Trials& trials) {
  const Setup& setup = trials.setup();
  for (const double by : {0.1, 0.01}) {
    trials.add(Mistake::uncertainty_scale, {OffsetUncertainty{by * setup.probe.offset_uncertainty}},
               0.2);
    trials.add(Mistake::uncertainty_scale, {BedUncertainty{by * setup.machine.bed_uncertainty}},
               0.15);
    trials.add(Mistake::uncertainty_scale,
               {TravelUncertainty{by * setup.machine.travel_uncertainty}}, 0.15);
  }
}

}  // namespace

void add_probes(Trials& trials) {
  diameter(trials);
  uncertainties(trials);
}

}  // namespace leeway
