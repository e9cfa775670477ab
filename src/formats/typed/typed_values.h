#pragma once
// Ranges and sides as people type them, in options and in forms: 20..210, and left=12,back=200.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "leeway/validate.h"

namespace leeway {

// A number, with blanks around it and a unit behind it if one likes: "210", " 12", "0.5 mm".
std::optional<double> typed_number(std::string_view text);

// Numbers with separators between: "-38.5, 12". Nothing when one is none.
std::optional<std::vector<double>> typed_numbers(std::string_view text);

// "233x207", "230 x 210", "230X210mm"; nothing for anything else.
std::optional<std::pair<double, double>> typed_size(std::string_view text);

// What may have been meant where numbers could not be read: "; a decimal comma? write -30.5", "; a
// dash that is not the minus sign", or empty.
std::string number_hint(std::string_view text);

struct TypedRange {
  double from = 0;
  double to = 0;
};

// The parts between separators; at least one.
std::vector<std::string_view> split_typed(std::string_view text, char separator);

// "20..210"; nothing for anything else.
std::optional<TypedRange> range_in(std::string_view text);

// "20..210,20..190": those of x and of y; nothing for anything else.
std::optional<std::pair<TypedRange, TypedRange>> ranges_in(std::string_view text);

struct TypedSides {
  std::optional<double> left, right, front, back;

  bool all() const { return left && right && front && back; }
};

// What was typed will not do. `says` follows the name of the option or field: "takes a number of
// mm, not "x"".
struct TypedFault {
  enum class Kind {
    missing,  // says: what it looks like, "233x207"
    alone,    // says: the field that it goes with
    either,   // says: the field that may stand in its place; both are there, or none
    takes,    // says: "takes ..., not ..."
    side,     // says: "knows no side ...", "gives left twice"
    value,    // says: "found -1; allowed: ..."
  };
  Kind kind = Kind::takes;
  std::string field;  // "margins-from"
  std::string says;
  std::optional<SetupPlace> place = {};  // of a value
};

struct ReadSides {
  TypedSides sides;
  std::optional<TypedFault> fault;  // then the sides are of no use
};

// "left=12,back=200".
ReadSides sides_in(const char* field, std::string_view text);

// What was meant by a form that other programs use: "20..210,20..190" for "20:210,20:190",
// "left=1,right=2,front=3,back=4" for "1,2,3,4"; as "; did you mean ...?", or empty.
std::string range_hint(std::string_view text);
std::string sides_hint(std::string_view text);

}  // namespace leeway
