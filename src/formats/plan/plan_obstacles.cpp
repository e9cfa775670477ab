#include "formats/plan/plan_obstacles.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/text/names.h"
#include "formats/text/numbers.h"

namespace leeway {
namespace {

std::string height_words(double height) {
  if (height == kUnlimitedHeight) return "any height";
  return "height " + decimal(height);
}

// Many names hide the plan, and names that are alike when they are cut tell nothing.
bool wants_numbers(const std::vector<Obstacle>& obstacles) {
  constexpr std::size_t kMostNamedObstacles = 8;
  if (obstacles.size() > kMostNamedObstacles) return true;
  std::vector<std::string> names;
  for (const Obstacle& obstacle : obstacles) names.push_back(picture_name(obstacle.name));
  std::sort(names.begin(), names.end());
  return std::adjacent_find(names.begin(), names.end()) != names.end();
}

std::string obstacle_key(const std::vector<Obstacle>& obstacles) {
  constexpr std::size_t kMostInKey = 60;
  std::string key = "Obstacles: ";
  const std::size_t shown = std::min(obstacles.size(), kMostInKey);
  for (std::size_t i = 0; i < shown; ++i) {
    key += fmt::format("{}{} {}, {}", i == 0 ? "" : "; ", i + 1, text_name(obstacles[i].name),
                       height_words(obstacles[i].height));
  }
  if (shown < obstacles.size()) key += fmt::format("; and {} more", obstacles.size() - shown);
  return key + ".";
}

// Beside a small one, or on it if the text is short; on a large one where there is room.
void name_obstacle(const Obstacle& obstacle, const std::string& text, PlanScene& scene) {
  const Box box = scene.view(bounding_box(obstacle.shape));
  constexpr double kSmall = 80;
  Label label{text, {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2}, 4};
  label.half = {box.width() / 2, box.depth() / 2};
  cover_outline(obstacle.shape, scene.view, label.mark);
  label.solid = std::min(box.width(), box.depth()) < kSmall;
  label.places = {label.at};
  scene.late_labels.push_back(label);
}

}  // namespace

void draw_obstacles(SvgWriter& svg, const PlanInput& input, PlanScene& scene) {
  const std::vector<Obstacle>& obstacles = input.rig.setup().machine.obstacles;
  if (obstacles.empty()) return;
  scene.numbered = wants_numbers(obstacles);
  svg.group("obstacles");
  for (std::size_t i = 0; i < obstacles.size(); ++i) {
    const Obstacle& obstacle = obstacles[i];
    const std::string name =
        fmt::format("{}, {}", picture_name(obstacle.name), height_words(obstacle.height));
    const std::string data = path_data(obstacle.shape, scene.view);
    if (data.empty()) continue;
    svg.open("path", {{"class", "thing"}, {"d", data}});
    svg.text_element("title", {}, name);
    svg.close();
    name_obstacle(obstacle, scene.numbered ? std::to_string(i + 1) : name, scene);
  }
  svg.close();
  scene.legend.entries.push_back(swatch("obstacle", "thing"));
  if (scene.numbered) scene.legend.notes.push_back(obstacle_key(obstacles));
}

}  // namespace leeway
