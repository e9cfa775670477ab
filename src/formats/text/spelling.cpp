#include "formats/text/spelling.h"

#include <algorithm>
#include <utility>

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
    {"plate", "bed"}, {"blind", "uncovered"}, {"field", "map"}, {"mesh", "grid"}};

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

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
  const auto renamed = std::find(words.begin(), words.end(), in_our_words(word));
  if (renamed != words.end()) return *renamed;
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

}  // namespace leeway
