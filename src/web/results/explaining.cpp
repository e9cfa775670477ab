// What `explain` finds: as it prints it, what of it can be applied, what was seen at the machine,
// and what to look at next.

#include "web/answers.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "formats/explain/confirm_view.h"
#include "formats/explain/explain_view.h"
#include "formats/explain/mistake_view.h"
#include "formats/explain/question_view.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "leeway/write_explain.h"
#include "web/results/cards.h"
#include "web/results/text_so_far.h"

namespace leeway {
namespace {

Json cards_of(const ExplainResult& result, const Setup& setup) {
  Json out = Json::array();
  for (const MistakeFound& mistake : result.mistakes) {
    Json one = card("mistake", first_capital(word(mistake.mistake)),
                    mistake_sentence(mistake, setup), setup, mistake.changed);
    one["confirm"] = confirm_sentence(mistake, setup);
    one["likely"] = mistake.likely;
    one["probability"] = rounded(mistake.probability);
    one["fixes"] = mistake.fixes;
    one["of"] = mistake.of;
    out.push_back(one);
  }
  for (const Remedy& remedy : result.remedies) {
    Json one = card("remedy", first_capital(word(remedy.parameter)), remedy_sentence(remedy, setup),
                    setup, applied(remedy.changes, setup));
    one["still_failing"] = remedy.still_failing;
    out.push_back(one);
  }
  return out;
}

Answer answer_named(const std::string& name) {
  WordList known;
  for (const Answer answer : all_answers()) {
    if (name == word(answer)) return answer;
    known.emplace_back(word(answer));
  }
  const std::string_view near = nearest_word(name, known);
  throw Refused(fmt::format("There is no answer {}{}", in_quotes(name),
                            near.empty() ? "." : fmt::format("; is it \"{}\"?", near)),
                "/answers");
}

// The point as a frame names it.
Observed place_named(const std::string& name, const CheckResult& checked, const Setup& setup) {
  for (const CheckedPoint& point : checked.points) {
    if (point_name(setup, point) != name) continue;
    Observed observed;
    observed.column = point.column;
    observed.row = point.row;
    if (point.column == 0) observed.name_index = point.name_index;
    return observed;
  }
  throw Refused(fmt::format("There is no point {} in this setup.", in_quotes(name)), "/observed");
}

// [{"point": "grid 5,1", "accepted": false}]
std::vector<Observed> observed_of(const Json& list, const Rig& rig) {
  std::vector<Observed> out;
  if (list.empty()) return out;
  CheckOptions options;
  options.regions = RegionsWanted::none;
  const CheckResult checked = check(rig, options);
  for (const Json& one : list) {
    if (!one.is_object()) throw Refused("Each of \"observed\" is an object.", "/observed");
    WebRequest asked(one, "/observed");
    const std::string point = asked.text("point", "");
    const bool accepted = asked.flag("accepted");
    asked.done();
    out.push_back(place_named(point, checked, rig.setup()));
    out.back().accepted = accepted;
  }
  return out;
}

Json question_json(const Question& question) {
  Json answers = Json::array();
  for (const PossibleAnswer& one : question.answers) {
    answers.push_back({{"answer", word(one.answer)},
                       {"says", answer_words(one.answer)},
                       {"means", meaning_words(one)}});
  }
  return {{"asks", asks(question.kind)}, {"answers", answers}};
}

// What a page shows of it beside the text.
void add_findings(const ExplainResult& result, const Setup& setup, Json& out) {
  out["apply"] = cards_of(result, setup);
  if (result.question) out["question"] = question_json(*result.question);
  const std::string too_much = too_much_sentence(result);
  if (!too_much.empty()) {
    out["too_much"] = {{"says", too_much}, {"first", too_much_first(result)}};
  }
}

}  // namespace

Json answer_explain(Session& session, WebRequest& asked) {
  using Writer = decltype(&write_explain_text);
  static constexpr std::array<WebFormat<Writer>, 4> kFormats{{{"text", write_explain_text},
                                                              {"json", write_explain_json},
                                                              {"markdown", write_explain_markdown},
                                                              {"line", write_explain_line}}};
  const WebFormat<Writer>& format = format_asked(asked, kFormats);
  const auto point = asked.pair("point");
  const Frame frame = frame_asked(asked);
  const Json* observed = asked.any("observed");
  ExplainOptions options;
  for (const std::string& name : asked.texts("answers").value_or(std::vector<std::string>{})) {
    options.answers.push_back(answer_named(name));
  }
  if (const auto both = contradicting(options.answers)) {
    throw Refused(fmt::format("\"{}\" and \"{}\" contradict each other.", word(both->first),
                              word(both->second)),
                  "/answers");
  }
  if (observed != nullptr && !observed->is_array()) asked.complain("observed", "an array");
  asked.done();
  Rig rig = session.rig();
  if (point) {
    Request request;
    request.points.push_back({"the point", *point, frame});
    rig = rig.asking(request);
  }
  if (observed != nullptr) options.observed = observed_of(*observed, rig);
  if (contradicting(options.observed, rig.setup())) {
    throw Refused("A point is said to be refused and accepted.", "/observed");
  }
  options.progress = session.progress();
  const ExplainResult result = explain(rig, options);
  TextSoFar text(format.name);
  format.write(result, rig, text.sink());
  Json out = text.answer(all_well(result.check));
  if (!point) add_findings(result, rig.setup(), out);
  return out;
}

}  // namespace leeway
