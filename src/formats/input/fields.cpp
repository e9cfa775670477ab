#include "formats/input/fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "formats/input/setup_words.h"
#include "formats/text/names.h"
#include "geometry/plane/assert.h"

namespace leeway {
namespace {

bool wrong_type(JsonValue value, JsonKind kind, std::string_view allowed) {
  if (value.is(kind)) return false;
  // A number that is not finite has been noted already.
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
  // After all known keys, so that a key and its misspelling do not both count.
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
  LEEWAY_ASSERT(index_of(keys_, key) < keys_.size());
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

Slot Slot::at(SetupDetail detail) const {
  SetupPlace part = place;
  part.detail = detail;
  return {part, places};
}

std::optional<double> plain_number(JsonValue value, std::string_view allowed) {
  if (wrong_type(value, JsonKind::number, allowed)) return std::nullopt;
  return value.number();
}

std::vector<JsonValue> pair_items(JsonValue value, std::string_view allowed) {
  if (wrong_type(value, JsonKind::array, allowed)) return {};
  std::vector<JsonValue> items = value.children();
  if (items.size() == 2) return items;
  value.fault("wrong-length", describe(value), std::string(allowed));
  return {};
}

std::optional<double> read_number(JsonValue value, NumberRange range, const Slot& slot) {
  const auto number = plain_number(value, words(range));
  if (number) slot.places.put(slot.place, value);
  return number;
}

std::optional<int> read_count(JsonValue value, const Slot& slot) {
  if (wrong_type(value, JsonKind::number, words(NumberRange::count))) return std::nullopt;
  const double number = value.number();
  if (number != std::floor(number)) {
    value.fault("not-whole", describe(value), std::string(words(NumberRange::count)));
    return std::nullopt;
  }
  if (std::abs(number) > std::numeric_limits<int>::max()) {
    note(value, {slot.place, OutOfRange{number, NumberRange::count}});
    return std::nullopt;
  }
  slot.places.put(slot.place, value);
  return static_cast<int>(number);
}

std::optional<Point> read_pair(JsonValue value, NumberRange range, std::string_view allowed,
                               const Slot& slot, SetupDetail first, SetupDetail second) {
  const std::vector<JsonValue> items = pair_items(value, allowed);
  if (items.empty()) return std::nullopt;
  const auto component = [&](JsonValue item, SetupDetail detail) {
    return read_number(item, range, slot.at(detail)).value_or(kUnread);
  };
  const double x = component(items[0], first);
  return Point{x, component(items[1], second)};
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

std::optional<std::string> read_name(JsonValue value, NameNeeded needed, const Slot& slot) {
  if (wrong_type(value, JsonKind::string, kNameWords)) return std::nullopt;
  if (needed == NameNeeded::no && value.text().empty()) {
    note(value, {slot.place, BlankName{}});
    return std::nullopt;
  }
  slot.places.put(slot.place, value);
  return value.text();
}

std::vector<JsonValue> read_items(JsonValue value, std::string_view allowed) {
  if (wrong_type(value, JsonKind::array, allowed)) return {};
  return value.children();
}

}  // namespace leeway
