#!/usr/bin/env bash
# Every shell script parses, and those to be run by name are executable. Argument: the repository.
set -euo pipefail
repository=${1:?the repository}
# shellcheck source=tests/house/files.sh
. "$(dirname "${BASH_SOURCE[0]}")/files.sh"

cd "$repository"
scripts=$(list_files . | grep -E '(\.sh|^\.ci/run)$')
for script in $scripts; do
  bash -n "$script"
done
for script in .ci/run tests/run.sh examples/quickstart.sh; do
  [ -x "$script" ] || { echo "$script is not executable"; exit 1; }
done
