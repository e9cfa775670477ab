#include <cstring>
#include <string>

#include "formats/motion/motion_state.h"

namespace leeway {

struct MotionReader::Impl {
  Impl(const MotionOptions& options, std::function<void(const ProgramMove&)> take)
      : state(options, std::move(take)) {}

  void take_line(std::string_view text) {
    ++number;
    if (text.size() > kLongestMotionLine) return state.fault(number, "a line that is too long");
    read_motion_line(text, line);
    if (state.ended()) return behind();
    state.obey(line, number);
  }

  // What stands behind M2 or M30 is not run; comments may.
  void behind() {
    if (line.letters == 0 && line.code_count == 0) return;
    state.remark(MotionRemark::Kind::behind, "behind the end", number);
  }

  // No more of a line is kept than tells that it is too long.
  void keep(std::string_view text) {
    if (waiting.size() <= kLongestMotionLine) {
      waiting += text.substr(0, kLongestMotionLine + 1 - waiting.size());
    }
  }

  MotionState state;
  MotionLine line;
  std::string waiting;  // of a line whose end has not come
  std::size_t number = 0;
};

MotionReader::MotionReader(const MotionOptions& options,
                           std::function<void(const ProgramMove&)> take)
    : impl_(std::make_unique<Impl>(options, std::move(take))) {}
MotionReader::~MotionReader() = default;
MotionReader::MotionReader(MotionReader&&) noexcept = default;

void MotionReader::read(std::string_view piece) {
  while (!piece.empty()) {
    const auto* found = static_cast<const char*>(std::memchr(piece.data(), '\n', piece.size()));
    if (found == nullptr) return impl_->keep(piece);
    const std::size_t length = static_cast<std::size_t>(found - piece.data());
    if (impl_->waiting.empty()) {
      impl_->take_line(piece.substr(0, length));
    } else {
      impl_->keep(piece.substr(0, length));
      impl_->take_line(impl_->waiting);
      impl_->waiting.clear();
    }
    piece.remove_prefix(length + 1);
  }
}

MotionSummary MotionReader::finish() {
  if (!impl_->waiting.empty()) {
    impl_->take_line(impl_->waiting);
    impl_->waiting.clear();
    if (!impl_->state.ended()) {
      impl_->state.remark(MotionRemark::Kind::end, "the end", impl_->number);
    }
  }
  impl_->state.summary().lines = impl_->number;
  return impl_->state.summary();
}

}  // namespace leeway
