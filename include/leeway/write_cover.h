#pragma once
// The result of `cover` as text, JSON and Markdown.

#include "leeway/cover.h"
#include "leeway/read_motion.h"
#include "leeway/write_check.h"

namespace leeway {

struct WriteCoverOptions {
  // Of a program; nothing where an area was asked about.
  const MotionSummary* program = nullptr;
  bool relative_extrusion = false;
  std::string setup =
      {};  // how it is named on the command line; empty where it was given otherwise
};

// Whether all of it is known to be inside.
bool known_inside(const CoverResult& result, const MotionSummary* program);

void write_cover_text(const CoverResult&, const Rig&, const WriteCoverOptions&, const TextSink&);
void write_cover_json(const CoverResult&, const Rig&, const WriteCoverOptions&, const TextSink&);
void write_cover_markdown(const CoverResult&, const Rig&, const WriteCoverOptions&,
                          const TextSink&);

}  // namespace leeway
