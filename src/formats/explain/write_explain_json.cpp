#include <cmath>

#include "formats/explain/confirm_view.h"
#include "formats/explain/explain_view.h"
#include "formats/explain/mistake_view.h"
#include "formats/explain/question_view.h"
#include "formats/explain/since_view.h"
#include "formats/json/json_text.h"
#include "formats/text/change_text.h"
#include "formats/text/names.h"
#include "leeway/rig.h"
#include "leeway/write_explain.h"

namespace leeway {
namespace {

// The items of an array, one a line.
template <class Items, class ToObject>
void write_array(const char* key, const Items& items, const ToObject& to_object,
                 const TextSink& sink) {
  sink(std::string(",\n  \"") + key + "\": [");
  bool first = true;
  for (const auto& item : items) {
    sink((first ? "\n    " : ",\n    ") + to_object(item));
    first = false;
  }
  sink(first ? "]" : "\n  ]");
}

// More digits say nothing.
double in_thousandths(double p) { return std::round(p * 1000) / 1000; }

std::string json_question(const Question& question) {
  std::string answers = "[";
  for (const PossibleAnswer& answer : question.answers) {
    answers += (answers.size() > 1 ? "," : "") +
               JsonObject()
                   .add("answer", json_text(word(answer.answer)))
                   .add("says", json_text(answer_words(answer.answer)))
                   .add("mistake", answer.mistake ? json_text(word(*answer.mistake)) : "null")
                   .add("probability", json_number(in_thousandths(answer.probability)))
                   .text();
  }
  return JsonObject()
      .add("asks", json_text(asks(question.kind)))
      .add("answers", answers + "]")
      .text();
}

std::string json_since(const ExplainResult& result, const Setup& setup) {
  std::string changed = "[";
  for (const SetupDifference& one : differences_between(result.since->before, setup)) {
    changed += (changed.size() > 1 ? "," : "") + JsonObject()
                                                     .add("what", json_text(one.what))
                                                     .add("before", json_text(one.one))
                                                     .add("after", json_text(one.other))
                                                     .text();
  }
  return JsonObject()
      .add("setup", json_text(result.since->before.name))
      .add("changed", changed + "]")
      .add("points", result.since->points)
      .add("failing", result.since->failing)
      .add("repaired", result.since->repaired)
      .add("broken", result.since->broken)
      .add("says", json_text(changed_sentence(result, setup) + " " + did_sentence(result)))
      .text();
}

}  // namespace

void write_explain_json(const ExplainResult& result, const Rig& rig, const TextSink& sink) {
  const CheckResult& checked = result.check;
  const Words words(rig, text_name);
  const auto names = [&](const std::vector<std::size_t>& points) {
    std::string out = "[";
    for (const std::size_t i : points) {
      out += (out.size() > 1 ? "," : "") + json_text(point_name(rig.setup(), checked.points[i]));
    }
    return out + "]";
  };
  sink("{\n  \"format\": \"leeway-explain-2\",\n  \"setup\": " + json_text(checked.setup));
  sink(",\n  \"numbers\": " + json_text(numbers_sentence(rig.setup())));
  if (result.since) sink(",\n  \"since\": " + json_since(result, rig.setup()));
  if (!result.contradicted.empty()) {
    write_array(
        "contradicted", result.contradicted,
        [](const Contradicted& one) {
          return JsonObject()
              .add("answer", json_text(word(one.seen)))
              .add("stated", json_text(word(one.stated)))
              .add("says", json_text(contradicted_sentence(one)))
              .text();
        },
        sink);
  }
  sink(",\n  \"verdict\": " + (checked.verdict ? json_text(word(*checked.verdict)) : "null"));
  write_array(
      "groups", result.groups,
      [&](const FailingGroup& group) {
        return JsonObject()
            .add("limit", json_text(rig.limits().info(group.limit).name))
            .add("points", names(group.points))
            .add("largest_shortfall", json_number(group.largest_shortfall))
            .add("arithmetic", json_text(arithmetic_sentence(group, result, rig, words)))
            .add("says", json_text(group_sentence(group, result, words)))
            .text();
      },
      sink);
  write_array(
      "mistakes", result.mistakes,
      [&](const MistakeFound& mistake) {
        return JsonObject()
            .add("mistake", json_text(word(mistake.mistake)))
            .add("probability", json_number(in_thousandths(mistake.probability)))
            .add("fixes", mistake.fixes)
            .add("of", mistake.of)
            .add("breaks", mistake.breaks)
            .add("likely", mistake.likely ? "true" : "false")
            .add("change", json_changes(mistake.changes, rig.setup()))
            .add("confirm", json_text(confirm_sentence(mistake, rig.setup())))
            .add("says", json_text(mistake_sentence(mistake, rig.setup())))
            .text();
      },
      sink);
  sink(",\n  \"asked_too_much\": " + json_number(in_thousandths(result.asked_too_much)));
  sink(",\n  \"question\": " + (result.question ? json_question(*result.question) : "null"));
  write_array(
      "remedies", result.remedies,
      [&](const Remedy& remedy) {
        return JsonObject()
            .add("parameter", json_text(word(remedy.parameter)))
            .add("change", json_changes(remedy.changes, rig.setup()))
            .add("still_failing", remedy.still_failing)
            .add("blocked_moves", remedy.blocked_moves)
            .add("says", json_text(remedy_sentence(remedy, rig.setup())))
            .text();
      },
      sink);
  sink(",\n  \"tightest\": " + names(result.tightest));
  sink("\n}\n");
}

}  // namespace leeway
