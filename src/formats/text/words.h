#pragma once
// Reasons in words and mm. Sentences begin in lower case and carry no full stop.

#include <string>
#include <string_view>
#include <vector>

#include "leeway/check.h"
#include "leeway/rig.h"

namespace leeway {

// How names from users are shown: text_name, markdown_name (names.h).
using NameStyle = std::string (*)(std::string_view name);

class Words {
 public:
  Words(const Rig& rig, NameStyle style)
      : setup_(rig.setup()), limits_(rig.limits()), style_(style) {}

  std::string name(std::string_view user_name) const { return style_(user_name); }
  // Whether any uncertainty is stated, so that there is a guard at all.
  bool states_uncertainty() const;

  std::string point(const CheckedPoint& point) const;
  std::string limit(std::uint32_t index) const;  // "travel right", "obstacle clip"

  // Where the nozzle is when the probe is at `probe`.
  Point nozzle(Point probe) const { return probe - setup_.probe.offset; }

  // Why a point fails: "the nozzle would have to go to x = 248.5, 12.5 past the right end of its
  // travel", or for a marginal one how much room there is and how much is asked for.
  std::string reason(const CheckedPoint& point) const;

  // The same in few words, without coordinates: "the nozzle would be 12.5 past the right end
  // of its travel".
  // `worst`: the point stands for others that fail by less, so that it is "up to".
  std::string brief(const CheckedPoint& point, bool worst = false) const;

  // Where the limit is: "the right end of the nozzle's travel", "fan duct over front clip".
  std::string where(std::uint32_t index) const;

  // "the nearest point that works is 197.3, 20", or that none was found.
  std::string nearest(const CheckedPoint& point) const;

  // "0.6 of room to the right end of the nozzle's travel". REQUIRES: leeway >= 0.
  std::string room(const Finding& finding) const;

  // What stops a straight move, by the same words.
  std::string stop(const MoveStop& stop) const;

  // Where no position at all meets the limit: "the bed is too small for the sensing spot".
  std::string impossible(const LimitInfo& limit) const;

 private:
  std::string past_travel(const LimitInfo& limit, Point probe, double leeway) const;
  std::string off_bed(const LimitInfo& limit, Point probe, double leeway) const;
  std::string too_near(const LimitInfo& limit, double leeway) const;
  std::string place(const LimitInfo& limit) const;
  std::string sensing() const;  // "the probe", "the sensing area"
  std::string brief_bed(const LimitInfo& limit, double leeway, const char* up_to) const;
  std::string brief_near(const LimitInfo& limit, double leeway, const char* up_to) const;
  bool bare_point() const;

  const Setup& setup_;
  const Limits& limits_;
  NameStyle style_;
};

// "the nozzle", "the body of the probe", or the part's name as it is shown.
std::string part_words(const LimitInfo& limit, const std::string& shown);

// Where the probe is: "38.5 to the left of the nozzle and 12 behind it".
std::string offset_words(Point offset);

// "3.4 to the right and 2 to the back"; "nowhere".
std::string move_words(Point move);

// "1", "1 and 2", "1, 2 and 3".
std::string joined(const std::vector<std::string>& parts);

}  // namespace leeway
