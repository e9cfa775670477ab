#!/usr/bin/env bash
# Builds the page alone: leeway.html, the whole tool in one file that runs in a browser and asks the
# network for nothing. Installs what is missing (Debian 12, as root or with sudo), builds in
# build-page/, and says where the file lies. Run it from anywhere.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
build=$root/build-page
bash "$root/examples/install-packages.sh" page "$build"

options=(-DLEEWAY_PAGE=ON -DLEEWAY_TESTS=OFF -DCMAKE_BUILD_TYPE=Release)
[ -e "$build/CMakeCache.txt" ] || options+=(-G Ninja)
[ -d "$build/packages/usr" ] && options+=("-DCMAKE_PREFIX_PATH=$build/packages/usr")
cmake -S "$root" -B "$build" "${options[@]}" >"$build.log" 2>&1 ||
  { cat "$build.log" >&2; exit 1; }
rm -f "$build.log"
cmake --build "$build" -j 2 --target leeway_page

size=$(($(wc -c <"$build/leeway.html") / 1000))
echo
echo "The page is build-page/leeway.html ($size KB). Open it in a browser, by a double click or:"
echo "  xdg-open build-page/leeway.html"
echo "It needs no server and no network; you may copy it to another machine or send it to someone."
