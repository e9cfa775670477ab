#pragma once
// Where results go: standard output, or a file that is written whole or not at all.

#include <memory>
#include <string>
#include <string_view>

namespace leeway {

// Thrown by write and finish when whoever read standard output has gone. No reason to complain.
struct ReaderGone {};

class Output {
 public:
  virtual ~Output() = default;
  Output() = default;
  Output(const Output&) = delete;
  Output& operator=(const Output&) = delete;

  // Both throw OutputFault (failure.h) and ReaderGone.
  void write(std::string_view text);
  virtual void finish() = 0;

 protected:
  void use(int descriptor, std::string name);
  void flush();
  void close();  // reports what the system only finds out then
  int descriptor() const { return descriptor_; }

 private:
  int descriptor_ = -1;
  std::string name_;  // for messages
  std::string waiting_;
};

// An empty path, or "-", is standard output.
//
// For a file: it is made under another name in the same folder and takes its own name in `finish`,
// so that an existing file stays as it was until the new one is whole. Without `finish` nothing
// is left behind, not even when a signal ends the program. An existing file keeps its
// permissions; a link keeps leading to the file. What is no ordinary file (a device, a pipe) is
// written to directly.
std::unique_ptr<Output> open_output(const std::string& path);

// Makes writing to a closed pipe or past a size limit an error instead of a signal, and fills the
// places of standard streams that are closed, so that no file of ours can be taken for one.
void prepare_streams();

}  // namespace leeway
