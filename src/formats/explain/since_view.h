#pragma once
// What was changed in a setup, and what that did.

#include <string>

#include "formats/compare/setup_differences.h"
#include "leeway/explain.h"

namespace leeway {

// Each a sentence or more, with capital and full stop; empty where no setup from before is given.
std::string changed_sentence(const ExplainResult& result, const Setup& setup);
std::string did_sentence(const ExplainResult& result);

}  // namespace leeway
