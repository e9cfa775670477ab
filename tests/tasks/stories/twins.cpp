#include "tasks/stories/twins.h"

#include <algorithm>
#include <utility>

#include "leeway/validate.h"
#include "tasks/stories/true_machine.h"

namespace leeway {
namespace {

Frame other_frame(Frame frame) { return frame == Frame::probe ? Frame::nozzle : Frame::probe; }

Box exchanged(const Box& b) { return {b.y0, b.y1, b.x0, b.x1}; }

struct Undone {
  const char* kind;
  void (*undo)(Setup&);
};

void other_margins(Setup& s, void (*change)(Margins&)) {
  if (!s.request.grid) return;
  if (Margins* m = std::get_if<Margins>(&s.request.grid->extent)) change(*m);
}
void other_bounds(Setup& s, Box (*change)(const Box&, const Box&)) {
  if (!s.request.grid) return;
  if (Box* b = std::get_if<Box>(&s.request.grid->extent)) {
    *b = change(*b, bounding_box(s.machine.bed));
  }
}
void turn(Shape& shape) {
  if (Box* box = std::get_if<Box>(&shape)) *box = exchanged(*box);
}

constexpr Undone kUndone[] = {
    {"sign of x", [](Setup& s) { s.probe.offset.x = -s.probe.offset.x; }},
    {"sign of y", [](Setup& s) { s.probe.offset.y = -s.probe.offset.y; }},
    {"both signs", [](Setup& s) { s.probe.offset = -s.probe.offset; }},
    {"axes swapped", [](Setup& s) { std::swap(s.probe.offset.x, s.probe.offset.y); }},
    {"axes as seen from the side",
     [](Setup& s) {
       s.probe.offset = {s.probe.offset.y, -s.probe.offset.x};
     }},
    {"axes as seen from the side",
     [](Setup& s) {
       s.probe.offset = {-s.probe.offset.y, s.probe.offset.x};
     }},
    {"frame",
     [](Setup& s) {
       if (s.request.grid) s.request.grid->frame = other_frame(s.request.grid->frame);
     }},
    {"frame of home",
     [](Setup& s) {
       if (s.request.home) s.request.home->frame = other_frame(s.request.home->frame);
     }},
    {"margins from the travel",
     [](Setup& s) { other_margins(s, [](Margins& m) { m.from = Margins::From::bed; }); }},
    {"margins from the bed",
     [](Setup& s) { other_margins(s, [](Margins& m) { m.from = Margins::From::travel; }); }},
    {"margins exchanged",
     [](Setup& s) { other_margins(s, [](Margins& m) { std::swap(m.left, m.right); }); }},
    {"margins exchanged",
     [](Setup& s) { other_margins(s, [](Margins& m) { std::swap(m.front, m.back); }); }},
    {"y counted from the back",
     [](Setup& s) {
       other_bounds(s, [](const Box& b, const Box& bed) {
         const double sum = bed.y0 + bed.y1;
         return Box{b.x0, b.x1, sum - b.y1, sum - b.y0};
       });
     }},
    {"x and y of the bounds exchanged",
     [](Setup& s) { other_bounds(s, [](const Box& b, const Box&) { return exchanged(b); }); }},
    {"width and depth exchanged", [](Setup& s) { turn(s.machine.bed); }},
    {"width and depth exchanged", [](Setup& s) { turn(s.machine.travel); }},
};

std::optional<Box> asked(const Setup& s) {
  if (s.request.grid) return grid_bounds_for_probe(s, *s.request.grid);
  if (s.request.points.empty()) return std::nullopt;
  Box box{1e9, -1e9, 1e9, -1e9};
  for (const NamedPoint& point : s.request.points) {
    const Point at = probe_position(point.at, point.frame, s.probe.offset);
    box = {std::min(box.x0, at.x), std::max(box.x1, at.x), std::min(box.y0, at.y),
           std::max(box.y1, at.y)};
  }
  return box;
}

// What is left all round between what is asked for and what the probe reaches.
double left_over(const Setup& s) {
  const std::optional<Box> box = asked(s);
  if (!box) return 0;
  const Box reach = reach_box(s);
  return reach.width() - box->width() + reach.depth() - box->depth();
}

}  // namespace

bool has_twin(const std::string& kind, const Story& story) {
  constexpr double kAsClose = 2;  // mm, all sides together
  const double close = left_over(story.truth) + kAsClose;
  return std::any_of(std::begin(kUndone), std::end(kUndone), [&](const Undone& undone) {
    if (undone.kind == kind) return false;
    Setup setup = story.stated;
    undone.undo(setup);
    if (setup == story.stated) return false;
    return validate(setup).empty() && !fails(setup) && left_over(setup) <= close;
  });
}

}  // namespace leeway
