#!/usr/bin/env bash
# Holds whole runs of the command against tests/cli/approved/NAME.txt: what it wrote to standard
# output and standard error, and its exit status. The cases are those of cases.txt, and
# check and fit of every setup in examples/ in every format.
#
#   tests/cli/approved.sh PATH-OF-LEEWAY
#   LEEWAY_APPROVE=1 tests/cli/approved.sh PATH-OF-LEEWAY    keeps what it writes now; read it!
set -euo pipefail
export LC_ALL=C NO_COLOR=1

leeway=$(realpath "$1")
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
root=$(cd "$here/../.." && pwd)
approved=$here/approved
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$root"

cases=()
commands=()
while IFS= read -r line; do
  [[ $line == '#'* || -z $line ]] && continue
  cases+=("${line%% :*}")
  command=${line#* :}
  commands+=("${command# }")
done < "$here/cases.txt"
for example in examples/*.json; do
  for format in text json csv markdown; do
    cases+=("$(basename "$example" .json)-$format")
    commands+=("check $example --format $format")
  done
  cases+=("$(basename "$example" .json)-long")
  commands+=("check $example --long")
  for format in text json markdown; do
    cases+=("fit-$(basename "$example" .json)-$format")
    commands+=("fit $example --format $format")
  done
done

# The parts of a run in one file, each as it was, byte by byte.
run_case() {
  local status=0
  eval "\"\$leeway\" $1" > "$work/out" 2> "$work/err" || status=$?
  printf '$ leeway %s\n' "$1"
  cat "$work/out"
  printf -- '--- standard error\n'
  cat "$work/err"
  printf -- '--- exit status %d\n' "$status"
}

failed=0
complain() { echo "$*" >&2; failed=$((failed + 1)); }

[ "${#cases[@]}" -gt 40 ] || complain "only ${#cases[@]} cases: cases.txt or examples/ went missing"
if [ "${LEEWAY_APPROVE:-}" = 1 ]; then
  mkdir -p "$approved"
  rm -f "$approved"/*.txt
elif [ ! -d "$approved" ]; then
  echo "$approved is missing; LEEWAY_APPROVE=1 makes it" >&2
  exit 1
fi

for i in "${!cases[@]}"; do
  kept=$approved/${cases[$i]}.txt
  run_case "${commands[$i]}" > "$work/now"
  if [ "${LEEWAY_APPROVE:-}" = 1 ]; then
    [ ! -e "$kept" ] || complain "two cases are called ${cases[$i]}"
    cp "$work/now" "$kept"
  elif [ ! -e "$kept" ]; then
    complain "${cases[$i]}: there is no $kept"
  elif ! diff -u --label approved --label now "$kept" "$work/now" >&2; then
    complain "${cases[$i]}: differs"
  fi
done

for kept in "$approved"/*.txt; do
  name=$(basename "$kept" .txt)
  [[ " ${cases[*]} " == *" $name "* ]] || complain "$name: approved, but no case of that name"
done

echo "${#cases[@]} cases, $failed complaints"
[ "$failed" = 0 ]
