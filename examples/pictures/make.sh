#!/usr/bin/env bash
# Makes the pictures of README and examples/README.md anew: plan, head, bracket map and report, from the shipped examples.
# Needs rsvg-convert (Debian: librsvg2-bin), chromium, pngquant, and the command that quickstart.sh
# builds, or another one given as argument. With the page (page.sh) and a folder in which
# tests/web/run.sh installed its packages as further arguments, the pictures of the page too.
set -euo pipefail

here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
examples=$(dirname "$here")
leeway=${1:-$(dirname "$examples")/build/leeway}
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

picture() {  # NAME COMMAND...: an SVG as PNG
  local name=$1
  shift
  # Exit status 1 says that not all is well with the setup, not with the picture.
  "$leeway" "$@" --format svg --output "$scratch/$name.svg" || [ $? -eq 1 ]
  rsvg-convert "$scratch/$name.svg" --output "$here/$name.png"
}
picture plan draw "$examples/curlew-clips.json"
picture head draw "$examples/godwit-side-bracket.json" --at 5,1
picture bracket-map bracket "$examples/godwit-new-bracket.json" \
  --candidates "$examples/brackets.csv"

"$leeway" draw "$examples/godwit-side-bracket.json" --output "$scratch/report.html"
chromium --headless --no-sandbox --hide-scrollbars --user-data-dir="$scratch/profile" \
  --window-size=1280,900 --screenshot="$here/report.png" "file://$scratch/report.html" 2>/dev/null

if [ $# -ge 3 ]; then node "$here/page.cjs" "$2" "$3"; fi

pngquant --force --ext .png --strip 64 "$here"/*.png
