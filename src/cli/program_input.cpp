#include "cli/program_input.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>
#include <zlib.h>

#include <algorithm>
#include <cerrno>
#include <vector>

#include "cli/failure.h"

namespace leeway {
namespace {

// As large as pays: what is read stays in the nearer caches.
constexpr unsigned kProgramPiece = 1U << 18;

gzFile gz_file(void* file) { return static_cast<gzFile>(file); }

}  // namespace

ProgramInput::ProgramInput(const std::string& path) : name_(path == "-" ? "standard input" : path) {
  const int descriptor =
      path == "-" ? ::dup(STDIN_FILENO) : ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) refuse(system_words(errno));
  struct stat status {};
  if (::fstat(descriptor, &status) == 0 && S_ISREG(status.st_mode)) {
    size_ = static_cast<double>(status.st_size);
  }
  if (S_ISDIR(status.st_mode)) {
    ::close(descriptor);
    refuse(system_words(EISDIR));
  }
  file_ = ::gzdopen(descriptor, "rb");
  if (file_ == nullptr) {
    ::close(descriptor);
    refuse("there is no memory for it");
  }
  ::gzbuffer(gz_file(file_), kProgramPiece / 2);
}

ProgramInput::~ProgramInput() {
  if (file_ != nullptr) ::gzclose(gz_file(file_));
}

void ProgramInput::refuse(const std::string& why) const {
  throw OptionFault(fmt::format("\"{}\" cannot be read: {}", name_, why));
}

void ProgramInput::read(const std::function<void(std::string_view)>& take,
                        const std::function<void(double)>& show) {
  std::vector<char> piece(kProgramPiece);
  for (;;) {
    const int got = ::gzread(gz_file(file_), piece.data(), kProgramPiece);
    if (got > 0) take({piece.data(), static_cast<std::size_t>(got)});
    int error = Z_OK;
    ::gzerror(gz_file(file_), &error);
    if (error == Z_ERRNO) refuse(system_words(errno));
    if (error == Z_BUF_ERROR) refuse("it is cut off");
    if (got < 0 || error < 0) refuse("its packed data are damaged");
    if (got == 0) return;
    if (size_ > 0) show(static_cast<double>(::gzoffset(gz_file(file_))) / size_);
  }
}

}  // namespace leeway
