#pragma once
// `fill`: a user's own text with the results filled in (Mustache).

#include <string>
#include <string_view>
#include <vector>

#include "leeway/check.h"
#include "leeway/fault.h"
#include "leeway/fit.h"
#include "leeway/read_setup.h"

namespace leeway {

inline constexpr int kMostDecimals = 3;

struct Filled {
  std::string text;           // empty when there are faults
  std::vector<Fault> faults;  // in the order of the template's lines
};

// A name that a template may use, and what it stands for.
struct FillName {
  enum class Kind { value, choice, list };
  Kind kind =
      Kind::value;     // {{value}}, {{#choice}}..{{/choice}}, {{#list}} once for each {{/list}}
  std::string name;    // "fit.grid.x0"
  std::string within;  // the list whose items have it; "" for everywhere
  std::string meaning;
};

// All of them, in the order of the README's table.
std::vector<FillName> fill_names();

// Fills a template from the results of `check` and `fit` for the same setup. Numbers are rounded to
// `decimals`: bounds and margins inward, leeways down, guards up; what would not be safe after
// rounding has no value. No HTML is escaped; partials and other ways out of the text are refused.
// Faults: what is no Mustache, a name that is not known, a value that is used but not there.
// REQUIRES: `fitted` was made with FitOptions::decimals == decimals.
Filled fill_template(const SourceFile& source, const Rig& rig, const CheckResult& checked,
                     const FitResult& fitted, int decimals);

}  // namespace leeway
