#include "formats/text/wkt.h"

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/input/fields.h"
#include "formats/text/letters.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/text/utf8.h"

namespace leeway {
namespace {

constexpr const char* kWktShapes = "POLYGON ((x y, ...)) or MULTIPOLYGON (((x y, ...)))";

// Thrown and caught in this file: the first fault ends the text, since brackets mean nothing after
// it.
struct WktStop {
  WktFault fault;
};

bool is_number_part(char c) {
  return (c >= '0' && c <= '9') || c == '+' || c == '-' || c == '.' || c == 'e' || c == 'E';
}

class WktParser {
 public:
  explicit WktParser(std::string_view text) : text_(text) {}

  MultiPolygon document() {
    MultiPolygon polygons;
    const std::size_t start = skip_blank();
    const std::string shape = word();
    if (shape != "POLYGON" && shape != "MULTIPOLYGON") {
      at_ = start;
      stop(kWktShapes);
    }
    refuse_tags();
    if (shape == "POLYGON") {
      polygons.push_back(polygon());
    } else {
      list([&] { polygons.push_back(polygon()); });
    }
    if (skip_blank() < text_.size()) stop("nothing more after the last bracket");
    return polygons;
  }

 private:
  std::size_t skip_blank() {
    at_ = std::min(text_.find_first_not_of(" \t\r\n", at_), text_.size());
    return at_;
  }

  // The word here, in capitals.
  std::string word() {
    std::string result;
    while (at_ < text_.size() && is_letter(text_[at_])) {
      const char c = text_[at_++];
      result += (c >= 'a' && c <= 'z') ? static_cast<char>(c - 'a' + 'A') : c;
    }
    return result;
  }

  void refuse_tags() {
    const std::size_t start = skip_blank();
    const std::string tag = word();
    if (tag.empty()) return;
    at_ = start;
    if (tag == "EMPTY") stop("EMPTY (no area)", "an area");
    if (tag == "Z" || tag == "M" || tag == "ZM") {
      stop(fmt::format("the coordinates {}", tag), "plane coordinates: two numbers a point");
    }
    stop("an opening bracket");
  }

  // Brackets around things separated by commas.
  template <typename Item>
  void list(Item item) {
    refuse_tags();
    if (!take('(')) stop("an opening bracket");
    do {
      item();
    } while (take(','));
    if (!take(')')) stop("a comma or a closing bracket");
  }

  Polygon polygon() {
    Polygon result;
    bool first = true;
    list([&] {
      Ring ring = this->ring();
      if (first) {
        result.outer = std::move(ring);
      } else {
        result.holes.push_back(std::move(ring));
      }
      first = false;
    });
    return result;
  }

  Ring ring() {
    Ring result;
    const std::size_t start = skip_blank();
    list([&] { result.push_back(point()); });
    if (!(result.front() == result.back())) {
      at_ = start;
      stop("a ring that does not end where it begins", "a ring whose last point is its first");
    }
    // Rings are kept without the closing point.
    if (result.size() > 1) result.pop_back();
    return result;
  }

  Point point() {
    const double x = number();
    const double y = number();
    skip_blank();
    if (at_ < text_.size() && is_number_part(text_[at_])) {
      stop("a third number", "plane coordinates: two numbers a point");
    }
    return {x, y};
  }

  double number() {
    const std::size_t start = skip_blank();
    std::size_t end = start;
    while (end < text_.size() && is_number_part(text_[end])) ++end;
    const std::string_view token = text_.substr(start, end - start);
    const bool plus = token.substr(0, 1) == "+";  // allowed by the standard, not by the library
    double value = 0;
    const auto read =
        fast_float::from_chars(token.data() + (plus ? 1 : 0), token.data() + token.size(), value);
    const bool whole = !token.empty() && read.ptr == token.data() + token.size() &&
                       token.find_first_of("0123456789") != std::string_view::npos &&
                       token.substr(0, 2) != "+-";
    if (!whole) stop("a number");
    if (!(std::abs(value) <= kLargestLength)) {
      stop(fmt::format("the number {}", cut(token, kShownColumns)), "at most 1e6 mm either way");
    }
    at_ = end;
    return value + 0.0;  // so that -0 is 0
  }

  bool take(char c) {
    skip_blank();
    if (at_ >= text_.size() || text_[at_] != c) return false;
    ++at_;
    return true;
  }

  [[noreturn]] void stop(std::string found, std::string allowed) {
    // A person counts characters, not bytes.
    std::size_t character = 1;
    for (std::size_t i = 0; i < at_; ++character) {
      i += std::max<std::size_t>(utf8_length(text_, i), 1);
    }
    throw WktStop{{character, std::move(found), std::move(allowed)}};
  }

  [[noreturn]] void stop(std::string allowed) {
    std::size_t end = skip_blank();
    if (end >= text_.size()) stop("the end of the text", std::move(allowed));
    const bool token = is_letter(text_[end]) || is_number_part(text_[end]);
    do {
      end += std::max<std::size_t>(utf8_length(text_, end), 1);
    } while (token && end < text_.size() && (is_letter(text_[end]) || is_number_part(text_[end])));
    stop(fmt::format("\"{}\"", cut(one_line(text_.substr(at_, end - at_)), kShownColumns)),
         std::move(allowed));
  }

  std::string_view text_;
  std::size_t at_ = 0;
};

}  // namespace

std::optional<WktFault> parse_wkt(std::string_view text, MultiPolygon& polygons) {
  try {
    polygons = WktParser(text).document();
    return std::nullopt;
  } catch (const WktStop& stop) {
    return stop.fault;
  }
}

std::string wkt_text(const MultiPolygon& polygons, NumberText number) {
  const auto ring_text = [number](const Ring& ring) {
    std::string text = "(";
    for (std::size_t i = 0; i <= ring.size(); ++i) {
      const Point p = ring[i % ring.size()];
      text += (i > 0 ? ", " : "") + number(p.x) + ' ' + number(p.y);
    }
    return text + ')';
  };
  const auto polygon_text = [&](const Polygon& polygon) {
    std::string text = '(' + ring_text(polygon.outer);
    for (const Ring& hole : polygon.holes) text += ", " + ring_text(hole);
    return text + ')';
  };
  if (polygons.empty()) return "POLYGON EMPTY";
  if (polygons.size() == 1) return "POLYGON " + polygon_text(polygons.front());
  std::string text = "MULTIPOLYGON (";
  for (std::size_t i = 0; i < polygons.size(); ++i) {
    text += (i > 0 ? ", " : "") + polygon_text(polygons[i]);
  }
  return text + ')';
}

}  // namespace leeway
