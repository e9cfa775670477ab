#include "web/api.h"

#include <memory>
#include <new>
#include <string>

#include "web/session.h"

namespace leeway {
namespace {

struct OpenSession {
  Session session{[](double done) { return leeway_progress(done) == 0; }};
  std::string answer;
};

}  // namespace
}  // namespace leeway

extern "C" {

void* leeway_open() { return new (std::nothrow) leeway::OpenSession; }

void leeway_close(void* session) { delete static_cast<leeway::OpenSession*>(session); }

const char* leeway_call(void* session, const char* request) {
  auto& open = *static_cast<leeway::OpenSession*>(session);
  try {
    open.answer = open.session.answer(request);
    return open.answer.c_str();
  } catch (...) {
    return R"({"ok":false,"faults":[{"message":"The memory is not enough for this."}]})";
  }
}
}
