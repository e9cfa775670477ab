#pragma once
// How a setup becomes a list of limits; shared by Limits and MoveLimits.

#include <vector>

#include "leeway/limits.h"
#include "model/limits/swept_sets.h"

namespace leeway {

struct Limit {
  LimitInfo info;
  SharedField field;
  bool at_nozzle = false;  // the field is asked for the nozzle's position, else for the probe's
  double taken = 0;        // off the field's distance: radii and the wanted distance
  Spread spread;
};

// Whatever of the head can meet an obstacle: the bare nozzle, its parts, the probe's body.
struct MovingPart {
  PartId id;
  std::string name;
  const Shape* outline = nullptr;
  double underside = 0;
  bool with_probe = false;  // placed at the probe point, else at the nozzle
};
std::vector<MovingPart> moving_parts(const Setup& setup);
const Shape& outline_of(const Setup& setup, PartId part);

// What the probe has to sit beside, seen from above: the parts of the head that share a height with
// its body, and the bare nozzle where the probe has an extent.
std::vector<MovingPart> parts_beside_probe(const Setup& setup);
// What the mount keeps clear of the probe, in the same way.
std::vector<MovingPart> parts_kept_clear(const Setup& setup);
// The body of the probe, else its spot, which may be a point.
const Shape& body_outline(const Setup& setup);

double underside_of(const Setup& setup, PartId part);

// The height of the nozzle, in ticks (ticks.h), from which on a part passes above an obstacle.
double height_above(const Obstacle& obstacle, double underside);

// Whether a part comes down on an obstacle when the nozzle is `nozzle_height` above the bed.
bool meets(const Obstacle& obstacle, const MovingPart& part, double nozzle_height);

// The spreads of the three families of limits: what moves with the probe, with the nozzle, with the
// rest of the head.
Spread spread_at_probe(const Setup& setup);
Spread spread_of_travel(const Setup& setup);
Spread spread_of_head(const Setup& setup);
Spread spread_of(const Setup& setup, const MovingPart& part);

// The travel limits, then the bed limits of a given spot and edge distance.
void append_travel(const Setup& setup, std::vector<Limit>& limits);
void append_bed(const Setup& setup, const Shape& spot, double edge_distance, SweptSets& swept_sets,
                std::vector<Limit>& limits);
void append_obstacles(const Setup& setup, SweptSets& swept_sets, std::vector<Limit>& limits);

// Limits of the offset: the probe point stays in the mount's envelope, and the probe's body beside
// every part of the head and out of what is kept clear. Their fields are asked for the offset.
void append_envelope(const Setup& setup, SweptSets& swept_sets, std::vector<Limit>& limits);
void append_beside(const Setup& setup, SweptSets& swept_sets, std::vector<Limit>& limits);
void append_kept_clear(const Setup& setup, SweptSets& swept_sets, std::vector<Limit>& limits);

enum class ForMoves : bool { no, yes };
void append_head(const Setup& setup, double nozzle_height, ForMoves moves, SweptSets& swept_sets,
                 std::vector<Limit>& limits);

// The limits of one group, as `check` asks them.
void append_group(LimitGroup group, const Setup& setup, SweptSets& swept_sets,
                  std::vector<Limit>& limits);

}  // namespace leeway
