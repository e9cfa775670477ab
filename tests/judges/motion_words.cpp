#include "judges/motion_words.h"

#include <cstdlib>
#include <map>

namespace leeway::judges {
namespace {

class LineReader {
 public:
  LineReader(std::string line, MotionProgram& into, Motion& now)
      : line_(std::move(line)), into_(into), now_(now) {}

  void read() {
    if (line_.size() > 256) fault("more than 256 characters");
    if (into_.ended && !line_.empty()) fault("a line behind M2");
    while (at_ < line_.size()) {
      if (line_[at_] == ' ') {
        ++at_;
      } else if (line_[at_] == '(') {
        comment();
      } else {
        word();
      }
    }
    act();
  }

 private:
  void fault(const std::string& what) { into_.faults.push_back(what + ": " + line_); }

  void comment() {
    const std::size_t end = line_.find(')', at_);
    if (end == std::string::npos || line_.find('(', at_ + 1) < end) fault("a comment");
    at_ = end == std::string::npos ? line_.size() : end + 1;
  }

  void word() {
    const char letter = line_[at_++];
    std::size_t end = at_;
    while (end < line_.size() &&
           (std::string("+-.0123456789").find(line_[end]) != std::string::npos)) {
      ++end;
    }
    const std::string digits = line_.substr(at_, end - at_);
    at_ = end;
    char* behind = nullptr;
    const double value = std::strtod(digits.c_str(), &behind);
    if (digits.empty() || *behind != 0) return fault("a number");
    if (std::string("GMXYZFPN").find(letter) == std::string::npos) {
      at_ = line_.size();
      return fault("a word");
    }
    if (letter == 'G' || letter == 'M') {
      codes_[letter == 'M' ? 1000 + value : value] = true;
    } else if (!values_.emplace(letter, value).second) {
      fault("a letter twice");
    }
  }

  bool has(char letter) const { return values_.count(letter) > 0; }

  void act() {
    for (const auto& [code, there] : codes_) {
      if (code == 4) {
        ++into_.dwells;
        if (!has('P')) fault("a dwell without P");
      } else if (code == 1000) {
        ++into_.stops;
      } else if (code == 1002) {
        into_.ended = true;
      } else if (code != 1 && code != 17 && code != 21 && code != 90 && code != 94) {
        fault("a code");
      }
    }
    if (has('F')) now_.feed = values_['F'];
    if (!has('X') && !has('Y') && !has('Z')) return;
    if (codes_.count(1) == 0) fault("a place without G1");
    if (has('X') != has('Y')) fault("one of X and Y");
    Motion motion = now_;
    motion.moves_xy = has('X');
    motion.moves_z = has('Z');
    if (has('X')) motion.x = values_['X'];
    if (has('Y')) motion.y = values_['Y'];
    if (has('Z')) motion.z = values_['Z'];
    now_ = motion;
    into_.motions.push_back(motion);
  }

  std::string line_;
  MotionProgram& into_;
  Motion& now_;
  std::size_t at_ = 0;
  std::map<double, bool> codes_;
  std::map<char, double> values_;
};

}  // namespace

MotionProgram read_motion_words(std::string_view text) {
  MotionProgram program;
  Motion now;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    if (end == std::string_view::npos) program.faults.emplace_back("a line without its end");
    LineReader(std::string(text.substr(0, end)), program, now).read();
    if (end == std::string_view::npos) break;
    text.remove_prefix(end + 1);
  }
  return program;
}

}  // namespace leeway::judges
