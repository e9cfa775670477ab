#pragma once
// Reading a setup, with every fault of the files at once.

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "leeway/fault.h"
#include "leeway/setup.h"

namespace leeway {

inline constexpr std::size_t kLargestFile = 16u << 20;  // bytes
inline constexpr int kDeepestNesting = 64;

// A file that a setup names.
struct SourceFile {
  std::string name;      // to show to the user
  std::string identity;  // the same for the same file, however it was named
  std::string text;
  std::string problem;  // why it cannot be read; empty when it can
};

// Finds `path` as named in the file `from` (a SourceFile::name). The core reads no files itself.
using FileFinder = std::function<SourceFile(std::string_view path, std::string_view from)>;

struct ReadSetup {
  std::optional<Setup> setup;  // nothing when there are faults
  std::vector<Fault> faults;   // in the order of the files' lines
};

// Reads a setup (JSON with comments, RFC 8259 otherwise) and the profiles that it names.
//
//   const ReadSetup read = read_setup(file, finder);
//   for (const Fault& fault : read.faults) std::cerr << message(fault) << '\n';
//
// Nothing is guessed: a key or word that is not known is a fault with the nearest known spelling,
// and a setup with any fault is not given out. It never throws for what a file holds. Refused
// outright: files above kLargestFile, nesting beyond kDeepestNesting, text that is no UTF-8.
ReadSetup read_setup(const SourceFile& source, const FileFinder& finder);

}  // namespace leeway
