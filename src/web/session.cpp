#include "web/session.h"

#include <fmt/format.h>

#include <new>

#include "formats/json/setup_value.h"
#include "formats/text/names.h"
#include "leeway/bracket.h"
#include "leeway/fit.h"
#include "leeway/measure.h"
#include "leeway/write_true_size.h"
#include "web/answers.h"

namespace leeway {
namespace {

using AnswerTo = Json (*)(Session&, WebRequest&);

struct Known {
  std::string_view name;
  AnswerTo answer;
};
constexpr Known kRequests[] = {{"examples", answer_examples}, {"read", answer_read},
                               {"form", answer_form},         {"length", answer_length},
                               {"change", answer_change},     {"save", answer_save},
                               {"frame", answer_frame},       {"head", answer_head},
                               {"style", answer_style},       {"check", answer_check},
                               {"fit", answer_fit},           {"explain", answer_explain},
                               {"numbers", answer_numbers},   {"bracket", answer_bracket},
                               {"window", answer_window},     {"differs", answer_differs},
                               {"measure", answer_measure},   {"report", answer_report},
                               {"draw", answer_draw},         {"true-size", answer_true_size},
                               {"fill", answer_fill},         {"fill-names", answer_fill_names}};

Json carried_out(Session& session, std::string_view text) {
  const Json json = parsed_request(text);
  WebRequest asked(json);
  const std::string what = asked.text("do", "");
  WordList known;
  for (const Known& one : kRequests) {
    if (one.name == what) return one.answer(session, asked);
    known.push_back(one.name);
  }
  const std::string_view near = nearest_word(what, known);
  throw Refused(fmt::format("There is no request {}{}", in_quotes(what),
                            near.empty() ? "." : fmt::format("; is it \"{}\"?", near)));
}

std::string told(const std::vector<WebFault>& faults) {
  Json out{{"ok", false}, {"faults", Json::array()}};
  for (const WebFault& fault : faults) {
    Json one{{"message", fault.message}, {"pointer", fault.pointer}};
    if (!fault.field.empty()) one["field"] = fault.field;
    if (fault.box >= 0) one["box"] = fault.box;
    if (fault.item >= 0) one["item"] = fault.item;
    if (!fault.file.empty()) one["file"] = fault.file;
    if (fault.line > 0) {
      one["line"] = fault.line;
      one["column"] = fault.column;
    }
    out["faults"].push_back(std::move(one));
  }
  return out.dump(-1, ' ', false, Json::error_handler_t::replace);
}

// A sentence of the library's own: "offset too long" to "Offset too long."
std::string whole_sentence(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 32);
  if (text.empty() || text.back() != '.') text += '.';
  return text;
}

std::string not_done(const std::exception_ptr& thrown) {
  try {
    std::rethrow_exception(thrown);
  } catch (const Refused& refused) {
    return told(refused.faults());
  } catch (const Stopped&) {
    return R"({"ok":false,"stopped":true,"faults":[]})";
  } catch (const FitRefused& refused) {
    return told({{whole_sentence(refused.what())}});
  } catch (const BracketRefused& refused) {
    return told({{whole_sentence(refused.what())}});
  } catch (const InvalidReadings& refused) {
    return told({{whole_sentence(refused.what())}});
  } catch (const PaperRefused& refused) {
    return told({{whole_sentence(refused.what())}});
  } catch (const SetupTooDetailed& fault) {
    return told({{fmt::format("The setup asks for too much detail: {}.", fault.what())}});
  } catch (const std::bad_alloc&) {
    return told({{"The memory of this page is not enough for this setup."}});
  } catch (const std::exception& fault) {
    return told(
        {{fmt::format("This is a fault of the program, not of your input: {}. Please "
                      "report it together with the setup.",
                      fault.what())}});
  }
}

}  // namespace

std::string Session::answer(std::string_view request) {
  try {
    Json out{{"ok", true}};
    out.update(carried_out(*this, request));
    return out.dump(-1, ' ', false, Json::error_handler_t::replace);
  } catch (...) {
    return not_done(std::current_exception());
  }
}

const Rig& Session::rig() const {
  if (!rig_) throw Refused("There is no setup yet.");
  return *rig_;
}

void Session::take(const Setup& setup, std::string name) {
  const Request& asked = setup.request;
  long points = static_cast<long>(asked.points.size());
  if (asked.grid) points += static_cast<long>(asked.grid->columns) * asked.grid->rows;
  if (points > kMostPagePoints) {
    throw Refused(fmt::format("{} points are asked for; the page takes at most {}, the command "
                              "leeway up to {} in a grid.",
                              points, kMostPagePoints, kMostGridPoints),
                  "/request/grid");
  }
  Json whole = setup_value(setup);
  std::optional<Rig> next;
  if (!rig_) {
    next.emplace(setup);
  } else {
    // Where the offset and the request alone are others, all else stays as it is.
    Setup same = setup;
    same.probe.offset = rig_->setup().probe.offset;
    same.request = rig_->setup().request;
    next = same == rig_->setup() ? rig_->at(setup.probe.offset).asking(asked) : rig_->with(setup);
  }
  rig_ = *std::move(next);
  whole_ = std::move(whole);
  name_ = std::move(name);
}

}  // namespace leeway
