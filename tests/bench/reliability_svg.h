#pragma once
// What stated probabilities are worth, as a picture.

#include <string>

#include "tasks/stories/scores.h"

namespace leeway {

// A reliability diagram: stated probability against the share that was right, with two standard
// errors, and how many statements there were. An SVG file of its own.
std::string reliability_svg(const Scores& scores);

}  // namespace leeway
