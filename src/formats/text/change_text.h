#pragma once
// Changes of a setup, as JSON and in words.

#include <string>

#include "leeway/change.h"

namespace leeway {

// "left", "right", "front", "back".
const char* word_of(GridSide edge);

// Where a value stands in a setup (machine and probe taken to stand in it), and what is to stand
// there, as JSON.
struct JsonEdit {
  std::string pointer;  // JSON Pointer, RFC 6901
  std::string value;
};
JsonEdit json_edit(const Change& change);

// {"/probe/offset":[1,2]}
std::string json_changes(const Changes& changes);

// As a shape stands in a file.
std::string json_shape(const Shape& shape);

// "x 0 to 230, y 0 to 210", "a disc of radius 90 around 0, 0", "its outline moved".
std::string shape_words(const Shape& shape);

}  // namespace leeway
