#include "cli/output_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <charconv>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <optional>
#include <string_view>
#include <system_error>

#include "cli/failure.h"
#include "cli/temporary_file.h"
#include "cli/terminal.h"
#include "formats/text/names.h"

namespace leeway {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kWritePiece = 1u << 16;

void wait_until_writable(int descriptor) {
  pollfd waiting{descriptor, POLLOUT, 0};
  ::poll(&waiting, 1, -1);
}

[[noreturn]] void cannot_write(const std::string& name, int error) {
  throw OutputFault(fmt::format("cannot write {}: {}", name, system_words(error)));
}

class StandardOutput : public Output {
 public:
  StandardOutput() { use(STDOUT_FILENO, "to standard output"); }
  void complete() override {
    flush();
    close();
  }
};

// A device, a pipe or whatever else must not be replaced.
class DirectOutput : public Output {
 public:
  explicit DirectOutput(const std::string& path) {
    const int opened = ::open(path.c_str(), O_WRONLY | O_CLOEXEC | O_NOCTTY);
    if (opened < 0) cannot_write("\"" + path + "\"", errno);
    use(opened, "\"" + path + "\"");
  }
  // A descriptor that is open already, at the place where it stands.
  DirectOutput(int open_descriptor, const std::string& path) {
    const int copy = ::fcntl(open_descriptor, F_DUPFD_CLOEXEC, 0);
    if (copy < 0) cannot_write("\"" + path + "\"", errno);
    use(copy, "\"" + path + "\"");
  }
  ~DirectOutput() override {
    if (descriptor() >= 0) ::close(descriptor());
  }
  void complete() override {
    flush();
    close();
  }
};

class ReplacedFile : public Output {
 public:
  // `existing` is the file to be replaced, or null.
  ReplacedFile(const std::string& shown, std::string target, const struct stat* existing)
      : shown_("\"" + shown + "\""), target_(std::move(target)), replaces_(existing != nullptr) {
    try {
      temporary_.emplace(fs::path(target_).parent_path().string());
    } catch (const std::system_error& error) {
      cannot_write(shown_, error.code().value());
    }
    use(temporary_->descriptor(), shown_);
    take_permissions(existing);
  }

  ~ReplacedFile() override {
    if (descriptor() >= 0) ::close(descriptor());
  }

  void complete() override {
    flush();
    // Renaming before the content is on the disk could leave an empty file after a power cut.
    if (::fsync(descriptor()) != 0 && errno != EINVAL) cannot_write(shown_, errno);
    close();
  }

  void take_name() override {
    if (::rename(temporary_->path(), target_.c_str()) != 0) cannot_write(shown_, errno);
    temporary_->let_go();
  }

  // What was there before is then under the temporary name.
  void take_name_for_now() override {
    exchanged_ = replaces_ && exchange();
    if (!exchanged_) take_name();
    named_ = true;
  }

  void give_back_name() override {
    if (!named_) return;
    if (exchanged_) {
      exchange();
    } else if (!replaces_) {
      ::unlink(target_.c_str());
    }
  }

 private:
  void take_permissions(const struct stat* existing) const {
    mode_t mode = 0;
    if (existing != nullptr) {
      mode = existing->st_mode & 0777;
      // Only root may give a file away; for anyone else the file becomes their own.
      if (::fchown(descriptor(), existing->st_uid, existing->st_gid) != 0) mode &= 0755;
    } else {
      const mode_t mask = ::umask(0);
      ::umask(mask);
      mode = 0666 & ~mask;
    }
    if (::fchmod(descriptor(), mode) != 0) cannot_write(shown_, errno);
  }

  bool exchange() const {
    return ::renameat2(AT_FDCWD, temporary_->path(), AT_FDCWD, target_.c_str(), RENAME_EXCHANGE) ==
           0;
  }

  std::string shown_;
  std::string target_;
  bool replaces_;
  bool named_ = false;
  bool exchanged_ = false;
  std::optional<TemporaryFile> temporary_;
};

// The descriptor that a path names as such: /dev/stdout, /dev/fd/3. Opening the file behind it
// anew would begin at its front, and replacing that file would lose what it holds.
std::optional<int> descriptor_named(const std::string& path) {
  if (path == "/dev/stdout") return STDOUT_FILENO;
  if (path == "/dev/stderr") return STDERR_FILENO;
  for (const std::string_view folder : {"/dev/fd/", "/proc/self/fd/"}) {
    if (path.compare(0, folder.size(), folder) != 0) continue;
    int number = 0;
    const char* end = path.data() + path.size();
    const auto [stop, error] = std::from_chars(path.data() + folder.size(), end, number);
    if (error == std::errc() && stop == end) return number;
  }
  return std::nullopt;
}

std::unique_ptr<Output> replace_existing(const std::string& path, const struct stat& existing) {
  if (S_ISDIR(existing.st_mode)) cannot_write("\"" + path + "\"", EISDIR);
  if (!S_ISREG(existing.st_mode)) return std::make_unique<DirectOutput>(path);
  if (::access(path.c_str(), W_OK) != 0) cannot_write("\"" + path + "\"", errno);
  std::error_code error;
  const fs::path target = fs::canonical(path, error);
  if (error) cannot_write("\"" + path + "\"", error.value());
  return std::make_unique<ReplacedFile>(path, target.string(), &existing);
}

}  // namespace

void Output::use(int descriptor, std::string name) {
  descriptor_ = descriptor;
  name_ = std::move(name);
}

void Output::write(std::string_view text) {
  waiting_ += text;
  if (waiting_.size() >= kWritePiece) flush();
}

void Output::flush() {
  for (std::size_t at = 0; at < waiting_.size();) {
    const ssize_t written = ::write(descriptor_, waiting_.data() + at, waiting_.size() - at);
    if (written >= 0) {
      at += static_cast<std::size_t>(written);
    } else if (errno == EAGAIN || errno == EWOULDBLOCK) {
      wait_until_writable(descriptor_);
    } else if (errno == EPIPE) {
      throw ReaderGone{};
    } else if (errno != EINTR) {
      cannot_write(name_, errno);
    }
  }
  waiting_.clear();
}

void Output::close() {
  const int closing = descriptor_;
  descriptor_ = -1;
  if (::close(closing) != 0 && errno != EINTR) cannot_write(name_, errno);
}

std::unique_ptr<Output> open_output(const std::string& path) {
  if (path.empty() || path == "-") return std::make_unique<StandardOutput>();
  if (const std::optional<int> open = descriptor_named(path)) {
    return std::make_unique<DirectOutput>(*open, path);
  }
  struct stat status {};
  if (::stat(path.c_str(), &status) == 0) return replace_existing(path, status);
  const int error = errno;
  struct stat link {};
  if (error != ENOENT) cannot_write("\"" + path + "\"", error);
  if (::lstat(path.c_str(), &link) == 0) {
    throw OutputFault(fmt::format("cannot write \"{}\": it is a link that leads nowhere", path));
  }
  return std::make_unique<ReplacedFile>(path, path, nullptr);
}

Output& Outputs::open(const std::string& path) {
  result_ = open_output(path);
  return *result_;
}

void Outputs::keep(const std::string& path, std::string_view text) {
  kept_.push_back(open_output(path));
  try {
    kept_.back()->write(text);
    kept_.back()->complete();
  } catch (const ReaderGone&) {
    // As with the result.
  }
}

void Outputs::finish(const std::function<void()>& write_result) {
  try {
    write_result();
    result_->complete();
  } catch (const ReaderGone&) {
    // Whoever reads has seen enough: `leeway check SETUP | head`.
  }
  name_files();
}

void Outputs::name_files() {
  const SignalsHeld held;
  try {
    for (const std::unique_ptr<Output>& file : kept_) file->take_name_for_now();
    result_->take_name();
  } catch (...) {
    for (const std::unique_ptr<Output>& file : kept_) file->give_back_name();
    throw;
  }
  // What was there before goes while signals are still held.
  kept_.clear();
}

void prepare_streams() {
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);
  for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; ++stream) {
    if (::fcntl(stream, F_GETFD) >= 0 || errno != EBADF) continue;
    // The lowest free descriptor is this one. Opened the wrong way round, so that using it fails
    // as a closed one would.
    const int flags = stream == STDIN_FILENO ? O_WRONLY : O_RDONLY;
    if (::open("/dev/null", flags) < 0) std::_Exit(kUnusable);
  }
}

std::function<void(std::string_view)> result_sink(Output& output, std::string_view format,
                                                  bool to_file) {
  const bool strip = format == "text" && (to_file || !may_isolate_output());
  if (!strip) return [&output](std::string_view text) { output.write(text); };
  return [&output](std::string_view text) { output.write(without_isolates(text)); };
}

}  // namespace leeway
