#include <cstdio>

#include "leeway/limits.h"
#include "leeway/read_setup.h"

int main() {
  leeway::SourceFile file{"setup", "setup", R"({"format": "leeway-setup-1", "name": "inline",
      "machine": {"name": "plain", "bed": {"rectangle": {"x": [0, 233], "y": [0, 207]}},
                  "travel": {"rectangle": {"x": [-5, 239], "y": [-2, 211]}}},
      "probe": {"offset": [-38.5, 12]}})",
                          ""};
  const auto read = leeway::read_setup(file, [&](auto, auto) { return file; });
  if (!read.setup) return std::printf("%s\n", leeway::message(read.faults.front()).c_str()), 2;
  const leeway::Limits limits(*read.setup);
  const leeway::Finding finding = limits.evaluate({210, 20});
  std::printf("%s, %s, %g\n", leeway::word(finding.verdict),
              limits.info(finding.limit).name.c_str(), finding.leeway);
}
