#pragma once
// The picture of a bracket's map, as a file or within a page.

#include <string>

#include "leeway/write_bracket.h"

namespace leeway {

struct MapEmbed {
  double width = 800;      // units of the picture
  bool standalone = true;  // else without title, summary, caution and styles
};

// REQUIRES: a map.
void write_bracket_map(const BracketReport& report, const MapEmbed& embed, const TextSink& sink);

// The styles of an embedded one.
std::string bracket_map_css();

}  // namespace leeway
