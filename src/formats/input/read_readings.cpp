#include "leeway/read_readings.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "formats/input/csv_table.h"
#include "formats/text/names.h"
#include "formats/text/spelling.h"

namespace leeway {
namespace {

const CsvKind kReadingsKind = {
    {"nozzle_x", "nozzle_y", "probe_x", "probe_y", "label", "edge"},
    4,
    "readings",
    "no-readings",
    "nozzle_x, nozzle_y, probe_x and probe_y in the first line, and label and edge if you like",
    "a pair a line",
    kMostReadings};
constexpr std::size_t kProbe = 2;  // its x; then its y
constexpr std::size_t kLabel = 4;
constexpr std::size_t kEdge = 5;

// In the order of an axis: from its low end, from its high end.
constexpr std::array<std::string_view, 4> kEdges = {"left", "right", "front", "back"};

// A reading as its rows come in.
struct Gathered {
  Reading reading;
  std::size_t at = 0;                          // in the file
  std::array<std::optional<double>, 4> edges;  // probe readings, as kEdges
  bool by_edges = false;
};

class ReadingsReader {
 public:
  explicit ReadingsReader(const SourceFile& source) : table_(source, kReadingsKind) {
    for (std::size_t row = 0; row < table_.rows().size(); ++row) read_row(row);
    for (Gathered& gathered : gathered_) {
      if (gathered.by_edges) close(gathered);
    }
    if (table_.faults().empty()) require_both_axes();
  }

  ReadReadings result() const {
    ReadReadings read;
    read.faults = table_.faults();
    if (!read.faults.empty()) return read;
    for (const Gathered& gathered : gathered_) read.readings.push_back(gathered.reading);
    return read;
  }

 private:
  std::string text(std::size_t row, std::size_t column) const {
    const std::optional<CsvCell>& cell = table_.rows()[row][column];
    return cell ? cell->text : "";
  }

  std::size_t at(std::size_t row, std::size_t column) const {
    return table_.rows()[row][column]->at;
  }

  void read_row(std::size_t row) {
    if (!text(row, kEdge).empty()) return read_edge(row);
    const auto nozzle_x = table_.number(row, 0);
    const auto nozzle_y = table_.number(row, 1);
    const auto probe_x = table_.number(row, kProbe);
    const auto probe_y = table_.number(row, kProbe + 1);
    if (!nozzle_x || !nozzle_y || !probe_x || !probe_y) return;
    Gathered& gathered = gathered_.emplace_back();
    gathered.reading.nozzle_over = {*nozzle_x, *nozzle_y};
    gathered.reading.probe_over = {*probe_x, *probe_y};
    gathered.reading.row = row + 1;
    const std::string label = text(row, kLabel);
    gathered.reading.label = !label.empty() ? label : fmt::format("row {}", row + 1);
  }

  // A row for an edge: its probe reading counts across the edge only.
  void read_edge(std::size_t row) {
    const std::string word = text(row, kEdge);
    const auto found = std::find(kEdges.begin(), kEdges.end(), word);
    if (found == kEdges.end()) {
      const WordList known{kEdges.begin(), kEdges.end()};
      table_.note(at(row, kEdge), "unknown-edge", fmt::format("the edge {}", in_quotes(word)),
                  listed(known) + ", or nothing", std::string(nearest_word(word, known)));
    }
    if (text(row, kLabel).empty()) {
      table_.note(at(row, kEdge), "edge-without-label", "an edge in a row without a label",
                  "a label: the rows of one label belong together");
    }
    const auto edge = static_cast<std::size_t>(found - kEdges.begin());
    const auto nozzle_x = table_.number(row, 0);
    const auto nozzle_y = table_.number(row, 1);
    const auto probe = edge < kEdges.size() ? table_.number(row, kProbe + edge / 2) : std::nullopt;
    if (!nozzle_x || !nozzle_y || !probe || text(row, kLabel).empty()) return;
    Gathered& gathered = of_label(row, {*nozzle_x, *nozzle_y});
    if (gathered.edges[edge]) {
      table_.note(
          at(row, kEdge), "edge-twice",
          fmt::format("the edge {} of {} a second time", word, in_quotes(gathered.reading.label)),
          "each edge of a label once");
    }
    gathered.edges[edge] = *probe;
  }

  Gathered& of_label(std::size_t row, Point nozzle) {
    const std::string label = text(row, kLabel);
    const auto [found, is_new] = by_label_.try_emplace(label, gathered_.size());
    if (!is_new) {
      Gathered& gathered = gathered_[found->second];
      if (!(gathered.reading.nozzle_over == nozzle)) {
        table_.note(at(row, 0), "another-place",
                    fmt::format("another place of the nozzle for {}", in_quotes(label)),
                    "the same nozzle_x and nozzle_y in all rows of a label with edges");
      }
      return gathered;
    }
    Gathered& gathered = gathered_.emplace_back();
    gathered.by_edges = true;
    gathered.at = at(row, kEdge);
    gathered.reading.label = label;
    gathered.reading.nozzle_over = nozzle;
    gathered.reading.row = row + 1;
    return gathered;
  }

  void close(Gathered& gathered) {
    std::array<double, 2> middle = {0, 0};
    for (std::size_t axis = 0; axis < 2; ++axis) {
      const std::optional<double>& low = gathered.edges[2 * axis];
      const std::optional<double>& high = gathered.edges[2 * axis + 1];
      gathered.reading.tells[axis] = low && high;
      if (low && high) middle[axis] = over_edge(*low, *high);
      if (low.has_value() == high.has_value()) continue;
      table_.note(gathered.at, "one-edge",
                  fmt::format("only the edge {} for {}", kEdges[2 * axis + (low ? 0 : 1)],
                              in_quotes(gathered.reading.label)),
                  fmt::format("a row for {} too: the middle is what counts",
                              kEdges[2 * axis + (low ? 1 : 0)]));
    }
    gathered.reading.probe_over = {middle[0], middle[1]};
  }

  void require_both_axes() {
    for (std::size_t axis = 0; axis < 2; ++axis) {
      const bool told =
          std::any_of(gathered_.begin(), gathered_.end(),
                      [axis](const Gathered& gathered) { return gathered.reading.tells[axis]; });
      if (told) continue;
      table_.note(FaultNotes::kWholeFile, "untold-axis",
                  fmt::format("no reading that tells the offset in {}", axis == 0 ? "x" : "y"),
                  fmt::format("rows for the edges {} and {}, or a row without an edge",
                              kEdges[2 * axis], kEdges[2 * axis + 1]));
    }
  }

  CsvTable table_;
  std::vector<Gathered> gathered_;
  std::map<std::string, std::size_t> by_label_;  // of those by edges
};

}  // namespace

ReadReadings read_readings(const SourceFile& source) { return ReadingsReader(source).result(); }

}  // namespace leeway
