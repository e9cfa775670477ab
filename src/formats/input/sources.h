#pragma once
// The files that make up a setup: itself and the profiles it names.

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "formats/input/fields.h"
#include "formats/json/json_file.h"
#include "leeway/read_setup.h"

namespace leeway {

enum class FileKind { setup, machine, probe };

// "setup", "machine", "probe".
std::string_view word(FileKind kind);

class Sources {
 public:
  Sources(const SourceFile& setup, const FileFinder& finder);

  JsonFile& setup() { return *files_.front(); }

  // The file named by a text value; null, with a note at the value, where there is none to be had
  // or where it is one of the files by which the value was reached. Faults inside the file are
  // the file's.
  JsonFile* open(JsonValue path, FileKind kind);

  bool has_faults() const;

  // All faults, file by file in the order in which they were opened.
  std::vector<Fault> faults() const;

  static constexpr std::size_t kLongestChain = 16;

 private:
  const FileFinder& finder_;
  std::vector<std::unique_ptr<JsonFile>> files_;
  std::vector<std::size_t> reached_from_;  // beside files_; the setup from itself
};

// Whether the member "format" of an object shows that it is of another kind, which is noted: then
// nothing else in it is worth reading.
bool is_other_kind(JsonValue object, FileKind kind);

// Checks the member "format". It may be absent from a setup, and from an object written inside
// another file.
void check_format(const Fields& fields, FileKind kind, bool is_file);

}  // namespace leeway
