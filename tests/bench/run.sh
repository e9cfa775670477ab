#!/usr/bin/env bash
# Builds the benchmarks (Release, in build-bench/) and prints Markdown tables of their ratios.
# The reports of Google Benchmark itself go to standard error. Run it from anywhere, on a quiet
# machine; a ratio holds better than a time.
#
#   tests/bench/run.sh [BUILD FOLDER]
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
