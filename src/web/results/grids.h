#pragma once
// Several grids side by side.

#include "formats/typed/typed_fit.h"
#include "web/request.h"
#include "web/session.h"

namespace leeway {

// The answer to `fit` where columns, rows or the spacing are ranges. Throws as the other answers.
Json answer_grids(Session& session, WebRequest& asked, const TypedFit& typed);

}  // namespace leeway
