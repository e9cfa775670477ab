#pragma once
// Where `draw` puts the head.

#include <optional>
#include <string>

#include "leeway/setup.h"

namespace leeway {

// The position of the probe that `--at` names: "5,1" column and row of the grid, "x=210,y=20" mm
// (in `frame`, "probe" if empty, or "nozzle"), "home", or the name of a point. Nothing for an empty
// `at` that was not `given`. Throws OptionFault.
std::optional<Point> draw_place(const Setup& setup, const std::string& at, bool given,
                                const std::string& frame, const char* option = "--at");

}  // namespace leeway
