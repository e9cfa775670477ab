#include "leeway/fill.h"

#include <fmt/format.h>

#include <algorithm>
#include <kainjow/mustache.hpp>
#include <map>
#include <set>

#include "formats/template/fill_values.h"
#include "formats/template/template_tags.h"
#include "formats/text/names.h"
#include "formats/text/spelling.h"
#include "formats/text/utf8.h"

namespace leeway {
namespace {

namespace mustache = kainjow::mustache;
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
    for (const TemplateStop& stop : tags.stops) {
      note(stop.at, "template-tag", stop.found, stop.allowed);
    }
  }

  // Names of each list, "" for those outside, that are used.
  const std::map<std::string, std::set<std::string>>& used() const { return used_; }
  const std::set<std::string>& lists() const { return lists_; }

  void note(std::size_t at, std::string code, std::string found, std::string allowed,
            std::string nearest = {}) {
    constexpr std::size_t kMostFaults = 1000;
    if (faults_.size() == kMostFaults) return;
    Fault fault;
    fault.code = std::move(code);
    fault.file = source_.name;
    fault.found = std::move(found);
    fault.allowed = std::move(allowed);
    fault.nearest = std::move(nearest);
    faults_.push_back({at, std::move(fault)});
  }
  void note_missing(const std::string& name, std::string why, std::string allowed) {
    for (const TemplateTag& tag : tags_.tags) {
      if (tag.kind != Tag::value || tag.name != name) continue;
      note(tag.at, "template-no-value",
           fmt::format("\"{}\", which has no value here: {}", name, why), std::move(allowed));
      return;
    }
  }

  std::vector<Fault> faults() {
    std::stable_sort(faults_.begin(), faults_.end(),
                     [](const Noted& a, const Noted& b) { return a.at < b.at; });
    std::vector<Fault> out;
    LineCounter lines(source_.text);
    for (Noted& noted : faults_) {
      const LineColumn place = lines.at(noted.at);
      noted.fault.line = place.line;
      noted.fault.column = place.column;
      out.push_back(noted.fault);
    }
    return out;
  }

 private:
  struct Open {
    const TemplateTag* tag;
    bool list;
  };
  struct Noted {
    std::size_t at;
    Fault fault;
  };

  static std::string shown(const std::string& name) { return cut(one_line(name), 40); }

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
    if (entry != nullptr) used_[entry->name.within].insert(name);
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
    if (entry == nullptr) return unknown(tag, "a name of the table in the README");
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
      lists_.insert(tag.name);
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
  std::map<std::string, std::set<std::string>> used_;
  std::set<std::string> lists_;
  std::vector<Noted> faults_;
};

// Values by their dotted names, to become objects inside objects.
struct Tree {
  std::map<std::string, Tree> inner;
  std::optional<mustache::data> leaf;

  void put(const std::string& name, mustache::data data) {
    const std::size_t dot = name.find('.');
    Tree& tree = inner[name.substr(0, dot)];
    if (dot == std::string::npos) {
      tree.leaf = std::move(data);
    } else {
      tree.put(name.substr(dot + 1), std::move(data));
    }
  }
  mustache::data data() const {
    if (leaf) return *leaf;
    mustache::data out(mustache::data::type::object);
    for (const auto& [name, tree] : inner) out.set(name, tree.data());
    return out;
  }
};

void put_values(const FillFacts& facts, const FillItem* item, const std::string& within,
                const std::set<std::string>& used, Tree& tree) {
  for (const FillEntry& entry : fill_entries()) {
    if (entry.name.within != within || used.count(entry.name.name) == 0) continue;
    if (entry.value) {
      if (const std::optional<std::string> text = entry.value(facts, item)) {
        tree.put(entry.name.name, mustache::data(*text));
      }
    } else if (entry.choice) {
      const bool so = entry.choice(facts, item);
      tree.put(entry.name.name, mustache::data(so ? mustache::data::type::bool_true
                                                  : mustache::data::type::bool_false));
    }
  }
}

mustache::data data_of(const FillFacts& facts, const Reader& reader) {
  const auto used = [&](const std::string& within) {
    const auto at = reader.used().find(within);
    return at == reader.used().end() ? std::set<std::string>{} : at->second;
  };
  Tree tree;
  put_values(facts, nullptr, "", used(""), tree);
  for (const std::string& list : reader.lists()) {
    mustache::data items(mustache::data::type::list);
    const std::set<std::string> names = used(list);
    for (const FillItem& item : fill_items(facts, list)) {
      Tree one;
      put_values(facts, &item, list, names, one);
      items.push_back(one.data());
    }
    tree.put(list, std::move(items));
  }
  return tree.data();
}

// Mustache keeps every item of a list in memory, several kilobytes each.
void refuse_long_lists(const FillFacts& facts, const TemplateTags& tags, Reader& reader) {
  constexpr std::size_t kMostItems = 50'000;
  for (const TemplateTag& tag : tags.tags) {
    if (tag.kind != Tag::section) continue;
    const std::size_t items = tag.name == "check.points" ? facts.checked.points.size()
                              : tag.name == "fit.points" ? facts.fitted.checked.points.size()
                                                         : 0;
    if (items <= kMostItems) continue;
    reader.note(tag.at, "template-long-list",
                fmt::format("\"{}\", which has {} points here", tag.name, items),
                fmt::format("a list of at most {}; leeway check --format csv writes any number",
                            kMostItems));
    return;
  }
}

// Remembers which names were asked for and have no value.
class Watched : public mustache::context<std::string> {
 public:
  explicit Watched(const mustache::data* data) : mustache::context<std::string>(data) {}

  const mustache::data* get(const std::string& name) const override {
    const mustache::data* found = mustache::context<std::string>::get(name);
    if (found == nullptr) missing.insert(name);
    return found;
  }

  mutable std::set<std::string> missing;
};

void note_missing(const FillFacts& facts, const std::set<std::string>& names, Reader& reader) {
  const auto begins = [](const std::string& name, std::string_view with) {
    return name.compare(0, with.size(), with) == 0;
  };
  for (const std::string& name : names) {
    if (begins(name, "nearest.")) {
      reader.note_missing(name, "no place near the point works", "it inside {{#has_nearest}}");
    } else if (begins(name, "fit.home.") && !facts.fitted.home) {
      reader.note_missing(name, "there is no place to home at", "it inside {{#fit.has_home}}");
    } else if (name == "fit.uniform_margin" && facts.fitted.mesh) {
      reader.note_missing(name, "no single margin serves all sides",
                          "it inside {{#fit.has_uniform_margin}}");
    } else if (begins(name, "fit.") && !facts.fitted.mesh) {
      reader.note_missing(name, "nothing fits", "it inside {{#fit.feasible}}");
    } else if (name.find(".coverage.") != std::string::npos || begins(name, "check.")) {
      reader.note_missing(name, "the setup asks for nothing to measure it by", "another name");
    } else if (facts.decimals < kMostDecimals && name != "leeway") {
      reader.note_missing(
          name,
          fmt::format("rounded to {} decimals it would not be safe at every point", facts.decimals),
          fmt::format("--decimals {}", facts.decimals + 1));
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

Filled fill_template(const SourceFile& source, const Setup& setup, const Limits& limits,
                     const CheckResult& checked, const FitResult& fitted, int decimals) {
  const FillFacts facts{setup, limits, checked, fitted, decimals};
  Filled out;
  if (!source.problem.empty()) {
    Fault fault;
    fault.code = "cannot-read";
    fault.file = source.name;
    fault.found = "a file that cannot be read: " + source.problem;
    out.faults.push_back(fault);
    return out;
  }
  if (source.text.size() > kLargestFile) {
    Fault fault;
    fault.code = "file-too-large";
    fault.file = source.name;
    fault.found = fmt::format("a file of more than {} bytes", kLargestFile);
    fault.allowed = fmt::format("at most {} bytes", kLargestFile);
    out.faults.push_back(fault);
    return out;
  }
  const TemplateTags tags = template_tags(source.text);
  Reader reader(source, tags);
  out.faults = reader.faults();
  if (!out.faults.empty()) return out;

  refuse_long_lists(facts, tags, reader);
  out.faults = reader.faults();
  if (!out.faults.empty()) return out;

  const mustache::data data = data_of(facts, reader);
  mustache::mustache engine(without_comments(source.text, tags.tags));
  engine.set_custom_escape([](const std::string& text) { return text; });
  Watched context(&data);
  std::string text = engine.render(context);
  if (!engine.is_valid()) {
    // What passed our own reading renders; whatever else the engine has to say is kept.
    reader.note(0, "template", "what is no template: " + engine.error_message(), "");
  }
  note_missing(facts, context.missing, reader);
  out.faults = reader.faults();
  if (out.faults.empty()) out.text = std::move(text);
  return out;
}

}  // namespace leeway
