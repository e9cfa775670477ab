// The answers of the commands, as they print them, and what of them can be acted on.

#include "web/answers.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/typed/typed_fit.h"
#include "formats/typed/typed_grids.h"
#include "formats/write/fit_view.h"
#include "leeway/compare_grids.h"
#include "leeway/draw.h"
#include "leeway/fill.h"
#include "leeway/write_explain.h"
#include "leeway/write_fit.h"
#include "leeway/write_report.h"
#include "leeway/write_true_size.h"
#include "web/results/cards.h"
#include "web/results/grids.h"
#include "web/results/text_so_far.h"
#include "web/setup/field_faults.h"

namespace leeway {
namespace {

TypedFit typed_fit_asked(WebRequest& asked) {
  TypedFit typed;
  typed.step = asked.typed("step");
  typed.columns = asked.typed("columns");
  typed.rows = asked.typed("rows");
  typed.spacing = asked.typed("spacing");
  typed.within = asked.typed("within");
  typed.sides = asked.typed("sides");
  typed.home_leeway = asked.typed("home-leeway");
  typed.keep = asked.typed("keep");
  typed.uniform = asked.flag("uniform");
  typed.inside = asked.flag("inside");
  return typed;
}

FitOptions fit_options_of(const TypedFit& typed, const Session& session) {
  const ReadFit read = typed_fit(typed);
  if (read.fault) throw Refused({field_fault(*read.fault)});
  FitOptions options = read.options;
  options.progress = session.progress();
  return options;
}

// The setup that a remedy of fit is about: where it is no change of the setup, only its mesh.
Setup remedied(const FitRemedy& remedy, const Setup& setup) {
  const Setup changed = std::visit(
      [&](const auto& change) {
        if constexpr (std::is_constructible_v<Change, decltype(change)>) {
          return applied({change}, setup);
        } else {
          return setup;
        }
      },
      remedy.change);
  return with_mesh(changed, remedy.mesh);
}

Setup with_home(Setup setup, const FitResult& result) {
  setup.request.home = Home{result.home->probe - result.offset, Frame::nozzle};
  return setup;
}

Json cards_of(const FitResult& result, const Rig& rig) {
  const Setup& setup = rig.setup();
  const Words words(rig, text_name);
  Json out = Json::array();
  if (result.mesh) {
    std::string says = first_capital(fit_summary(result, words)) + ".";
    const std::string unguarded = unguarded_mesh_sentence(result, rig);
    if (!unguarded.empty()) says += " " + unguarded;
    out.push_back(card("grid", "A grid that fits", says, setup, with_mesh(setup, *result.mesh)));
  }
  const std::vector<std::string> says = remedy_sentences(result);
  for (std::size_t i = 0; i < says.size(); ++i) {
    out.push_back(card("remedy", "Another grid", first_capital(says[i]) + ".", setup,
                       remedied(result.remedies[i], setup)));
  }
  if (result.home) {
    out.push_back(card("home", "A homing point", other_sentences(result, words)[1], setup,
                       with_home(setup, result)));
  }
  return out;
}

}  // namespace

Json answer_check(Session& session, WebRequest& asked) {
  using Writer = decltype(&write_check_text);
  static constexpr std::array<WebFormat<Writer>, 4> kFormats{{{"text", write_check_text},
                                                              {"json", write_check_json},
                                                              {"csv", write_check_csv},
                                                              {"markdown", write_check_markdown}}};
  const WebFormat<Writer>& format = format_asked(asked, kFormats);
  WriteOptions options;
  options.all_limits = asked.flag("all-limits");
  options.in_full = asked.flag("long");
  asked.done();
  const Rig& rig = session.rig();
  if (!session.name().empty()) options.setup = shell_word(session.name());
  CheckOptions checking;
  checking.regions = regions_told(format.name, rig.setup().request);
  checking.progress = session.progress();
  const CheckResult result = check(rig, checking);
  TextSoFar text(format.name);
  format.write(result, rig, options, text.sink());
  return text.answer(all_well(result));
}

Json answer_fit(Session& session, WebRequest& asked) {
  const TypedFit typed = typed_fit_asked(asked);
  if (asks_for_several(typed)) return answer_grids(session, asked, typed);
  using Writer = decltype(&write_fit_text);
  static constexpr std::array<WebFormat<Writer>, 3> kFormats{
      {{"text", write_fit_text}, {"json", write_fit_json}, {"markdown", write_fit_markdown}}};
  const WebFormat<Writer>& format = format_asked(asked, kFormats);
  const FitOptions options = fit_options_of(typed, session);
  asked.done();
  const Rig& rig = session.rig();
  FitResult result = fit(rig, options);
  result.neighbour = better_neighbour(rig, result, options);
  TextSoFar text(format.name);
  format.write(result, rig, text.sink());
  Json out = text.answer(all_well(result));
  out["fits"] = result.mesh.has_value();
  out["numbers"] = numbers_of(result);
  out["apply"] = cards_of(result, rig);
  return out;
}

Json answer_report(Session& session, WebRequest& asked) {
  DrawOptions draw;
  draw.date = asked.text("date");
  asked.done();
  const Rig& rig = session.rig();
  ExplainOptions explaining;
  explaining.progress = session.progress();
  const ExplainResult explained = explain(rig, explaining);
  FitOptions fitting;
  fitting.progress = session.progress();
  FitOrWhyNot fitted;
  try {
    FitResult found = fit(rig, fitting);
    found.neighbour = better_neighbour(rig, found, fitting);
    fitted = std::move(found);
  } catch (const FitRefused& refused) {
    fitted = refused.what();
  }
  TextSoFar text("html");
  const NumbersToEnter own = numbers_to_enter(rig, explained.check, nullptr, FitOptions{}.decimals);
  MountPlaces places = places_on_mount(rig.setup(), session.progress());
  const BracketReport mount{{&rig.setup(), 1}, std::move(places.window), std::move(places.map), {}};
  write_report_html(explained, fitted, own, mount, rig, draw, text.sink());
  return text.answer(true);
}

Json answer_draw(Session& session, WebRequest& asked) {
  DrawOptions draw;
  draw.date = asked.text("date");
  const auto at = asked.pair("at");
  const Frame frame = frame_asked(asked);
  asked.done();
  const Rig& rig = session.rig();
  if (at) draw.head = place_head(rig, probe_position(*at, frame, rig.setup().probe.offset));
  CheckOptions options;
  options.regions = RegionsWanted::none;
  options.progress = session.progress();
  TextSoFar text("svg");
  write_plan_svg(check(rig, options), rig, draw, text.sink());
  return text.answer(true);
}

Json answer_true_size(Session& session, WebRequest& asked) {
  using Writer = decltype(&write_true_size_html);
  static constexpr std::array<WebFormat<Writer>, 2> kFormats{
      {{"html", write_true_size_html}, {"svg", write_true_size_svg}}};
  const WebFormat<Writer>& format = format_asked(asked, kFormats);
  TrueSizeOptions sheets;
  sheets.date = asked.text("date");
  const std::string paper = asked.text("paper", word(Paper::a4));
  asked.done();
  constexpr std::array<Paper, 4> kPapers{Paper::a4, Paper::a3, Paper::letter, Paper::bed};
  const auto known =
      std::find_if(kPapers.begin(), kPapers.end(), [&](Paper one) { return paper == word(one); });
  if (known == kPapers.end()) {
    throw Refused(
        fmt::format("There is no paper {} (the papers are A4, A3, letter, bed).", in_quotes(paper)),
        "/paper");
  }
  sheets.paper = *known;
  const Rig& rig = session.rig();
  CheckOptions options;
  options.regions = RegionsWanted::none;
  options.progress = session.progress();
  TextSoFar text(format.name);
  format.write(check(rig, options), rig, sheets, text.sink());
  return text.answer(true);
}

Json answer_fill(Session& session, WebRequest& asked) {
  SourceFile source;
  source.text = asked.text("template", "");
  source.name = one_line(asked.text("name", "the template"));
  FitOptions options = fit_options_of(typed_fit_asked(asked), session);
  options.remedies = false;
  const double decimals = asked.number("decimals").value_or(2);
  const bool fit_first = asked.flag("fit");
  const bool anyway = asked.flag("anyway");
  asked.done();
  if (decimals != std::floor(decimals) || decimals < 0 || decimals > kMostDecimals) {
    throw Refused(fmt::format("Decimals are a whole number from 0 to {}.", kMostDecimals),
                  "/decimals");
  }
  options.decimals = static_cast<int>(decimals);
  const Rig& rig = session.rig();
  CheckOptions checking;
  checking.regions = RegionsWanted::none;
  checking.progress = session.progress();
  const CheckResult checked = check(rig, checking);
  std::optional<FitResult> fitted;
  if (fit_first) fitted = fit(rig, options);
  const FitResult* const made = fitted ? &*fitted : nullptr;
  const NumbersToEnter numbers = numbers_to_enter(rig, checked, made, options.decimals);
  const FillFacts facts{rig, checked, numbers, made};
  const Filled filled = fill_template(source, facts);
  if (!filled.faults.empty()) throw Refused(filled.faults);
  Json out{{"format", "text"}, {"status", numbers.safe ? 0 : 1}, {"safe", numbers.safe}};
  // What `check` would not pass is not given away without being asked for.
  if (!numbers.safe) out["says"] = first_capital(why_not_filled(facts)) + ".";
  out["text"] = numbers.safe || anyway ? filled.text : "";
  return out;
}

Json answer_fill_names(Session&, WebRequest& asked) {
  asked.done();
  Json names = Json::array();
  for (const FillName& name : fill_names()) {
    const char* kind = name.kind == FillName::Kind::value    ? "value"
                       : name.kind == FillName::Kind::choice ? "choice"
                                                             : "list";
    names.push_back(
        {{"kind", kind}, {"name", name.name}, {"within", name.within}, {"meaning", name.meaning}});
  }
  return {{"names", names}};
}

}  // namespace leeway
