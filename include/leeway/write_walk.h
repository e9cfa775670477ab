#pragma once
// A walk as a program that moves, in the words of RS-274 (NISTIR 6556), and as a page to tick off.

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "leeway/walk.h"
#include "leeway/write_check.h"

namespace leeway {

// At each stop: nothing, a dwell (G4), or a stop until someone goes on (M0).
struct WalkPause {
  enum class Kind { none, dwell, stop };
  Kind kind = Kind::dwell;
  double seconds = 3;  // of a dwell
};

struct WalkProgramOptions {
  double feed = 20;  // mm/s, at most; the way up is no faster than 5 mm/s
  WalkPause pause;
  bool line_numbers = false;
  bool end = true;  // with M2; a text round the program has its own end
  // What the program may hold, of walk_words(); nothing: all of them. What is left out of it must
  // be the controller's own state, and a pause that needs it is left out too.
  std::optional<std::set<std::string, std::less<>>> words;
};

// "G1", "X", ..., "comments": all that a program may hold, and those that it must.
const std::vector<std::string_view>& walk_words();
const std::vector<std::string_view>& walk_words_needed();

// Whether a program with these options may hold a word, and whether it pauses at all.
bool may_hold(const WalkProgramOptions& options, std::string_view word);
bool pauses(const WalkProgramOptions& options);

// Motion only: G1 with X, Y, Z and F, in millimetres and absolute. It heats nothing, probes nothing
// and homes nothing. The first move goes to the height of the walk; all others stay there.
// REQUIRES: there are stops; the words hold those needed.
void write_walk_program(const WalkResult&, const Rig&, const WalkProgramOptions&, const TextSink&);

// The same stops in the same order, with what to look for at each, and the cautions.
void write_walk_checklist(const WalkResult&, const Rig&, const WalkProgramOptions&,
                          const TextSink&);

}  // namespace leeway
