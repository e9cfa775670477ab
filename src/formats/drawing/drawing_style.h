#pragma once
// Colours of drawings, in a light and a dark scheme, and the contrast between them.
//
// Marks take theirs from Okabe and Ito, Color Universal Design (2008), which people with any of the
// usual colour vision tell apart; shape and fill say the same.

#include <string>
#include <string_view>
#include <vector>

namespace leeway {

// Sizes that drawings share, in units of the picture.
inline constexpr double kPictureEdge = 14;  // kept free all round
inline constexpr double kFontSize = 12;     // as the styles have it
inline constexpr double kLineHeight = 16;

// "#0072B2".
using Hex = const char*;

// By WCAG 2.2: (L1 + 0.05) / (L2 + 0.05) of the relative luminances, 1 to 21.
double contrast(std::string_view hex_a, std::string_view hex_b);

struct Palette {
  // What things lie on.
  Hex paper;  // beside the bed
  Hex bed;    // where nothing can be printed
  Hex printable;
  Hex sure;   // where every limit leaves its guard
  Hex thing;  // obstacles
  // Text and lines.
  Hex ink;
  Hex faint;  // ink of less weight: axes, the travel
  // Marks.
  Hex reachable;
  Hex marginal;
  Hex unreachable;
  Hex mesh;  // the mesh, the offset
  Hex edge;  // of what can be reached
};
extern const Palette kLight;
extern const Palette kDark;

// Pairs of a palette that must stand out from each other.
struct ColourPair {
  std::string name;  // "ink on sure"
  Hex front;
  Hex back;
  double least;  // contrast: 4.5 for text, 3 for graphics (WCAG 2.2, 1.4.3 and 1.4.11)
};
std::vector<ColourPair> colour_pairs(const Palette& palette);

// The styles of all drawings. Every rule begins with `scope`, such as ".leeway-plan". Dark applies
// where the reader prefers it, on screens only.
std::string drawing_css(std::string_view scope);

}  // namespace leeway
