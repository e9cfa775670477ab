#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/walk/walk_view.h"
#include "leeway/write_walk.h"

namespace leeway {
namespace {

constexpr double kMostUpward = 5;  // mm/s: what lifts a head is slow, and may stall
constexpr int kSecondsPerMinute = 60;

// Whether a byte is the second or a later one of a letter (RFC 3629, 3).
bool continues_utf8(char c) { return (static_cast<unsigned char>(c) & 0xC0) == 0x80; }

// A comment ends at the first ")" and holds none (NISTIR 6556, 3.3.4); a line has at most 256
// characters (3.3). A letter beyond ASCII is no part of it.
std::string comment_text(std::string_view text) {
  constexpr std::size_t kMost = 200;
  std::string out;
  for (const char c : text) {
    if (out.size() == kMost) break;
    if (c == '(' || c == ')') {
      out += c == '(' ? '[' : ']';
    } else if (!continues_utf8(c)) {
      out += c >= ' ' && c <= '~' ? c : '?';
    }
  }
  return out;
}

class ProgramWriter {
 public:
  ProgramWriter(const WalkResult& result, const Rig& rig, const WalkProgramOptions& options,
                const TextSink& sink)
      : result_(result), rig_(rig), words_(rig, one_line), options_(options), sink_(sink) {}

  void write() {
    say_what_it_is();
    begin();
    std::size_t number = 0;
    for (const WalkStop& stop : result_.stops) {
      comment(fmt::format("{} {}: on the bed the probe should be {}", ++number,
                          stop_name(stop, result_, rig_, words_), seen_at(stop, rig_)));
      go(stop);
      pause();
    }
    if (result_.end) {
      comment("above the middle of the bed");
      go(*result_.end);
    }
    if (options_.end && may("M2")) line("M2");
  }

 private:
  bool may(std::string_view word) const { return may_hold(options_, word); }

  void comment(std::string_view text) {
    if (may("comments")) sink_("(" + comment_text(text) + ")\n");
  }
  void line(const std::string& words) {
    if (options_.line_numbers && may("N")) sink_(fmt::format("N{} ", ++lines_));
    sink_(words + "\n");
  }

  void say_what_it_is() {
    const Point start = result_.from ? *result_.from : result_.stops.front().nozzle;
    comment(fmt::format("{}: carries the probe over {}, the nozzle {} above the bed",
                        rig_.setup().name.empty() ? "Walk" : one_line(rig_.setup().name),
                        counted(result_.stops.size(), "point"), height_words(result_)));
    comment("It only moves. Let the machine cool. Keep hands out, and one at the power switch.");
    comment("Clips and all else must stand where the setup says. The manual comes first.");
    comment(
        fmt::format("Z0 is where the nozzle touches the bed. Start with the nozzle at X{} Y{}, "
                    "and Z{} or lower.",
                    decimal(start.x), decimal(start.y), height_words(result_)));
  }

  void begin() {
    std::string modes;
    for (const char* mode : {"G17", "G21", "G90", "G94"}) {
      if (may(mode)) modes += std::string(modes.empty() ? "" : " ") + mode;
    }
    if (!modes.empty()) line(modes);
    line(fmt::format("G1 Z{} F{}", height_words(result_), per_minute(kMostUpward)));
    // Once; it holds for all that follow.
    feed_ = fmt::format(" F{}", per_minute(options_.feed));
  }
  // Never faster than asked for.
  std::string per_minute(double feed) const {
    const double most = std::min(feed, options_.feed) * kSecondsPerMinute;
    return decimal(std::floor(most * 1000 + 1e-6) / 1000);
  }

  void go(const WalkStop& stop) {
    for (const Point turn : stop.via) move(turn);
    move(stop.nozzle);
  }
  void move(Point nozzle) {
    line(fmt::format("G1 X{} Y{}{}", decimal(nozzle.x), decimal(nozzle.y), feed_));
    feed_.clear();
  }
  void pause() {
    if (!pauses(options_)) return;
    const bool stop = options_.pause.kind == WalkPause::Kind::stop;
    line(stop ? "M0" : fmt::format("G4 P{}", decimal(options_.pause.seconds)));
  }

  const WalkResult& result_;
  const Rig& rig_;
  Words words_;
  const WalkProgramOptions& options_;
  const TextSink& sink_;
  int lines_ = 0;
  std::string feed_;
};

}  // namespace

const std::vector<std::string_view>& walk_words() {
  static const std::vector<std::string_view> words{
      "G1", "G4", "G17", "G21", "G90", "G94", "M0", "M2", "F", "N", "P", "X", "Y", "Z", "comments"};
  return words;
}

const std::vector<std::string_view>& walk_words_needed() {
  static const std::vector<std::string_view> words{"G1", "X", "Y", "Z", "F"};
  return words;
}

bool may_hold(const WalkProgramOptions& options, std::string_view word) {
  return !options.words || options.words->find(word) != options.words->end();
}

bool pauses(const WalkProgramOptions& options) {
  switch (options.pause.kind) {
    case WalkPause::Kind::none:
      return false;
    case WalkPause::Kind::dwell:
      return options.pause.seconds > 0 && may_hold(options, "G4") && may_hold(options, "P");
    case WalkPause::Kind::stop:
      break;
  }
  return may_hold(options, "M0");
}

void write_walk_program(const WalkResult& result, const Rig& rig, const WalkProgramOptions& options,
                        const TextSink& sink) {
  ProgramWriter(result, rig, options, sink).write();
}

}  // namespace leeway
