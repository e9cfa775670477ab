#pragma once
// Every number of a setup, by the words of its place.

#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "model/setups.h"

namespace leeway {

// One of each: rectangles, discs, polygons with a hole, a body, an envelope, points, home.
inline Setup full_setup() {
  Setup setup = godwit();
  setup.machine.bed =
      polygon({{0, 0}, {230, 0}, {230, 210}, {0, 210}}, {{{100, 100}, {110, 100}, {110, 110}}});
  setup.machine.obstacles.push_back({"handle", Disc{{220, 200}, 3}, 4, 0.5});
  setup.mount.envelope = Box{-60, 60, -60, 60};
  setup.mount.keep_clear = {{"belt", Box{-80, 80, 30, 34}}};
  setup.machine.head[0].top = 60;
  setup.probe.body->top = 40;
  return setup;
}

struct SetupNumber {
  std::string place;  // words(SetupPlace)
  std::function<double&(Setup&)> in;
};

inline Box& box(Shape& shape) { return std::get<Box>(shape); }
inline void add_box(const std::string& place, const std::function<Box&(Setup&)>& in,
                    std::vector<SetupNumber>& numbers) {
  numbers.push_back({place + ".x0", [in](Setup& s) -> double& { return in(s).x0; }});
  numbers.push_back({place + ".x1", [in](Setup& s) -> double& { return in(s).x1; }});
  numbers.push_back({place + ".y0", [in](Setup& s) -> double& { return in(s).y0; }});
  numbers.push_back({place + ".y1", [in](Setup& s) -> double& { return in(s).y1; }});
}
inline void add_point(const std::string& place, const std::function<Point&(Setup&)>& in,
                      std::vector<SetupNumber>& numbers) {
  numbers.push_back({place + ".x", [in](Setup& s) -> double& { return in(s).x; }});
  numbers.push_back({place + ".y", [in](Setup& s) -> double& { return in(s).y; }});
}
inline void add_disc(const std::string& place, const std::function<Disc&(Setup&)>& in,
                     std::vector<SetupNumber>& numbers) {
  add_point(
      place + ".center", [in](Setup& s) -> Point& { return in(s).center; }, numbers);
  numbers.push_back({place + ".radius", [in](Setup& s) -> double& { return in(s).radius; }});
}

// Of full_setup().
inline std::vector<SetupNumber> every_number() {
  std::vector<SetupNumber> all;
  const auto number = [&](const char* place, std::function<double&(Setup&)> in) {
    all.push_back({place, std::move(in)});
  };
  const auto bed = [](Setup& s) -> Polygon& {
    return std::get<MultiPolygon>(s.machine.bed).front();
  };
  number("coverage_factor", [](Setup& s) -> double& { return s.coverage_factor; });
  add_point(
      "machine.bed[0].outer[2]", [bed](Setup& s) -> Point& { return bed(s).outer[2]; }, all);
  add_point(
      "machine.bed[0].holes[0][1]", [bed](Setup& s) -> Point& { return bed(s).holes[0][1]; }, all);
  add_box(
      "machine.travel", [](Setup& s) -> Box& { return box(s.machine.travel); }, all);
  number("machine.print_inset", [](Setup& s) -> double& { return s.machine.print_inset; });
  number("machine.travel_uncertainty",
         [](Setup& s) -> double& { return s.machine.travel_uncertainty; });
  number("machine.bed_uncertainty", [](Setup& s) -> double& { return s.machine.bed_uncertainty; });
  add_box(
      "machine.obstacles[0].shape",
      [](Setup& s) -> Box& { return box(s.machine.obstacles[0].shape); }, all);
  add_disc(
      "machine.obstacles[1].shape",
      [](Setup& s) -> Disc& { return std::get<Disc>(s.machine.obstacles[1].shape); }, all);
  number("machine.obstacles[1].height",
         [](Setup& s) -> double& { return s.machine.obstacles[1].height; });
  number("machine.obstacles[1].clearance",
         [](Setup& s) -> double& { return s.machine.obstacles[1].clearance; });
  add_box(
      "machine.head[0].outline", [](Setup& s) -> Box& { return box(s.machine.head[0].outline); },
      all);
  number("machine.head[0].underside",
         [](Setup& s) -> double& { return s.machine.head[0].underside; });
  number("machine.head[0].top", [](Setup& s) -> double& { return *s.machine.head[0].top; });
  add_point(
      "probe.offset", [](Setup& s) -> Point& { return s.probe.offset; }, all);
  add_point(
      "probe.offset_uncertainty", [](Setup& s) -> Point& { return s.probe.offset_uncertainty; },
      all);
  add_disc(
      "probe.spot", [](Setup& s) -> Disc& { return std::get<Disc>(s.probe.spot); }, all);
  number("probe.edge_distance", [](Setup& s) -> double& { return s.probe.edge_distance; });
  number("probe.trigger_height", [](Setup& s) -> double& { return s.probe.trigger_height; });
  number("probe.travel_height", [](Setup& s) -> double& { return *s.probe.travel_height; });
  add_box(
      "probe.body.outline", [](Setup& s) -> Box& { return box(s.probe.body->outline); }, all);
  number("probe.body.underside", [](Setup& s) -> double& { return s.probe.body->underside; });
  number("probe.body.top", [](Setup& s) -> double& { return *s.probe.body->top; });
  add_box(
      "mount.envelope", [](Setup& s) -> Box& { return box(*s.mount.envelope); }, all);
  add_box(
      "mount.keep_clear[0].outline",
      [](Setup& s) -> Box& { return box(s.mount.keep_clear[0].outline); }, all);
  add_box(
      "request.grid.extent", [](Setup& s) -> Box& { return std::get<Box>(s.request.grid->extent); },
      all);
  add_point(
      "request.points[0].at", [](Setup& s) -> Point& { return s.request.points[0].at; }, all);
  add_point(
      "request.home.at", [](Setup& s) -> Point& { return s.request.home->at; }, all);
  return all;
}

}  // namespace leeway
