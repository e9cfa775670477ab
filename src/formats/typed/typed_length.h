#pragma once
// A length that someone typed into a box of its own: a unit, a decimal comma, any minus sign.

#include <optional>
#include <string_view>

namespace leeway {

struct TypedLength {
  double mm = 0;           // to 1e-6
  bool converted = false;  // it is not as typed: to be told
};

// "38.1", "-38,5", "12 mm", "1.2 cm", "1.5 in"; also inch, inches and the double prime. Nothing for
// anything else. A comma is a decimal comma where it is the only one and there is no point.
std::optional<TypedLength> typed_length(std::string_view text);

}  // namespace leeway
