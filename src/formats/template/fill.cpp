#include "leeway/fill.h"
#include "leeway/rig.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "formats/fault/fault_notes.h"
#include "formats/template/fill_values.h"
#include "formats/template/template_render.h"
#include "formats/template/template_tags.h"
#include "formats/text/names.h"
#include "formats/text/spelling.h"
#include "formats/text/utf8.h"

namespace leeway {
namespace {

using Tag = TemplateTag::Kind;

const FillEntry* entry_named(const std::string& name, const std::string& within) {
  for (const FillEntry& entry : fill_entries()) {
    if (entry.name.name == name && entry.name.within == within) return &entry;
  }
  return nullptr;
}

// Looks at a template's tags before anything is rendered.
class Reader {
 public:
  Reader(const SourceFile& source, const TemplateTags& tags) : source_(source), tags_(tags) {
    for (const TemplateTag& tag : tags.tags) look_at(tag);
    for (const Open& open : open_) {
      note(open.tag->at, "template-section",
           fmt::format("the section {{{{#{}}}}} without an end", shown(open.tag->name)),
           fmt::format("{{{{/{}}}}} behind it", shown(open.tag->name)));
    }
    note_single_braces();
    for (const TemplateStop& stop : tags.stops) {
      note(stop.at, "template-tag", stop.found, stop.allowed);
    }
  }

  // What each tag names, in their order; null for one that names nothing.
  const std::vector<const FillEntry*>& entries() const { return entries_; }

  void note(std::size_t at, std::string code, std::string found, std::string allowed,
            std::string nearest = {}) {
    notes_.add(at,
               fault_of(std::move(code), std::move(found), std::move(allowed), std::move(nearest)));
  }
  void note_missing(const std::string& name, std::string why, std::string allowed) {
    for (const TemplateTag& tag : tags_.tags) {
      if (tag.kind != Tag::value || tag.name != name) continue;
      note(tag.at, "template-no-value",
           fmt::format("\"{}\", which has no value here: {}", name, why), std::move(allowed));
      return;
    }
  }

  // Names that only a fit gives a value.
  void note_needs_fit() {
    for (std::size_t i = 0; i < tags_.tags.size(); ++i) {
      const TemplateTag& tag = tags_.tags[i];
      if (entries_[i] == nullptr || tag.kind == Tag::end || tag.name.rfind("fit.", 0) != 0)
        continue;
      note(tag.at, "template-needs-fit", fmt::format("\"{}\", which only a fit tells", tag.name),
           "the option --fit, or a name such as mesh.probe.x0");
    }
  }

  // Numbers of the setup are not those of the walk, which leaves out what is not reachable.
  void note_not_of_a_walk() {
    for (std::size_t i = 0; i < tags_.tags.size(); ++i) {
      const TemplateTag& tag = tags_.tags[i];
      const bool known = entries_[i] != nullptr && tag.kind != Tag::end;
      if (!known || tag.name.find('.') == std::string::npos || tag.name == "walk.program") continue;
      note(tag.at, "template-not-of-a-walk", fmt::format("\"{}\" round a walk", tag.name),
           "walk.program, setup, machine and caution");
    }
  }

  std::vector<Fault> faults() const { return notes_.told(source_.name, source_.text); }

 private:
  struct Open {
    const TemplateTag* tag;
    bool list;
  };

  static std::string shown(const std::string& name) { return cut(one_line(name), 40); }

  // Text may hold braces; only a name of ours between two single ones is a mistake.
  void note_single_braces() {
    const std::string_view text = source_.text;
    for (std::size_t at = text.find('{'); at != text.npos; at = text.find('{', at + 1)) {
      const std::size_t end = text.find_first_of("{}\r\n", at + 1);
      const bool before = at > 0 && text[at - 1] == '{';
      if (before || end == text.npos || text[end] != '}' || text.substr(end + 1, 1) == "}")
        continue;
      const std::string name(text.substr(at + 1, end - at - 1));
      const auto& entries = fill_entries();
      const bool ours = std::any_of(entries.begin(), entries.end(), [&](const FillEntry& entry) {
        return entry.name.name == name && name.find('.') != name.npos;
      });
      if (!ours) continue;
      note(at, "template-one-brace",
           fmt::format("{{{}}} between single braces: one brace; names stand in two", name),
           fmt::format("{{{{{}}}}}", name));
    }
  }

  std::string list_around() const {
    for (const Open& open : open_) {
      if (open.list) return open.tag->name;
    }
    return "";
  }

  const FillEntry* find(const std::string& name) {
    const std::string list = list_around();
    const FillEntry* entry = list.empty() ? nullptr : entry_named(name, list);
    if (entry == nullptr) entry = entry_named(name, "");
    entries_.back() = entry;
    return entry;
  }

  void unknown(const TemplateTag& tag, const char* what) {
    const std::string list = list_around();
    WordList names;
    for (const FillEntry& entry : fill_entries()) {
      if (entry.name.within.empty() || entry.name.within == list) names.push_back(entry.name.name);
    }
    for (const FillEntry& entry : fill_entries()) {
      if (entry.name.name != tag.name || entry.name.within.empty()) continue;
      note(tag.at, "template-unknown-name",
           fmt::format("\"{}\" outside the list that has it", shown(tag.name)),
           fmt::format("it inside {{{{#{0}}}}} ... {{{{/{0}}}}}", entry.name.within));
      return;
    }
    note(tag.at, "template-unknown-name", fmt::format("the unknown name \"{}\"", shown(tag.name)),
         what, std::string(nearest_word(tag.name, names)));
  }

  void look_at(const TemplateTag& tag) {
    entries_.push_back(nullptr);
    switch (tag.kind) {
      case Tag::value:
        return value(tag);
      case Tag::section:
      case Tag::inverted:
        return section(tag);
      case Tag::end:
        return end(tag);
      case Tag::partial:
        return note(tag.at, "template-partial",
                    fmt::format("\"{}\", a way to take in other text", shown(tag.name)),
                    "names of results only: a template never reads files");
      case Tag::comment:
      case Tag::delimiters:
        return;
    }
  }

  void value(const TemplateTag& tag) {
    if (tag.name.empty()) return;
    const FillEntry* entry = find(tag.name);
    if (entry == nullptr) return unknown(tag, "a name of the table in profiles/README.md");
    if (entry->name.kind == FillKind::value) return;
    note(tag.at, "template-kind", fmt::format("\"{}\" as a value", tag.name),
         fmt::format("it as a section: {{{{#{0}}}}} ... {{{{/{0}}}}}", tag.name));
  }

  void section(const TemplateTag& tag) {
    const FillEntry* entry = tag.name.empty() ? nullptr : find(tag.name);
    bool list = false;
    if (entry == nullptr) {
      if (!tag.name.empty()) unknown(tag, "the name of a list or of a choice");
    } else if (entry->name.kind == FillKind::value) {
      note(tag.at, "template-kind", fmt::format("\"{}\" as a section", tag.name),
           fmt::format("it as a value: {{{{{}}}}}", tag.name));
    } else if (entry->name.kind == FillKind::list) {
      list = tag.kind == Tag::section;
      if (list && !list_around().empty()) {
        note(tag.at, "template-nested-lists",
             fmt::format("the list \"{}\" inside the list \"{}\"", tag.name, list_around()),
             "one list at a time");
        list = false;
      }
    }
    constexpr std::size_t kDeepest = 16;
    if (open_.size() == kDeepest) {
      note(tag.at, "template-too-deep", fmt::format("sections nested {} deep", kDeepest + 1),
           fmt::format("at most {} deep", kDeepest));
    }
    open_.push_back({&tag, list});
  }

  void end(const TemplateTag& tag) {
    if (open_.empty()) {
      note(tag.at, "template-section",
           fmt::format("the end of a section \"{}\" that was not begun", shown(tag.name)),
           "no end here");
      return;
    }
    if (open_.back().tag->name != tag.name) {
      note(tag.at, "template-section",
           fmt::format("the end of \"{}\" inside \"{}\"", shown(tag.name),
                       shown(open_.back().tag->name)),
           fmt::format("{{{{/{}}}}} first", shown(open_.back().tag->name)));
    }
    open_.pop_back();
  }

  const SourceFile& source_;
  const TemplateTags& tags_;
  std::vector<Open> open_;
  std::vector<const FillEntry*> entries_;
  FaultNotes notes_;
};

bool has_single_line(const std::string& name, const MeshNumbers& mesh) {
  return (name == "mesh.spacing.x" ? mesh.columns : mesh.rows) == 1;
}

void note_missing(const FillFacts& facts, const std::set<std::string>& names, Reader& reader) {
  const auto begins = [](const std::string& name, std::string_view with) {
    return name.compare(0, with.size(), with) == 0;
  };
  for (const std::string& name : names) {
    if (begins(name, "nearest.")) {
      reader.note_missing(name, "no place near the point works", "it inside {{#has_nearest}}");
    } else if (name == "walk.program") {
      reader.note_missing(name, "only a walk has a program", "it in a text for `walk --wrap`");
    } else if (begins(name, "home.") && !facts.numbers.home) {
      reader.note_missing(name, "there is no place to home at", "it inside {{#home.known}}");
    } else if (name == "mesh.uniform_margin" && facts.numbers.mesh) {
      reader.note_missing(name, "the four margins are not one number",
                          "it inside {{#mesh.has_uniform_margin}}");
    } else if (name == "fit.uniform_margin") {
      reader.note_missing(name, "no single margin works on all sides",
                          "it inside {{#fit.has_uniform_margin}}");
    } else if (begins(name, "mesh.") && !facts.numbers.mesh) {
      reader.note_missing(name,
                          facts.fitted != nullptr ? "nothing fits" : "the setup asks for no grid",
                          "it inside {{#mesh.stated}}");
    } else if (begins(name, "mesh.spacing.") && has_single_line(name, *facts.numbers.mesh)) {
      reader.note_missing(name, "there is a single line", "another name");
    } else if (name == "mesh.least_height") {
      reader.note_missing(name, "no height is enough", "it inside {{#mesh.has_least_height}}");
    } else if (name.find(".coverage.") != std::string::npos || begins(name, "check.")) {
      reader.note_missing(name, "the setup asks for nothing to measure it by", "another name");
    } else if (facts.numbers.decimals < kMostDecimals && name != "leeway") {
      reader.note_missing(name,
                          fmt::format("rounded to {} decimals it would not be safe at every point",
                                      facts.numbers.decimals),
                          fmt::format("--decimals {}", facts.numbers.decimals + 1));
    } else {
      reader.note_missing(name, "there is no such position at all", "another name");
    }
  }
}

}  // namespace

std::vector<FillName> fill_names() {
  std::vector<FillName> names;
  for (const FillEntry& entry : fill_entries()) names.push_back(entry.name);
  return names;
}

Filled fill_template(const SourceFile& source, const FillFacts& facts) {
  Filled out;
  FaultNotes whole;
  if (!source.problem.empty()) {
    whole.add(FaultNotes::kWholeFile,
              fault_of("cannot-read", "a file that cannot be read: " + source.problem, {}));
  } else if (source.text.size() > kLargestFile) {
    whole.add(FaultNotes::kWholeFile,
              fault_of("file-too-large", fmt::format("a file of more than {} bytes", kLargestFile),
                       fmt::format("at most {} bytes", kLargestFile)));
  }
  if (!whole.empty()) {
    out.faults = whole.told(source.name, {});
    return out;
  }
  const TemplateTags tags = template_tags(source.text);
  Reader reader(source, tags);
  if (facts.program != nullptr) {
    reader.note_not_of_a_walk();
  } else if (facts.fitted == nullptr) {
    reader.note_needs_fit();
  }
  out.faults = reader.faults();
  if (!out.faults.empty()) return out;

  RenderedTemplate rendered = render_template(source.text, tags.tags, reader.entries(), facts);
  note_missing(facts, rendered.missing, reader);
  out.faults = reader.faults();
  if (out.faults.empty()) out.text = std::move(rendered.text);
  return out;
}

std::string why_not_filled(const FillFacts& facts) {
  const CheckResult& checked = facts.numbers.of_mesh;
  if (facts.fitted != nullptr && !facts.fitted->mesh) return "no grid fits";
  if (checked.counts.points == 0) return "the setup asks for no point";
  const std::size_t failing = checked.counts.points - checked.counts.reachable;
  if (failing > 0) {
    return fmt::format("{} of {} points cannot be relied on", failing, checked.counts.points);
  }
  if (checked.moves.drags) return "the travel height drags the probe or the head along";
  return fmt::format("{} of {} moves between the points would run into something",
                     checked.moves.blocked.size(), checked.moves.count);
}

}  // namespace leeway
