#pragma once
// What was typed into a field and will not do.

#include "formats/typed/typed_values.h"
#include "web/request.h"

namespace leeway {

// A sentence to stand at the field; of an obstacle or a part with its number in the list, and with
// the box: its name, left, right, front, back, height, clearance.
WebFault field_fault(const TypedFault& fault);

}  // namespace leeway
