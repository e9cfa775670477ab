#pragma once
// The shipped setups that the benchmarks work on.

#include <string>

#include "leeway/setup.h"

namespace leeway::bench {

// The setup examples/NAME.json. Throws std::runtime_error with the faults when it does not read.
Setup example(const std::string& name);

}  // namespace leeway::bench
