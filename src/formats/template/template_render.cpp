#include "formats/template/template_render.h"

#include "geometry/plane/assert.h"

namespace leeway {
namespace {

class Renderer {
 public:
  Renderer(std::string_view text, const std::vector<TemplateTag>& tags,
           const std::vector<const FillEntry*>& entries, const FillFacts& facts)
      : text_(text), tags_(tags), entries_(entries), facts_(facts), spans_(tag_spans(text, tags)) {
    find_ends();
  }

  RenderedTemplate all() {
    out_.text = text_.substr(0, spans_.empty() ? text_.size() : spans_.front().from);
    render(0, tags_.size(), nullptr);
    return std::move(out_);
  }

 private:
  void find_ends() {
    ends_.resize(tags_.size());
    std::vector<std::size_t> open;
    for (std::size_t i = 0; i < tags_.size(); ++i) {
      if (is_section(i)) open.push_back(i);
      if (tags_[i].kind != TemplateTag::Kind::end) continue;
      LEEWAY_ASSERT(!open.empty());
      ends_[open.back()] = i;
      open.pop_back();
    }
    LEEWAY_ASSERT(open.empty());
  }

  bool is_section(std::size_t tag) const {
    return tags_[tag].kind == TemplateTag::Kind::section ||
           tags_[tag].kind == TemplateTag::Kind::inverted;
  }

  // The tags from one to another, each with the text behind it.
  void render(std::size_t from, std::size_t to, const FillItem* item) {
    for (std::size_t i = from; i < to; ++i) {
      if (tags_[i].kind == TemplateTag::Kind::value) value(*entries_[i], item);
      if (is_section(i)) {
        section(i, item);
        i = ends_[i];
      }
      text_behind(i);
    }
  }

  void text_behind(std::size_t tag) {
    const std::size_t from = spans_[tag].to;
    const std::size_t to = tag + 1 < spans_.size() ? spans_[tag + 1].from : text_.size();
    out_.text += text_.substr(from, to - from);
  }

  void value(const FillEntry& entry, const FillItem* item) {
    if (const std::optional<std::string> text = entry.value(facts_, own(entry, item))) {
      out_.text += *text;
    } else {
      out_.missing.insert(entry.name.name);
    }
  }

  // What is named everywhere has nothing of the item around it.
  static const FillItem* own(const FillEntry& entry, const FillItem* item) {
    return entry.name.within.empty() ? nullptr : item;
  }

  void section(std::size_t tag, const FillItem* item) {
    const FillEntry& entry = *entries_[tag];
    const bool inverted = tags_[tag].kind == TemplateTag::Kind::inverted;
    if (entry.name.kind != FillKind::list) {
      if (entry.choice(facts_, own(entry, item)) != inverted) body(tag, item);
      return;
    }
    const std::vector<FillItem> items = fill_items(facts_, entry.name.name);
    if (inverted) {
      if (items.empty()) body(tag, item);
      return;
    }
    for (const FillItem& each : items) body(tag, &each);
  }

  void body(std::size_t tag, const FillItem* item) {
    text_behind(tag);
    render(tag + 1, ends_[tag], item);
  }

  std::string_view text_;
  const std::vector<TemplateTag>& tags_;
  const std::vector<const FillEntry*>& entries_;
  const FillFacts& facts_;
  std::vector<TagSpan> spans_;
  std::vector<std::size_t> ends_;  // of a section: the tag that ends it
  RenderedTemplate out_;
};

}  // namespace

RenderedTemplate render_template(std::string_view text, const std::vector<TemplateTag>& tags,
                                 const std::vector<const FillEntry*>& entries,
                                 const FillFacts& facts) {
  LEEWAY_ASSERT(tags.size() == entries.size());
  return Renderer(text, tags, entries, facts).all();
}

}  // namespace leeway
