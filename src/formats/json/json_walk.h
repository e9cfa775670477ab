#pragma once
// Where the values of a JSON text stand, and in plain words why a text is not JSON. Only walked
// once something is wrong: the parser itself keeps no places.

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "formats/json/json_token.h"

namespace leeway {

struct JsonPlace {
  std::size_t value = 0;  // byte offsets
  std::size_t key = 0;    // of a member; otherwise the same as `value`
};

// A number that is none to JSON or to a computer: NaN, Infinity, 1e999.
struct NotFinite {
  std::size_t at = 0;
  std::size_t length = 0;
};

struct JsonWalk {
  std::vector<JsonPlace> places;  // of each value, in the order in which they stand
  std::vector<NotFinite> not_finite;
  std::optional<SyntaxFault> stop;  // where the text ceases to be JSON
};

// NaN and its like pass for values here. REQUIRES: UTF-8 without U+0000.
JsonWalk walk_json(std::string_view text);

}  // namespace leeway
