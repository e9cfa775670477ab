#include "formats/drawing/text_width.h"

#include "formats/text/names.h"
#include "formats/text/utf8.h"

namespace leeway {
namespace {

// Advance widths, in parts of the font's size.
double advance(std::string_view character) {
  constexpr std::string_view kNarrow = "iljI.,:;'|!";
  constexpr std::string_view kSlim = " ftr()[]{}-/\\\"`*";
  constexpr std::string_view kBroad = "mwMW@%";
  if (character.size() > 1) {
    const std::size_t columns = columns_of(character);
    if (character.size() == 4) return 1.4;
    return columns == 0 ? 0.2 : columns == 2 ? 1.05 : 0.9;
  }
  const char c = character.front();
  if (kNarrow.find(c) != std::string_view::npos) return c == 'I' ? 0.42 : 0.37;
  if (kSlim.find(c) != std::string_view::npos) return c == '*' ? 0.64 : 0.46;
  if (kBroad.find(c) != std::string_view::npos) return 1.08;
  const bool small = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
  return small ? 0.64 : 0.82;
}

std::string_view character_at(std::string_view text, std::size_t at) {
  const std::size_t length = utf8_length(text, at);
  return text.substr(at, length == 0 ? 1 : length);
}

}  // namespace

double text_width(std::string_view text, double size) {
  double width = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::string_view character = character_at(text, at);
    width += advance(character);
    at += character.size();
  }
  return width * size;
}

std::size_t fitting_length(std::string_view text, double size, double width) {
  std::size_t at = 0;
  for (double seen = 0; at < text.size();) {
    const std::string_view character = character_at(text, at);
    seen += advance(character) * size;
    if (at > 0 && seen > width) break;
    at += character.size();
  }
  return at;
}

// As much from the front as from the end.
std::string cut_to_width(std::string_view text, double size, double width) {
  const double all = text_width(text, size);
  if (all <= width) return std::string(text);
  constexpr std::string_view kMore = "...";
  const double half = (width - text_width(kMore, size)) / 2;
  std::size_t head = 0;
  std::size_t tail = text.size();
  double seen = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::string_view character = character_at(text, at);
    seen += advance(character) * size;
    at += character.size();
    if (seen <= half) head = at;
    if (tail == text.size() && all - seen <= half) tail = at;
  }
  return std::string(text.substr(0, head)).append(kMore).append(text.substr(tail));
}

}  // namespace leeway
