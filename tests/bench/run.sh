#!/usr/bin/env bash
# Builds the benchmarks (Release, in build-bench/) and prints Markdown tables of their ratios.
# The reports of Google Benchmark itself go to standard error. Run it from anywhere, on a quiet
# machine; a ratio holds better than a time.
#
#   tests/bench/run.sh [BUILD FOLDER]
#
# The page's frames follow where the page was built (tests/run.sh, or PAGE_BUILD=FOLDER).
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
build=${1:-$root/build-bench}

{
  cmake -S "$root" -B "$build" -DCMAKE_BUILD_TYPE=Release -DCMAKE_UNITY_BUILD=ON \
    -DLEEWAY_BENCH=ON -DLEEWAY_TESTS=OFF
  cmake --build "$build" --parallel 2 --target bench_regions bench_verdicts bench_fit bench_bracket \
    bench_check bench_draw bench_frame bench_wrong bench_heavy
} >&2

options=(--benchmark_repetitions=7 --benchmark_report_aggregates_only=true)
echo "| work | leeway | GEOS | ratio | aim |"
echo "| --- | --- | --- | --- | --- |"
"$build/tests/bench/bench_regions" "${options[@]}"
"$build/tests/bench/bench_verdicts" "${options[@]}" --benchmark_min_time=0.2
"$build/tests/bench/bench_fit" "${options[@]}" --benchmark_min_time=0.2
"$build/tests/bench/bench_bracket" "${options[@]}" --benchmark_min_time=0.1
echo
"$build/tests/bench/bench_check"
echo
"$build/tests/bench/bench_draw"
echo
"$build/tests/bench/bench_wrong"
echo
"$build/tests/bench/bench_heavy"
echo
"$build/tests/bench/bench_frame"

page_build=${PAGE_BUILD:-$root/build-tests}
browser_folder=$page_build/tests/web/browser
echo
if [ -e "$page_build/src/web/leeway.wasm" ] && command -v node >/dev/null; then
  node "$root/tests/bench/engine_frames.cjs" "$page_build/src/web/leeway.wasm"
else
  echo "The page's engine was not timed: no src/web/leeway.wasm in $page_build, or node is absent."
fi
if [ -e "$page_build/leeway.html" ] && [ -d "$browser_folder/node_modules" ] && command -v chromium >/dev/null; then
  node "$root/tests/bench/page_frames.cjs" "$page_build/leeway.html" "$browser_folder" "$(command -v chromium)"
else
  echo "The page was not timed: no leeway.html in $page_build, its browser tests never ran, or chromium is absent."
fi
