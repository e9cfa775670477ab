#include "cli/terminal.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string>
#include <string_view>

namespace leeway {
namespace {

constexpr std::chrono::milliseconds kPatience{1000};
constexpr std::chrono::milliseconds kBetween{100};
constexpr std::size_t kLineWidth = 40;

// Blanks instead of an erase sequence: every terminal knows those. A line that fails to appear is
// no reason to fail.
void rewrite_line(std::string_view text) {
  std::array<char, kLineWidth + 2> line;
  line.fill(' ');
  line.front() = line.back() = '\r';
  std::copy_n(text.begin(), std::min(text.size(), kLineWidth), line.begin() + 1);
  if (::write(STDERR_FILENO, line.data(), line.size()) < 0) return;
}

}  // namespace

bool may_isolate_output() {
  if (::isatty(STDOUT_FILENO) == 0) return false;
  std::string locale;
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    const char* value = std::getenv(name);
    if (value == nullptr || *value == '\0') continue;
    locale = value;
    break;
  }
  for (char& c : locale) c = (c >= 'A' && c <= 'Z') ? static_cast<char>(c - 'A' + 'a') : c;
  return locale.find("utf-8") != std::string::npos || locale.find("utf8") != std::string::npos;
}

bool may_color_output() {
  if (::isatty(STDOUT_FILENO) == 0) return false;
  const char* no_color = std::getenv("NO_COLOR");
  if (no_color != nullptr && *no_color != '\0') return false;
  const char* kind = std::getenv("TERM");
  return kind != nullptr && std::string_view(kind) != "dumb";
}

ProgressLine::ProgressLine(const char* what)
    : what_(what), terminal_(::isatty(STDERR_FILENO) != 0), next_(Clock::now() + kPatience) {}

ProgressLine::~ProgressLine() {
  if (shown_) rewrite_line("");
}

void ProgressLine::show(double fraction) {
  if (!terminal_) return;
  const Clock::time_point now = Clock::now();
  if (now < next_) return;
  next_ = now + kBetween;
  shown_ = true;
  const int percent = static_cast<int>(std::clamp(fraction, 0.0, 1.0) * 100);
  rewrite_line(fmt::format("{}: {} %", what_, percent));
}

}  // namespace leeway
