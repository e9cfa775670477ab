#pragma once
// What was typed into a field and will not do.

#include "formats/typed/typed_values.h"
#include "web/request.h"

namespace leeway {

// A sentence to stand at the field.
WebFault field_fault(const TypedFault& fault);

}  // namespace leeway
