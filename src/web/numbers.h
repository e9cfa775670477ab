#pragma once
// The numbers that someone enters, each to be copied by itself.

#include "leeway/fit.h"
#include "web/request.h"

namespace leeway {

// [{"what", "frame", and "value" or "left", "right", "front", "back"}], as the command prints them.
// What rounding would spoil is left out.
Json numbers_of(const FitResult& result);

}  // namespace leeway
