#pragma once
// The faults found in one text, while it is read.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "leeway/fault.h"

namespace leeway {

// Without a place. Any text may be empty except `found`.
Fault fault_of(std::string code, std::string found, std::string allowed, std::string nearest = {});

// Of very many faults the first kMost are kept and the rest counted: a file of a million wrong
// numbers must not fill the memory, nor a terminal.
class FaultNotes {
 public:
  static constexpr std::size_t kMost = 1000;
  static constexpr std::size_t kWholeFile = static_cast<std::size_t>(-1);

  // `at` is the byte it concerns, or kWholeFile.
  void add(std::size_t at, Fault fault);

  bool empty() const { return noted_.empty(); }
  std::size_t size() const { return noted_.size() + untold_; }
  bool full() const { return noted_.size() >= kMost; }

  // In the order of the text, with the file's name, line and column; those of the whole file last.
  std::vector<Fault> told(const std::string& file, std::string_view text) const;

 private:
  struct Noted {
    std::size_t at = 0;
    Fault fault;
  };

  std::vector<Noted> noted_;
  std::size_t untold_ = 0;
};

}  // namespace leeway
