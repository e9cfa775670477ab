#include "formats/bracket/bracket_map.h"
#include "leeway/write_bracket.h"

namespace leeway {

void write_bracket_svg(const BracketReport& report, const TextSink& sink) {
  write_bracket_map(report, {}, sink);
}

}  // namespace leeway
