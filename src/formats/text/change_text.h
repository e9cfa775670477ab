#pragma once
// Changes of a setup, as JSON and in words.

#include <string>

#include "leeway/explain.h"

namespace leeway {

// {"/probe/offset":[1,2]}
std::string json_changes(const std::vector<Change>& changes);

// As a shape stands in a file.
std::string json_shape(const Shape& shape);

// "x 0 to 230, y 0 to 210", "a disc of radius 90 around 0, 0", "its outline moved".
std::string shape_words(const Shape& shape);

}  // namespace leeway
