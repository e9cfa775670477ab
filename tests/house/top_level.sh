#!/usr/bin/env bash
# The top level holds these names and dot files, nothing else. Argument: the repository.
set -euo pipefail
repository=${1:?the repository}
# shellcheck source=tests/house/files.sh
. "$(dirname "${BASH_SOURCE[0]}")/files.sh"

allowed='^(CMakeLists\.txt|README\.md|DEVELOPERS\.md|src|include|profiles|tests|examples|\..*)$'
names=$(list_files "$repository" | cut -d/ -f1 | sort -u)
[ "$(printf '%s\n' "$names" | grep -cx -e src -e include -e CMakeLists.txt)" -eq 3 ] || {
  echo "this does not look like the repository: $names"
  exit 1
}
if printf '%s\n' "$names" | grep -vE "$allowed"; then
  echo "must not lie at the top level"
  exit 1
fi
