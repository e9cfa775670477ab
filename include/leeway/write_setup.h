#pragma once
// A setup as the text of a file.

#include <string>

#include "leeway/setup.h"

namespace leeway {

// The setup with machine and probe written inline, tidy, keys in the order of profiles/README.md;
// what has its default is left out. read_setup gives the same setup again: numbers are written in
// as many digits as that takes. Several polygons in one shape become WKT. REQUIRES: a setup that
// `validate` finds no fault with.
std::string setup_json(const Setup& setup);

// The same for a person who goes on with it in an editor: with // comments that say what each key
// is and what is not stated yet.
std::string commented_setup(const Setup& setup);

}  // namespace leeway
