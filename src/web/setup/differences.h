#pragma once
// What differs between two setups.

#include "leeway/setup.h"
#include "web/request.h"

namespace leeway {

// What makes `to` of `from`: by JSON Pointer, null where it is gone. Arrays are whole.
Json changes_between(const Setup& from, const Setup& to);

}  // namespace leeway
