#!/usr/bin/env bash
# One whole job, from typed numbers to what a controller holds: each step takes what the last one
# wrote, and the numbers that are filled in at the end are entered again in other ways and checked.
#
#   tests/cli/whole_job.sh PATH-OF-LEEWAY
set -uo pipefail
export LC_ALL=C

leeway=$(realpath "$1")
readings=$(cd "$(dirname "${BASH_SOURCE[0]}")/../../examples" && pwd)/godwit-readings.csv
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"

failed=0
step() {
  local wanted=$1 status=0
  shift
  "$leeway" "$@" > out 2> err || status=$?
  [ "$status" = "$wanted" ] && return
  failed=$((failed + 1))
  echo "leeway $* ended with $status, not $wanted" >&2
  sed 's/^/    /' out err >&2
}

machine=(--bed 233x207 --travel=-5..239,-2..211 --spot 4 --edge-distance 1
  --trigger-height 2 --travel-height 8 --obstacle 'front clip=30x10@100,-6@6+1')

# Typed numbers: the grid is out of reach on the right.
step 1 check --without-setup "${machine[@]}" --offset=-38,12 --grid 5x4 --margins 20 --save first.json
# A template is not filled with what check does not pass.
echo 'x {{mesh.probe.x0}}..{{mesh.probe.x1}}' > line.txt
step 1 fill first.json line.txt --output line.out
[ -e line.out ] && { echo "what check does not pass was written" >&2; failed=$((failed + 1)); }

# The offset as it is measured, then a grid that works with it.
step 0 measure "$readings" --resolution 0.1 --write first.json --force
step 0 fit first.json --write second.json
step 0 check second.json

# What is filled in, entered as a controller would: bounds, margins, start and spacing; in hundredths
# and in tenths, for probe and nozzle.
cat > numbers.txt <<'END'
offset={{offset.nozzle_to_probe.x}},{{offset.nozzle_to_probe.y}}
grid={{mesh.columns}}x{{mesh.rows}}
columns={{mesh.columns}}
rows={{mesh.rows}}
probe={{mesh.probe.x0}}..{{mesh.probe.x1}},{{mesh.probe.y0}}..{{mesh.probe.y1}}
nozzle={{mesh.nozzle.x0}}..{{mesh.nozzle.x1}},{{mesh.nozzle.y0}}..{{mesh.nozzle.y1}}
margins=left={{mesh.margins.probe_from_bed.left}},right={{mesh.margins.probe_from_bed.right}},front={{mesh.margins.probe_from_bed.front}},back={{mesh.margins.probe_from_bed.back}}
travel=left={{mesh.margins.nozzle_from_travel.left}},right={{mesh.margins.nozzle_from_travel.right}},front={{mesh.margins.nozzle_from_travel.front}},back={{mesh.margins.nozzle_from_travel.back}}
start="{{mesh.probe.x0}} {{mesh.probe.y0}}"
spacing="{{mesh.spacing.x}} {{mesh.spacing.y}}"
home={{home.nozzle.x}},{{home.nozzle.y}}
END
for decimals in 1 2; do
  step 0 fill second.json numbers.txt --decimals "$decimals" --output numbers.sh
  # shellcheck disable=SC1091
  . ./numbers.sh
  far=$(awk -v s="$start" -v d="$spacing" -v c="$columns" -v r="$rows" 'BEGIN {
    split(s, a, " "); split(d, b, " ")
    printf "%.6f..%.6f,%.6f..%.6f", a[1], a[1] + b[1] * (c - 1), a[2], a[2] + b[2] * (r - 1) }')
  entered=(check --without-setup "${machine[@]}" "--offset=$offset" --grid "$grid" "--home=$home")
  step 0 "${entered[@]}" "--bounds=$probe"
  step 0 "${entered[@]}" "--bounds=$far"
  step 0 "${entered[@]}" "--bounds=$nozzle" --grid-frame nozzle
  step 0 "${entered[@]}" --margins "$margins"
  step 0 "${entered[@]}" --margins "$travel" --margins-from travel --grid-frame nozzle
done

[ "$failed" = 0 ] || { echo "$failed steps of the job went wrong" >&2; exit 1; }
echo "the whole job is done"
