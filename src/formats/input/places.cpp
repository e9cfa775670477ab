#include "formats/input/places.h"

#include "formats/input/setup_words.h"

namespace leeway {

void Places::put_ring(SetupPlace place, JsonValue value, const std::vector<std::size_t>& kept) {
  RingPlace ring{value, {}};
  if (!kept.empty()) {
    const std::vector<JsonValue> points = value.children();
    for (const std::size_t i : kept) ring.points.push_back(points[i]);
  }
  rings_.insert_or_assign(place, std::move(ring));
}

std::optional<JsonValue> Places::find(const SetupPlace& place) const {
  if (place.detail == SetupDetail::ring) {
    const auto found = rings_.find(place);
    return found == rings_.end() ? std::nullopt : std::optional<JsonValue>(found->second.value);
  }
  if (place.detail == SetupDetail::vertex_x || place.detail == SetupDetail::vertex_y) {
    return find_vertex(place);
  }
  const auto found = values_.find(place);
  return found == values_.end() ? std::nullopt : std::optional<JsonValue>(found->second);
}

std::optional<JsonValue> Places::find_vertex(const SetupPlace& place) const {
  SetupPlace ring = place;
  ring.detail = SetupDetail::ring;
  ring.vertex = 0;
  const auto found = rings_.find(ring);
  if (found == rings_.end()) return std::nullopt;
  const RingPlace& there = found->second;
  if (place.vertex >= there.points.size()) return there.value;
  const JsonValue point = there.points[place.vertex];
  const std::vector<JsonValue> numbers = point.children();
  if (!point.is(JsonKind::array) || numbers.size() != 2) return std::nullopt;
  const JsonValue number = numbers[place.detail == SetupDetail::vertex_x ? 0 : 1];
  return number.is(JsonKind::number) ? std::optional<JsonValue>(number) : std::nullopt;
}

std::size_t Places::note(const std::vector<SetupFault>& faults) const {
  std::size_t told = 0;
  for (const SetupFault& fault : faults) {
    if (const auto value = find(fault.place)) {
      leeway::note(*value, fault);
      ++told;
    }
  }
  return told;
}

void note(JsonValue value, const SetupFault& fault) {
  Fault told = in_words(fault);
  value.fault(std::move(told.code), std::move(told.found), std::move(told.allowed));
}

}  // namespace leeway
