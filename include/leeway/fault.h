#pragma once
// What is wrong with an input, said so that a person can mend it.

#include <string>
#include <vector>

#include "leeway/validate.h"

namespace leeway {

// One fault of one file. Any text may be empty except `file` and `found`.
struct Fault {
  std::string code;       // stable, for programs: "unknown-key", "not-json", ...
  std::string file;       // as the user named it, or as reached from there
  std::string pointer;    // RFC 6901; "" is the whole document
  int line = 0;           // from 1; 0 where there is none
  int column = 0;         // from 1, in characters
  std::string found;      // what stands there, and why it will not do
  std::string allowed;    // what may stand there
  std::string nearest;    // nearest correct spelling
  std::string hint = {};  // what may have been meant, in words
};

// "file:line:column: /pointer: found ...; allowed: ...; did you mean ...?; HINT" on one line, with
// control characters made harmless.
std::string message(const Fault& fault);

// The same without file, place and pointer: "found ...; allowed: ...; did you mean ...?".
std::string sentence(const Fault& fault);

// "probe.offset.x: found ...; allowed: ..." of a setup that was built in code.
std::string message(const SetupFault& fault);

}  // namespace leeway
