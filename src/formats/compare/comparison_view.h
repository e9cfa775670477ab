#pragma once
// What is said of compared grids, in every format.

#include <string>
#include <vector>

#include "formats/text/words.h"
#include "leeway/compare_grids.h"

namespace leeway {

std::string comparison_summary(const std::vector<ComparedGrid>& grids, const std::string& name);

const std::vector<std::string>& comparison_heads();
// Beside those heads; of a grid that does not fit, only which it is.
std::vector<std::string> comparison_cells(const ComparedGrid& grid);

// Why it does not fit: a sentence. REQUIRES: it doesn't.
std::string misfit_words(const ComparedGrid& grid, const Words& words);

// As the summary begins.
std::string compared_name(const Rig& rig, const Words& words);

}  // namespace leeway
