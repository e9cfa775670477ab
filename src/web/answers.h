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
Json answer_style(Session& session, Asked& asked);

Json answer_check(Session& session, Asked& asked);
Json answer_fit(Session& session, Asked& asked);
Json answer_explain(Session& session, Asked& asked);
Json answer_bracket(Session& session, Asked& asked);
Json answer_window(Session& session, Asked& asked);
Json answer_measure(Session& session, Asked& asked);
Json answer_report(Session& session, Asked& asked);
Json answer_draw(Session& session, Asked& asked);
Json answer_true_size(Session& session, Asked& asked);
Json answer_fill(Session& session, Asked& asked);
Json answer_fill_names(Session& session, Asked& asked);

// "probe" or "nozzle" of the member "frame"; the probe where it is left out.
Frame frame_asked(Asked& asked);

// Changes by JSON Pointer, into the current setup.
void apply_changes(Session& session, const Json& changes);

}  // namespace leeway
