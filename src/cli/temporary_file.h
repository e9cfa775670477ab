#pragma once
// Files under a passing name, which no signal leaves behind.

#include <csignal>
#include <cstddef>
#include <string>

namespace leeway {

// A new file in `folder`, open for writing. What lies under its path when this ends is removed.
// Signals that end the program remove it first; SIGKILL alone cannot be held off.
class TemporaryFile {
 public:
  // Throws std::system_error when the file cannot be made.
  explicit TemporaryFile(const std::string& folder);
  ~TemporaryFile();
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;

  const char* path() const;
  // Closed by whoever uses it.
  int descriptor() const { return descriptor_; }
  // Its path is no longer ours: the file has another name now.
  void let_go();

 private:
  bool ours_ = true;
  std::size_t slot_ = 0;
  int descriptor_ = -1;
};

// While one of these lives, signals that would end the program wait.
class SignalsHeld {
 public:
  SignalsHeld();
  ~SignalsHeld();
  SignalsHeld(const SignalsHeld&) = delete;
  SignalsHeld& operator=(const SignalsHeld&) = delete;

 private:
  sigset_t before_;
};

}  // namespace leeway
