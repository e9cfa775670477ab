#!/usr/bin/env bash
# No file names a folder of the machine that the tests run on (its home, where the checkout lies) or
# the host of a package registry: both work for one person only. Argument: the repository.
set -euo pipefail
repository=${1:?the repository}
# shellcheck source=tests/house/files.sh
. "$(dirname "${BASH_SOURCE[0]}")/files.sh"

# Folders of this machine, one a line. What every machine has tells nothing of this one.
folders_of_machine() {
  local git
  git=$(git -C "$1" rev-parse --path-format=absolute --git-common-dir 2>/dev/null || true)
  {
    printf '%s\n' "${HOME:-}"
    (cd "$1/.." && pwd)
    if [ -d "$git" ]; then (cd "$git/../.." && pwd); fi
  } | grep -vxE '|/|/tmp|/usr|/usr/.*|/opt|/var|/srv|/mnt' | sort -u
}

# pattern FOLDER...: a regular expression that finds them as whole names.
pattern() {
  local any='' folder
  for folder; do any+="|$(printf '%s' "$folder" | sed 's/[^[:alnum:]_/-]/\\&/g')"; done
  printf '(^|[^[:alnum:]_.~-]|-[IL])(%s)(/|$|[^[:alnum:]_-])' "${any#|}"
}

# One bracket in each, so that this file does not match itself.
hosts='[r]egistry\.|[n]pmjs\.|[p]ypi\.org|[p]roxy\.golang'

cd "$repository"
mapfile -t folders < <(folders_of_machine .)
forbidden=$hosts
if [ "${#folders[@]}" -gt 0 ]; then forbidden+="|$(pattern "${folders[@]}")"; fi

# The pattern itself is tried first: a test that cannot fail is none.
samples=("https://reg""istry.example")
for folder in "${folders[@]}"; do samples+=("$folder/x" "in $folder." "-I$folder" "\"$folder\""); done
for sample in "${samples[@]}"; do
  printf '%s\n' "$sample" | grep -qE "$forbidden" || { echo "the pattern misses $sample"; exit 1; }
done

files=$(list_files .)
[ -n "$files" ] || { echo "no file was looked at"; exit 1; }
if printf '%s\n' "$files" | tr '\n' '\0' | xargs -0 grep -InE "$forbidden"; then
  echo "paths and hosts as above do not belong in the repository"
  exit 1
fi
