#include "bench/example.h"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "leeway/read_setup.h"

namespace leeway::bench {
namespace {

SourceFile file(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  SourceFile source{path.string(), path.string(), {}, in ? "" : "cannot be opened"};
  source.text.assign(std::istreambuf_iterator<char>(in), {});
  return source;
}

}  // namespace

Setup example(const std::string& name) {
  const std::filesystem::path path =
      std::filesystem::path(LEEWAY_SOURCE_DIR) / "examples" / (name + ".json");
  const auto beside = [](std::string_view wanted, std::string_view from) {
    return file((std::filesystem::path(from).parent_path() / wanted).lexically_normal());
  };
  ReadSetup read = read_setup(file(path), beside);
  std::string faults;
  for (const Fault& fault : read.faults) faults += message(fault) + "\n";
  if (!read.setup) throw std::runtime_error(faults);
  return *read.setup;
}

}  // namespace leeway::bench
