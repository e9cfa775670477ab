#pragma once
// Changing a JSON text piece by piece.

#include <algorithm>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "formats/json/json_tree.h"
#include "formats/json/json_walk.h"
#include "leeway/rewrite_setup.h"

namespace leeway {

// A JSON text with the places of its values, named by their index in the JsonTree. Changes are kept
// until result() and must not overlap. REQUIRES: a text that parses.
class JsonEditor {
 public:
  explicit JsonEditor(std::string_view text);

  static constexpr std::uint32_t kRoot = 0;
  static constexpr std::uint32_t kNone = 0;  // the root is nobody's member

  // kNone when `object` is none, is no object, or has no such member.
  std::uint32_t member(std::uint32_t object, std::string_view key) const;

  // The member of the root.
  std::uint32_t top(std::string_view key) const;

  // Null when it is no text.
  const std::string* string(std::uint32_t node) const;

  void replace(std::uint32_t node, const std::string& json);

  // `member` is "key": value. Goes before the first member, or into the empty object.
  void add_first(std::uint32_t object, const std::string& member);

  // Goes after this member of the root, on a line of its own.
  void add_after(std::uint32_t node, const std::string& member);

  // Goes after the last member of the root, on a line of its own.
  void add_last(const std::string& member);

  Rewritten result();

 private:
  struct Edit {
    std::size_t from = 0;
    std::size_t to = 0;
    std::string json;
  };

  std::uint32_t find(std::uint32_t object, std::string_view key) const;
  bool is_empty(std::uint32_t object) const { return tree_.nodes[object].end == object + 1; }
  std::size_t end_of(std::size_t at, bool* holds_comment = nullptr) const;

  std::string_view text_;
  JsonWalk walk_;
  JsonTree tree_;
  std::vector<Edit> edits_;
  bool comments_lost_ = false;
};

}  // namespace leeway
