#pragma once
// What differs between two setups, in words.

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "leeway/setup.h"

namespace leeway {

// "probe, offset", "-38.5, 12", "38.5, 12".
struct SetupDifference {
  std::string what;
  std::string one;
  std::string other;
};

// Member by member; things that have names by their names. Names of setups are no difference.
std::vector<SetupDifference> differences_between(const Setup& one, const Setup& other);
// The same of setups as JSON, which may be unfinished.
std::vector<SetupDifference> differences_between(const nlohmann::ordered_json& one,
                                                 const nlohmann::ordered_json& other);

}  // namespace leeway
