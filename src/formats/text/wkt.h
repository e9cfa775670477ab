#pragma once
// Well-known text of areas (OGC 06-103r4, clause 7): POLYGON and MULTIPOLYGON.

#include <optional>
#include <string>
#include <string_view>

#include "formats/text/numbers.h"
#include "leeway/geometry.h"

namespace leeway {

struct WktFault {
  std::size_t character = 0;  // from 1
  std::string found;
  std::string allowed;
};

// Reads a text into `polygons`, rings without their closing point. Words may be written in
// capitals or not. Refused, with a fault: other geometries, Z and M, EMPTY (it has no area), a
// ring that does not end where it begins, coordinates beyond kLargestLength (setup.h) either way.
// Whether the rings are simple is not looked at.
std::optional<WktFault> parse_wkt(std::string_view text, MultiPolygon& polygons);

using NumberText = std::string (*)(double);

// The same in words: POLYGON, MULTIPOLYGON, or POLYGON EMPTY. `number` writes each number:
// `shortest` rounds to 1e-6.
std::string wkt_text(const MultiPolygon& polygons, NumberText number = shortest);

}  // namespace leeway
