#pragma once
// Faults of a setup in words.

#include <string>
#include <string_view>

#include "leeway/fault.h"
#include "leeway/validate.h"

namespace leeway {

// What may stand where a number of the range is wanted.
std::string_view words(NumberRange range);

// What a name is, in the words of faults.
inline constexpr std::string_view kNameWords = "a name, as a text that is not blank";

// Code, what was found and what is allowed; without a place.
Fault in_words(const SetupFault& fault);

}  // namespace leeway
