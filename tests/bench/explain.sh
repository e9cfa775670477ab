#!/usr/bin/env bash
# How good the guesses of explain are, on stories made from seeds: a table by kind of mistake, what
# a stated probability is worth, and a reliability diagram.
#
#   tests/bench/explain.sh [judging|tuning] [STORIES A KIND] [PICTURE.svg]
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
build=${LEEWAY_BENCH_BUILD:-$root/build-bench}

{
  cmake -S "$root" -B "$build" -DCMAKE_BUILD_TYPE=Release -DCMAKE_UNITY_BUILD=ON \
    -DLEEWAY_BENCH=ON -DLEEWAY_TESTS=OFF
  cmake --build "$build" --parallel 2 --target explain_scores
} >&2

picture=${3:-$build/explain.svg}
"$build/tests/bench/explain_scores" "${1:-judging}" "${2:-100}" "$picture"
echo "picture: $picture"
