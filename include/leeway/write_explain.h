#pragma once
// The result of `explain` in its formats.
//
// `setup` and `limits` are those that were explained. A mistake is worded as a guess, with what to
// look at to tell. JSON has each change by its JSON Pointer (RFC 6901) in the setup.

#include "leeway/explain.h"
#include "leeway/write_check.h"

namespace leeway {

void write_explain_text(const ExplainResult&, const Rig&, const TextSink&);
void write_explain_json(const ExplainResult&, const Rig&, const TextSink&);
// To paste into a reply: complete in itself.
void write_explain_markdown(const ExplainResult&, const Rig&, const TextSink&);
// For a chat: one line.
void write_explain_line(const ExplainResult&, const Rig&, const TextSink&);

}  // namespace leeway
