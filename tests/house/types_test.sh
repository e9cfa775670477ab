#!/usr/bin/env bash
# types.sh must find a type that is planted a second time in a copy. Argument: the repository.
set -euo pipefail
repository=${1:?the repository}
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
copy=$(mktemp -d)
trap 'rm -rf "$copy"' EXIT

# plant CODE: whether types.sh finds nothing wrong with a file of it.
plant() {
  rm -rf "$copy/include" "$copy/src"
  cp -R "$repository/include" "$repository/src" "$copy/"
  printf '%s\n' "$1" >"$copy/src/tasks/planted.h"
  bash "$here/types.sh" "$copy" >"$copy/said"
}

for type in 'struct Point {' 'class Limits {' 'enum class Verdict { yes };' 'struct Setup : Other {'; do
  if plant "namespace leeway {
$type"; then
    echo "not found: $type"
    exit 1
  fi
  grep -q 'planted.h:2: a second leeway::' "$copy/said" || { cat "$copy/said"; exit 1; }
done

# These are others, or none.
for text in 'class Limits;' 'namespace {
struct Point {' 'namespace inner {
struct Point {' 'struct Unheard {
  struct Point {'; do
  plant "namespace leeway {
$text" || { echo "wrongly found: $text"; cat "$copy/said"; exit 1; }
done
echo "every planted type was found"
