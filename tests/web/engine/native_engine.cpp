// The page's engine, natively: what leeway.wasm is held against. One request a line on standard
// input, one answer a line on standard output.
//
//   native_engine                    answers, in one session
//   native_engine random FIRST LAST  writes the random setups of these seeds, one a line

#include <cstdlib>
#include <iostream>
#include <nlohmann/json.hpp>
#include <string>

#include "judges/random_setup.h"
#include "leeway/write_setup.h"
#include "web/api.h"

extern "C" int leeway_progress(double) { return 0; }

namespace {

int write_random(std::uint64_t first, std::uint64_t last) {
  for (std::uint64_t seed = first; seed < last; ++seed) {
    const leeway::Setup setup = leeway::judges::random_setup(seed);
    std::cout << nlohmann::json(leeway::setup_json(setup)).dump() << '\n';
  }
  return std::cout.good() ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  std::ios::sync_with_stdio(false);
  if (argc == 4) return write_random(std::stoull(argv[2]), std::stoull(argv[3]));
  void* session = leeway_open();
  for (std::string line; std::getline(std::cin, line);) {
    std::cout << leeway_call(session, line.c_str()) << std::endl;
  }
  leeway_close(session);
  return 0;
}
