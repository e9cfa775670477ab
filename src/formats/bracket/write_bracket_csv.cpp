#include <cmath>

#include "formats/bracket/bracket_view.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "geometry/plane/assert.h"

namespace leeway {
namespace {

void write_map(const CoverageMap& map, const TextSink& sink) {
  std::string text = map.points > 0 ? "x,y,points\r\n" : "x,y,coverage\r\n";
  for (int row = 0; row < map.y.count; ++row) {
    for (int column = 0; column < map.x.count; ++column) {
      const double share = map.at(column, row);
      text += shortest(map.x.at(column)) + ',' + shortest(map.y.at(row)) + ',';
      if (map.is_open(column, row)) {
        text +=
            shortest(map.points > 0 ? std::round(share * static_cast<double>(map.points)) : share);
      }
      text += "\r\n";
    }
    sink(text);
    text.clear();
  }
}

std::string csv_number(const std::optional<double>& value) {
  return value && std::isfinite(*value) ? shortest(*value) : "";
}

void write_candidates_csv(const BracketReport& report, const TextSink& sink) {
  sink(
      "rank,name,x,y,setup,coverage,uncovered_left,uncovered_right,uncovered_front,uncovered_back,"
      "grid_left,"
      "grid_right,grid_front,grid_back,leeway,points,failing,missed,mount,probe\r\n");
  for (const RankedCandidate& ranked : report.candidates) {
    for (std::size_t s = 0; s < ranked.covers.size(); ++s) {
      const CandidateCover& cover = ranked.covers[s];
      std::string line = std::to_string(ranked.rank);
      const auto add = [&line](const std::string& field) { line += ',' + field; };
      add(csv_text(ranked.candidate.name));
      add(shortest(ranked.candidate.offset.x));
      add(shortest(ranked.candidate.offset.y));
      add(csv_text(report.setups[s].name));
      add(csv_number(cover.share));
      for (const double strip : {cover.uncovered.left, cover.uncovered.right, cover.uncovered.front,
                                 cover.uncovered.back}) {
        add(shortest(strip));
      }
      if (cover.mesh) {
        const Box& b = cover.mesh->bounds;
        for (const double side : {b.x0, b.x1, b.y0, b.y1}) add(shortest(side));
      } else {
        line += ",,,,";
      }
      add(csv_number(cover.leeway));
      add(std::to_string(cover.points));
      add(std::to_string(cover.failing));
      std::string missed;
      for (const std::string& name : missed_names(cover, report.setups[s])) {
        missed += (missed.empty() ? "" : "; ") + name;
      }
      add(csv_text(missed));
      add(csv_text(cover.mount));
      add(csv_text(ranked.candidate.probe ? ranked.candidate.probe->name : ""));
      sink(line + "\r\n");
    }
  }
}

}  // namespace

void write_bracket_csv(const BracketReport& report, const TextSink& sink) {
  LEEWAY_ASSERT(report.map || !report.candidates.empty());
  if (report.map) {
    write_map(*report.map, sink);
  } else {
    write_candidates_csv(report, sink);
  }
}

}  // namespace leeway
