#pragma once
// Reading the members of objects, with a fault for each that will not do.
//
// A function that returns nothing has noted why. A value that is not finite has been noted when
// its file was parsed, and nothing more is said of it.

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "formats/json/json_file.h"
#include "formats/text/spelling.h"
#include "leeway/geometry.h"

namespace leeway {

// No length or coordinate may be larger, in mm.
inline constexpr double kLargestLength = 1e6;

// The members of an object, found by key. Keys that are not known, or there twice, are noted when
// it is made. A misspelt key that is near a known one which is absent is read in its place, so
// that its value is looked at too and its absence is not told besides.
class Fields {
 public:
  // A value of another type is noted; `allowed` says what it should have been.
  Fields(JsonValue object, const WordList& keys, std::string_view allowed);

  bool is_object() const { return is_object_; }
  JsonValue object() const { return object_; }

  // REQUIRES, here and below: a key of the list.
  bool has(std::string_view key) const { return find(key).has_value(); }
  std::optional<JsonValue> find(std::string_view key) const;

  // The same; its absence is noted at the object.
  std::optional<JsonValue> need(std::string_view key, std::string_view allowed) const;

 private:
  void take_misspelt(JsonValue member);

  JsonValue object_;
  WordList keys_;
  std::vector<std::optional<JsonValue>> values_;  // beside keys_
  bool is_object_ = false;
};

struct NumberRange {
  double least = -kLargestLength;
  double most = kLargestLength;
  bool above_least = false;  // `least` itself is not allowed
  std::string_view words;    // what is allowed
};

inline constexpr NumberRange kAnyLength{-kLargestLength, kLargestLength, false,
                                        "a number of mm, at most 1e6 mm either way"};
inline constexpr NumberRange kDistance{0, kLargestLength, false,
                                       "a number of mm from 0 to at most 1e6 mm"};

// Notes a wrong type, or a number out of the range, and says so in the range's words.
std::optional<double> read_number(JsonValue value, const NumberRange& range);
std::optional<int> read_whole(JsonValue value, int least, int most);

// [x, y].
std::optional<Point> read_pair(JsonValue value, const NumberRange& range, std::string_view allowed);

// The word of the list that the text is.
std::optional<std::string_view> read_word(JsonValue value, const WordList& words);

// A text that is not blank.
std::optional<std::string> read_name(JsonValue value);

// The items of an array; none, with a note, where it is not one.
std::vector<JsonValue> read_items(JsonValue value, std::string_view allowed);

// Reads a member if it is there and leaves `into` as it is if not.
template <typename Target, typename Read, typename... Arguments>
void read_if_there(const Fields& fields, std::string_view key, Target& into, Read read,
                   const Arguments&... arguments) {
  if (const auto value = fields.find(key)) {
    if (auto result = read(*value, arguments...)) into = *std::move(result);
  }
}

// Names that have to differ.
class NameBook {
 public:
  explicit NameBook(std::string_view kind) : kind_(kind) {}

  // Notes a name that was there before.
  void add(JsonValue value, const std::string& name);

 private:
  std::string kind_;  // "obstacle"
  std::set<std::string> names_;
};

}  // namespace leeway
