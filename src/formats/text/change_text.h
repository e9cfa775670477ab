#pragma once
// Changes of a setup, as JSON and in words.

#include <string>

#include "leeway/change.h"

namespace leeway {

// "left", "right", "front", "back".
const char* word_of(GridSide edge);

// Where a value stands in a setup (machine and probe taken to stand in it), and what is to stand
// there, as JSON. Of a grid's bounds and margins only where it has such.
struct JsonEdit {
  std::string pointer;  // JSON Pointer, RFC 6901
  std::string value;
};
JsonEdit json_edit(const Change& change);

// {"/probe/offset":[1,2]}, for a file of `setup`. A grid that gets bounds for margins, or margins
// for bounds, is given whole: what it must not have any more is not in it. REQUIRES: as `applied`.
std::string json_changes(const Changes& changes, const Setup& setup);

// As a shape stands in a file.
std::string json_shape(const Shape& shape);

// "x 0 to 230, y 0 to 210", "a disc of radius 90 around 0, 0", "its outline moved".
std::string shape_words(const Shape& shape);

}  // namespace leeway
