#pragma once
// The door: what a public function lets in. Inside, setups are taken as checked.

#include "leeway/validate.h"

namespace leeway {

// Throws InvalidSetup.
void require_valid(const Setup& setup);

// Of a change of a setup that has passed: its request does not matter, its names don't, and lengths
// may be as large as anything is (position.h). Throws InvalidSetup.
void require_valid_trial(const Setup& changed);

// Throws InvalidSetup where the setup's probe would not do with this offset.
void require_valid_offset(const Setup& setup, Point offset);

}  // namespace leeway
