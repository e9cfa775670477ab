#include "formats/motion/motion_line.h"

#include <fast_float/fast_float.h>

#include <cmath>
#include <cstring>

namespace leeway {
namespace {

constexpr bool is_blank_in_line(char c) { return c == ' ' || c == '\t' || c == '\r'; }
constexpr bool is_digit_in_line(char c) { return c >= '0' && c <= '9'; }
constexpr char capital(char c) {
  return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
}

// Up to this many digits are a whole number that a double holds, and so is the power of ten: their
// quotient is the nearest double (Clinger, How to read floating point numbers accurately, 1990).
constexpr int kExactDigits = 15;
constexpr double kPowers[] = {1,   1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                              1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};

// Sign, digits, at most one point, at least one digit (section 3.3.2.1): no exponent. Returns where
// it ends, or nothing where there is no number.
const char* read_motion_number(const char* at, const char* end, double& value) {
  const char* const from = at;
  const bool negative = at != end && *at == '-';
  if (at != end && (*at == '-' || *at == '+')) ++at;
  const char* const digits_from = at;
  std::int64_t digits = 0;
  while (at != end && is_digit_in_line(*at)) {
    if (at - digits_from <= kExactDigits) digits = digits * 10 + (*at - '0');
    ++at;
  }
  std::ptrdiff_t count = at - digits_from;
  std::ptrdiff_t behind = 0;
  if (at != end && *at == '.') {
    const char* const point = at++;
    while (at != end && is_digit_in_line(*at)) {
      if (count + (at - point) <= kExactDigits) digits = digits * 10 + (*at - '0');
      ++at;
    }
    behind = at - point - 1;
    count += behind;
  }
  if (count == 0) return nullptr;
  if (count <= kExactDigits) {
    value = static_cast<double>(digits) / kPowers[behind];
    if (negative) value = -value;
    return at;
  }
  const char* const first = *from == '+' ? from + 1 : from;
  const auto read = fast_float::from_chars(first, at, value, fast_float::chars_format::fixed);
  return read.ec == std::errc() && std::isfinite(value) ? at : nullptr;
}

class LineScan {
 public:
  LineScan(std::string_view text, MotionLine& line)
      : at_(text.data()), end_(text.data() + text.size()), line_(line) {}

  // False where a number has blanks inside it, which are to be taken out first.
  bool read() {
    if (at_ != end_ && *at_ == '/') ++at_;  // block delete: taken as it stands
    while (at_ != end_) {
      const char c = *at_;
      if (is_blank_in_line(c)) {
        ++at_;
      } else if (c == '(') {
        if (!comment()) return true;
      } else if (c == ';' || done_) {
        return true;
      } else if (!word(capital(c))) {
        return blanks_ ? false : true;
      }
    }
    return true;
  }

 private:
  bool fault(std::string what) {
    line_.fault = std::move(what);
    return false;
  }

  bool comment() {
    const auto* close = static_cast<const char*>(std::memchr(at_, ')', end_ - at_));
    if (close == nullptr) return fault("a comment without its end");
    at_ = close + 1;
    return true;
  }

  bool word(char letter) {
    if (letter < 'A' || letter > 'Z') {
      if (letter == '%') return at_ = end_, true;  // where a program begins and ends
      return fault(
          std::string("found ") +
          (letter > ' ' && letter < '\x7f' ? std::string(1, letter) : std::string("a character")) +
          " where a word should begin");
    }
    ++at_;
    while (at_ != end_ && is_blank_in_line(*at_)) ++at_;
    double value = 0;
    const char* behind = read_motion_number(at_, end_, value);
    if (behind == nullptr) return fault(std::string("found no number behind ") + letter);
    at_ = behind;
    // What stands behind a code may be a text.
    if (letter == 'G' || letter == 'M') return code(letter, value);
    if (splits_number()) {
      blanks_ = true;
      return false;
    }
    if (line_.has(letter)) return fault(std::string("found ") + letter + " twice");
    line_.letters |= 1U << (letter - 'A');
    line_.values[static_cast<std::size_t>(letter - 'A')] = value;
    return true;
  }

  // Blanks may stand anywhere, in numbers too (section 3.3).
  bool splits_number() const {
    const char* next = at_;
    while (next != end_ && is_blank_in_line(*next)) ++next;
    return next != at_ && next != end_ && (is_digit_in_line(*next) || *next == '.');
  }

  bool code(char letter, double value) {
    const double tenths = std::round(value * 10);
    // As near as that (section 3.3.2.1).
    if (std::fabs(value * 10 - tenths) > 0.001 || tenths < 0 || tenths > 99'999) {
      return fault(std::string("found no code behind ") + letter);
    }
    if (line_.code_count == MotionLine::kMostCodes) return fault("found too many codes");
    const int whole = static_cast<int>(tenths);
    line_.codes[line_.code_count++] = {letter, whole};
    // What follows a word of no known meaning belongs to it.
    done_ = letter == 'M' && !is_known_m(whole);
    return true;
  }

  const char* at_;
  const char* end_;
  MotionLine& line_;
  bool blanks_ = false;
  bool done_ = false;
};

void clear(MotionLine& line) {
  line.letters = 0;
  line.code_count = 0;
  line.fault.clear();
}

// Without blanks outside comments, which go too.
std::string without_line_blanks(std::string_view text) {
  std::string kept;
  bool comment = false;
  for (const char c : text) {
    if (c == '(') comment = true;
    if (!comment && c == ';') break;
    if (!comment && !is_blank_in_line(c)) kept += c;
    if (c == ')') comment = false;
  }
  if (comment) kept += '(';
  return kept;
}

}  // namespace

bool is_known_m(int tenths) {
  // Tables 5 and 7: stops, spindle, tool, coolant, overrides.
  if (tenths % 10 != 0) return false;
  const int m = tenths / 10;
  return m <= 9 || m == 30 || m == 48 || m == 49 || m == 60;
}

void read_motion_line(std::string_view text, MotionLine& line) {
  clear(line);
  if (LineScan(text, line).read()) return;
  clear(line);
  LineScan(without_line_blanks(text), line).read();
}

}  // namespace leeway
