// Some numbers counted from a corner of the bed, some from its centre, or from its back.

#include "tasks/explain/hypotheses/mistake_table.h"

#include "model/limits/ticks.h"

namespace leeway {
namespace {

// Moves what the request says in numbers of its own.
Changes moved_request(const Trials& trials, Point by) {
  const Request& request = trials.setup().request;
  Changes changes;
  if (const Box* box = trials.bounds()) {
    changes = bounds_changes({box->x0 + by.x, box->x1 + by.x, box->y0 + by.y, box->y1 + by.y});
  }
  for (std::size_t i = 0; i < request.points.size(); ++i) {
    changes.push_back(PointPlace{i, rounded_to_ticks(request.points[i].at + by)});
  }
  return changes;
}

void shift_each(Trials& trials, Mistake mistake, Point by) {
  const Machine& machine = trials.setup().machine;
  const BedShape bed{shifted(machine.bed, by)};
  const TravelShape travel{shifted(machine.travel, by)};
  const Changes request = moved_request(trials, by);
  trials.add(mistake, {bed}, 0.4);
  trials.add(mistake, {travel}, 0.1);
  trials.add(mistake, request, 0.3);
  if (!request.empty()) trials.add(mistake, together({bed}, request), 0.1);
  if (trials.bounds() != nullptr && !trials.setup().request.points.empty()) {
    trials.add(mistake,
               bounds_changes({trials.bounds()->x0 + by.x, trials.bounds()->x1 + by.x,
                               trials.bounds()->y0 + by.y, trials.bounds()->y1 + by.y}),
               0.1);
  }
}

void from_the_back(Trials& trials) {
  const Box* box = trials.bounds();
  if (box == nullptr) return;
  const double sum = trials.bed().y0 + trials.bed().y1;
  trials.add(Mistake::counted_from_back,
             bounds_changes({box->x0, box->x1, sum - box->y1, sum - box->y0}));
}

}  // namespace

// Half the bed is what lies between its corner and its centre.
void add_origins(Trials& trials) {
  const Point half{trials.bed().width() / 2, trials.bed().depth() / 2};
  shift_each(trials, Mistake::origin_at_centre, -half);
  shift_each(trials, Mistake::origin_at_corner, half);
  from_the_back(trials);
}

}  // namespace leeway
