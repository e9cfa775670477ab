#pragma once
// `fill`: a user's own text with the results filled in (Mustache).

#include <string>
#include <string_view>
#include <vector>

#include "leeway/check.h"
#include "leeway/fault.h"
#include "leeway/fit.h"
#include "leeway/numbers_to_enter.h"
#include "leeway/read_setup.h"

namespace leeway {

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

// What a template is filled from: all of one setup.
struct FillFacts {
  const Rig& rig;
  const CheckResult& checked;  // of its request
  const NumbersToEnter& numbers;
  const FitResult* fitted = nullptr;     // null where no fit was made
  const std::string* program = nullptr;  // that of a walk; null where there is none
};

// Fills a template. Numbers are rounded to NumbersToEnter::decimals: bounds, margins and spacings
// inward, leeways down, guards up; what would not be safe after rounding has no value. No HTML is
// escaped; partials and other ways out of the text are refused. Faults: what is no Mustache, a name
// that is not known or that needs a fit, a value that is used but not there.
Filled fill_template(const SourceFile& source, const FillFacts& facts);

// What speaks against entering the numbers, in words without capital and full stop. REQUIRES: they
// are not safe (NumbersToEnter::safe).
std::string why_not_filled(const FillFacts& facts);

}  // namespace leeway
