#pragma once
// How wide texts are in a picture, as no font is at hand.

#include <string>
#include <string_view>

namespace leeway {

// How wide a text may be in a sans-serif font of that size. By a table of advance widths that is
// generous for the fonts that readers have (common practice, no source).
double text_width(std::string_view text, double size);

// How much wider bold text may be.
inline constexpr double kBold = 1.15;

// How many bytes from the front are at most that wide; one character at least. REQUIRES: a text.
std::size_t fitting_length(std::string_view text, double size, double width);

// At most that wide, with "..." in the middle where something was cut.
std::string cut_to_width(std::string_view text, double size, double width);

}  // namespace leeway
