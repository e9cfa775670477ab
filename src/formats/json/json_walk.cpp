#include "formats/json/json_walk.h"

#include <fmt/format.h>

#include "formats/text/names.h"
#include "formats/text/spelling.h"
#include "formats/text/utf8.h"
#include "geometry/plane/assert.h"
#include "leeway/read_setup.h"

namespace leeway {
namespace {

constexpr const char* kValueWords =
    "a value: a number, \"text\", true, false, null, [ ... ] or { ... }";

// A stack of open brackets and what is wanted next, not recursion: the depth of a hostile file must
// not become that of the program. A first fault ends the walk, as what follows can't be told apart.
class Walker {
 public:
  explicit Walker(std::string_view text) : text_(text) {
    if (text.substr(0, kByteOrderMark.size()) == kByteOrderMark) at_ = kByteOrderMark.size();
  }

  JsonWalk walk() {
    while (!walk_.stop && wanted_ != Wanted::nothing) step();
    at_ = skip_blank(text_, at_);
    if (!walk_.stop && at_ < text_.size()) stop("nothing more after the end of the document");
    return std::move(walk_);
  }

 private:
  enum class Wanted { value, first_item, key, first_key, colon, comma, nothing };

  void step() {
    at_ = skip_blank(text_, at_);
    switch (wanted_) {
      case Wanted::value:
      case Wanted::first_item:
        return value();
      case Wanted::key:
      case Wanted::first_key:
        return key();
      case Wanted::colon:
        if (!take(':')) return stop("a colon between a key and its value");
        wanted_ = Wanted::value;
        return;
      case Wanted::comma:
        return comma();
      case Wanted::nothing:
        return;
    }
  }

  bool take(char c) {
    if (at_ >= text_.size() || text_[at_] != c) return false;
    ++at_;
    return true;
  }

  void stop(std::string allowed) {
    walk_.stop = SyntaxFault{at_, "not-json", describe_at(text_, at_), std::move(allowed), {}};
  }

  void value() {
    const char c = at_ < text_.size() ? text_[at_] : ' ';
    if (wanted_ == Wanted::first_item && c == ']') return close();
    // A comma before a closing bracket is a common mistake of a hand; it gets words of its own.
    if (c == ']' && !open_.empty() && open_.back() == '[') return stray_comma();
    // In the order of the nodes of JsonTree: the parser numbers values as they begin.
    walk_.places.push_back({at_, has_key_ ? key_ : at_});
    has_key_ = false;
    if (c == '{' || c == '[') return open(c);
    if (c == '"') {
      SyntaxFault fault;
      if (!scan_string(text_, at_, fault)) walk_.stop = fault;
    } else {
      word();
    }
    // A document of one value ends with it.
    wanted_ = open_.empty() ? Wanted::nothing : Wanted::comma;
  }

  void word() {
    const std::string_view word = word_at(text_, at_);
    if (is_not_finite(word)) {
      walk_.not_finite.push_back({at_, word.size()});
    } else if (word.empty()) {
      return stop(kValueWords);
    } else if (word != "true" && word != "false" && word != "null" && !is_json_number(word)) {
      // Digits that are no JSON number ("1.", "+5", "0x10"): told how numbers are written.
      const bool number = word.find_first_of("0123456789") != std::string_view::npos &&
                          word.find_first_of("+-.0123456789") == 0;
      stop(kValueWords);
      if (number) {
        walk_.stop->found = in_quotes(word);
        walk_.stop->allowed = "a number as JSON writes them, such as 12, -3.5 or 0.15";
      }
      walk_.stop->nearest = nearest_word(word, {"true", "false", "null"});
      return;
    }
    at_ += word.size();
  }

  void open(char bracket) {
    if (open_.size() >= kDeepestNesting) {
      walk_.stop = SyntaxFault{at_,
                               "nested-too-deep",
                               fmt::format("arrays and objects nested {} deep", open_.size() + 1),
                               fmt::format("at most {} deep", kDeepestNesting),
                               {}};
      return;
    }
    open_.push_back(bracket);
    ++at_;
    wanted_ = bracket == '{' ? Wanted::first_key : Wanted::first_item;
  }

  void close() {
    open_.pop_back();
    ++at_;
    wanted_ = open_.empty() ? Wanted::nothing : Wanted::comma;
  }

  void key() {
    const char c = at_ < text_.size() ? text_[at_] : ' ';
    if (c == '}') return wanted_ == Wanted::first_key ? close() : stray_comma();
    if (c != '"') {
      return stop(wanted_ == Wanted::first_key ? "a key in double quotes, or the closing }"
                                               : "a key in double quotes");
    }
    key_ = at_;
    has_key_ = true;
    SyntaxFault fault;
    if (!scan_string(text_, at_, fault)) walk_.stop = fault;
    wanted_ = Wanted::colon;
  }

  void comma() {
    const bool object = open_.back() == '{';
    if (take(',')) {
      comma_ = at_ - 1;
      wanted_ = object ? Wanted::key : Wanted::value;
    } else if (at_ < text_.size() && text_[at_] == (object ? '}' : ']')) {
      close();
    } else {
      stop(object ? "a comma and the next key, or the closing }"
                  : "a comma and the next value, or the closing ]");
    }
  }

  void stray_comma() {
    walk_.stop = SyntaxFault{comma_,
                             "not-json",
                             fmt::format("a comma before the closing {}", text_[at_]),
                             "a comma only between two entries",
                             {}};
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t key_ = 0;
  std::size_t comma_ = 0;
  bool has_key_ = false;
  Wanted wanted_ = Wanted::value;
  std::vector<char> open_;
  JsonWalk walk_;
};

}  // namespace

JsonWalk walk_json(std::string_view text) {
  LEEWAY_ASSERT(first_not_utf8(text) == std::string_view::npos);
  return Walker(text).walk();
}

}  // namespace leeway
