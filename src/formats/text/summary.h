#pragma once
// One sentence that a person can act on.

#include <string>

#include "formats/text/words.h"
#include "leeway/remarks.h"

namespace leeway {

// "21 of 27 points reachable, 1 marginal, 5 unreachable: the probe cannot get to column 5 (travel
// right), 12.5 mm short at worst". What the setup is called comes before it, by the caller.
std::string summary(const CheckResult& result, const Setup& setup, const Words& words);

// What to call the setup: its own name, or "This setup".
std::string setup_name(const CheckResult& result, const Words& words);

// The key in JSON, such as "long_offset".
const char* key(RemarkKind kind);

// A sentence with capital and full stop, such as "The offset is longer than half the bed: is 160 in
// mm, and is it the offset?"
std::string sentence(const Remark& remark, NameStyle style);
// "the nozzle and \"fan duct\"": what the probe overlaps.
std::string overlapped_words(const std::vector<std::string>& parts, NameStyle style);

// Those sentences but for what comes before the headline.
std::vector<std::string> remark_sentences(const Setup& setup, const CheckResult& checked,
                                          NameStyle style);

// Those that come before the headline; else empty.
std::string first_remark(const Setup& setup, const CheckResult& checked, NameStyle style);

}  // namespace leeway
