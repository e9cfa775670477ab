#pragma once
// What `fit` shall look for, as someone typed it.

#include <optional>
#include <string>

#include "formats/typed/typed_values.h"
#include "leeway/fit.h"

namespace leeway {

// As typed; empty where not given.
struct TypedFit {
  std::string step, columns, rows, spacing, within, sides, home_leeway, keep;
  bool uniform = false;
  bool inside = false;

  // Whether any was given.
  bool any() const {
    return uniform || inside ||
           !(step + columns + rows + spacing + within + sides + home_leeway + keep).empty();
  }
};

struct ReadFit {
  FitOptions options;
  std::optional<TypedFault> fault;  // the first; then the options are of no use
};
ReadFit typed_fit(const TypedFit& typed);

}  // namespace leeway
