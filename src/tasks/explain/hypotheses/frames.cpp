// Numbers for the probe taken for the nozzle's, and the other way round.

#include "tasks/explain/hypotheses/mistake_table.h"

namespace leeway {
namespace {

Frame other(Frame frame) { return frame == Frame::probe ? Frame::nozzle : Frame::probe; }

}  // namespace

void add_frames(Trials& trials) {
  const Request& request = trials.setup().request;
  Changes grid;
  if (request.grid) grid.push_back(GridFrame{other(request.grid->frame)});
  Changes points;
  for (std::size_t i = 0; i < request.points.size(); ++i) {
    points.push_back(PointFrame{i, other(request.points[i].frame)});
  }
  trials.add(Mistake::frame, grid);
  trials.add(Mistake::frame, points, 0.5);
  if (!grid.empty() && !points.empty()) trials.add(Mistake::frame, together(grid, points), 0.5);
  if (request.home) trials.add(Mistake::home_frame, {HomeFrame{other(request.home->frame)}});
}

}  // namespace leeway
