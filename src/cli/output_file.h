#pragma once
// Where results go: standard output, or a file that is written whole or not at all.

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace leeway {

// Thrown by write and complete when whoever read the output has gone. No reason to complain.
struct ReaderGone {};

class Output {
 public:
  virtual ~Output() = default;
  Output() = default;
  Output(const Output&) = delete;
  Output& operator=(const Output&) = delete;

  // Throws OutputFault (failure.h) and ReaderGone, as complete does.
  void write(std::string_view text);

  // All that was written is where it goes to. A file does not have its name yet.
  virtual void complete() = 0;

  // A file takes its name; nothing for others. Throws OutputFault. REQUIRES: complete.
  virtual void take_name() {}
  // Likewise, but so that give_back_name can undo it, where the file system knows how to.
  virtual void take_name_for_now() {}
  virtual void give_back_name() {}

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
// For a file: it is made under another name in the same folder and takes its own name at the end,
// so that an existing file stays as it was until the new one is whole. Without that nothing
// is left behind, not even when a signal ends the program. An existing file keeps its
// permissions; a link keeps leading to the file. What is no ordinary file (a device, a pipe) is
// written to directly.
std::unique_ptr<Output> open_output(const std::string& path);

// All that one run writes: every file of it takes its name, or none does. What has gone down a pipe
// or to standard output cannot be taken back, so it goes last.
class Outputs {
 public:
  // Where the result goes; to be written to in `finish`. Throws OutputFault.
  Output& open(const std::string& path);

  // A file besides the result, as a whole.
  void keep(const std::string& path, std::string_view text);

  // Calls `write_result` and ends with all outputs. That whoever reads the result has gone is no
  // fault; the other files are written. Throws OutputFault, and what `write_result` throws.
  void finish(const std::function<void()>& write_result);

 private:
  void name_files();

  std::vector<std::unique_ptr<Output>> kept_;
  std::unique_ptr<Output> result_;
};

// Makes writing to a closed pipe or past a size limit an error instead of a signal, and fills the
// places of standard streams that are closed, so that no file of ours can be taken for one.
void prepare_streams();

// What a result in `format` is written to. Text may hold characters that isolate a name's letters;
// they stay where standard output is a terminal that knows them. `to_file`: --output was given.
std::function<void(std::string_view)> result_sink(Output& output, std::string_view format,
                                                  bool to_file);

}  // namespace leeway
