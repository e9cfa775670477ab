#pragma once
// The result of `fit` in its three formats.

#include "leeway/fit.h"
#include "leeway/write_check.h"

namespace leeway {

void write_fit_text(const FitResult&, const Setup&, const Limits&, const TextSink&);
void write_fit_json(const FitResult&, const Setup&, const Limits&, const TextSink&);
void write_fit_markdown(const FitResult&, const Setup&, const Limits&, const TextSink&);

}  // namespace leeway
