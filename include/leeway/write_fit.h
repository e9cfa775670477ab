#pragma once
// The result of `fit` in its three formats.
//
// `setup` and `limits` are those that were fitted. Numbers to enter stand as FitNumbers has them:
// rounded inward already. Where nothing fits, the limit that stops it and the remedies stand in
// their place. JSON rounds to 1e-6; its keys are in profiles/README.md.

#include "leeway/fit.h"
#include "leeway/write_check.h"

namespace leeway {

void write_fit_text(const FitResult&, const Rig&, const TextSink&);
void write_fit_json(const FitResult&, const Rig&, const TextSink&);
void write_fit_markdown(const FitResult&, const Rig&, const TextSink&);

}  // namespace leeway
