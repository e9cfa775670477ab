#pragma once
// What one page works on: the current setup, with all that follows from it kept between calls.

#include <optional>
#include <string>
#include <string_view>

#include "leeway/progress.h"
#include "leeway/rig.h"
#include "web/request.h"

namespace leeway {

// More points in one setup are for the command: an answer must fit a page's memory.
inline constexpr long kMostPagePoints = 250'000;

class Session {
 public:
  explicit Session(Progress progress) : progress_(std::move(progress)) {}

  // Never throws but for want of memory.
  std::string answer(std::string_view request);

  // Throws Refused where there is no setup yet.
  const Rig& rig() const;
  // The setup as JSON, whole. REQUIRES: there is one.
  const Json& whole() const { return whole_; }
  // As it is called in messages; empty where it came from a form.
  const std::string& name() const { return name_; }
  const Progress& progress() const { return progress_; }

  // Becomes the current setup; what it has in common with the one before is kept. Throws Refused
  // where it has more than kMostPagePoints, and what Limits throws.
  void take(const Setup& setup, std::string name);

 private:
  Progress progress_;
  std::optional<Rig> rig_;
  Json whole_;
  std::string name_;
};

}  // namespace leeway
