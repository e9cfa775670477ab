#include "formats/text/spelling.h"

#include <algorithm>
#include <utility>

#include "formats/text/letters.h"

namespace leeway {
namespace {

// Longer than any word of ours by far: nothing near it is worth the time to look.
constexpr std::size_t kLongestGuess = 64;

// A third of the letters may be wrong, so that "y" is no misspelt "x".
constexpr std::size_t kLettersPerMistake = 3;

// Fewer letters than these are a part of too much.
constexpr std::size_t kShortestPart = 4;

std::string folded(std::string_view word) {
  std::string result(word);
  for (char& c : result) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (c == '-' || c == ' ') c = '_';
  }
  return result;
}

// The only word that holds the other, or is held by it: "coverage" for "coverage_factor".
std::string_view only_with_part(std::string_view part, const WordList& words) {
  std::string_view only;
  for (const std::string_view word : words) {
    const bool either = word.find(part) != word.npos || part.find(word) != part.npos;
    if (std::min(word.size(), part.size()) < kShortestPart || !either) continue;
    if (!only.empty()) return {};
    only = word;
  }
  return only;
}

// Words that we said once, or that others say, and ours.
constexpr std::pair<std::string_view, std::string_view> kOtherWords[] = {
    {"plate", "bed"},      {"blind", "uncovered"},
    {"field", "map"},      {"mesh", "grid"},
    {"platform", "bed"},   {"table", "bed"},
    {"width", "x"},        {"depth", "y"},
    {"length", "y"},       {"dx", "x"},
    {"dy", "y"},           {"circle", "disc"},
    {"round", "disc"},     {"diameter", "radius"},
    {"centre", "center"},  {"cols", "columns"},
    {"nx", "columns"},     {"ny", "rows"},
    {"sensor", "probe"},   {"clips", "obstacles"},
    {"clip", "obstacles"}, {"parts", "head"},
    {"carriage", "head"},  {"position", "at"},
    {"title", "name"},     {"label", "name"},
    {"outline", "shape"},  {"border", "margins"},
    {"inset", "margins"},  {"homing", "home"},
    {"gap", "clearance"},  {"limits", "travel"},
    {"size", "rectangle"}, {"box", "rectangle"},
    {"origin", "center"}};

// The same where a table of readings has our word.
constexpr std::pair<std::string_view, std::string_view> kOtherHeadings[] = {
    {"nx", "nozzle_x"}, {"ny", "nozzle_y"}, {"px", "probe_x"},  {"py", "probe_y"},
    {"name", "label"},  {"dot", "label"},   {"point", "label"}, {"dx", "offset"},
    {"dy", "offset"},   {"width", "bed"},   {"depth", "bed"},   {"height", "y"}};

// With our words in their place: "fit.uncovered.left" for "fit.blind.left".
std::string in_our_words(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = i;
    while (end < text.size() && is_letter(text[end])) ++end;
    std::string_view word = text.substr(i, std::max<std::size_t>(end - i, 1));
    i += word.size();
    for (const auto& [other, ours] : kOtherWords) {
      if (word == other) word = ours;
    }
    out += word;
  }
  return out;
}

// The word of ours for one that others say; empty when it is none of them.
std::string_view in_other_words(std::string_view word, const WordList& words) {
  const auto find = [&](const std::string& wanted) {
    const auto found = std::find(words.begin(), words.end(), wanted);
    return found == words.end() ? std::string_view() : *found;
  };
  const bool option = word.substr(0, 2) == "--";
  const std::string bare = folded(option ? word.substr(2) : word);
  const std::string lead = option ? "--" : "";
  for (const std::string& ours : {in_our_words(word), lead + in_our_words(bare)}) {
    if (const std::string_view found = find(ours); !found.empty()) return found;
  }
  for (const auto& [other, ours] : kOtherHeadings) {
    if (bare != other) continue;
    if (const std::string_view found = find(lead + std::string(ours)); !found.empty()) return found;
  }
  return {};
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        row[j] = std::min(row[j], before_last[j - 2] + 1);
      }
    }
    before_last.swap(last);
    last.swap(row);
  }
  return last[b.size()];
}

std::string_view nearest_word(std::string_view word, const WordList& words) {
  if (word.empty() || word.size() > kLongestGuess) return {};
  const std::string wanted = folded(word);
  if (const std::string_view renamed = in_other_words(word, words); !renamed.empty()) {
    return renamed;
  }
  std::string_view best;
  std::size_t least = word.size();
  for (const std::string_view candidate : words) {
    const std::size_t longest = std::max(candidate.size(), word.size());
    const std::size_t edits = edit_distance(wanted, folded(candidate));
    if (edits * kLettersPerMistake <= longest && edits < least) {
      best = candidate;
      least = edits;
    }
  }
  return best.empty() ? only_with_part(wanted, words) : best;
}

std::string listed(const WordList& words) {
  std::string result;
  for (const std::string_view word : words) {
    if (!result.empty()) result += ", ";
    result += word;
  }
  return result;
}

std::string comma_hint(std::string_view numbers) {
  const auto digit = [&](std::size_t at) { return at < numbers.size() && is_digit(numbers[at]); };
  const bool loose = numbers.find(", ") != std::string_view::npos;
  if (!loose && numbers.find('.') != std::string_view::npos) return "";
  for (std::size_t at = 1; at < numbers.size(); ++at) {
    if (numbers[at] != ',' || !digit(at - 1) || !digit(at + 1)) continue;
    std::size_t from = at;
    while (from > 0 && is_digit(numbers[from - 1])) --from;
    if (from > 0 && numbers[from - 1] == '.') continue;
    if (from > 0 && numbers[from - 1] == '-') --from;
    std::size_t to = at + 1;
    while (digit(to)) ++to;
    if (to < numbers.size() && numbers[to] == '.') continue;
    return "a decimal comma? write " + std::string(numbers.substr(from, at - from)) + '.' +
           std::string(numbers.substr(at + 1, to - at - 1));
  }
  return "";
}

std::string character_hint(std::string_view text) {
  const auto holds_any = [&](std::initializer_list<std::string_view> characters) {
    return std::any_of(characters.begin(), characters.end(), [&](std::string_view character) {
      return text.find(character) != std::string_view::npos;
    });
  };
  // U+2010 to U+2015, U+2212, U+FE63, U+FF0D.
  if (holds_any({"\xE2\x80\x90", "\xE2\x80\x91", "\xE2\x80\x92", "\xE2\x80\x93", "\xE2\x80\x94",
                 "\xE2\x80\x95", "\xE2\x88\x92", "\xEF\xB9\xA3", "\xEF\xBC\x8D"})) {
    return "a dash that is not the minus sign";
  }
  // U+2018 to U+201F, U+00AB, U+00BB.
  if (holds_any({"\xE2\x80\x98", "\xE2\x80\x99", "\xE2\x80\x9A", "\xE2\x80\x9B", "\xE2\x80\x9C",
                 "\xE2\x80\x9D", "\xE2\x80\x9E", "\xE2\x80\x9F", "\xC2\xAB", "\xC2\xBB"})) {
    return "a curly quote instead of a straight one";
  }
  return "";
}

}  // namespace leeway
