#include "leeway/read_candidates.h"

#include <map>

#include "formats/input/csv_table.h"
#include "formats/json/json_file.h"
#include "formats/text/names.h"

namespace leeway {
namespace {

const CsvKind kCandidatesKind = {{"x", "y", "name"},
                                 3,
                                 "candidates",
                                 "no-candidates",
                                 "name, x and y in the first line",
                                 "a candidate a line",
                                 kMostCandidates};
constexpr std::size_t kName = 2;

}  // namespace

ReadCandidates read_candidates(const SourceFile& source) {
  CsvTable table(source, kCandidatesKind);
  ReadCandidates read;
  std::map<std::string, std::size_t> rows;
  for (std::size_t row = 0; row < table.rows().size(); ++row) {
    const CsvCell& name = *table.rows()[row][kName];
    if (name.text.empty()) {
      table.note(name.at, "empty-name", "a candidate without a name", "a name");
    } else if (!rows.emplace(name.text, row).second) {
      table.note(name.at, "duplicate-name", "a second candidate " + in_quotes(name.text),
                 "names that differ");
    }
    const auto x = table.number(row, 0);
    const auto y = table.number(row, 1);
    if (x && y) read.candidates.push_back({name.text, {*x, *y}});
  }
  read.faults = table.faults();
  if (!read.faults.empty()) read.candidates.clear();
  return read;
}

}  // namespace leeway
