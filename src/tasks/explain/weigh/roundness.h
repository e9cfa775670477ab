#pragma once
// People write round numbers. All of it is common practice, no source.

namespace leeway {

// The logarithm of how often such a number is written, as many times as if all hundredths were
// written alike; per millimetre, so that densities can be multiplied by it.
double log_roundness(double value);

// The same of a number that is measured rather than chosen.
double log_measured_roundness(double value);

}  // namespace leeway
