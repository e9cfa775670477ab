// `leeway draw` as a process of its own, from the setup's file to the picture's: a lattice of
// 25 x 25 on Curlew, and one of 100,000 points. The peer is `leeway check` with the same points:
// what is over it is the regions and the drawing.

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

extern char** environ;

namespace {

namespace fs = std::filesystem;

// Milliseconds of a command whose output is thrown away.
double run(const std::vector<std::string>& words) {
  std::vector<char*> argv;
  for (const std::string& word : words) argv.push_back(const_cast<char*>(word.c_str()));
  argv.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addopen(&actions, 2, "/dev/null", O_WRONLY, 0);
  const auto start = std::chrono::steady_clock::now();
  pid_t pid = 0;
  if (posix_spawn(&pid, argv[0], &actions, nullptr, argv.data(), environ) != 0) {
    throw std::runtime_error("cannot run " + words[0]);
  }
  posix_spawn_file_actions_destroy(&actions);
  int status = 0;
  waitpid(pid, &status, 0);
  const std::chrono::duration<double, std::milli> ms = std::chrono::steady_clock::now() - start;
  if (!WIFEXITED(status) || WEXITSTATUS(status) > 1) {
    throw std::runtime_error("fails: " + words[1] + " " + words[2]);
  }
  return ms.count();
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

fs::path write_lattice(const fs::path& folder, int columns, int rows) {
  const fs::path file = folder / fmt::format("curlew-{}-{}.json", columns, rows);
  const fs::path profiles = fs::path(LEEWAY_SOURCE_DIR) / "profiles";
  std::ofstream(file) << fmt::format(
      R"({{"format": "leeway-setup-1", "machine": "{}", "probe": {{"profile": "{}",
          "offset": [-34.5, 21], "offset_uncertainty": [0.12, 0.12], "edge_distance": 1}},
          "request": {{"grid": {{"columns": {}, "rows": {}, "x": [15, 262.5], "y": [24, 221]}},
                       "home": {{"at": [152, 128], "frame": "probe"}}}}}})",
      (profiles / "machines/curlew.json").string(),
      (profiles / "probes/inductive-m18.json").string(), columns, rows);
  return file;
}

void measure(const fs::path& folder, int columns, int rows, int runs, double aim) {
  const std::string setup = write_lattice(folder, columns, rows).string();
  const std::string picture = (folder / "plan.svg").string();
  std::vector<double> draws;
  std::vector<double> checks;
  for (int i = 0; i < runs; ++i) {
    draws.push_back(run({LEEWAY_COMMAND, "draw", setup, "--output", picture}));
    checks.push_back(run({LEEWAY_COMMAND, "check", setup, "--format", "csv"}));
  }
  fmt::print(
      "| `draw` Curlew, {} x {} points | {:.1f} ms | {:.1f} ms (`check --format csv`) | {:.1f} "
      "| {} kB | under {} ms |\n",
      columns, rows, median(draws), median(checks), median(draws) / median(checks),
      fs::file_size(picture) / 1000, aim);
}

}  // namespace

int main() try {
  fmt::print(
      "| work | leeway | peer | ratio | size | aim |\n| --- | --- | --- | --- | --- | --- |\n");
  std::string name = (fs::temp_directory_path() / "leeway-bench-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
  measure(name, 25, 25, 101, 20);
  measure(name, 400, 250, 11, 1000);
  fs::remove_all(name);
  return EXIT_SUCCESS;
} catch (const std::exception& problem) {
  fmt::print(stderr, "bench_draw: {}\n", problem.what());
  return EXIT_FAILURE;
}
