#!/usr/bin/env bash
# From a clean clone to a first verdict: installs what is missing (Debian 12, as root or with sudo),
# builds the command in build/ and checks a shipped example with it. Run it from anywhere.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
build=$root/build

bash "$root/examples/install-packages.sh" build "$build"

options=(-S "$root" -B "$build" -DCMAKE_BUILD_TYPE=Release -DLEEWAY_TESTS=OFF)
# In batches of files, which takes less than half the time.
[ -e "$build/CMakeCache.txt" ] || options+=(-G Ninja -DCMAKE_UNITY_BUILD=ON)
[ -d "$build/packages/usr" ] && options+=("-DCMAKE_PREFIX_PATH=$build/packages/usr")
command -v ccache >/dev/null && options+=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache)
mkdir -p "$build"
if ! cmake "${options[@]}" >"$build/configure.log" 2>&1; then
  cat "$build/configure.log" >&2
  exit 2
fi
cmake --build "$build" --target leeway

cd "$root"
example=examples/godwit-side-bracket.json
printf '\n$ build/leeway check %s\n\n' "$example"
status=0
build/leeway check "$example" || status=$?
# 1 is a verdict, not a failure: this example asks for points that the probe cannot reach.
[ "$status" -le 1 ] || exit "$status"

cat <<'END'

Where to go on:
  build/leeway check examples/godwit-all-well.json    a setup where everything is reachable
  examples/*.json                                     copy the one nearest to your machine and edit it
  profiles/                                           machines and probes to start from
  README.md, examples/README.md                       what each command answers, recipes
  profiles/README.md                                  every key of a setup and of results
Measure your own machine with the heater off, and follow its manual.
END
