#pragma once
// The result of `fit` in its three formats.

#include "leeway/fit.h"
#include "leeway/write_check.h"

namespace leeway {

void write_fit_text(const FitResult&, const Setup&, const Limits&, const TextSink&);
void write_fit_json(const FitResult&, const Setup&, const Limits&, const TextSink&);
void write_fit_markdown(const FitResult&, const Setup&, const Limits&, const TextSink&);

// The text of a setup file with the mesh of a fit as its request's grid; all else stays as it
// stands, comments included.
struct Rewritten {
  std::string text;
  bool comments_lost = false;  // some stood within the old grid
};

// `new_path` gives the paths of machine and probe profiles as they must be in the new file.
// REQUIRES: a text that read_setup finds no fault with.
Rewritten rewrite_setup(std::string_view text, const FitMesh& mesh,
                        const std::function<std::string(const std::string&)>& new_path);

}  // namespace leeway
