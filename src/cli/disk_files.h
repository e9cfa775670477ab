#pragma once
// The files that a setup is read from.

#include <set>
#include <string>
#include <string_view>

#include "leeway/read_setup.h"

namespace leeway {

class DiskFiles {
 public:
  // The file that a user named on the command line; "-" is standard input. Reads no more than one
  // byte over kLargestFile. What went wrong is in SourceFile::problem.
  SourceFile setup(const std::string& path);

  // A file named within another one, relative to that file's folder (for standard input, to the
  // current folder). Only ordinary files are read: a name in a setup that came from elsewhere
  // must not make the program wait for a device or a pipe.
  SourceFile profile(std::string_view path, std::string_view from);

  FileFinder finder();

  // Whether `path` leads to a file that was read, by whichever name.
  bool has_read(const std::string& path) const;

 private:
  std::set<std::string> identities_;
};

}  // namespace leeway
