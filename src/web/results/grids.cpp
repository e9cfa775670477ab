// Several grids side by side.

#include "web/results/grids.h"

#include <array>

#include "formats/compare/comparison_view.h"
#include "formats/text/names.h"
#include "formats/typed/typed_grids.h"
#include "leeway/write_comparison.h"
#include "web/results/text_so_far.h"
#include "web/setup/differences.h"
#include "web/setup/field_faults.h"

namespace leeway {
namespace {

Json compared_json(const ComparedGrid& grid, const Setup& setup, const Words& words) {
  Json out{{"cells", comparison_cells(grid)}};
  if (!grid.mesh) out["says"] = misfit_words(grid, words);
  out["changes"] = grid.mesh ? changes_between(setup, with_mesh(setup, *grid.mesh)) : Json();
  return out;
}

}  // namespace

Json answer_grids(Session& session, WebRequest& asked, const TypedFit& typed) {
  using Writer = decltype(&write_comparison_text);
  static constexpr std::array<WebFormat<Writer>, 3> kFormats{
      {{"text", write_comparison_text},
       {"json", write_comparison_json},
       {"markdown", write_comparison_markdown}}};
  const WebFormat<Writer>& format = format_asked(asked, kFormats);
  asked.done();
  const ReadGrids wanted = typed_grids(typed);
  if (wanted.fault) throw Refused({field_fault(*wanted.fault)});
  TypedFit besides = typed;
  besides.columns = besides.rows = besides.spacing = "";
  const ReadFit read = typed_fit(besides);
  if (read.fault) throw Refused({field_fault(*read.fault)});
  FitOptions options = read.options;
  options.progress = session.progress();
  const Rig& rig = session.rig();
  const std::vector<ComparedGrid> grids = compare_grids(rig, wanted.wanted, options);
  TextSoFar text(format.name);
  format.write(grids, rig, text.sink());
  Json out = text.answer(grids.front().mesh && grids.front().moves_clear);
  const Words words(rig, text_name);
  out["says"] = comparison_summary(grids, compared_name(rig, words));
  out["heads"] = comparison_heads();
  out["grids"] = Json::array();
  for (const ComparedGrid& grid : grids) {
    out["grids"].push_back(compared_json(grid, rig.setup(), words));
  }
  return out;
}

}  // namespace leeway
