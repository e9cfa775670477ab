#pragma once
// Setups of desktop printers with wrong numbers in them.

#include <cstdint>

#include "leeway/fit.h"

namespace leeway {

struct WrongSetup {
  Setup setup;
  FitOptions options;  // what a user might ask `fit` for
};

// A right setup with one to three mistakes: signs, decimal points, inches, travels that do not meet
// the bed, margins, spots and distances that are too large, outlines that are triangles.
WrongSetup wrong_setup(std::uint64_t seed);

}  // namespace leeway
