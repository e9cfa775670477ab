#pragma once
// What each request is answered by. All throw Refused, and what the library throws.

#include "web/request.h"
#include "web/session.h"

namespace leeway {

// {"do": ..., "ok": true} is added by the session.
Json answer_examples(Session& session, Asked& asked);
Json answer_read(Session& session, Asked& asked);
Json answer_form(Session& session, Asked& asked);
Json answer_change(Session& session, Asked& asked);
Json answer_save(Session& session, Asked& asked);

Json answer_frame(Session& session, Asked& asked);
Json answer_head(Session& session, Asked& asked);

// Changes by JSON Pointer, into the current setup.
void apply_changes(Session& session, const Json& changes);

}  // namespace leeway
