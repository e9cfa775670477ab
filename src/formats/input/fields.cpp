#include "formats/input/fields.h"
#include "formats/text/names.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace leeway {
namespace {

bool wrong_type(JsonValue value, JsonKind kind, std::string_view allowed) {
  if (value.is(kind)) return false;
  if (!value.is(JsonKind::not_finite)) {
    value.fault("wrong-type", describe(value), std::string(allowed));
  }
  return true;
}

std::size_t index_of(const WordList& keys, std::string_view key) {
  return static_cast<std::size_t>(std::find(keys.begin(), keys.end(), key) - keys.begin());
}

}  // namespace

Fields::Fields(JsonValue object, const WordList& keys, std::string_view allowed)
    : object_(object), keys_(keys), values_(keys.size()) {
  is_object_ = !wrong_type(object, JsonKind::object, allowed);
  if (!is_object_) return;
  std::vector<JsonValue> unknown;
  for (const JsonValue member : object.children()) {
    const std::size_t i = index_of(keys_, member.key());
    if (i == keys_.size()) {
      unknown.push_back(member);
    } else if (values_[i]) {
      member.key_fault("duplicate-key", fmt::format("the key \"{}\" a second time", member.key()),
                       "each key once");
    } else {
      values_[i] = member;
    }
  }
  for (const JsonValue member : unknown) take_misspelt(member);
}

void Fields::take_misspelt(JsonValue member) {
  const std::string_view nearest = nearest_word(member.key(), keys_);
  member.key_fault("unknown-key", "the unknown key " + in_quotes(member.key()), listed(keys_),
                   std::string(nearest));
  const std::size_t i = index_of(keys_, nearest);
  if (i < keys_.size() && !values_[i]) values_[i] = member;
}

std::optional<JsonValue> Fields::find(std::string_view key) const {
  return values_[index_of(keys_, key)];
}

std::optional<JsonValue> Fields::need(std::string_view key, std::string_view allowed) const {
  const std::optional<JsonValue> value = find(key);
  if (!value && is_object_) {
    object_.fault("missing-key", fmt::format("no key \"{}\"", key),
                  fmt::format("\"{}\": {}", key, allowed));
  }
  return value;
}

std::optional<double> read_number(JsonValue value, const NumberRange& range) {
  if (wrong_type(value, JsonKind::number, range.words)) return std::nullopt;
  const double number = value.number();
  const bool low = range.above_least ? number <= range.least : number < range.least;
  if (low || number > range.most) {
    value.fault("out-of-range", describe(value), std::string(range.words));
    return std::nullopt;
  }
  return number;
}

std::optional<int> read_whole(JsonValue value, int least, int most) {
  const std::string allowed = fmt::format("a whole number from {} to {}", least, most);
  if (wrong_type(value, JsonKind::number, allowed)) return std::nullopt;
  const double number = value.number();
  if (number != std::floor(number)) {
    value.fault("not-whole", describe(value), allowed);
    return std::nullopt;
  }
  if (number < least || number > most) {
    value.fault("out-of-range", describe(value), allowed);
    return std::nullopt;
  }
  return static_cast<int>(number);
}

std::optional<Point> read_pair(JsonValue value, const NumberRange& range,
                               std::string_view allowed) {
  if (wrong_type(value, JsonKind::array, allowed)) return std::nullopt;
  const std::vector<JsonValue> items = value.children();
  if (items.size() != 2) {
    value.fault("wrong-length", describe(value), std::string(allowed));
    return std::nullopt;
  }
  const std::optional<double> x = read_number(items[0], range);
  const std::optional<double> y = read_number(items[1], range);
  return x && y ? std::optional<Point>(Point{*x, *y}) : std::nullopt;
}

std::optional<std::string_view> read_word(JsonValue value, const WordList& words) {
  std::string allowed;
  for (const std::string_view word : words) {
    allowed += fmt::format("{}\"{}\"", allowed.empty() ? "" : " or ", word);
  }
  if (wrong_type(value, JsonKind::string, allowed)) return std::nullopt;
  const std::size_t i = index_of(words, value.text());
  if (i < words.size()) return words[i];
  value.fault("unknown-word", describe(value), allowed,
              std::string(nearest_word(value.text(), words)));
  return std::nullopt;
}

std::optional<std::string> read_name(JsonValue value) {
  constexpr std::string_view kAllowed = "a name, as a text that is not blank";
  if (wrong_type(value, JsonKind::string, kAllowed)) return std::nullopt;
  if (value.text().find_first_not_of(' ') == std::string::npos) {
    value.fault("blank-name", value.text().empty() ? "an empty text" : "a blank text",
                std::string(kAllowed));
    return std::nullopt;
  }
  return value.text();
}

std::vector<JsonValue> read_items(JsonValue value, std::string_view allowed) {
  if (wrong_type(value, JsonKind::array, allowed)) return {};
  return value.children();
}

void NameBook::add(JsonValue value, const std::string& name) {
  if (names_.insert(name).second) return;
  value.fault("duplicate-name", "the name " + in_quotes(name) + " a second time",
              "a name of its own for each " + kind_);
}

}  // namespace leeway
