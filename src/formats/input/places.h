#pragma once
// Where in the files the values of a setup stand.

#include <map>
#include <optional>
#include <vector>

#include "formats/json/json_file.h"
#include "leeway/validate.h"

namespace leeway {

// Kept while a setup is read, so that what validate() finds wrong can be told where it stands. What
// has no place could not be read, which has been noted, or was left out; nothing is told of it.
class Places {
 public:
  void put(SetupPlace place, JsonValue value) { values_.insert_or_assign(place, value); }

  // A ring of the shape at `place`. `kept` says which points of `points` its vertices are; nothing
  // where these have no places of their own.
  void put_ring(SetupPlace place, JsonValue value, const std::vector<std::size_t>& kept);

  // Notes each fault at its place; how many had one.
  std::size_t note(const std::vector<SetupFault>& faults) const;

 private:
  struct RingPlace {
    JsonValue value;
    std::vector<JsonValue> points;  // of its vertices, where these have places
  };

  std::optional<JsonValue> find(const SetupPlace& place) const;
  std::optional<JsonValue> find_vertex(const SetupPlace& place) const;

  std::map<SetupPlace, JsonValue> values_;
  std::map<SetupPlace, RingPlace> rings_;
};

// Notes one fault at a value.
void note(JsonValue value, const SetupFault& fault);

}  // namespace leeway
