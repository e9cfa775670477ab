#include "web/setup/differences.h"
#include "web/answers.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "formats/json/setup_value.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "leeway/read_setup.h"

namespace leeway {
namespace {

void note_changes(const Json& from, const Json& to, const Json::json_pointer& at, Json& out) {
  if (from == to) return;
  if (!from.is_object() || !to.is_object()) {
    out[at.to_string()] = to;
    return;
  }
  for (const auto& [key, value] : from.items()) {
    if (!to.contains(key)) out[(at / key).to_string()] = nullptr;
  }
  for (const auto& [key, value] : to.items()) {
    note_changes(from.contains(key) ? from.at(key) : Json(), value, at / key, out);
  }
}

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
    if (!deeper) {
      rows_.push_back({{"what", what}, {"this", shown_value(one)}, {"other", shown_value(other)}});
      return;
    }
    for (const auto& [key, value] : one.items())
      compare(value, member(other, key), below(what, key));
    for (const auto& [key, value] : other.items()) {
      if (!one.contains(key)) compare(Json(), value, below(what, key));
    }
  }

  const Json& rows() const { return rows_; }

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
    rows_.push_back({{"what", which}, {"this", shown(one)}, {"other", shown(other)}});
  }

  Json rows_ = Json::array();
};

}  // namespace

Json changes_between(const Setup& from, const Setup& to) {
  Json out = Json::object();
  note_changes(setup_value(from), setup_value(to), Json::json_pointer(), out);
  return out;
}

Json answer_differs(Session& session, WebRequest& asked) {
  const std::string other = asked.text("other", "");
  asked.done();
  const Setup theirs = whole_setup(other, "the other setup");
  Json one = session.whole().is_null() ? setup_value(session.rig().setup()) : session.whole();
  Json two = setup_value(theirs);
  one.erase("name");
  two.erase("name");
  Differences differences;
  differences.compare(one, two, "");
  const std::size_t count = differences.rows().size();
  return {{"differs", differences.rows()},
          {"says", count == 0   ? "Nothing differs but perhaps the name."
                   : count == 1 ? "One thing differs."
                                : fmt::format("{} things differ.", count)},
          {"changes", changes_between(session.rig().setup(), theirs)}};
}

}  // namespace leeway
