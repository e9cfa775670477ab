#pragma once
// What text and Markdown show of a bracket. Sentences have a capital and a full stop.

#include <optional>
#include <string>
#include <vector>

#include "formats/text/words.h"
#include "leeway/write_bracket.h"

namespace leeway {

inline constexpr std::size_t kMostOutOfReachShown = 12;

struct OffsetRow {
  std::string what, offset, leeway, reaches, move;
};

struct InfluenceRow {
  std::string number, end, moves;
};

struct CandidateRow {
  std::string rank, name, offset, setup, share, uncovered, mesh, leeway, points;
};

// "82 %"; "-" where there is none.
std::string share_text(const std::optional<double>& share);

// Its name, and that of its own probe where that is another.
std::string full_name(const Candidate& candidate);

// Of the points that a candidate misses: "grid 3,1", a point's own name, or "home".
std::vector<std::string> missed_names(const CandidateCover& cover, const Setup& setup);

class BracketView {
 public:
  BracketView(const BracketReport& report, NameStyle style) : report_(report), style_(style) {}

  // Sentences, the setups' names first. REQUIRES: a window.
  std::string summary() const;
  std::vector<std::string> out_of_reach() const;
  std::vector<OffsetRow> offsets() const;   // present, nearest, asked, and what to choose from
  std::vector<std::string> advice() const;  // which of them to take
  std::vector<std::string> moves() const;   // that are blocked with these offsets
  std::vector<std::string> sides() const;   // four and what else there is to say, or none
  std::vector<InfluenceRow> influences() const;
  std::vector<std::string> conflict() const;
  std::vector<std::string> setups() const;  // of several, what each has at the best offset
  std::vector<std::string> costs() const;
  // What the offsets and leeways mean.
  std::string conventions() const;

  // REQUIRES: a map.
  std::string map_ground() const;  // where it is open: "in the window"
  std::vector<std::string> map() const;
  // The map in characters, back at the top, as lines; the last ones explain it.
  std::vector<std::string> map_picture() const;

  std::vector<CandidateRow> candidates() const;
  std::vector<std::string> misses() const;  // which points each candidate misses
  std::vector<std::string> ties() const;

 private:
  std::string setup_name(std::size_t setup) const;
  std::string too_much_leeway() const;
  std::string at_setup(std::size_t setup) const;  // " (of Curlew)", with several
  std::string stop(const BracketStop& stop) const;
  std::string point_words(const BracketPoint& point) const;
  std::string most_words(const BracketMost& most) const;
  std::string map_amount(double share) const;  // "82.1 %", "19 of 34 points"
  std::string cost(const std::string& when, const BracketCover& cover) const;

  const BracketReport& report_;
  NameStyle style_;
};

}  // namespace leeway
