#include "formats/typed/typed_length.h"

#include <algorithm>
#include <string>

#include "formats/text/numbers.h"

namespace leeway {
namespace {

struct LengthUnit {
  std::string_view name;  // in small letters
  double mm;
};
// An inch is 25.4 mm exactly (international yard and pound agreement of 1959).
constexpr double kInch = 25.4;
// What ends another comes after it.
constexpr LengthUnit kUnits[] = {
    {"mm", 1},     {"cm", 10},    {"inches", kInch},      {"inch", kInch},
    {"in", kInch}, {"\"", kInch}, {"\xE2\x80\xB3", kInch}};  // U+2033

constexpr std::string_view kMinus = "\xE2\x88\x92";  // U+2212

bool ends_with(std::string_view text, std::string_view end) {
  return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}

void trim(std::string& text) {
  constexpr const char* kBlanks = " \t";
  text.erase(std::min(text.find_last_not_of(kBlanks) + 1, text.size()));
  text.erase(0, std::min(text.find_first_not_of(kBlanks), text.size()));
}

std::string small_letters(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c + 32);
  }
  return out;
}

}  // namespace

std::optional<TypedLength> typed_length(std::string_view text) {
  std::string number = small_letters(text);
  trim(number);
  TypedLength out;
  double unit = 1;
  for (const LengthUnit& one : kUnits) {
    if (!ends_with(number, one.name)) continue;
    unit = one.mm;
    number.erase(number.size() - one.name.size());
    trim(number);
    break;
  }
  const bool other_minus = number.compare(0, kMinus.size(), kMinus) == 0;
  if (other_minus) number.replace(0, kMinus.size(), "-");
  const std::size_t comma = number.find(',');
  if (comma != std::string::npos) {
    if (number.find_first_of(",.", comma + 1) != std::string::npos) return std::nullopt;
    if (number.find('.') < comma) return std::nullopt;
    number[comma] = '.';
  }
  const std::optional<double> value = number_in(number);
  if (!value) return std::nullopt;
  out.mm = rounded(*value * unit);
  out.converted = unit != 1 || comma != std::string::npos || other_minus;
  return out;
}

}  // namespace leeway
