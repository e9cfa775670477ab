#pragma once
// The result of `check` in its four formats. All write to a sink, piece by piece, so that a
// million points need no text of a million lines in memory.

#include <functional>
#include <string>
#include <string_view>

#include "leeway/check.h"
#include "leeway/rig.h"

namespace leeway {

// Takes a result piece by piece, in order. What it throws passes through the writer.
using TextSink = std::function<void(std::string_view)>;

struct WriteOptions {
  bool all_limits = false;  // every limit of every point (text, Markdown: of every point shown)
  bool color = false;       // text only; never the only sign
  bool in_full = false;     // text only: every failing point with positions, and whole sentences
  // Text only: how the setup is named on the command line, for the commands that come next. Empty
  // where it was given otherwise.
  std::string setup = {};
};

// What of the regions a format tells: json all of them, text and markdown where one is empty, csv
// nothing; without points they decide whether all is well.
RegionsWanted regions_told(std::string_view format, const Request& request);

// `setup` and `limits` are those of the check. Text and Markdown are for people. JSON and CSV are
// for programs: numbers rounded to 1e-6, minus infinity as null in JSON, keys as in
// profiles/README.md. Writers compute nothing: what is written is what was checked.
void write_check_text(const CheckResult&, const Rig&, const WriteOptions&, const TextSink&);
void write_check_json(const CheckResult&, const Rig&, const WriteOptions&, const TextSink&);
void write_check_csv(const CheckResult&, const Rig&, const WriteOptions&, const TextSink&);
void write_check_markdown(const CheckResult&, const Rig&, const WriteOptions&, const TextSink&);

}  // namespace leeway
