#include "cli/temporary_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <stdexcept>
#include <system_error>

namespace leeway {
namespace {

constexpr std::size_t kLongestPath = 4096;
constexpr std::size_t kMostFiles = 4;

// What ends a program unless it is told otherwise.
constexpr int kEndingSignals[] = {SIGHUP,  SIGINT, SIGQUIT, SIGILL,    SIGTRAP, SIGABRT,
                                  SIGBUS,  SIGFPE, SIGUSR1, SIGSEGV,   SIGUSR2, SIGALRM,
                                  SIGTERM, SIGSYS, SIGXCPU, SIGVTALRM, SIGPROF};

// The files that a signal must not leave behind: all that its handler reads.
struct TemporaryName {
  char path[kLongestPath];
  volatile std::sig_atomic_t exists;
};
TemporaryName temporary_names[kMostFiles];

void remove_and_end(int signal) {
  for (const TemporaryName& name : temporary_names) {
    if (name.exists != 0) ::unlink(name.path);
  }
  std::signal(signal, SIG_DFL);
  std::raise(signal);
}

void watch_signals() {
  for (const int signal : kEndingSignals) {
    struct sigaction before {};
    if (::sigaction(signal, nullptr, &before) == 0 && before.sa_handler == SIG_DFL) {
      std::signal(signal, remove_and_end);
    }
  }
}

std::size_t free_name() {
  for (std::size_t i = 0; i < kMostFiles; ++i) {
    if (temporary_names[i].exists == 0) return i;
  }
  throw std::logic_error("too many files are written at once");
}

}  // namespace

TemporaryFile::TemporaryFile(const std::string& folder) : slot_(free_name()) {
  const std::string pattern = (folder.empty() ? "" : folder + "/") + ".leeway-XXXXXX";
  if (pattern.size() >= kLongestPath) {
    throw std::system_error(ENAMETOOLONG, std::generic_category());
  }
  TemporaryName& name = temporary_names[slot_];
  std::memcpy(name.path, pattern.c_str(), pattern.size() + 1);
  watch_signals();
  // Held, so that none comes between the file and the note of its name.
  const SignalsHeld held;
  descriptor_ = ::mkostemp(name.path, O_CLOEXEC);
  if (descriptor_ < 0) throw std::system_error(errno, std::generic_category());
  name.exists = 1;
}

TemporaryFile::~TemporaryFile() {
  if (!ours_) return;  // another may have this slot by now
  const SignalsHeld held;
  ::unlink(path());
  let_go();
}

const char* TemporaryFile::path() const { return temporary_names[slot_].path; }

void TemporaryFile::let_go() {
  temporary_names[slot_].exists = 0;
  ours_ = false;
}

SignalsHeld::SignalsHeld() {
  sigset_t ending;
  sigemptyset(&ending);
  for (const int signal : kEndingSignals) sigaddset(&ending, signal);
  ::pthread_sigmask(SIG_BLOCK, &ending, &before_);
}

SignalsHeld::~SignalsHeld() { ::pthread_sigmask(SIG_SETMASK, &before_, nullptr); }

}  // namespace leeway
