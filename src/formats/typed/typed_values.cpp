#include "formats/typed/typed_values.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "formats/text/numbers.h"
#include "formats/text/spelling.h"

namespace leeway {
namespace {

constexpr std::string_view kDots = "..";
constexpr std::array<const char*, 4> kSideNames{"left", "right", "front", "back"};

std::string_view trimmed_word(std::string_view text) {
  text.remove_prefix(std::min(text.find_first_not_of(' '), text.size()));
  return text.substr(0, text.find_last_not_of(' ') + 1);
}

}  // namespace

std::vector<std::string_view> split_typed(std::string_view text, char separator) {
  std::vector<std::string_view> parts;
  for (;;) {
    const std::size_t at = text.find(separator);
    parts.push_back(text.substr(0, at));
    if (at == std::string_view::npos) return parts;
    text.remove_prefix(at + 1);
  }
}

std::optional<double> typed_number(std::string_view text) {
  constexpr std::string_view kBlanks = " \t";
  const auto trim = [&text, kBlanks] {
    text.remove_prefix(std::min(text.find_first_not_of(kBlanks), text.size()));
    text.remove_suffix(text.size() - std::min(text.find_last_not_of(kBlanks) + 1, text.size()));
  };
  trim();
  const std::string_view end = text.substr(text.size() - std::min<std::size_t>(text.size(), 2));
  if (end == "mm" || end == "MM") {
    text.remove_suffix(2);
    trim();
  }
  return number_in(text);
}

std::optional<std::vector<double>> typed_numbers(std::string_view text) {
  std::vector<double> out;
  for (const std::string_view part : split_typed(text, ',')) {
    const std::optional<double> number = typed_number(part);
    if (!number) return std::nullopt;
    out.push_back(*number);
  }
  return out;
}

std::optional<std::pair<double, double>> typed_size(std::string_view text) {
  constexpr std::string_view kTimes = "\xC3\x97";  // U+00D7
  std::size_t length = 1;
  std::size_t at = text.find_first_of("xX");
  if (at == std::string_view::npos) {
    at = text.find(kTimes);
    length = kTimes.size();
  }
  if (at == std::string_view::npos) return std::nullopt;
  const std::optional<double> width = typed_number(text.substr(0, at));
  const std::optional<double> depth = typed_number(text.substr(at + length));
  if (!width || !depth) return std::nullopt;
  return std::pair{*width, *depth};
}

std::string number_hint(std::string_view text) {
  std::string hint = character_hint(text);
  if (hint.empty()) hint = comma_hint(text);
  return hint.empty() ? hint : "; " + hint;
}

std::optional<TypedRange> range_in(std::string_view text) {
  const std::size_t dots = text.find(kDots);
  if (dots == std::string_view::npos) return std::nullopt;
  const std::optional<double> from = typed_number(text.substr(0, dots));
  const std::optional<double> to = typed_number(text.substr(dots + kDots.size()));
  if (!from || !to) return std::nullopt;
  return TypedRange{*from, *to};
}

std::optional<std::pair<TypedRange, TypedRange>> ranges_in(std::string_view text) {
  const std::vector<std::string_view> parts = split_typed(text, ',');
  if (parts.size() != 2) return std::nullopt;
  const std::optional<TypedRange> x = range_in(parts[0]);
  const std::optional<TypedRange> y = range_in(parts[1]);
  if (!x || !y) return std::nullopt;
  return std::pair{*x, *y};
}

ReadSides sides_in(const char* field, std::string_view text) {
  ReadSides out;
  const WordList names{kSideNames.begin(), kSideNames.end()};
  TypedSides& sides = out.sides;
  std::optional<double>* const values[] = {&sides.left, &sides.right, &sides.front, &sides.back};
  const auto refuse = [&](TypedFault::Kind kind, std::string says) {
    out.fault = TypedFault{kind, field, std::move(says)};
    return out;
  };
  const auto refuse_all = [&] {
    const std::string hint = sides_hint(text);
    return refuse(TypedFault::Kind::takes,
                  fmt::format("takes sides and numbers of mm, such as left=12,back=200, not "
                              "\"{}\"{}",
                              text, hint.empty() ? number_hint(text) : hint));
  };
  for (const std::string_view part : split_typed(text, ',')) {
    const std::size_t equals = part.find('=');
    if (typed_number(part)) return refuse_all();
    const std::string_view name = trimmed_word(part.substr(0, equals));
    const auto at = std::find(names.begin(), names.end(), name);
    if (at == names.end()) {
      const std::string_view near = nearest_word(name, names);
      return refuse(TypedFault::Kind::side,
                    fmt::format("knows no side \"{}\"{} (the sides are {})", name,
                                near.empty() ? "" : fmt::format("; did you mean \"{}\"?", near),
                                fmt::join(names, ", ")));
    }
    std::optional<double>& value = *values[at - names.begin()];
    if (value) return refuse(TypedFault::Kind::side, fmt::format("gives {} twice", name));
    if (equals != std::string_view::npos) value = typed_number(part.substr(equals + 1));
    if (!value) return refuse_all();
  }
  return out;
}

std::string range_hint(std::string_view text) {
  std::string meant;
  for (const std::string_view part : split_typed(text, ',')) {
    const std::vector<std::string_view> ends = split_typed(part, ':');
    if (ends.size() < 2 || ends.size() > 3) return "";
    if (!std::all_of(ends.begin(), ends.end(), [](auto end) { return typed_number(end); }))
      return "";
    meant += fmt::format("{}{}..{}", meant.empty() ? "" : ",", ends[0], ends[1]);
    if (ends.size() == 3) meant += fmt::format("/{}", ends[2]);
  }
  return fmt::format("; did you mean \"{}\"?", meant);
}

std::string sides_hint(std::string_view text) {
  const std::vector<std::string_view> parts = split_typed(text, ',');
  if (parts.size() != kSideNames.size()) return "";
  std::string meant;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (!typed_number(parts[i])) return "";
    meant += fmt::format("{}{}={}", i == 0 ? "" : ",", kSideNames[i], parts[i]);
  }
  return fmt::format("; did you mean \"{}\"?", meant);
}

}  // namespace leeway
