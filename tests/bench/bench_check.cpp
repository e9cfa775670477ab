// The whole command, from file to text, as a process of its own: `leeway check` on each shipped
// example next to /bin/true, then on lattices of growing size with the peak of memory.

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/resource.h>
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
constexpr int kRuns = 101;

struct Outcome {
  double ms = 0;
  double processor_ms = 0;
  double peak_mb = 0;
  int status = 0;
};

// Runs a command with its output thrown away.
Outcome run(const std::vector<std::string>& words) {
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
  rusage used{};
  wait4(pid, &status, 0, &used);
  const std::chrono::duration<double, std::milli> ms = std::chrono::steady_clock::now() - start;
  const auto in_ms = [](timeval t) {
    return 1e3 * static_cast<double>(t.tv_sec) + 1e-3 * static_cast<double>(t.tv_usec);
  };
  return {ms.count(), in_ms(used.ru_utime) + in_ms(used.ru_stime),
          static_cast<double>(used.ru_maxrss) / 1024, WIFEXITED(status) ? WEXITSTATUS(status) : 3};
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

// Both medians of runs that take turns, so that whatever else the machine does hits both.
void compare_with_true(const fs::path& setup) {
  std::vector<double> ours;
  std::vector<double> nothing;
  int status = 0;
  for (int i = 0; i < kRuns; ++i) {
    nothing.push_back(run({"/bin/true"}).ms);
    const Outcome outcome = run({LEEWAY_COMMAND, "check", setup.string()});
    ours.push_back(outcome.ms);
    status = outcome.status;
  }
  if (status > 1) throw std::runtime_error("check fails on " + setup.string());
  fmt::print("| `check` {} | {:.2f} ms | {:.2f} ms | {:+.2f} ms | +3 ms |\n", setup.stem().string(),
             median(ours), median(nothing), median(ours) - median(nothing));
}

// A lattice of side x side points over the bed of Godwit or Curlew.
fs::path write_lattice(const fs::path& folder, const std::string& machine, int side) {
  const fs::path file = folder / fmt::format("{}-{}.json", machine, side);
  const std::string profile =
      fs::path(LEEWAY_SOURCE_DIR) / "profiles/machines" / (machine + ".json");
  std::ofstream(file) << fmt::format(
      R"({{"format": "leeway-setup-1", "machine": "{}", "probe": {{"offset": [-38.5, 12],
          "offset_uncertainty": [0.15, 0.15], "spot": {{"disc": {{"center": [0, 0], "radius": 4}}}},
          "trigger_height": 2, "travel_height": 8}},
          "request": {{"grid": {{"columns": {}, "rows": {}, "margins": 1}}}}}})",
      profile, side, side);
  return file;
}

void measure_growth(const fs::path& folder, const std::string& machine, const std::string& format) {
  double per_point = 0;
  for (const int side : {100, 316, 1000}) {
    const fs::path setup = write_lattice(folder, machine, side);
    std::vector<double> times;
    double peak = 0;
    for (int i = 0; i < 5; ++i) {
      const Outcome outcome = run({LEEWAY_COMMAND, "check", setup.string(), "--format", format});
      if (outcome.status > 1) throw std::runtime_error("check fails on " + setup.string());
      times.push_back(outcome.processor_ms);
      peak = std::max(peak, outcome.peak_mb);
    }
    const double points = 1.0 * side * side;
    const double before = per_point;
    per_point = median(times) * 1e6 / points;
    const bool most = side == 1000;
    fmt::print(
        "| `check --format {}` {}, {} points | {:.1f} ms | {:.0f} ns a point{} | {:.0f} MB | {} "
        "|\n",
        format, machine, side * side, median(times), per_point,
        before > 0 ? fmt::format(" ({:.2f} x)", per_point / before) : "", peak,
        most ? "linear, 200 MB" : "-");
  }
}

}  // namespace

int main() try {
  fmt::print("| work | leeway | /bin/true | over it | aim |\n| --- | --- | --- | --- | --- |\n");
  std::vector<fs::path> setups;
  for (const auto& entry : fs::directory_iterator(fs::path(LEEWAY_SOURCE_DIR) / "examples")) {
    if (entry.path().extension() == ".json") setups.push_back(entry.path());
  }
  std::sort(setups.begin(), setups.end());
  for (const fs::path& setup : setups) compare_with_true(setup);

  fmt::print(
      "\n| work | processor time | each (to the row above) | peak memory | aim |\n"
      "| --- | --- | --- | --- | --- |\n");
  std::string name = (fs::temp_directory_path() / "leeway-bench-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
  for (const char* machine : {"godwit", "curlew"}) measure_growth(name, machine, "text");
  measure_growth(name, "godwit", "json");
  fs::remove_all(name);
  return EXIT_SUCCESS;
} catch (const std::exception& problem) {
  fmt::print(stderr, "bench_check: {}\n", problem.what());
  return EXIT_FAILURE;
}
