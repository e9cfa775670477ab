#include "tasks/explain/weigh/request_likelihood.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "tasks/explain/weigh/log_sum.h"
#include "tasks/explain/weigh/reach.h"
#include "tasks/explain/weigh/roundness.h"

namespace leeway {
namespace {

using Four = std::array<double, 4>;

constexpr double kNotAtAll = -60;

Four four(const Sides& sides) { return {sides.left, sides.right, sides.front, sides.back}; }

double log_exponential(double value, double mean) { return -value / mean - std::log(mean); }

// What there is to see of a request.
struct Asked {
  Four spare;   // to what the probe reaches
  Four margin;  // to the sides of the bed
  Four round;   // of each side, however it was written
  Box mesh;
  Box bed;
};

// As round as the number itself, or as the margin that somebody may have thought of.
Four roundness_of(const Setup& setup, const Box& mesh, const Four& margin) {
  Four written{mesh.x0, mesh.x1, mesh.y0, mesh.y1};
  if (setup.request.grid) {
    if (const Box* box = std::get_if<Box>(&setup.request.grid->extent)) {
      written = {box->x0, box->x1, box->y0, box->y1};
    } else if (const Margins* m = std::get_if<Margins>(&setup.request.grid->extent)) {
      written = {m->left, m->right, m->front, m->back};
    }
  }
  const Four ends{mesh.x0, mesh.x1, mesh.y0, mesh.y1};
  Four round{};
  for (std::size_t i = 0; i < 4; ++i) {
    const double thought = std::max(log_roundness(ends[i]), log_roundness(margin[i]));
    round[i] = std::max(thought - 0.5, log_roundness(written[i]));
  }
  return round;
}

Asked asked_of(const Setup& setup, const Box& mesh) {
  Asked asked;
  asked.mesh = mesh;
  asked.bed = bounding_box(setup.machine.bed);
  asked.spare = four(inside_by(mesh, reach_by_boxes(setup)));
  asked.margin = four(inside_by(mesh, asked.bed));
  asked.round = roundness_of(setup, mesh, asked.margin);
  return asked;
}

double sum_of(const Four& numbers) { return numbers[0] + numbers[1] + numbers[2] + numbers[3]; }

bool all_equal(const Four& numbers) {
  const auto [least, most] = std::minmax_element(numbers.begin(), numbers.end());
  return *most - *least < 0.02;
}

// One number for all sides.
double log_one_margin(const Asked& asked, double mean) {
  if (!all_equal(asked.margin) || asked.margin[0] < 0) return kNotAtAll;
  return log_exponential(asked.margin[0], mean) + log_roundness(asked.margin[0]);
}

// The same, as large as the worst side needs.
double log_enough_margin(const Asked& asked) {
  if (!all_equal(asked.margin)) return kNotAtAll;
  const double more = *std::min_element(asked.spare.begin(), asked.spare.end());
  return log_exponential(std::max(more, 0.0), 6) + log_roundness(asked.margin[0]);
}

// Within what the probe reaches, by little, by what rounding leaves.
double log_close(double spare) {
  if (spare < -0.6) return std::max(kNotAtAll / 4, 8 * spare);
  const double by = std::max(spare, 0.0);
  return std::log(0.75 / 4 * std::exp(-by / 4) + 0.25 / 12 * std::exp(-by / 12));
}

double log_close_all(const Asked& asked) {
  double sum = sum_of(asked.round);
  for (const double spare : asked.spare) sum += log_close(spare);
  return sum;
}

// The same margin to what the probe reaches on each side that is within it, then rounded inward.
double log_even(const Asked& asked) {
  double all = kNotAtAll;
  for (const double step : {0.5, 1.0, 5.0, 10.0}) {
    for (int c = 0; c <= 10; ++c) {
      double one = std::log((c == 0 ? 0.5 : 0.05) * 0.25) + sum_of(asked.round);
      for (const double spare : asked.spare) {
        if (spare < -0.6) continue;
        const bool holds = spare > c - 0.3 && spare < c + step + 0.3;
        one += holds ? -std::log(step + 0.6) : kNotAtAll;
      }
      all = log_sum(all, one);
    }
  }
  return all;
}

// Somewhere within what the probe reaches.
double log_loose(const Asked& asked) {
  double sum = sum_of(asked.round);
  const double scale[] = {0.1 * asked.bed.width(), 0.1 * asked.bed.depth()};
  for (std::size_t i = 0; i < 4; ++i) {
    const double spare = asked.spare[i];
    sum += spare < -0.6 ? kNotAtAll / 4 : log_exponential(std::max(spare, 0.0), scale[i / 2]);
  }
  return sum;
}

bool within_boxes(const Asked& asked) {
  return *std::min_element(asked.spare.begin(), asked.spare.end()) > -0.6;
}

double log_fitting_box(const Asked& asked) {
  double all = std::log(0.25) + log_close_all(asked);
  if (within_boxes(asked)) all = log_sum(all, std::log(0.25) + log_even(asked));
  all = log_sum(all, std::log(0.3) + log_enough_margin(asked));
  return log_sum(all, std::log(0.2) + log_loose(asked));
}

// Each side close to what the probe reaches, or beyond it.
double log_sides_beyond(const Asked& asked) {
  double sum = sum_of(asked.round);
  for (const double spare : asked.spare) {
    const double within = std::log(0.65) + log_close(spare);
    const double beyond = spare < 0 ? std::log(0.35) + log_exponential(-spare, 14) : kNotAtAll;
    sum += log_sum(within, beyond);
  }
  for (const double margin : asked.margin) sum += margin < 0 ? -3 + margin : 0;
  return sum;
}

// All sides even but those that are beyond.
double log_even_but_beyond(const Asked& asked) {
  if (within_boxes(asked)) return kNotAtAll;
  double sum = log_even(asked);
  for (const double spare : asked.spare) {
    if (spare < -0.6) sum += std::log(0.4) + log_exponential(-spare, 14);
  }
  for (const double margin : asked.margin) sum += margin < 0 ? -3 + margin : 0;
  return sum;
}

// Each side some way from the edge of the bed, without a look at the travel.
double log_from_edges(const Asked& asked) {
  double sum = sum_of(asked.round);
  for (const double margin : asked.margin) {
    if (margin < 0) {
      sum += -6 + margin / 2;
    } else {
      sum += margin <= 35 ? std::log(1.0 / 40) : std::log(1.0 / 40) - (margin - 35) / 8;
    }
  }
  return std::max(sum, 2 * kNotAtAll);
}

double log_careless_box(const Asked& asked) {
  double all = std::log(0.35) + log_one_margin(asked, 18);
  all = log_sum(all, std::log(0.2) + log_sides_beyond(asked));
  all = log_sum(all, std::log(0.2) + log_even_but_beyond(asked));
  all = log_sum(all, std::log(0.25) + log_from_edges(asked));
  if (within_boxes(asked)) all = log_sum(all, std::log(0.1) + log_fitting_box(asked));
  return all;
}

// How the numbers of the grid are meant.
double log_form(const Request& request) {
  if (!request.grid) return 0;
  const Grid& grid = *request.grid;
  double sum = std::log(grid.frame == Frame::probe ? 0.87 : 0.13);
  if (const Margins* margins = std::get_if<Margins>(&grid.extent)) {
    sum += std::log(margins->from == Margins::From::bed ? 0.85 : 0.15);
  }
  return sum;
}

// Points about as far apart from left to right as from front to back.
double log_spacing(const Setup& setup, const Box& mesh) {
  if (!setup.request.grid) return 0;
  const Grid& grid = *setup.request.grid;
  if (grid.columns < 2 || grid.rows < 2 || !(mesh.width() > 0) || !(mesh.depth() > 0)) return 0;
  const double ratio = mesh.width() / (grid.columns - 1) / (mesh.depth() / (grid.rows - 1));
  return -std::abs(std::log(ratio));
}

// A homing point is mostly the middle of the bed, of probe or nozzle.
double log_home(const Setup& setup) {
  if (!setup.request.home) return 0;
  const Home& home = *setup.request.home;
  const Box bed = bounding_box(setup.machine.bed);
  const Point probe = probe_position(home.at, home.frame, setup.probe.offset);
  const Point middle{(bed.x0 + bed.x1) / 2, (bed.y0 + bed.y1) / 2};
  const auto at_middle = [&](Point at) { return std::hypot(at.x - middle.x, at.y - middle.y) < 1; };
  const double form = std::log(home.frame == Frame::nozzle ? 0.6 : 0.4);
  if (at_middle(probe) || at_middle(probe - setup.probe.offset)) return form + std::log(0.6);
  const Box reach = reach_by_boxes(setup);
  const Four spare = four(inside_by({probe.x, probe.x, probe.y, probe.y}, reach));
  const bool within = *std::min_element(spare.begin(), spare.end()) > -0.1;
  return form + std::log((within ? 0.38 : 0.02) / (bed.width() * bed.depth())) +
         log_roundness(home.at.x) + log_roundness(home.at.y);
}

double log_rest(const Setup& setup, const Box& mesh) {
  return log_form(setup.request) + log_spacing(setup, mesh) + log_home(setup);
}

// A single place: anywhere within what the probe reaches, or anywhere on the bed.
double log_of_place(const Setup& setup, const Box& place, bool fitting) {
  const Box within = fitting ? reach_by_boxes(setup) : bounding_box(setup.machine.bed);
  const Four inside = four(inside_by(place, within));
  const double lacking = std::min(0.0, *std::min_element(inside.begin(), inside.end()));
  const double area = std::max(within.width(), 1.0) * std::max(within.depth(), 1.0);
  return std::max(lacking, kNotAtAll / 4) - std::log(area) + log_rest(setup, place);
}

// Points of their own, each anywhere: of these only how far they reach is told apart.
double log_scattered(const Setup& setup, const Asked& asked, bool fitting) {
  const Box within = fitting ? reach_by_boxes(setup) : asked.bed;
  const Four inside = four(inside_by(asked.mesh, within));
  const double lacking = std::min(0.0, *std::min_element(inside.begin(), inside.end()));
  const double area = std::max(within.width(), 1.0) * std::max(within.depth(), 1.0);
  return sum_of(asked.round) + std::max(lacking, kNotAtAll / 4) - 2 * std::log(area);
}

template <typename OfBox>
double log_of(const Setup& setup, bool fitting, const OfBox& of_box) {
  const std::optional<Box> mesh = asked_box(setup);
  if (!mesh) return log_home(setup);
  constexpr double kPlace = 1;  // mm
  const bool place =
      mesh->width() >= 0 && mesh->width() < kPlace && mesh->depth() >= 0 && mesh->depth() < kPlace;
  if (place) return log_of_place(setup, *mesh, fitting);
  if (!(mesh->width() >= 0) || !(mesh->depth() >= 0)) return 4 * kNotAtAll;
  const Asked asked = asked_of(setup, *mesh);
  double of_mesh = of_box(asked);
  if (!setup.request.grid) {
    of_mesh = std::log(0.5) + log_sum(of_mesh, log_scattered(setup, asked, fitting));
  }
  return of_mesh + log_rest(setup, *mesh);
}

}  // namespace

double log_fitting_request(const Setup& setup) {
  return log_of(setup, true, [](const Asked& asked) { return log_fitting_box(asked); });
}

double log_careless_request(const Setup& setup) {
  return log_of(setup, false, [](const Asked& asked) { return log_careless_box(asked); });
}

double log_any_request(const Setup& setup) {
  return log_of(setup, false, [](const Asked& asked) {
    const double width = std::max(asked.bed.width(), asked.mesh.width());
    const double depth = std::max(asked.bed.depth(), asked.mesh.depth());
    return sum_of(asked.round) - 2 * std::log(width) - 2 * std::log(depth);
  });
}

}  // namespace leeway
