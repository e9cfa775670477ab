#include "formats/motion/motion_state.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace leeway {
namespace {

constexpr char kAxisLetters[] = {'X', 'Y', 'Z'};
constexpr double kMotionInch = 25.4;
// How far the ends of an arc may differ in their distance from its centre (section 3.5.3.2).
constexpr double kArcMismatch = 0.002;       // mm
constexpr double kArcMismatchInch = 0.0002;  // inch

std::string code_name(char letter, int tenths) {
  std::string name = letter + std::to_string(tenths / 10);
  if (tenths % 10 != 0) name += '.' + std::to_string(tenths % 10);
  return name;
}

// Whether the motion of the lines before goes on after such a code: those of other groups in table
// 4, and what counts for one line.
bool keeps_motion(int tenths) {
  return tenths == 100 || tenths == 280 || tenths == 300 || (tenths >= 410 && tenths <= 593) ||
         tenths == 923;
}

// Axes that no bed has, and letters that the standard does not have; E is the length pushed.
constexpr char kIdleLetters[] = {'A', 'B', 'C', 'O', 'T', 'U', 'V', 'W'};
constexpr std::uint32_t mask_of_idle() {
  std::uint32_t mask = 0;
  for (const char letter : kIdleLetters) mask |= 1U << (letter - 'A');
  return mask;
}

}  // namespace

void MotionState::fault(std::size_t number, std::string what) {
  if (++summary_.fault_count <= kMostMotionFaults) {
    summary_.faults.push_back({number, std::move(what)});
  }
  for (Axis& axis : axes_) axis.known = false;
}

void MotionState::remark(MotionRemark::Kind kind, const std::string& word, std::size_t number) {
  const auto known = remark_of_.find(word);
  if (known != remark_of_.end()) {
    ++summary_.remarks[known->second].count;
    return;
  }
  // So many words of no meaning are no program.
  if (summary_.remarks.size() == kMostMotionRemarks)
    return fault(number, "a word too many of no known meaning: " + word);
  remark_of_.emplace(word, summary_.remarks.size());
  summary_.remarks.push_back({kind, word, 1, number});
}

void MotionState::obey(const MotionLine& line, std::size_t number) {
  if (!line.fault.empty()) return fault(number, line.fault);
  Orders orders;
  if (line.code_count > 0 && !take_codes(line, number, orders)) return;
  if ((line.letters & mask_of_idle()) != 0) {
    for (const char letter : kIdleLetters) {
      if (line.has(letter)) remark(MotionRemark::Kind::idle, std::string(1, letter), number);
    }
  }
  if (orders.lost || orders.dwells) return;
  if (orders.shifts) return shift(line);
  if (line.has('X') || line.has('Y') || line.has('Z')) return move(line, number);
  if (orders.motion_given && motion_ != Motion::straight)
    return fault(number, "an arc without X and Y");
  if (line.has('E')) pushes(line);
}

bool MotionState::take_codes(const MotionLine& line, std::size_t number, Orders& orders) {
  for (std::size_t i = 0; i < line.code_count; ++i) {
    const MotionLine::Code code = line.codes[i];
    if (code.letter == 'M') {
      if (!is_known_m(code.tenths)) {
        remark(MotionRemark::Kind::idle, code_name('M', code.tenths), number);
      }
      ended_ = ended_ || code.tenths == 20 || code.tenths == 300;
    } else if (!take_code(code.tenths, number, orders)) {
      return false;
    }
  }
  return true;
}

bool MotionState::take_code(int tenths, std::size_t number, Orders& orders) {
  const auto start = [&](Motion motion) {
    if (orders.motion_given) {
      fault(number, "two motions on one line");
      return false;
    }
    orders.motion_given = true;
    motion_ = motion;
    return true;
  };
  switch (tenths) {
    case 0:
    case 10:
      return start(Motion::straight);
    case 20:
      return start(Motion::clockwise);
    case 30:
      return start(Motion::anticlockwise);
    case 40:
      orders.dwells = true;
      return true;
    case 170:
    case 180:
    case 190:
      plane_xy_ = tenths == 170;
      return true;
    case 200:
    case 210:
      unit_ = tenths == 200 ? kMotionInch : 1;
      return true;
    case 900:
    case 910:
      relative_ = tenths == 910;
      return true;
    case 920:
      orders.shifts = true;
      return true;
    case 921:
    case 922:
      for (Axis& axis : axes_) axis = {axis.at, 0, axis.known, !other_system_};
      return true;
    case 800:
      motion_ = Motion::none;
      return true;
    case 400:  // no compensation of the tool, for which there is none here; feeds and path modes
    case 490:
    case 610:
    case 611:
    case 640:
    case 930:
    case 940:
    case 980:
    case 990:
      return true;
    case 540:
      if (other_system_) lose("G54", number, orders);
      return true;
    default:
      lose(code_name('G', tenths).c_str(), number, orders);
      if (!keeps_motion(tenths)) motion_ = Motion::none;
      // What sets or chooses an origin, G43 too: nothing is known any more.
      if (tenths == 100 || tenths == 430 || (tenths > 540 && tenths <= 593) || tenths == 923) {
        lose_origins();
      }
      return true;
  }
}

void MotionState::lose(const char* word, std::size_t number, Orders& orders) {
  remark(MotionRemark::Kind::lost, word, number);
  for (Axis& axis : axes_) axis.known = false;
  extruded_known_ = false;
  orders.lost = true;
}

void MotionState::lose_origins() {
  other_system_ = true;
  for (Axis& axis : axes_) axis.shift_known = false;
}

void MotionState::shift(const MotionLine& line) {
  for (int i = 0; i < 3; ++i) {
    if (!line.has(kAxisLetters[i])) continue;
    Axis& axis = axes_[i];
    axis.shift_known = axis.known;
    axis.shift = axis.at - line.value(kAxisLetters[i]) * unit_;
  }
  if (line.has('E')) {
    extruded_ = line.value('E') * unit_;
    extruded_known_ = true;
  }
}

bool MotionState::pushes(const MotionLine& line) {
  if (!line.has('E')) return false;
  const double length = line.value('E') * unit_;
  if (options_.relative_extrusion) return length > 0;
  const bool more = !extruded_known_ || length > extruded_;
  extruded_ = length;
  extruded_known_ = true;
  return more;
}

// Takes the axes to where the line says; false where that, or where they were, is not known.
bool MotionState::go(const MotionLine& line, ProgramMove& move) {
  bool known = true;
  double before[3];
  for (int i = 0; i < 3; ++i) {
    Axis& axis = axes_[i];
    before[i] = axis.at;
    known = known && axis.known;
    if (line.has(kAxisLetters[i])) {
      const double value = line.value(kAxisLetters[i]) * unit_;
      axis.at = relative_ ? axis.at + value : axis.shift + value;
      axis.known = relative_ ? axis.known : axis.shift_known;
    }
    known = known && axis.known;
  }
  move.from = {before[0], before[1]};
  move.to = {axes_[0].at, axes_[1].at};
  move.lowest = std::min(before[2], axes_[2].at);
  move.highest = std::max(before[2], axes_[2].at);
  return known;
}

void MotionState::move(const MotionLine& line, std::size_t number) {
  if (motion_ == Motion::none) return fault(number, "a place without G0 to G3");
  ProgramMove move;
  move.line = number;
  move.placed = go(line, move);
  bool goes = move.from.x != move.to.x || move.from.y != move.to.y || move.lowest != move.highest;
  if (motion_ != Motion::straight) {
    goes = true;
    if (!plane_xy_) {
      move.placed = false;
    } else if (!find_center(line, number, move)) {
      return;
    }
  }
  move.prints = pushes(line) && (goes || !move.placed);
  ++summary_.moves;
  if (move.prints) {
    ++summary_.printing;
    if (!move.placed && summary_.unplaced++ == 0) summary_.first_unplaced = number;
  }
  take_(move);
}

bool MotionState::find_center(const MotionLine& line, std::size_t number, ProgramMove& move) {
  move.clockwise = motion_ == Motion::clockwise;
  if (!line.has('X') && !line.has('Y')) return fault(number, "an arc without X and Y"), false;
  const bool by_center = line.has('I') || line.has('J');
  if (by_center == line.has('R')) {
    return fault(number,
                 by_center ? "an arc with a centre and a radius" : "an arc without I, J and R"),
           false;
  }
  if (!move.placed) return true;
  if (!by_center) return find_center_by_radius(line.value('R') * unit_, number, move);
  const Point away{line.has('I') ? line.value('I') * unit_ : 0,
                   line.has('J') ? line.value('J') * unit_ : 0};
  move.center = move.from + away;
  const Point end = move.to - *move.center;
  const double mismatch = std::fabs(std::hypot(away.x, away.y) - std::hypot(end.x, end.y));
  if (mismatch > (unit_ == 1 ? kArcMismatch : kArcMismatchInch * kMotionInch) + 1e-9) {
    return fault(number, "an arc whose ends are not equally far from its centre"), false;
  }
  return true;
}

// Above 0 it is at most a half circle, else the rest of it (section 3.5.3.1).
bool MotionState::find_center_by_radius(double radius, std::size_t number, ProgramMove& move) {
  const Point way = move.to - move.from;
  const double length = std::hypot(way.x, way.y);
  const double size = std::fabs(radius);
  if (length == 0) return fault(number, "an arc by its radius that ends where it begins"), false;
  if (length / 2 > size + kArcMismatch) {
    return fault(number, "an arc whose radius is too small for its ends"), false;
  }
  const double beside = std::sqrt(std::max(0.0, size * size - length * length / 4));
  const Point right{way.y / length, -way.x / length};
  const double side = move.clockwise == (radius > 0) ? beside : -beside;
  move.center = 0.5 * (move.from + move.to) + side * right;
  return true;
}

}  // namespace leeway
