#include "formats/typed/typed_fit.h"

#include <fmt/format.h>

#include <cmath>

#include "formats/text/numbers.h"

namespace leeway {
namespace {

// Reads one field after another until one will not do.
class FitReader {
 public:
  explicit FitReader(const TypedFit& typed) {
    FitOptions& options = out_.options;
    length("step", typed.step, options.step);
    count("columns", typed.columns, options.columns);
    count("rows", typed.rows, options.rows);
    spacing(typed.spacing);
    within(typed.within);
    if (const auto sides = sides_of("sides", typed.sides)) {
      options.sides = {sides->left, sides->right, sides->front, sides->back};
    }
    length("home-leeway", typed.home_leeway, options.home_leeway);
    length("keep", typed.keep, options.keep);
    options.uniform = typed.uniform;
    options.inside = typed.inside;
  }

  ReadFit result() && { return std::move(out_); }

 private:
  void refuse(const char* field, const std::string& found, const char* allowed) {
    out_.fault =
        TypedFault{TypedFault::Kind::takes, field,
                   fmt::format("takes {}, not \"{}\"{}", allowed, found, number_hint(found))};
  }

  bool is_left_out(const std::string& typed) const { return out_.fault || typed.empty(); }

  void length(const char* field, const std::string& typed, double& into) {
    if (is_left_out(typed)) return;
    const std::optional<double> value = typed_number(typed);
    if (!value) return refuse(field, typed, "a number of mm");
    into = *value;
  }

  void spacing(const std::string& typed) {
    if (is_left_out(typed)) return;
    double value = 0;
    length("spacing", typed, value);
    if (!out_.fault) out_.options.spacing = value;
  }

  void count(const char* field, const std::string& typed, std::optional<int>& into) {
    if (is_left_out(typed)) return;
    const std::optional<double> value = number_in(typed);
    if (!value || *value != std::floor(*value) || *value < 2 || *value > 1e7) {
      return refuse(field, typed, "a whole number from 2 to 10000000");
    }
    into = static_cast<int>(*value);
  }

  std::optional<TypedSides> sides_of(const char* field, const std::string& typed) {
    if (is_left_out(typed)) return std::nullopt;
    ReadSides read = sides_in(field, typed);
    if (!read.fault) return read.sides;
    out_.fault = std::move(read.fault);
    return std::nullopt;
  }

  void within(const std::string& typed) {
    const auto sides = sides_of("within", typed);
    if (!sides) return;
    if (!sides->all()) {
      return refuse("within", typed, "all four sides: left=MM,right=MM,front=MM,back=MM");
    }
    out_.options.within = Box{*sides->left, *sides->right, *sides->front, *sides->back};
  }

  ReadFit out_;
};

}  // namespace

ReadFit typed_fit(const TypedFit& typed) { return FitReader(typed).result(); }

}  // namespace leeway
