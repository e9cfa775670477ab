#include "formats/compare/setup_differences.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "formats/json/setup_value.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"

namespace leeway {
namespace {

using Json = nlohmann::ordered_json;

// A value for a table: "-38.5, 12", "x 0..233, y 0..207", "yes".
std::string shown_value(const Json& value) {
  if (value.is_null()) return "not stated";
  if (value.is_boolean()) return value.get<bool>() ? "yes" : "no";
  if (value.is_number()) return decimal(value.get<double>(), true);
  if (value.is_string()) return one_line(value.get<std::string>());
  if (value.is_object() && value.contains("rectangle")) return shown_value(value["rectangle"]);
  if (value.is_object() && value.contains("x") && value.contains("y")) {
    const auto range = [&](const char* axis) {
      const Json& ends = value[axis];
      return fmt::format("{}..{}", shown_value(ends[0]), shown_value(ends[1]));
    };
    return "x " + range("x") + ", y " + range("y");
  }
  if (value.is_object() && value.contains("disc")) {
    const Json& disc = value["disc"];
    return fmt::format("disc of radius {} around {}", shown_value(disc["radius"]),
                       shown_value(disc["center"]));
  }
  if (value.is_object() && value.contains("polygon")) {
    return fmt::format("polygon of {} vertices", value["polygon"]["outer"].size());
  }
  if (value.is_object() && value.contains("wkt")) return "an outline as WKT";
  std::vector<std::string> parts;
  for (const auto& [key, part] : value.items()) {
    parts.push_back(value.is_object() ? fmt::format("{} {}", key, shown_value(part))
                                      : shown_value(part));
  }
  return fmt::format("{}", fmt::join(parts, ", "));
}

bool is_shape(const Json& value) {
  constexpr std::array<const char*, 4> kKinds{"rectangle", "disc", "polygon", "wkt"};
  return value.is_object() && std::any_of(kKinds.begin(), kKinds.end(),
                                          [&](const char* kind) { return value.contains(kind); });
}

// The things of an array by their names; null where it has none of that name.
const Json& named(const Json& array, const Json& name) {
  static const Json kNone;
  const auto found = std::find_if(array.begin(), array.end(), [&](const Json& one) {
    return one.value("name", Json()) == name;
  });
  return found == array.end() ? kNone : *found;
}

bool all_named(const Json& array) {
  return array.is_array() && !array.empty() &&
         std::all_of(array.begin(), array.end(),
                     [](auto& one) { return one.is_object() && one.contains("name"); });
}

// Of two setups, member by member, in words.
class Differences {
 public:
  void compare(const Json& one, const Json& other, const std::string& what) {
    if (one == other) return;
    if (all_named(one) || all_named(other)) return compare_named(one, other, what);
    const bool deeper = one.is_object() && other.is_object() && !is_shape(one) && !is_shape(other);
    // What has no name of its own is opened, also where it is absent on one side.
    if (!deeper && !what.empty()) {
      rows_.push_back({what, shown_value(one), shown_value(other)});
      return;
    }
    for (const auto& [key, value] : one.items())
      compare(value, member(other, key), below(what, key));
    for (const auto& [key, value] : other.items()) {
      if (!one.contains(key)) compare(Json(), value, below(what, key));
    }
  }

  std::vector<SetupDifference> take() { return std::move(rows_); }

 private:
  static Json member(const Json& object, const std::string& key) {
    return object.contains(key) ? object.at(key) : Json();
  }

  // "machine" and "request" say nothing that the rest doesn't.
  static std::string below(const std::string& what, const std::string& key) {
    if (what.empty() && (key == "machine" || key == "request")) return "";
    std::string word = key;
    std::replace(word.begin(), word.end(), '_', ' ');
    return what.empty() ? word : what + ", " + word;
  }

  void compare_named(const Json& one, const Json& other, const std::string& what) {
    for (const Json& thing : one) {
      const Json& same = named(other, thing["name"]);
      compare_thing(thing, same, what);
    }
    for (const Json& thing : other) {
      if (named(one, thing["name"]).is_null()) compare_thing(Json(), thing, what);
    }
  }

  void compare_thing(const Json& one, const Json& other, const std::string& what) {
    const Json& name = (one.is_null() ? other : one)["name"];
    const std::string which =
        what + " " + in_quotes(name.is_string() ? name.get<std::string>() : name.dump());
    if (!one.is_null() && !other.is_null()) return compare(one, other, which);
    const auto shown = [](const Json& thing) { return thing.is_null() ? "absent" : "there"; };
    rows_.push_back({which, shown(one), shown(other)});
  }

  std::vector<SetupDifference> rows_;
};

}  // namespace

std::vector<SetupDifference> differences_between(const Json& one, const Json& other) {
  Differences differences;
  differences.compare(one, other, "");
  return differences.take();
}

std::vector<SetupDifference> differences_between(const Setup& one, const Setup& other) {
  Json a = setup_value(one);
  Json b = setup_value(other);
  a.erase("name");
  b.erase("name");
  return differences_between(a, b);
}

}  // namespace leeway
