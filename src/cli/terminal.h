#pragma once
// What a terminal is told apart from results: colour and progress.

#include <chrono>

namespace leeway {

// Whether results on standard output may be coloured: it is a terminal that is not "dumb", and
// NO_COLOR is not set, or empty.
bool may_color_output();

// Whether text on standard output may hold the characters that isolate a name: it is a terminal,
// and its locale says UTF-8.
bool may_isolate_output();

// How far long work is, on one line of standard error that is wiped at the end. Nothing is shown
// when standard error is no terminal, or before a second has gone by.
class ProgressLine {
 public:
  explicit ProgressLine(const char* what);
  ~ProgressLine();
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;

  // Cheap when nothing is due.
  void show(double fraction);

 private:
  using Clock = std::chrono::steady_clock;

  const char* what_;
  bool terminal_;
  bool shown_ = false;
  Clock::time_point next_;
};

}  // namespace leeway
