#pragma once
// What `compare_grids` found, in the formats of `fit`.

#include <vector>

#include "leeway/compare_grids.h"
#include "leeway/write_check.h"

namespace leeway {

// `text` and Markdown are tables for people, JSON an array for programs, all in the order given.
// Lengths are in mm; spacings and leeways are rounded down, heights up. `rig` is the one that was
// compared.
void write_comparison_text(const std::vector<ComparedGrid>&, const Rig& rig, const TextSink&);
void write_comparison_json(const std::vector<ComparedGrid>&, const Rig& rig, const TextSink&);
void write_comparison_markdown(const std::vector<ComparedGrid>&, const Rig& rig, const TextSink&);

}  // namespace leeway
