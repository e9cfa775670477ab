#!/usr/bin/env bash
# Puts the page together: type check, bundle, one HTML file. The packages (package-lock.json) are
# installed in FOLDER, which must not lie among the sources.
#
#   build.sh LEEWAY.WASM OUT.HTML FOLDER
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
usage="usage: build.sh LEEWAY.WASM OUT.HTML FOLDER"
wasm=$(realpath "${1:?$usage}")
out=$(realpath -m "${2:?$usage}")
folder=$(realpath -m "${3:?$usage}")

command -v npm >/dev/null && command -v node >/dev/null || { echo "page: npm is absent" >&2; exit 1; }
mkdir -p "$folder"
# What is left of files that are no more would be checked too.
find "$folder" -mindepth 1 -maxdepth 1 ! -name node_modules ! -name installed.json -exec rm -rf {} +
(cd "$here" && cp -r ./*.ts ./*.tsx ./*.css ./*.html ./*.mjs ./*.json view "$folder/")
cd "$folder"
if ! cmp -s package-lock.json installed.json; then
  npm ci --ignore-scripts --no-audit --no-fund >npm.log 2>&1 || { tail -n 5 npm.log >&2; exit 1; }
  cp package-lock.json installed.json
fi
node node_modules/typescript/bin/tsc --noEmit
node build.mjs --wasm "$wasm" --out "$out"
