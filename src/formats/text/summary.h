#pragma once
// One sentence that a person can act on.

#include <string>

#include "formats/text/words.h"

namespace leeway {

// "21 of 27 points reachable, 1 marginal, 5 unreachable: the probe cannot get to column 5 (travel
// right), 12.5 mm short at worst". What the setup is called comes before it, by the caller.
std::string summary(const CheckResult& result, const Setup& setup, const Words& words);

// What to call the setup: its own name, or "This setup".
std::string setup_name(const CheckResult& result, const Words& words);

}  // namespace leeway
