#include "formats/typed/typed_grids.h"

#include <fmt/format.h>

#include <cmath>

#include "formats/text/numbers.h"

namespace leeway {
namespace {

bool is_several(const std::string& typed) { return typed.find("..") != std::string::npos; }

TypedFault not_taken(const char* field, const std::string& found, const std::string& allowed) {
  return {TypedFault::Kind::takes, field,
          fmt::format("takes {}, not \"{}\"{}", allowed, found, number_hint(found))};
}

using CountChoices = std::vector<std::optional<int>>;

// One of nothing where none is given.
CountChoices counts_in(const char* field, const std::string& typed, std::optional<TypedFault>& fault) {
  if (typed.empty()) return {std::nullopt};
  std::optional<TypedRange> range = range_in(typed);
  if (const auto one = number_in(typed)) range = TypedRange{*one, *one};
  const auto is_count = [](double n) { return n == std::floor(n) && n >= 2 && n <= 1e7; };
  if (!range || !is_count(range->from) || !is_count(range->to) || range->to < range->from ||
      range->to - range->from >= static_cast<double>(kMostCompared)) {
    fault = not_taken(field, typed, "a whole number from 2 to 10000000, or a range such as 3..9");
    return {};
  }
  CountChoices out;
  for (double n = range->from; n <= range->to; ++n) out.emplace_back(static_cast<int>(n));
  return out;
}

ReadGrids spacings_in(const TypedFit& typed) {
  ReadGrids out;
  if (!typed.columns.empty() || !typed.rows.empty()) {
    out.fault = TypedFault{TypedFault::Kind::takes, "spacing",
                           "takes the place of \"--columns\" and \"--rows\""};
    return out;
  }
  const std::size_t slash = typed.spacing.find('/');
  const auto range = range_in(typed.spacing.substr(0, slash));
  const auto step = slash == std::string::npos ? std::optional<double>(1)
                                               : typed_number(typed.spacing.substr(slash + 1));
  const auto most = static_cast<double>(kMostCompared);
  if (!range || !step || range->from <= 0 || range->to < range->from || *step <= 0 ||
      (range->to - range->from) / *step >= most) {
    out.fault = not_taken("spacing", typed.spacing,
                          "a number of mm, or a range such as 20..50 or 20..50/5");
    return out;
  }
  const auto steps = static_cast<int>((range->to - range->from) / *step + 1e-9);
  for (int i = 0; i <= steps; ++i) {
    out.wanted.push_back({std::nullopt, std::nullopt, rounded(range->from + i * *step)});
  }
  return out;
}

}  // namespace

bool asks_for_several(const TypedFit& typed) {
  return is_several(typed.columns) || is_several(typed.rows) || is_several(typed.spacing);
}

ReadGrids typed_grids(const TypedFit& typed) {
  if (!typed.spacing.empty()) return spacings_in(typed);
  ReadGrids out;
  const CountChoices columns = counts_in("columns", typed.columns, out.fault);
  const CountChoices rows = counts_in("rows", typed.rows, out.fault);
  if (out.fault) return out;
  if (columns.size() * rows.size() > kMostCompared) {
    out.fault = not_taken("columns", typed.columns,
                          fmt::format("no more than {} grids to compare", kMostCompared));
    return out;
  }
  for (const auto& c : columns) {
    for (const auto& r : rows) out.wanted.push_back({c, r, std::nullopt});
  }
  return out;
}

}  // namespace leeway
