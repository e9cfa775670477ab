#include <fmt/format.h>

#include <algorithm>

#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/text/summary.h"
#include "formats/text/table.h"
#include "formats/walk/walk_view.h"
#include "formats/write/check_view.h"
#include "leeway/write_walk.h"

namespace leeway {
namespace {

class ChecklistWriter {
 public:
  ChecklistWriter(const WalkResult& result, const Rig& rig, const WalkProgramOptions& options,
                  const TextSink& sink)
      : result_(result), rig_(rig), words_(rig, text_name), options_(options), sink_(sink) {}

  void write() {
    sink_(paragraph(headline()));
    before();
    stops();
    after();
    for (const std::string& sentence : left_out()) sink_("\n" + paragraph(sentence));
    sink_("\n" + paragraph(caution()));
  }

 private:
  std::string headline() const {
    const std::string name = setup_name(result_.check, words_);
    const std::size_t count = result_.stops.size();
    return fmt::format("{}: a walk over {} of {}, the nozzle {} above the bed all the way.", name,
                       count, counted(count + result_.left_out.size(), "point"),
                       height_words(result_));
  }

  std::string height_sentence() const {
    const std::string least = decimal(result_.least);
    if (!result_.safe.why || result_.least > *result_.safe.least + 0.001) {
      return fmt::format("The nozzle must be at least {} above the bed for this walk.", least);
    }
    return fmt::format("The nozzle must be at least {} above the bed for this walk: lower, {}.",
                       least, words_.stop(*result_.safe.why));
  }

  void tick(const std::string& sentence) { sink_("  [ ] " + paragraph(sentence, 6).substr(6)); }

  void before() {
    sink_("\nBefore you start it:\n\n");
    tick("The machine is cold, and you have read its manual.");
    tick("One hand is at the power switch. Nothing and nobody is in the way of the head.");
    tick("Z 0 is where the nozzle touches the bed.");
    tick("The controller counts in mm, and positions are absolute.");
    for (const Obstacle& obstacle : rig_.setup().machine.obstacles) {
      const Box box = bounding_box(obstacle.shape);
      tick(fmt::format("{} lies from {} to {} in x and from {} to {} in y{}.",
                       words_.name(obstacle.name), decimal(box.x0), decimal(box.x1),
                       decimal(box.y0), decimal(box.y1),
                       obstacle.height == kUnlimitedHeight
                           ? "; its height is not stated, so that nothing passes over it"
                           : fmt::format(", and is {} high", decimal(obstacle.height))));
    }
    tick(fmt::format("The nozzle is at x {}, y {}, and no higher than {}. The first move goes up.",
                     decimal(start().x), decimal(start().y), height_words(result_)));
    sink_("\n" + paragraph(height_sentence()));
  }
  Point start() const { return result_.from ? *result_.from : result_.stops.front().nozzle; }

  std::string pause_sentence() const {
    if (!pauses(options_)) return "It does not wait at the stops.";
    if (options_.pause.kind == WalkPause::Kind::stop) {
      return "It stops at each stop until you go on.";
    }
    return fmt::format("It waits {} s at each stop.", decimal(options_.pause.seconds));
  }

  void stops() {
    sink_("\n" + paragraph(pause_sentence()));
    sink_("\nAt each stop, in this order, look where the probe is. In mm:\n\n");
    Table table({"", "stop", "nozzle", "probe", "on the bed", "leeway, and to what"});
    std::size_t number = 0;
    std::vector<std::string> turning;
    for (const WalkStop& stop : result_.stops) {
      if (!stop.via.empty()) turning.push_back(std::to_string(number + 1));
      table.add(" ", {fmt::format("[ ] {}", ++number), stop_name(stop, result_, rig_, words_),
                      pair(stop.nozzle), pair(rounded_place(stop.probe)), seen_at(stop, rig_),
                      fmt::format("{}, {}", at_most(std::max(0.0, stop.finding.leeway)),
                                  words_.where(stop.finding.limit))});
    }
    table.write(sink_);
    if (!turning.empty()) {
      sink_("\n" + paragraph(fmt::format("On the way to stop {} it goes round what no height "
                                         "clears.",
                                         joined(turning))));
    }
  }
  static Point rounded_place(Point p) { return {rounded(p.x), rounded(p.y)}; }
  void after() {
    if (result_.end) {
      sink_("\n" + paragraph(fmt::format("It ends above the middle of the bed, the nozzle at {}.",
                                         pair(result_.end->nozzle))));
    } else {
      sink_("\n" + paragraph("It ends at the last stop: no clear way leads to the middle of the "
                             "bed."));
    }
    sink_("\n" + paragraph("Where you see it elsewhere, stop. Measure the offset and the travel "
                           "again."));
  }

  std::vector<std::string> left_out() const {
    std::vector<std::string> out;
    add_left_out(WalkLeftOut::Why::not_reachable, "they are not reachable beyond doubt", out);
    add_left_out(WalkLeftOut::Why::rounding, "they are reachable, but not in whole thousandths",
                 out);
    add_left_out(WalkLeftOut::Why::no_way, "what no height clears lies between", out);
    return out;
  }
  void add_left_out(WalkLeftOut::Why why, const char* because,
                    std::vector<std::string>& out) const {
    constexpr std::size_t kMostLeftNamed = 12;
    std::vector<std::string> names;
    std::size_t count = 0;
    for (const WalkLeftOut& left : result_.left_out) {
      if (left.why != why) continue;
      if (++count <= kMostLeftNamed) {
        names.push_back(words_.name(point_name(rig_.setup(), result_.check.points[left.point])));
      }
    }
    if (count == 0) return;
    if (count > kMostLeftNamed) names.push_back(fmt::format("{} more", count - kMostLeftNamed));
    out.push_back(fmt::format("Left out, because {}: {}.", because, joined(names)));
  }

  const WalkResult& result_;
  const Rig& rig_;
  Words words_;
  const WalkProgramOptions& options_;
  const TextSink& sink_;
};

}  // namespace

void write_walk_checklist(const WalkResult& result, const Rig& rig,
                          const WalkProgramOptions& options, const TextSink& sink) {
  ChecklistWriter(result, rig, options, sink).write();
}

}  // namespace leeway
