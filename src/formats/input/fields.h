#pragma once
// Reading the members of objects, with a fault for each that will not do.
//
// A function that returns nothing has noted why. A value that is not finite has been noted when
// its file was parsed, and nothing more is said of it.

#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "formats/input/places.h"
#include "formats/json/json_file.h"
#include "formats/text/spelling.h"
#include "leeway/geometry.h"

namespace leeway {

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

// A value of a setup as it is read: where it stands in the files is put down, so that validate()
// can say whether it will do; only what is no such value is noted here.
struct Slot {
  SetupPlace place;
  Places& places;

  Slot at(SetupDetail detail) const;
};

// Stands for a number that could not be read: it is found wrong, and has no place.
inline constexpr double kUnread = std::numeric_limits<double>::quiet_NaN();

std::optional<double> read_number(JsonValue value, NumberRange range, const Slot& slot);
std::optional<int> read_count(JsonValue value, const Slot& slot);

// [x, y]. A component that is no number is kUnread.
std::optional<Point> read_pair(JsonValue value, NumberRange range, std::string_view allowed,
                               const Slot& slot, SetupDetail first = SetupDetail::x,
                               SetupDetail second = SetupDetail::y);

// Without putting down where they stand: a number, and the two items of a pair (none otherwise).
std::optional<double> plain_number(JsonValue value, std::string_view allowed);
std::vector<JsonValue> pair_items(JsonValue value, std::string_view allowed);

// The word of the list that the text is.
std::optional<std::string_view> read_word(JsonValue value, const WordList& words);

// A name. One that can be left out is noted where it is given and empty.
enum class NameNeeded { no, yes };
std::optional<std::string> read_name(JsonValue value, NameNeeded needed, const Slot& slot);

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

}  // namespace leeway
