#!/usr/bin/env bash
# How fast `cover` reads a program, beside `wc -l` and a loop of std::getline over the same file, as
# ratios of processor time, and the memory it takes. Makes a program of about MB megabytes.
#
#   tests/bench/cover.sh PATH-OF-LEEWAY [MB]
set -euo pipefail
leeway=$(realpath "${1:?the command}")
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
mb=${2:-300}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

cat > "$work/getline.cpp" <<'CPP'
#include <fstream>
#include <iostream>
#include <string>
int main(int, char** argv) {
  std::ifstream file(argv[1]);
  std::size_t lines = 0;
  for (std::string line; std::getline(file, line);) ++lines;
  std::cout << lines << '\n';
}
CPP
"${CXX:-g++}" -O2 -o "$work/getline" "$work/getline.cpp"

# Layers of short moves, as prints have them, in the middle of Godwit's bed.
awk -v bytes=$((mb * 1000000)) 'BEGIN {
  srand(1); print "G21\nG90\nG92 E0"; e = 0
  for (layer = 1; written < bytes; layer++) {
    printf "G0 X60 Y60 Z%.2f\n", layer % 500 * 0.2 + 0.2
    for (i = 0; i < 20000; i++) {
      e += 0.03512
      line = sprintf("G1 X%.3f Y%.3f E%.5f", 60 + 60 * rand(), 60 + 50 * rand(), e)
      print line; written += length(line) + 1
    }
  }
}' > "$work/program.ngc"

size=$(stat -c %s "$work/program.ngc")
# The least of three, in seconds of processor time.
seconds() {
  local TIMEFORMAT='%U %S' i
  for i in 1 2 3; do
    { time "$@" > "$work/out" 2>&1 || true; } 2>&1 | tail -n 1 | awk '{ print $1 + $2 }'
  done | sort -g | head -n 1
}
cat "$work/program.ngc" > /dev/null
cd "$root"
ours=$(seconds "$leeway" cover examples/godwit-all-well.json "$work/program.ngc")
lines=$(seconds wc -l "$work/program.ngc")
plain=$(seconds "$work/getline" "$work/program.ngc")
memory=$(/usr/bin/time -f %M "$leeway" cover examples/godwit-all-well.json "$work/program.ngc" 2>&1 > /dev/null | tail -n 1 || true)

echo "| work | MB/s | times \`wc -l\` | times a loop of std::getline |"
echo "| --- | --- | --- | --- |"
awk -v s="$size" -v o="$ours" -v w="$lines" -v p="$plain" -v m="$memory" 'BEGIN {
  printf "| `cover`, %d MB, %.0f MB of memory | %.0f | %.1f | %.1f |\n", s / 1e6, m / 1000, s / 1e6 / o, o / w, o / p
}'
