#pragma once
// A JSON text (RFC 8259, with comments) as values in the order in which they stand.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace leeway {

enum class JsonKind : std::uint8_t { null, boolean, number, string, array, object, not_finite };

// What a value lies in, and where its neighbour begins, are indices into JsonTree::nodes.
struct JsonNode {
  union {
    double number;       // a boolean is 0 or 1
    std::uint32_t text;  // index into JsonTree::texts
  };
  std::uint32_t end = 0;     // one past the last value inside this one
  std::uint32_t key = 0;     // of a member: index into texts; of an item: its place in the array
  std::uint32_t parent = 0;  // the root is its own
  JsonKind kind = JsonKind::null;
};

// All members are kept, those with the same key too.
struct JsonTree {
  std::vector<JsonNode> nodes;  // nodes[0] is the root
  std::vector<std::string> texts;
};

// Parses into `tree`; false when the text is not JSON, nests deeper than kDeepestNesting or holds
// a number beyond the range of double. `stopped_at` is then the byte where the parser gave up.
// REQUIRES: UTF-8 without U+0000.
bool parse_json(std::string_view text, JsonTree& tree, std::size_t& stopped_at);

}  // namespace leeway
