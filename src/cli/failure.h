#pragma once
// The exit statuses, and what becomes of an exception that nobody caught before.

#include <exception>
#include <stdexcept>
#include <string>

namespace leeway {

inline constexpr int kAllWell = 0;   // all reachable, or the thing asked for exists
inline constexpr int kNotSo = 1;     // not so
inline constexpr int kUnusable = 2;  // input or options that are of no use, output that cannot go
inline constexpr int kOurFault = 3;  // the program's own fault

// An option or an argument that will not do; the message is a whole sentence for the user.
class OptionFault : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

// Throws OptionFault: an option of a command takes something else than was typed.
[[noreturn]] void refuse_typed(const char* command, const char* option, const char* takes,
                               const std::string& typed);

// Output that could not be written.
class OutputFault : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

struct Failure {
  int status = kOurFault;
  std::string message;  // one line, without the newline
};

// REQUIRES: `thrown` holds an exception.
Failure failure_of(const std::exception_ptr& thrown);

// What the system's error number means, in plain words.
std::string system_words(int error);

// Writes "leeway: MESSAGE" and a newline to standard error, made harmless; never fails.
void complain(const std::string& message);

// Writes a whole line as it is to standard error; never fails.
void write_error_line(const std::string& line);

}  // namespace leeway
