#!/usr/bin/env bash
# Drives the HTML that leeway writes in a real Chromium, prints it, and measures the paper
# (all.cjs). playwright-core, puppeteer-core and axe-core come from npm
# and are installed in FOLDER, which must not lie among the sources; chromium, firefox-esr and
# pdftoppm are Debian's.
#
#   run.sh PATH-OF-LEEWAY FOLDER [PAGE]
#
# With PAGE, a leeway.html, whole stories are played in it too (page.cjs, firefox.cjs).
#
# Where something is absent the test is skipped with exit status 77; under continuous integration
# (CI=true) that is a failure.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
root=$(cd "$here/../.." && pwd)
leeway=$(realpath "${1:?usage: run.sh PATH-OF-LEEWAY FOLDER}")
folder=${2:?usage: run.sh PATH-OF-LEEWAY FOLDER}
page=${3:+$(realpath "$3")}

skip() {
  echo "web: skipped, $1" >&2
  [ "${CI:-}" = true ] && exit 1
  exit 77
}

command -v npm >/dev/null && command -v node >/dev/null || skip "npm is absent"
browser=$(command -v chromium) || skip "chromium is absent"
command -v pdftoppm >/dev/null || skip "pdftoppm (poppler-utils) is absent"
mkdir -p "$folder"
if ! cmp -s "$here/package-lock.json" "$folder/installed.json"; then
  cp "$here/package.json" "$here/package-lock.json" "$folder/"
  (cd "$folder" && npm ci --ignore-scripts --no-audit --no-fund >npm.log 2>&1) ||
    skip "npm could not install what is driven with: $(tail -n 3 "$folder/npm.log")"
  cp "$here/package-lock.json" "$folder/installed.json"
fi
node "$here/all.cjs" "$root" "$folder" "$leeway" "$browser" ${page:+"$page"}
if [ -n "$page" ]; then
  firefox=$(command -v firefox-esr) || skip "firefox-esr is absent"
  node "$here/firefox.cjs" "$folder" "$page" "$firefox"
fi
