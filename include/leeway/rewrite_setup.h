#pragma once
// Changing the text of a setup file in one place; all else stays as it stands, comments included.
// All of these take a text that read_setup finds no fault with.

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "leeway/fit.h"

namespace leeway {

struct Rewritten {
  std::string text;
  bool comments_lost = false;  // some stood within what was replaced
};

// Only the text is changed; whether the new setup does is for read_setup and check to say.

// The mesh of a fit becomes the request's grid. `new_path` gives the paths of machine and probe
// profiles as they must be where the text will stand.
Rewritten rewrite_grid(std::string_view text, const FitMesh& mesh,
                       const std::function<std::string(const std::string&)>& new_path);

// The probe gets another offset and offset uncertainty, in mm, and the setup another coverage
// factor where one is given; after the probe, if it has none.
Rewritten rewrite_offset(std::string_view text, Point offset, Point uncertainty,
                         std::optional<double> coverage_factor = std::nullopt);

}  // namespace leeway
