#pragma once
// A program of moves as a file is read, piece by piece.

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>

namespace leeway {

class ProgramInput {
 public:
  // "-" is standard input. What begins as a gzip file does (RFC 1952) is unpacked on the way.
  // Throws OptionFault.
  explicit ProgramInput(const std::string& path);
  ~ProgramInput();
  ProgramInput(const ProgramInput&) = delete;
  ProgramInput& operator=(const ProgramInput&) = delete;

  // Calls `take` for each piece, and `show` with how much of the file is done, from 0 to 1; 0 as
  // long as that cannot be known. Throws OptionFault where it cannot be read to its end.
  void read(const std::function<void(std::string_view)>& take,
            const std::function<void(double)>& show);

 private:
  [[noreturn]] void refuse(const std::string& why) const;

  std::string name_;
  void* file_ = nullptr;  // zlib's
  double size_ = 0;
};

}  // namespace leeway
