#include "cli/disk_files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <filesystem>

#include "cli/failure.h"

namespace leeway {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kReadPiece = 1u << 12;
constexpr const char* kStandardInput = "standard input";

std::string identity_of(const struct stat& status) {
  return fmt::format("{}:{}", status.st_dev, status.st_ino);
}

// Reads to the end, or to one byte over what is allowed; returns the error number. `expected` is
// how much there probably is: one byte more is asked for, so that a second piece finds the end.
int read_all(int descriptor, std::size_t expected, std::string& text) {
  while (text.size() <= kLargestFile) {
    const std::size_t before = text.size();
    const std::size_t piece =
        before < expected ? expected - before + 1 : std::max(kReadPiece, before);
    text.resize(before + std::min(piece, kLargestFile + 1 - before));
    const ssize_t got = ::read(descriptor, text.data() + before, text.size() - before);
    const int error = errno;
    text.resize(before + static_cast<std::size_t>(std::max<ssize_t>(got, 0)));
    if (got < 0 && error == EINTR) continue;
    if (got < 0) return error;
    if (got == 0) return 0;
  }
  return 0;
}

std::size_t expected_size(const struct stat& status) {
  return S_ISREG(status.st_mode) && status.st_size > 0 ? static_cast<std::size_t>(status.st_size)
                                                       : 0;
}

void read_open_file(int descriptor, bool ordinary_only, SourceFile& file) {
  struct stat status {};
  if (::fstat(descriptor, &status) != 0) {
    file.problem = system_words(errno);
    return;
  }
  file.identity = identity_of(status);
  if (S_ISDIR(status.st_mode)) {
    file.problem = system_words(EISDIR);
  } else if (ordinary_only && !S_ISREG(status.st_mode)) {
    file.problem = "it is no ordinary file";
  } else if (const int error = read_all(descriptor, expected_size(status), file.text); error != 0) {
    file.problem = system_words(error);
    file.text.clear();
  }
}

void read_file(const std::string& path, bool ordinary_only, SourceFile& file) {
  if (path.empty() || path.find('\0') != std::string::npos) {
    file.problem = path.empty() ? "the name is empty" : "the name holds a zero character";
    return;
  }
  // Non-blocking, so that opening a pipe nobody writes to cannot hang; ordinary files ignore it.
  const int flags = O_RDONLY | O_CLOEXEC | (ordinary_only ? O_NONBLOCK : 0);
  const int descriptor = ::open(path.c_str(), flags);
  if (descriptor < 0) {
    file.problem = system_words(errno);
    return;
  }
  read_open_file(descriptor, ordinary_only, file);
  ::close(descriptor);
}

// Without "." and "..", if that still leads to the same file.
std::string tidy(const fs::path& path) {
  const fs::path normal = path.lexically_normal();
  std::error_code error;
  const bool same = fs::equivalent(normal, path, error);
  return (same && !error ? normal : path).string();
}

}  // namespace

SourceFile DiskFiles::setup(const std::string& path) {
  SourceFile file;
  if (path == "-") {
    file.name = kStandardInput;
    read_open_file(STDIN_FILENO, false, file);
  } else {
    file.name = path.empty() ? "\"\"" : path;
    read_file(path, false, file);
  }
  identities_.insert(file.identity);
  return file;
}

SourceFile DiskFiles::profile(std::string_view path, std::string_view from) {
  const fs::path folder = from == kStandardInput ? fs::path() : fs::path(from).parent_path();
  const fs::path whole = folder / path;
  SourceFile file;
  file.name = tidy(whole);
  read_file(path.empty() ? "" : whole.string(), true, file);
  identities_.insert(file.identity);
  return file;
}

FileFinder DiskFiles::finder() {
  return [this](std::string_view path, std::string_view from) { return profile(path, from); };
}

bool DiskFiles::has_read(const std::string& path) const {
  struct stat status {};
  return ::stat(path.c_str(), &status) == 0 && identities_.count(identity_of(status)) > 0;
}

}  // namespace leeway
