#pragma once
// JSON as it is written: values in one line.

#include <optional>
#include <string>

#include "leeway/check.h"

namespace leeway {

// Everything beyond ASCII is escaped, so that no name can act on a terminal or turn the direction
// of reading; bytes that are not UTF-8 become U+FFFD.
std::string json_text(const std::string& text);

// Rounded to 1e-6; JSON has no number for infinity: null.
std::string json_number(double value);
std::string json_optional_number(const std::optional<double>& value);  // null for none
std::string json_numbers(double a, double b);
std::string json_position(Point p);

// An object in one line. The JSON library's own numbers are not always the shortest, hence by hand.
class JsonObject {
 public:
  JsonObject& add(const char* key, const std::string& json) {
    text_ += text_.size() > 1 ? ",\"" : "\"";
    text_ += key;
    text_ += "\":";
    text_ += json;
    return *this;
  }
  JsonObject& add(const char* key, std::size_t count) { return add(key, std::to_string(count)); }
  std::string text() const { return text_ + '}'; }

 private:
  std::string text_ = "{";
};

// {"x": [..], "y": [..]}
std::string json_bounds(const Box& box);

std::string json_coverage(const std::optional<Coverage>& coverage);

}  // namespace leeway
