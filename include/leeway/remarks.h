#pragma once
// What a careful reader would ask about the numbers of a setup. Remarks are never errors and decide
// nothing: a machine may well be as it says.

#include <string>
#include <vector>

#include "leeway/check.h"
#include "leeway/setup.h"

namespace leeway {

enum class RemarkKind {
  probe_in_head,   // with this offset the probe sits in a part of its own head; `parts`
  no_offset,       // 0, 0, with a probe that has a body or a sensing area
  long_offset,     // longer than half the bed along x or y; value: that length
  small_bed,       // value: the bed's longer side
  large_bed,       // value: the bed's longer side
  travel_off_bed,  // the nozzle gets to less than half of the bed; value: the share it gets to
  uncertainty,     // a standard uncertainty too large to measure by; value: the largest
  down_unknown,    // not stowed while printing, and no body is stated
  scrapes,         // so too, and the body reaches below the nozzle; value: by how much
  many_left_out,   // outside_bed: skip leaves out more of the grid than a bed's shape explains;
                   // value: the share left out
};

struct Remark {
  RemarkKind kind = RemarkKind::no_offset;
  double value = 0;                // mm, or a share from 0 to 1
  std::vector<std::string> parts;  // as the user names them
};

// In the order of the kinds, each at most once. REQUIRES: a valid setup; the result of its check.
// Costs next to nothing.
std::vector<Remark> remarks(const Setup& setup, const CheckResult& checked);

// Whether the remark comes first in an answer: it may turn the whole of it.
bool comes_first(RemarkKind kind);

}  // namespace leeway
