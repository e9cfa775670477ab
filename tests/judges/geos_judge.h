#pragma once
// A judge that shares nothing with the model: it puts the shapes where they would be and measures.
//
// For a position p of the probe the sensing spot is placed at p, the nozzle and the parts of the
// head at p - offset, the probe's body at p. GEOS then answers whether the bed covers the spot,
// how far the spot is from the bed's edge, whether the travel covers the nozzle, and how far
// each placed shape is from each obstacle. No Minkowski sum, no region, no limit of ours.
// Discs are a centre and a radius, exactly, and never a polygon.

#include <optional>
#include <string>
#include <vector>

#include "judges/geos.h"
#include "leeway/limits.h"
#include "leeway/setup.h"

namespace leeway::judges {

// What is left after the wanted distance, in mm; negative when a demand is broken.
struct Demand {
  LimitGroup group = LimitGroup::travel;
  std::string part;      // of head demands, as in LimitInfo
  std::string obstacle;  // of obstacle and head demands
  double mm = 0;
  double wanted = 0;  // distance already taken off `mm`
  // Whether `mm` is the true signed distance less the wanted one. If not, only its sign and its
  // nearness to 0 are meant: an overlap counts by its thickness (twice its area by its outline).
  bool exact = true;
};

// A demand is decided beyond doubt when its leeway is further from 0 than this.
inline constexpr double kDoubt_mm = 1e-6;

class GeosJudge {
 public:
  // Keeps a reference.
  explicit GeosJudge(const Setup& setup);

  // One demand for travel, one for the bed, one for each obstacle, and one for each part of the
  // head and obstacle that can meet at the trigger height, in that order; bodies after nozzle and
  // parts. `by` moves the probe and its body, not the nozzle: an error of the offset.
  const std::vector<Demand>& demands(Point probe, Point by = {});

  // The least leeway of all.
  double least_leeway(Point probe, Point by = {});

 private:
  // Something of the setup, ready for many questions.
  struct Standing {
    bool is_box = false;
    bool is_disc = false;
    bool is_line = false;  // the area, when it is none
    Disc disc;
    // A box with rounded corners, and what else is grown: by how much. Area and edge are without.
    std::optional<Box> rounded;
    double radius = 0;
    geos::Geometry area;
    geos::Geometry edge;
    geos::Prepared ready;
    geos::Prepared ready_edge;
  };
  struct Pair {
    Shape outline;
    bool with_probe;  // placed at the probe, not at the nozzle
    std::size_t obstacle;
  };

  static Standing standing(const Shape& shape);
  void add_pairs(const std::string& part, const Shape& outline, double underside, bool with_probe);
  static double signed_distance(const Standing& to, Point from);
  struct Measured {
    double mm;
    bool exact;
  };
  static Measured covered(const Standing& by, const Shape& shape, Point at, double edge_distance);
  static Measured kept_off(const Standing& what, const Shape& shape, Point at, double clearance);

  const Setup& setup_;
  Standing bed_;
  Standing travel_;
  std::vector<Standing> obstacles_;
  std::vector<Pair> pairs_;
  std::vector<Demand> demands_;
};

}  // namespace leeway::judges
