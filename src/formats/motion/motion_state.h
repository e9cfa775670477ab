#pragma once
// Where a program has led the nozzle, line by line.

#include <functional>
#include <map>
#include <string>

#include "formats/motion/motion_line.h"
#include "leeway/read_motion.h"

namespace leeway {

class MotionState {
 public:
  MotionState(const MotionOptions& options, std::function<void(const ProgramMove&)> take)
      : options_(options), take_(std::move(take)) {}

  // Obeys a line that was read, or tells its fault.
  void obey(const MotionLine& line, std::size_t number);
  void fault(std::size_t number, std::string what);
  void remark(MotionRemark::Kind kind, const std::string& word, std::size_t number);

  bool ended() const { return ended_; }
  MotionSummary& summary() { return summary_; }

 private:
  // Of x, y and z: in mm, of the machine. `shift` is what G92 put between the program and that.
  struct Axis {
    double at = 0;
    double shift = 0;
    bool known = false;
    bool shift_known = true;
  };
  enum class Motion { none, straight, clockwise, anticlockwise };
  // What one line asks for.
  struct Orders {
    bool motion_given = false;
    bool shifts = false;  // G92
    bool dwells = false;
    bool lost = false;
  };

  bool take_codes(const MotionLine& line, std::size_t number, Orders& orders);
  bool take_code(int tenths, std::size_t number, Orders& orders);
  void lose(const char* word, std::size_t number, Orders& orders);
  void lose_origins();
  void shift(const MotionLine& line);
  void move(const MotionLine& line, std::size_t number);
  bool go(const MotionLine& line, ProgramMove& move);
  bool find_center(const MotionLine& line, std::size_t number, ProgramMove& move);
  bool find_center_by_radius(double radius, std::size_t number, ProgramMove& move);
  bool pushes(const MotionLine& line);

  MotionOptions options_;
  std::function<void(const ProgramMove&)> take_;
  MotionSummary summary_;
  std::map<std::string, std::size_t> remark_of_;  // by word
  Axis axes_[3];
  Motion motion_ = Motion::none;
  double unit_ = 1;  // mm
  bool relative_ = false;
  bool plane_xy_ = true;
  bool other_system_ = false;
  double extruded_ = 0;
  bool extruded_known_ = false;
  bool ended_ = false;
};

}  // namespace leeway
