#include "web/setup/differences.h"
#include "web/answers.h"

#include <fmt/format.h>

#include "formats/compare/setup_differences.h"
#include "formats/json/setup_value.h"
#include "leeway/read_setup.h"

namespace leeway {
namespace {

void note_changes(const Json& from, const Json& to, const Json::json_pointer& at, Json& out) {
  if (from == to) return;
  if (!from.is_object() || !to.is_object()) {
    out[at.to_string()] = to;
    return;
  }
  for (const auto& [key, value] : from.items()) {
    if (!to.contains(key)) out[(at / key).to_string()] = nullptr;
  }
  for (const auto& [key, value] : to.items()) {
    note_changes(from.contains(key) ? from.at(key) : Json(), value, at / key, out);
  }
}

}  // namespace

Json changes_between(const Setup& from, const Setup& to) {
  Json out = Json::object();
  note_changes(setup_value(from), setup_value(to), Json::json_pointer(), out);
  return out;
}

Json answer_differs(Session& session, WebRequest& asked) {
  const std::string other = asked.text("other", "");
  asked.done();
  const Setup theirs = whole_setup(other, "the other setup");
  Json one = session.whole().is_null() ? setup_value(session.rig().setup()) : session.whole();
  Json two = setup_value(theirs);
  one.erase("name");
  two.erase("name");
  Json rows = Json::array();
  for (const SetupDifference& row : differences_between(one, two)) {
    rows.push_back({{"what", row.what}, {"this", row.one}, {"other", row.other}});
  }
  const std::size_t count = rows.size();
  return {{"differs", rows},
          {"says", count == 0   ? "Nothing differs but perhaps the name."
                   : count == 1 ? "One thing differs."
                                : fmt::format("{} things differ.", count)},
          {"changes", changes_between(session.rig().setup(), theirs)}};
}

}  // namespace leeway
