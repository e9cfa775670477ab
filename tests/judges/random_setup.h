#pragma once
// Random setups: every kind of shape in every place, decimals on a lattice, and on purpose many
// exact coincidences (flush sides, touching corners, slants that share a line, near-copies).

#include <cstdint>
#include <optional>

#include "judges/random.h"
#include "leeway/setup.h"

namespace leeway::judges {

// What the setup is rich in. All but `mixed` hold polygons and rectangles only.
enum class Family {
  mixed,        // everything, discs too
  rectangles,   // axis-parallel edges, side on side
  chamfers,     // obstacles that touch 45 degree edges of the bed from inside or outside
  slanted,      // obstacles that touch slanted edges at lattice points
  rounds,       // tangent and overlapping copies of 16- to 64-gons
  near_copies,  // copies of obstacles displaced by rounding noise or by a micrometre
};
inline constexpr int kFamilies = 6;
const char* word(Family family);

struct RandomSetupOptions {
  std::optional<Family> family;  // any, when not given
  bool discs = true;             // of family mixed
  bool distances = true;         // edge distance, clearances, print inset
  bool uncertainties = true;
  bool isotropic = false;  // equal uncertainty of the offset in x and y
};

// The same setup for the same seed and options. Obstacles and head parts have distinct names.
Setup random_setup(std::uint64_t seed, const RandomSetupOptions& options = {});

}  // namespace leeway::judges
