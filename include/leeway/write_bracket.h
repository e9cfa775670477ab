#pragma once
// The result of `bracket` in its formats.

#include <optional>
#include <span>
#include <vector>

#include "leeway/bracket.h"
#include "leeway/candidates.h"
#include "leeway/coverage_map.h"
#include "leeway/write_check.h"

namespace leeway {

// Everything that was asked for.
struct BracketReport {
  std::span<const Setup> setups;
  std::optional<BracketResult> window;      // nothing where no point is asked for
  std::optional<CoverageMap> map;           // of several setups the least share at each offset
  std::vector<RankedCandidate> candidates;  // best first
};

// Text and Markdown are for people, JSON for programs (keys in profiles/README.md). Offsets are
// from nozzle to probe, in mm. What the report does not hold is left out.
void write_bracket_text(const BracketReport&, const TextSink&);
void write_bracket_json(const BracketReport&, const TextSink&);
void write_bracket_markdown(const BracketReport&, const TextSink&);
// A picture of the map with the window, the mounts' envelopes, the heads' outlines and the offsets
// on it. REQUIRES: a map.
void write_bracket_svg(const BracketReport&, const TextSink&);
// The map, an offset a line, or else the candidates. REQUIRES: one of the two.
void write_bracket_csv(const BracketReport&, const TextSink&);

}  // namespace leeway
