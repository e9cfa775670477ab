#!/usr/bin/env bash
# No room is crowded: a folder of src/ holds at most 25 files. Tests of a floor stand in rooms of the
# same names as what they test. Argument: the repository.
set -euo pipefail
cd "${1:?the repository}"
most=25
wrong=0
looked=0

while read -r folder; do
  looked=$((looked + 1))
  count=$(find "$folder" -maxdepth 1 -type f | wc -l)
  if [ "$count" -gt "$most" ]; then
    echo "$folder holds $count files, more than $most: it wants rooms of its own"
    wrong=1
  fi
done < <(find src -type d)

for floor in geometry model tasks formats; do
  while read -r folder; do
    looked=$((looked + 1))
    if find "$folder" -maxdepth 1 -name '*_test.cpp' | grep -q . && [ ! -d "src/${folder#tests/}" ]; then
      echo "$folder tests a room that src/ does not have"
      wrong=1
    fi
  done < <(find "tests/$floor" -type d)
done

[ "$looked" -gt 10 ] || { echo "nothing was looked at"; exit 1; }
exit "$wrong"
