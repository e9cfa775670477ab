#include "formats/typed/typed_shape.h"

#include <fmt/format.h>

#include "formats/text/wkt.h"
#include "formats/typed/typed_values.h"

namespace leeway {
namespace {

bool is_wkt(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string_view::npos) return false;
  const char c = text[first];
  return c == 'P' || c == 'p' || c == 'M' || c == 'm';
}

TypedShape wkt_shape(std::string_view text) {
  TypedShape out;
  out.placed = true;
  MultiPolygon polygons;
  if (const auto fault = parse_wkt(text, polygons)) {
    out.hint = fmt::format("; at character {}: found {}; allowed: {}", fault->character,
                           fault->found, fault->allowed);
  } else {
    out.shape = std::move(polygons);
  }
  return out;
}

Shape disc_of(double radius, const std::optional<Point>& at, TypedOrigin origin) {
  if (at) return Disc{*at, radius};
  return origin == TypedOrigin::corner ? Disc{{radius, radius}, radius} : Disc{{0, 0}, radius};
}

Shape box_of_size(double width, double depth, const std::optional<Point>& at, TypedOrigin origin) {
  if (at) return Box{at->x, at->x + width, at->y, at->y + depth};
  if (origin == TypedOrigin::centre) return Box{-width / 2, width / 2, -depth / 2, depth / 2};
  return Box{0, width, 0, depth};
}

// "x,y" behind an @.
std::optional<Point> place_in(std::string_view text) {
  const auto numbers = typed_numbers(text);
  if (!numbers || numbers->size() != 2) return std::nullopt;
  return Point{(*numbers)[0], (*numbers)[1]};
}

}  // namespace

TypedShape typed_shape(std::string_view text, TypedOrigin origin) {
  if (is_wkt(text)) return wkt_shape(text);
  TypedShape out;
  if (const auto bounds = ranges_in(text)) {
    out.placed = true;
    out.shape = Box{bounds->first.from, bounds->first.to, bounds->second.from, bounds->second.to};
    return out;
  }
  out.hint = range_hint(text);
  const std::size_t place = text.find('@');
  out.placed = place != std::string_view::npos;
  std::optional<Point> at;
  if (out.placed) {
    at = place_in(text.substr(place + 1));
    if (!at) return out;
    text = text.substr(0, place);
  }
  constexpr std::string_view kRound = "round:";
  if (text.substr(0, kRound.size()) == kRound) {
    const auto radius = typed_number(text.substr(kRound.size()));
    if (radius) out.shape = disc_of(*radius, at, origin);
  } else if (const auto size = typed_size(text)) {
    out.shape = box_of_size(size->first, size->second, at, origin);
  }
  return out;
}

}  // namespace leeway
