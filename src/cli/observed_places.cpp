#include "cli/observed_places.h"

#include <fmt/format.h>

#include <algorithm>

#include "cli/command_line.h"
#include "cli/commands/draw_place.h"
#include "cli/failure.h"
#include "formats/text/names.h"
#include "formats/typed/typed_values.h"

namespace leeway {
namespace {

Observed observed_at(const Setup& setup, const std::string& place, const char* option) {
  Observed observed;
  // Says what is wrong with it.
  const std::optional<Point> probe = draw_place(setup, place, true, "", option);
  const auto numbers = typed_numbers(place);
  if (numbers && numbers->size() == 2) {
    observed.column = static_cast<std::int32_t>((*numbers)[0]);
    observed.row = static_cast<std::int32_t>((*numbers)[1]);
    return observed;
  }
  const std::vector<NamedPoint>& points = setup.request.points;
  const auto at = std::find_if(points.begin(), points.end(),
                               [&](const NamedPoint& point) { return point.name == place; });
  if (place == "home" && setup.request.home) {
    observed.name_index = kHomeIndex;
  } else if (at != points.end()) {
    observed.name_index = static_cast<std::int32_t>(at - points.begin());
  } else {
    observed.at = *probe;
  }
  return observed;
}

}  // namespace

std::vector<Observed> observed_places(const Setup& setup, const std::vector<std::string>& refused,
                                      const std::vector<std::string>& accepted) {
  std::vector<Observed> observed;
  for (const std::string& place : refused) {
    observed.push_back(observed_at(setup, place, "--refused"));
  }
  for (const std::string& place : accepted) {
    observed.push_back(observed_at(setup, place, "--accepted"));
    observed.back().accepted = true;
  }
  if (const auto both = contradicting(observed, setup)) {
    throw OptionFault(fmt::format(
        "\"--refused {}\" and \"--accepted {}\" are the same point: the controller did one of "
        "the two",
        refused[both->first], accepted[both->second - refused.size()]));
  }
  return observed;
}

std::vector<Answer> answers_named(const std::vector<std::string>& names) {
  std::vector<std::string_view> words;
  for (const Answer answer : all_answers()) words.emplace_back(word(answer));
  std::vector<Answer> answers;
  for (const std::string& name : names) {
    const auto at = std::find(words.begin(), words.end(), name);
    if (at == words.end()) {
      throw OptionFault(fmt::format(
          "the option \"--answer\" takes an answer that `leeway help explain` lists, not \"{}\"{}",
          name, suggestion(name, words)));
    }
    answers.push_back(all_answers()[static_cast<std::size_t>(at - words.begin())]);
  }
  if (const auto both = contradicting(answers)) {
    throw OptionFault(
        fmt::format("\"--answer {}\" and \"--answer {}\" contradict each other: give the one that "
                    "was seen",
                    word(both->first), word(both->second)));
  }
  return answers;
}

}  // namespace leeway
