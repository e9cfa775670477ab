#!/usr/bin/env bash
# Holds the JSON Schemas against the reader (agreement.cjs). The validator comes from npm and is
# installed in FOLDER, which must not lie among the sources.
#
#   run.sh FOLDER
#
# Where npm is absent, or has no registry to ask, the test is skipped with exit status 77; under
# continuous integration (CI=true) that is a failure.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
root=$(cd "$here/../../.." && pwd)
folder=${1:?usage: run.sh FOLDER}

skip() {
  echo "schema-agreement: skipped, $1" >&2
  [ "${CI:-}" = true ] && exit 1
  exit 77
}

command -v npm >/dev/null && command -v node >/dev/null || skip "npm is absent"
mkdir -p "$folder"
if ! cmp -s "$here/package-lock.json" "$folder/installed.json"; then
  cp "$here/package.json" "$here/package-lock.json" "$folder/"
  (cd "$folder" && npm ci --ignore-scripts --no-audit --no-fund >npm.log 2>&1) ||
    skip "npm could not install the validator: $(tail -n 3 "$folder/npm.log")"
  cp "$here/package-lock.json" "$folder/installed.json"
fi
node "$here/agreement.cjs" "$root" "$folder"
