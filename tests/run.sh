#!/usr/bin/env bash
# Builds and runs the tests: installs what is missing (Debian 12, as root or with sudo), builds in
# build-tests/ with warnings as errors, and ends with ctest's closing line. Run it from anywhere.
#
#   tests/run.sh              everything
#   tests/run.sh --quick      without the judges (GEOS and CGAL)
#   tests/run.sh --sanitize   a Debug build with the address and undefined sanitizers and the
#                             checks of the C++ library, in build-sanitize/: the unit tests and
#                             whole runs of the command
set -euo pipefail

usage() { sed -n '2,/^set/{/^set/d;s/^# \{0,1\}//;p}' "${BASH_SOURCE[0]}"; }

mode=all
while [ $# -gt 0 ]; do
  case $1 in
    --quick) mode=quick ;;
    --sanitize) mode=sanitize ;;
    -h | --help) usage; exit 0 ;;
    *) echo "tests/run.sh: unknown option $1" >&2; usage >&2; exit 2 ;;
  esac
  shift
done

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
jobs=2
build=$root/build-tests
options=(-DLEEWAY_JUDGES=ON -DLEEWAY_PAGE=ON)
targets=(all)
selection=()
case $mode in
  quick)
    options=(-DLEEWAY_JUDGES=OFF -DLEEWAY_PAGE=ON) ;;
  sanitize)
    build=$root/build-sanitize
    # A little optimised and in batches of files, which takes less time than a plain Debug build.
    options=(-DLEEWAY_JUDGES=OFF '-DLEEWAY_SANITIZE=address,undefined' -DCMAKE_BUILD_TYPE=Debug
      '-DCMAKE_CXX_FLAGS_DEBUG=-O1 -g1 -D_GLIBCXX_ASSERTIONS' -DCMAKE_UNITY_BUILD=ON)
    targets=(leeway leeway_geometry_tests leeway_model_tests leeway_tasks_tests
      leeway_formats_tests leeway_cli_tests leeway_web_tests)
    selection=(-R '^(geometry|model|tasks|formats|cli|web\.(PageSession|SetupJson))\.') ;;
esac

bash "$root/examples/install-packages.sh" tests "$build"
# The judge of Minkowski sums; its package excludes our Boost, so its headers are only unpacked.
if [ "$mode" = all ]; then
  bash "$root/tests/judges/get-cgal.sh" "$build/cgal"
  options+=("-DLEEWAY_CGAL=$build/cgal")
fi

options+=(-DLEEWAY_TESTS=ON)
# With sanitizers GCC warns of what is not there; the release build has the warnings.
[ "$mode" = sanitize ] || options+=(-DLEEWAY_WERROR=ON)
[ -e "$build/CMakeCache.txt" ] || options+=(-G Ninja)
[ -d "$build/packages/usr" ] && options+=("-DCMAKE_PREFIX_PATH=$build/packages/usr")
command -v ccache >/dev/null && options+=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache)
cmake -S "$root" -B "$build" "${options[@]}"
cmake --build "$build" -j "$jobs" --target "${targets[@]}"
ctest --test-dir "$build" -j "$jobs" --output-on-failure --no-tests=error "${selection[@]}"
