#include "formats/fault/fault_notes.h"

#include <algorithm>

#include "formats/text/utf8.h"

namespace leeway {

Fault fault_of(std::string code, std::string found, std::string allowed, std::string nearest) {
  Fault fault;
  fault.code = std::move(code);
  fault.found = std::move(found);
  fault.allowed = std::move(allowed);
  fault.nearest = std::move(nearest);
  return fault;
}

void FaultNotes::add(std::size_t at, Fault fault) {
  if (full()) {
    ++untold_;
  } else {
    noted_.push_back({at, std::move(fault)});
  }
}

std::vector<Fault> FaultNotes::told(const std::string& file, std::string_view text) const {
  std::vector<const Noted*> order;
  for (const Noted& noted : noted_) order.push_back(&noted);
  // Stable: of two faults at one place the one that was found first is the cause.
  std::stable_sort(order.begin(), order.end(),
                   [](const Noted* a, const Noted* b) { return a->at < b->at; });
  LineCounter lines(text);
  std::vector<Fault> faults;
  for (const Noted* noted : order) {
    faults.push_back(noted->fault);
    if (noted->at == kWholeFile) continue;
    const LineColumn place = lines.at(noted->at);
    faults.back().line = place.line;
    faults.back().column = place.column;
  }
  if (untold_ > 0) {
    faults.push_back(fault_of("more-faults", std::to_string(untold_) + " further faults", {}));
  }
  for (Fault& fault : faults) fault.file = file;
  return faults;
}

}  // namespace leeway
