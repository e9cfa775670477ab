#include "leeway/read_candidates.h"

#include <fmt/format.h>

#include <map>

#include "formats/input/csv_table.h"
#include "formats/json/json_file.h"
#include "formats/text/names.h"
#include "leeway/read_probe.h"

namespace leeway {
namespace {

const CsvKind kCandidatesKind = {{"x", "y", "name", "probe"},
                                 3,
                                 "candidates",
                                 "no-candidates",
                                 "name, x and y in the first line",
                                 "a candidate a line",
                                 kMostCandidates};
constexpr std::size_t kName = 2;
constexpr std::size_t kOwnProbe = 3;

// Each file is read once, and its faults told once.
class ProbeFiles {
 public:
  ProbeFiles(const SourceFile& from, const FileFinder& finder) : from_(from), finder_(finder) {}

  std::optional<Probe> read(const CsvCell& cell, CsvTable& table) {
    const auto [known, is_new] = probes_.try_emplace(cell.text);
    if (!is_new) return known->second;
    const SourceFile file = finder_(cell.text, from_.name);
    if (!file.problem.empty()) {
      table.note(
          cell.at, "cannot-read",
          fmt::format("the file {}, which cannot be read: {}", in_quotes(cell.text), file.problem),
          "a probe file, from the table's own folder");
      return std::nullopt;
    }
    ReadProbe read = read_probe(file, finder_);
    faults_.insert(faults_.end(), read.faults.begin(), read.faults.end());
    if (read.probe && read.probe->name.empty()) read.probe->name = cell.text;
    known->second = read.probe;
    return read.probe;
  }

  const std::vector<Fault>& faults() const { return faults_; }

 private:
  const SourceFile& from_;
  const FileFinder& finder_;
  std::map<std::string, std::optional<Probe>> probes_;
  std::vector<Fault> faults_;
};

}  // namespace

ReadCandidates read_candidates(const SourceFile& source, const FileFinder& finder) {
  CsvTable table(source, kCandidatesKind);
  ReadCandidates read;
  std::map<std::string, std::size_t> rows;
  ProbeFiles probes(source, finder);
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
    const std::optional<CsvCell>& probe = table.rows()[row][kOwnProbe];
    Candidate candidate;
    if (probe && !probe->text.empty()) candidate.probe = probes.read(*probe, table);
    candidate.name = name.text;
    if (x && y) candidate.offset = {*x, *y};
    read.candidates.push_back(std::move(candidate));
  }
  read.faults = table.faults();
  read.faults.insert(read.faults.end(), probes.faults().begin(), probes.faults().end());
  if (!read.faults.empty()) read.candidates.clear();
  return read;
}

}  // namespace leeway
