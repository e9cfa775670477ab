#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "formats/explain/confirm_view.h"
#include "formats/explain/explain_view.h"
#include "formats/explain/mistake_view.h"
#include "formats/explain/question_view.h"
#include "formats/explain/since_view.h"
#include "formats/text/names.h"
#include "formats/text/summary.h"
#include "formats/write/check_view.h"
#include "leeway/rig.h"
#include "leeway/write_explain.h"

namespace leeway {
namespace {

// Nobody reads more in a forum.
constexpr std::size_t kMostWords = 180;

// What is left out first where there are too many words: the least of these.
enum class Weight { aside, detail, second, first, must };

std::size_t words_in(const std::string& text) {
  std::size_t count = 0;
  bool between = true;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\n';
    count += between && !blank;
    between = blank;
  }
  return count;
}

// Paragraphs and items in the order in which they are read, as many as there is room for.
class Post {
 public:
  // `sums` is arithmetic, which does not count.
  void add(Weight weight, std::string text, std::string sums = "") {
    if (!text.empty()) parts_.push_back({weight, std::move(text), std::move(sums), false});
  }

  void write(const TextSink& sink) {
    choose();
    bool first = true;
    for (const Part& part : parts_) {
      if (!part.taken) continue;
      sink((first ? "" : "\n") + part.text + part.sums + "\n");
      first = false;
    }
  }

 private:
  struct Part {
    Weight weight;
    std::string text;
    std::string sums;
    bool taken;
  };

  void choose() {
    std::size_t left = kMostWords;
    for (const Weight weight :
         {Weight::must, Weight::first, Weight::second, Weight::detail, Weight::aside}) {
      for (Part& part : parts_) {
        const std::size_t words = words_in(part.text);
        if (part.weight != weight || (words > left && weight != Weight::must)) continue;
        part.taken = true;
        left -= std::min(left, words);
      }
    }
  }

  std::vector<Part> parts_;
};

void add_groups(const ExplainResult& result, const Rig& rig, const Words& words, Post& post) {
  Weight weight = Weight::first;
  for (const FailingGroup& group : result.groups) {
    post.add(weight, "- " + group_gist(group, result, words) + ".",
             " For example " + arithmetic_sentence(group, result, rig, words));
    weight = Weight::detail;
  }
  for (const std::string& sentence : empty_region_sentences(result.check)) {
    post.add(Weight::second, "- " + sentence);
  }
}

void add_tightest(const ExplainResult& result, const Rig& rig, const Words& words, Post& post) {
  if (result.tightest.empty()) return;
  post.add(Weight::first, tightest_lead(result, rig.setup()) + ":");
  Weight weight = Weight::first;
  for (const std::string& sentence : tightest_sentences(result, words)) {
    post.add(weight, "- " + sentence);
    weight = Weight::detail;
  }
  post.add(Weight::second, compare_lead() + ":");
  int number = 0;
  for (const std::string& sentence : compare_sentences(rig.setup())) {
    post.add(Weight::second, fmt::format("{}. {}", ++number, sentence));
  }
}

void add_guesses(const ExplainResult& result, const Setup& setup, Post& post) {
  const std::string too_much = too_much_sentence(result);
  const bool leads = too_much_first(result);
  if (leads) post.add(Weight::first, too_much);
  if (nothing_stands_out(result)) post.add(Weight::first, nothing_stands_out_sentence());
  Weight weight = leads ? Weight::detail : Weight::first;
  for (const MistakeFound& mistake : result.mistakes) {
    // The answer to a question tells more than a look for one mistake.
    const std::string look = result.question ? "" : " " + confirm_sentence(mistake, setup);
    post.add(weight, mistake_sentence(mistake, setup) + look);
    weight = Weight::detail;
  }
  if (!leads) post.add(Weight::second, too_much);
  if (result.question) post.add(Weight::second, question_sentence(*result.question, false));
}

void add_remedies(const ExplainResult& result, const Setup& setup, Post& post) {
  if (result.remedies.empty()) return;
  Weight weight = Weight::second;
  for (const Remedy& remedy : result.remedies) {
    const char* lead =
        weight == Weight::second ? "If the numbers are right, this would do. " : "Or: ";
    post.add(weight, "- " + std::string(lead) + remedy_sentence(remedy, setup));
    weight = Weight::aside;
  }
}

}  // namespace

void write_explain_markdown(const ExplainResult& result, const Rig& rig, const TextSink& sink) {
  const Words words(rig, markdown_name);
  const Setup& setup = rig.setup();
  Post post;
  post.add(Weight::must, fmt::format("**{}**: {}", setup_name(result.check, words),
                                     asked_sentence(result, setup, words)));
  post.add(Weight::first, changed_sentence(result, setup));
  post.add(Weight::first, did_sentence(result));
  post.add(Weight::detail, numbers_sentence(setup) + " All in mm, positions those of the probe.");
  for (const Contradicted& one : result.contradicted) {
    post.add(Weight::must, contradicted_sentence(one));
  }
  post.add(Weight::must, first_remark(setup, result.check, markdown_name));
  post.add(Weight::must, watch_moves_sentence(result.check, setup, words));
  add_tightest(result, rig, words, post);
  add_groups(result, rig, words, post);
  add_guesses(result, setup, post);
  add_remedies(result, setup, post);
  post.add(Weight::must, caution());
  post.write(sink);
}

}  // namespace leeway
