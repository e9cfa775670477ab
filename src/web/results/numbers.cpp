// The numbers that someone enters, each to be copied by itself.

#include "web/answers.h"

#include <array>
#include <string>

#include "formats/text/numbers.h"
#include "formats/write/fit_view.h"
#include "leeway/fill.h"
#include "leeway/numbers_to_enter.h"

namespace leeway {
namespace {

Json number(const std::string& what, const char* frame, const std::string& value) {
  return {{"what", what}, {"frame", frame}, {"value", value}};
}

void add_mesh(const MeshNumbers& mesh, Json& out) {
  constexpr std::array<const char*, 4> kFrames{"probe", "nozzle", "probe", "nozzle"};
  const std::array<bool, 4> there{mesh.probe.has_value(), mesh.nozzle.has_value(),
                                  mesh.probe_from_bed.has_value(),
                                  mesh.nozzle_from_travel.has_value()};
  const std::vector<FitRow> rows = mesh_rows(mesh);
  for (std::size_t i = 0; i < kFrames.size(); ++i) {
    if (!there[i]) continue;
    const FitRow& row = rows.at(i);
    out.push_back({{"what", row.what},
                   {"frame", kFrames[i]},
                   {"left", row.left},
                   {"right", row.right},
                   {"front", row.front},
                   {"back", row.back}});
  }
  out.push_back(number("columns", "", std::to_string(mesh.columns)));
  out.push_back(number("rows", "", std::to_string(mesh.rows)));
}

void add_offset(Point offset, Json& out) {
  const Point back{-offset.x + 0.0, -offset.y + 0.0};
  out.push_back(number("offset, nozzle to probe", "", pair(offset)));
  out.push_back(number("offset, probe to nozzle", "", pair(back)));
}

void add_home(Point nozzle, Point probe, Json& out) {
  out.push_back(number("homing point, where the nozzle goes", "nozzle", pair(nozzle)));
  out.push_back(number("homing point, where the probe goes", "probe", pair(probe)));
}

std::string sentence(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 32);
  return text + ".";
}

}  // namespace

Json numbers_of(const FitResult& result) {
  Json out = Json::array();
  if (result.mesh) {
    add_mesh(result.numbers, out);
    if (result.uniform_margin) {
      out.push_back(number("one margin on all sides, from the bed's edges (a grid of its own)",
                           "probe", decimal(*result.uniform_margin)));
    }
  }
  add_offset(result.offset, out);
  if (result.home) add_home(result.home->probe - result.offset, result.home->probe, out);
  return out;
}

Json answer_numbers(Session& session, WebRequest& asked) {
  asked.done();
  const Rig& rig = session.rig();
  CheckOptions checking;
  checking.regions = RegionsWanted::none;
  checking.progress = session.progress();
  const CheckResult checked = check(rig, checking);
  const NumbersToEnter own = numbers_to_enter(rig, checked, nullptr, FitOptions{}.decimals);
  Json out{{"safe", own.safe}, {"numbers", Json::array()}};
  if (!own.safe) {
    out["says"] = sentence(why_not_filled(FillFacts{rig, checked, own, nullptr}));
    return out;
  }
  if (own.mesh) add_mesh(*own.mesh, out["numbers"]);
  add_offset(rig.setup().probe.offset, out["numbers"]);
  const auto& place = own.home_place;
  if (own.home_is_stated && place.nozzle && place.probe) {
    add_home(*place.nozzle, *place.probe, out["numbers"]);
  }
  return out;
}

}  // namespace leeway
