#include "formats/text/numbers.h"

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <cmath>
#include <cstdint>
#include <cstdlib>

#include "geometry/plane/assert.h"

namespace leeway {
namespace {

constexpr double kMicro = 1e6;
// Up to here a value times 1e6 is a whole number that a double holds exactly.
constexpr double kLargestRounded = 1e9;

// `units` of 10^-decimals as a decimal number without trailing zeros.
std::string fixed_point(std::int64_t units, int decimals) {
  while (decimals > 0 && units % 10 == 0) {
    units /= 10;
    --decimals;
  }
  const fmt::format_int digits(std::abs(units));
  std::string out(units < 0 ? "-" : "");
  const std::size_t wanted = static_cast<std::size_t>(decimals) + 1;
  if (digits.size() < wanted) out.append(wanted - digits.size(), '0');
  out.append(digits.data(), digits.size());
  if (decimals > 0) out.insert(out.size() - static_cast<std::size_t>(decimals), 1, '.');
  return out;
}

std::int64_t micro_units(double value) { return std::llround(value * kMicro); }

}  // namespace

double rounded(double value) {
  if (!(std::abs(value) < kLargestRounded)) return value;
  return static_cast<double>(micro_units(value)) / kMicro;
}

std::string shortest(double value) {
  LEEWAY_ASSERT(std::isfinite(value));
  if (!(std::abs(value) < kLargestRounded)) return fmt::format("{}", value);
  return fixed_point(micro_units(value), 6);
}

std::string decimal(double value, bool fine) {
  if (!(std::abs(value) < kLargestRounded)) return fmt::format("{:.9g}", value);
  if (fine) return shortest(value);
  return fixed_point(std::llround(value * 1e3), 3);
}

std::string at_least(double value) {
  LEEWAY_ASSERT(value >= 0);
  if (!(value < kLargestRounded)) return fmt::format("{:.9g}", value);
  const std::int64_t micro = micro_units(value);
  if (micro < 10'000 && micro % 1000 != 0) return fixed_point(micro, 6);
  return fixed_point((micro + 999) / 1000, 3);
}

std::string at_most(double value) {
  LEEWAY_ASSERT(value >= 0);
  if (!(value < kLargestRounded)) return fmt::format("{:.9g}", value);
  const std::int64_t micro = micro_units(value);
  return micro < 1000 ? fixed_point(micro, 6) : fixed_point(micro / 1000, 3);
}

std::string signed_amount(double leeway) {
  if (std::isinf(leeway)) return leeway < 0 ? "none" : "unlimited";
  return leeway < 0 ? "-" + at_least(-leeway) : at_most(leeway);
}

std::string percent(double fraction) {
  // The fraction is a quotient of areas: what is left of rounding must not cost a whole step.
  const double tenths = std::floor(fraction * 1000 + 1e-9);
  return fixed_point(static_cast<std::int64_t>(tenths), 1);
}

std::optional<double> number_in(std::string_view text) {
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double value = 0;
  const auto [end, error] = fast_float::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  if (!std::isfinite(value)) return std::nullopt;
  return value;
}

std::string counted(std::size_t count, std::string_view what) {
  return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::string pair(Point p) { return decimal(p.x) + ", " + decimal(p.y); }

std::string exact_pair(Point p) { return decimal(p.x, true) + ", " + decimal(p.y, true); }

}  // namespace leeway
