#pragma once
// One file of the user's: its values, and the faults found in it.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "formats/fault/fault_notes.h"
#include "formats/json/json_tree.h"
#include "formats/json/json_walk.h"
#include "geometry/plane/assert.h"
#include "leeway/fault.h"
#include "leeway/read_setup.h"

namespace leeway {

class JsonFile;

// A value in a JsonFile. Valid as long as the file, which must not move.
class JsonValue {
 public:
  JsonValue(JsonFile* file, std::uint32_t id) : file_(file), id_(id) {}

  JsonKind kind() const { return node().kind; }
  bool is(JsonKind kind) const { return node().kind == kind; }
  double number() const {  // REQUIRES: a number or boolean
    LEEWAY_ASSERT(is(JsonKind::number) || is(JsonKind::boolean));
    return node().number;
  }
  const std::string& text() const;          // REQUIRES: a string
  const std::string& key() const;           // REQUIRES: a member of an object
  std::vector<JsonValue> children() const;  // items or members, in order
  JsonFile& file() const { return *file_; }

  // Notes a fault at this value, or at its key.
  void fault(std::string code, std::string found, std::string allowed,
             std::string nearest = {}) const;
  void key_fault(std::string code, std::string found, std::string allowed,
                 std::string nearest = {}) const;

 private:
  const JsonNode& node() const;

  JsonFile* file_;
  std::uint32_t id_;
};

// "the number 5", `the text "abc"`, "an array of 3 values".
std::string describe(JsonValue value);

class JsonFile {
 public:
  // Parses; what is wrong with the file as a whole, and numbers that are not finite, are noted.
  explicit JsonFile(SourceFile source);
  JsonFile(const JsonFile&) = delete;
  JsonFile& operator=(const JsonFile&) = delete;

  const SourceFile& source() const { return source_; }
  const JsonTree& tree() const { return tree_; }
  std::optional<JsonValue> root();  // nothing where the file is not JSON

  void note(std::uint32_t node, bool at_key, Fault fault);
  bool has_faults() const { return !notes_.empty(); }

  // With pointer, line and column, in the order of the lines.
  std::vector<Fault> faults() const { return notes_.told(source_.name, source_.text); }

 private:
  void parse();
  void explain(std::size_t stopped_at);
  void note_not_finite(std::vector<Fault> blots);
  void note_file(std::string code, std::string found, std::string allowed);
  bool check_encoding();
  std::string pointer(std::uint32_t node) const;
  std::string array_hint(std::uint32_t node) const;

  SourceFile source_;
  JsonTree tree_;
  bool parsed_ = false;
  std::optional<JsonWalk> walk_;  // once something is wrong
  FaultNotes notes_;
};

}  // namespace leeway
