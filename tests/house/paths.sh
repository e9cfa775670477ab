#!/usr/bin/env bash
# No file names a folder of somebody's machine or the host of a package registry: both work for one
# person only. Argument: the repository.
set -euo pipefail
repository=${1:?the repository}
# shellcheck source=tests/house/files.sh
. "$(dirname "${BASH_SOURCE[0]}")/files.sh"

# One bracket in each, so that this file does not match itself.
folders='(^|[^[:alnum:]_.~-]|-[IL])/([h]ome|[w]ork|[r]oot|[U]sers|[t]mp/lw)(/|$|[^[:alnum:]_-])'
hosts='[r]egistry\.|[n]pmjs\.|[p]ypi\.org|[p]roxy\.golang'
forbidden="$folders|[C]:\\\\|$hosts"

# The pattern itself is tried first: a test that cannot fail is none.
for sample in /ho''me/someone/x "in /wo""rk/main" "-I/ro""ot" "https://reg""istry.example"; do
  printf '%s\n' "$sample" | grep -qE "$forbidden" || { echo "the pattern misses $sample"; exit 1; }
done

cd "$repository"
files=$(list_files .)
[ -n "$files" ] || { echo "no file was looked at"; exit 1; }
if printf '%s\n' "$files" | tr '\n' '\0' | xargs -0 grep -InE "$forbidden"; then
  echo "paths and hosts as above do not belong in the repository"
  exit 1
fi
