#pragma once
// What each request is answered by. All throw Refused, and what the library throws.

#include "leeway/fit.h"
#include "web/request.h"
#include "web/session.h"

namespace leeway {

// {"do": ..., "ok": true} is added by the session.
Json answer_examples(Session& session, WebRequest& asked);
Json answer_read(Session& session, WebRequest& asked);
Json answer_form(Session& session, WebRequest& asked);
Json answer_length(Session& session, WebRequest& asked);
Json answer_change(Session& session, WebRequest& asked);
Json answer_save(Session& session, WebRequest& asked);

Json answer_frame(Session& session, WebRequest& asked);
Json answer_head(Session& session, WebRequest& asked);
Json answer_style(Session& session, WebRequest& asked);

Json answer_check(Session& session, WebRequest& asked);
Json answer_fit(Session& session, WebRequest& asked);
Json answer_explain(Session& session, WebRequest& asked);
Json answer_numbers(Session& session, WebRequest& asked);
Json answer_bracket(Session& session, WebRequest& asked);
Json answer_differs(Session& session, WebRequest& asked);
Json answer_window(Session& session, WebRequest& asked);
Json answer_measure(Session& session, WebRequest& asked);
Json answer_report(Session& session, WebRequest& asked);
Json answer_draw(Session& session, WebRequest& asked);
Json answer_true_size(Session& session, WebRequest& asked);
Json answer_fill(Session& session, WebRequest& asked);
Json answer_fill_names(Session& session, WebRequest& asked);

// The numbers that someone enters: [{"what", "frame", and "value" or "left", "right", "front",
// "back"}], as the command prints them. What rounding would spoil is left out.
Json numbers_of(const FitResult& result);

// "probe" or "nozzle" of the member "frame"; the probe where it is left out.
Frame frame_asked(WebRequest& asked);

// A setup that needs no other file. Throws Refused.
Setup whole_setup(const std::string& text, const std::string& name);

// Changes by JSON Pointer, into the current setup.
void apply_changes(Session& session, const Json& changes);

}  // namespace leeway
