#!/usr/bin/env bash
# Draws every ugly case to be looked at: the plan, the head at its first point, the report at three
# widths in both schemes, and the sheets, as PNG. Needs rsvg-convert, chromium, and for sheets
# pdftoppm.
#
#   pictures.sh PATH-OF-LEEWAY FOLDER [CASE...]
set -euo pipefail
cases=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
leeway=$(realpath "${1:?usage: pictures.sh PATH-OF-LEEWAY FOLDER [CASE...]}")
out=${2:?usage: pictures.sh PATH-OF-LEEWAY FOLDER [CASE...]}
mkdir -p "$out"
out=$(realpath "$out")
shift 2
[ $# -gt 0 ] || set -- $(cd "$cases" && ls *.json | sed 's/\.json$//')

browser() {  # WORDS...: a quiet chromium with a profile of its own
  chromium --headless --no-sandbox --hide-scrollbars --user-data-dir="$out/profile" "$@" 2>/dev/null
}

for name in "$@"; do
  setup=$cases/$name.json
  "$leeway" draw "$setup" --output "$out/$name.svg"
  rsvg-convert "$out/$name.svg" --output "$out/$name.png"
  "$leeway" draw "$setup" --at x=20,y=20 --output "$out/$name-head.svg"
  rsvg-convert "$out/$name-head.svg" --output "$out/$name-head.png"
  "$leeway" draw "$setup" --output "$out/$name.html"
  for width in 360 800 1280; do
    browser --window-size="$width,1600" --screenshot="$out/$name-$width-light.png" "file://$out/$name.html"
    browser --window-size="$width,1600" --blink-settings=preferredColorScheme=0 \
      --screenshot="$out/$name-$width-dark.png" "file://$out/$name.html"
  done
  "$leeway" draw "$setup" --true-size --output "$out/$name-sheets.html" || continue
  browser --no-pdf-header-footer --print-to-pdf="$out/$name-sheets.pdf" "file://$out/$name-sheets.html"
  pdftoppm -r 60 -png -l 4 "$out/$name-sheets.pdf" "$out/$name-sheets"
done
