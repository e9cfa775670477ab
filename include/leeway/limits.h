#pragma once
// The limits that decide: each answers, for a position of the probe, how much leeway is left.

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "leeway/error.h"
#include "leeway/setup.h"

namespace leeway {

enum class Verdict : std::uint8_t { reachable, marginal, unreachable };

// "reachable", "marginal", "unreachable".
const char* word(Verdict verdict);

// The order of the groups is the order in which ties are decided. The mount's two, envelope and
// beside, are about the offset (bracket.h), never about a point.
enum class LimitGroup : std::uint8_t { travel, bed, obstacle, head, envelope, beside };
inline constexpr LimitGroup kLimitGroups[] = {LimitGroup::travel,   LimitGroup::bed,
                                              LimitGroup::obstacle, LimitGroup::head,
                                              LimitGroup::envelope, LimitGroup::beside};

// What the limits of a group are asked for, and what they are about.
struct LimitFamily {
  // mover: where the part is that LimitInfo::part_id tells.
  enum class Asked : std::uint8_t { probe, nozzle, mover, offset };
  Asked asked = Asked::probe;
  bool of_part = false;      // LimitInfo::part and part_id are set
  bool of_obstacle = false;  // LimitInfo::obstacle and obstacle_id are set
};

constexpr LimitFamily family_of(LimitGroup group) {
  using Asked = LimitFamily::Asked;
  switch (group) {
    case LimitGroup::travel:
      return {Asked::nozzle, false, false};
    case LimitGroup::bed:
      return {Asked::probe, false, false};
    case LimitGroup::obstacle:
      return {Asked::probe, false, true};
    case LimitGroup::head:
      return {Asked::mover, true, true};
    case LimitGroup::envelope:
      return {Asked::offset, false, false};
    case LimitGroup::beside:
      break;
  }
  return {Asked::offset, true, false};
}

constexpr bool is_of_mount(LimitGroup group) {
  return family_of(group).asked == LimitFamily::Asked::offset;
}
enum class LimitSide : std::uint8_t { left, right, front, back, rim, edge, none };

// What moves: the bare nozzle, a part of the head, the body of the probe, what is kept clear.
struct PartId {
  enum class Kind : std::uint8_t { nozzle, head, body, kept_clear };
  Kind kind = Kind::nozzle;
  std::size_t index = 0;  // into Machine::head or Mount::keep_clear

  friend bool operator==(const PartId&, const PartId&) = default;
};

struct LimitInfo {
  std::string name;  // "travel left", "bed rim", "obstacle clip", "fan duct over clip"; of the
                     // mount "envelope left", "beside fan duct", "clear of belt"
  LimitGroup group = LimitGroup::travel;
  LimitSide side = LimitSide::none;  // of travel and bed limits, and of the envelope
  std::string part;                  // of head limits: "nozzle", "probe body" or the part's name;
                                     // of mount limits the part beside which the probe must stay
  std::string obstacle;              // of obstacle and head limits
  // The same two, which names may not tell apart.
  PartId part_id;
  std::size_t obstacle_id = 0;  // index into Machine::obstacles
  double wanted = 0;            // distance already taken off the leeway: edge distance or clearance
};

// Both in mm, rounded to 1e-6. A set that is empty has leeway minus infinity everywhere.
struct LimitReading {
  double leeway = 0;
  double guard = 0;
};

// The verdict for one position, with the limit that is the reason for it: the limit of least
// leeway where something is below 0, else the one of least leeway minus guard.
struct Finding {
  double leeway = 0;
  double guard = 0;
  std::uint32_t limit = 0;  // index into Limits
  Verdict verdict = Verdict::unreachable;
};

// A setup that is well-formed but asks for more than the program will compute.
class SetupTooDetailed : public Error {
 public:
  using Error::Error;
};

class SweptSets;

//   const Limits limits(setup);  // throws InvalidSetup
//   const Finding finding = limits.evaluate({30, 40});
//   std::cout << limits.info(finding.limit).name << ": " << finding.leeway << " mm\n";
//
// All limits of a setup, in the order travel, bed, obstacles, head. A copy costs nothing.
//
// Positions are of the probe, in mm. A position exactly on a limit has leeway 0 and is inside. What
// is no position (NaN, infinite, beyond 1e9 mm) is unreachable with leeway minus infinity.
// Leeways are rounded to 1e-6 mm before anything is compared; that is the only tolerance.
// Evaluation is thread-safe. Many positions are cheapest in runs that lie close together,
// such as the rows of a grid.
class Limits {
 public:
  // Throws InvalidSetup (validate.h), and SetupTooDetailed when an outline swept by another would
  // take more than some seconds: from about a thousand vertices each on.
  explicit Limits(const Setup& setup);

  // The limits with another offset from nozzle to probe. Nothing is computed: no limit depends on
  // the offset, only the place at which it is asked. Nor does any depend on the request. With an
  // offset that is no position nothing is reachable.
  Limits at(Point offset) const;

  // The limits of a changed setup. What is swept (obstacles by spot, body and parts of the head,
  // the bed's surroundings by the spot) is taken from these where it is the same. Throws
  // InvalidSetup where the change spoils machine or probe, and SetupTooDetailed.
  Limits with(const Setup& changed) const;

  // What is swept, for what else is made of it (Regions, MoveLimits).
  const std::shared_ptr<SweptSets>& sweeps() const { return swept_sets_; }

  std::size_t size() const;
  const LimitInfo& info(std::size_t limit) const;

  // One limit alone; `limit` is below size().
  LimitReading reading(std::size_t limit, Point probe) const;
  // All of them; of equal ones the first decides.
  Finding evaluate(Point probe) const;

  // REQUIRES: findings.size() == probes.size().
  void evaluate(std::span<const Point> probes, std::span<Finding> findings) const;

  // The least leeway of any limit. In mm, rounded to 1e-6; it changes by no more than 1 mm per mm.
  double least_leeway(Point probe) const;

  // Signed distance of a probe position to the edge of the bed, positive on it: neither spot
  // nor edge distance are taken into account. In mm, rounded to 1e-6.
  double on_bed(Point probe) const;

 private:
  struct List;
  Limits(const Setup& setup, std::shared_ptr<SweptSets> swept_sets);

  Point offset_;
  std::shared_ptr<SweptSets> swept_sets_;
  std::shared_ptr<const List> list_;
};

// What stops a straight move of the probe from one position to another.
struct MoveStop {
  LimitInfo limit;
  double leeway = 0;  // the least along the way
  double guard = 0;   // what it should be; leeway < guard
};

// How high the nozzle has to be for all moves of a way.
struct SafeHeight {
  // In mm above the bed, rounded to 1e-6. Nothing where no height is enough: a way that leaves
  // the travel, or an obstacle of unlimited height.
  std::optional<double> least;
  std::optional<MoveStop> why;  // what the height is needed for; nothing where no obstacle asks
};

// The limits of straight moves: the nozzle's path stays in its travel and keeps, with every part
// of the head, clear of each obstacle that is higher than the part's underside at that height.
//
// Guard bands count as they do for points. Where the leeway at an end of the move is itself less
// than the guard band, the verdict of that point says so, and the way may come as near as that
// end; it may not do so where the height lets things meet that do not meet when the probe
// triggers. Where the guard depends on the direction, the largest counts.
class MoveLimits {
 public:
  // Throws InvalidSetup and SetupTooDetailed as Limits does.
  explicit MoveLimits(const Setup& setup);
  // The same, sharing with the limits of the same machine and probe what is swept.
  MoveLimits(const Setup& setup, const Limits& limits);
  ~MoveLimits();
  MoveLimits(MoveLimits&&) noexcept;
  MoveLimits& operator=(MoveLimits&&) noexcept;

  // The limit that stops the move most at the stated travel height, written to `stop`; false when
  // the way is clear. A way from or to what is no position is blocked, by the first limit. Without
  // a stated travel height the nozzle is taken to stay as low as where the probe triggers.
  bool blocked(Point from_probe, Point to_probe, MoveStop& stop) const;

  // The least height at which every move of a way is clear, from each position to the next. It is
  // never below where the probe triggers, nor below what reaches lowest of the head.
  // Each move is looked at once for each part and obstacle that could ask for more height.
  SafeHeight safe_height(std::span<const Point> way) const;

  // Whether the stated travel height is below where the probe triggers, or puts the lowest of the
  // head into the bed.
  bool drags() const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace leeway
