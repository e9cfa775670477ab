// Three lists of the keys of setups, held together: the tables in profiles/README.md, the schemas
// beside it, and what the reader says is allowed.

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "formats/disk_files.h"

namespace leeway {
namespace {

using Json = nlohmann::json;
using Keys = std::set<std::string>;

std::string text_of(const std::string& folder, const std::string& name) {
  const SourceFile file = file_from_disk(source_folder(folder), name);
  EXPECT_EQ(file.problem, "") << name;
  return file.text;
}

struct Schemas {
  const Json setup = Json::parse(text_of("profiles/schema", "setup.schema.json"));
  const Json machine = Json::parse(text_of("profiles/schema", "machine.schema.json"));
  const Json probe = Json::parse(text_of("profiles/schema", "probe.schema.json"));

  const Json& file(const std::string& name) const {
    return name == "machine.schema.json" ? machine : name == "probe.schema.json" ? probe : setup;
  }
  const Json& definition(const std::string& file_name, const char* name) const {
    return file(file_name).at("$defs").at(name);
  }
};

const Schemas& schemas() {
  static const Schemas all;
  return all;
}

// A schema, and the file in which its references count.
struct Node {
  const Json* schema;
  const Json* file;
};

// What describes an object: past references, "a text or else ...", and "all of ...".
Node resolved(Node node) {
  for (;;) {
    const Json& schema = *node.schema;
    if (schema.contains("properties")) return node;
    if (schema.contains("$ref")) {
      const std::string ref = schema.at("$ref");
      const std::size_t hash = ref.find('#');
      if (hash > 0) node.file = &schemas().file(ref.substr(0, hash));
      node.schema = &node.file->at(Json::json_pointer(ref.substr(hash + 1)));
    } else if (schema.contains("else")) {
      node.schema = &schema.at("else");
    } else if (schema.contains("allOf")) {
      node.schema = &schema.at("allOf").at(0);
    } else if (schema.contains("items")) {
      node.schema = &schema.at("items");
    } else {
      return node;
    }
  }
}

// Those that have a table of their own.
bool has_own_table(const Json* schema) {
  const Schemas& s = schemas();
  return schema == &s.definition("machine.schema.json", "shape") ||
         schema == &s.definition("machine.schema.json", "machine") ||
         schema == &s.definition("probe.schema.json", "probe") ||
         schema == &s.definition("setup.schema.json", "grid");
}

void collect(Node node, const std::string& prefix, Keys& keys) {
  for (const auto& [key, schema] : node.schema->at("properties").items()) {
    keys.insert(prefix + key);
    const Node below = resolved({&schema, node.file});
    if (!below.schema->contains("properties") || has_own_table(below.schema)) continue;
    collect(below, prefix + key + ".", keys);
  }
}

Keys keys_of_schema(const Json& schema, const Json& file) {
  Keys keys;
  collect({&schema, &file}, "", keys);
  return keys;
}

// The first column of the table below a heading of profiles/README.md.
Keys keys_of_table(const std::string& heading) {
  const std::string text = text_of("profiles", "README.md");
  const std::size_t begin = text.find("\n## " + heading + "\n");
  EXPECT_NE(begin, std::string::npos) << heading;
  std::istringstream lines(text.substr(begin, text.find("\n## ", begin + 1) - begin));
  Keys keys;
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind("| `", 0) != 0) continue;
    EXPECT_TRUE(keys.insert(line.substr(3, line.find('`', 3) - 3)).second) << line;
  }
  return keys;
}

TEST(DocumentedKeys, OfTablesAreThoseOfTheSchemas) {
  const Schemas& s = schemas();
  EXPECT_EQ(keys_of_table("A setup"), keys_of_schema(s.setup, s.setup));
  EXPECT_EQ(keys_of_table("A grid"),
            keys_of_schema(s.definition("setup.schema.json", "grid"), s.setup));
  EXPECT_EQ(keys_of_table("A probe"),
            keys_of_schema(s.definition("probe.schema.json", "probe"), s.probe));
  EXPECT_EQ(keys_of_table("A machine"),
            keys_of_schema(s.definition("machine.schema.json", "machine"), s.machine));
  EXPECT_EQ(keys_of_table("A shape"),
            keys_of_schema(s.definition("machine.schema.json", "shape"), s.machine));
}

// What the reader allows beside an unknown key at that place.
Keys keys_of_reader(Json setup, const Json::json_pointer& at) {
  setup[at]["zzzz"] = 1;
  const ReadSetup read = read_setup({"setup.json", "setup.json", setup.dump(), {}},
                                    finder_in(source_folder("tests/cases/good")));
  for (const Fault& fault : read.faults) {
    if (fault.pointer != (at / "zzzz").to_string()) continue;
    Keys keys;
    std::istringstream words(fault.allowed);
    for (std::string word; std::getline(words >> std::ws, word, ',');) keys.insert(word);
    return keys;
  }
  ADD_FAILURE() << at.to_string() << ": an unknown key is not told";
  return {};
}

// Compares them at every object of a setup; returns at how many.
int compare(const Json& setup, const Json::json_pointer& at, Node node) {
  const Json& here = setup[at];
  int objects = 0;
  if (here.is_array()) {
    for (std::size_t i = 0; i < here.size(); ++i) objects += compare(setup, at / i, node);
  }
  if (!here.is_object()) return objects;
  node = resolved(node);
  const Json& properties = node.schema->at("properties");
  if (node.schema != &schemas().definition("machine.schema.json", "shape")) {
    Keys keys;
    for (const auto& [key, schema] : properties.items()) keys.insert(key);
    EXPECT_EQ(keys_of_reader(setup, at), keys) << at.to_string();
    ++objects;
  }
  for (const auto& [key, value] : here.items()) {
    objects += compare(setup, at / key, {&properties.at(key), node.file});
  }
  return objects;
}

TEST(DocumentedKeys, OfTheReaderAreThoseOfTheSchemas) {
  const std::string text = text_of("tests/cases/good", "everything.json");
  const Json setup = Json::parse(text, nullptr, true, true);
  EXPECT_GT(compare(setup, Json::json_pointer(), {&schemas().setup, &schemas().setup}), 20);
}

}  // namespace
}  // namespace leeway
