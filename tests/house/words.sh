#!/usr/bin/env bash
# One word, one meaning: words that were given up stand in nothing that a user sees, which is the
# documents, what ships in profiles/ and examples/, and what the command prints (approved runs).
# Argument: the repository.
set -euo pipefail
cd "${1:?the repository}"

# Words whose other meaning confuses in this trade, and what is said instead.
retired=(
  '\b[Ss]lip(s|ped)?\b'                      # mistake
  '\b[Cc]ur(e|es|ed)\b'                      # remedy
  '\b[Kk]nobs?\b'                            # parameter
  '\b[Bb]lam(e|es|ed)\b'                     # limiting
  '\b[Pp]lates?\b'                           # bed
  '\b[Mm]esh(es)?\b(?! bounds|-bounds|\.[a-z])'  # grid, mesh bounds
  '\b[Ll]attices?\b'                         # grid
  '\b([Rr]oom|slack)\b|\bto spare\b'         # leeway
  '\b[Bb]lind\b|\bblind_'                    # uncovered
  '\bsensing spots?\b|\bthe spot\b'          # sensing area
  '\bleast of points\b'                      # least leeway after guard
  '\b[Uu]nserved\b|\bserv(e|es|ed)\b'        # out of reach with any offset; reaches
  '--field\b|\b(the|The) field\b|"field"'    # coverage map, --map
  '\btrue size\b(?! \(1:1\))'                # true size (1:1)
  '\b[Gg]uarded\b|"guarded"'                 # reachable
  '\b(no|a|its|their|the|without|smaller) guards?\b(?! band)'  # guard band
  '\bby the switch\b'                        # within reach of the power switch
  '(?<!paper )\bprinters (often )?stretch\b' # paper printers
  '--(bounds|map|bed|travel) \S*\d:'         # 20..210
  '--(margins|within) -?[\d.]+,'             # left=..,right=..
)
pattern=$(IFS='|'; printf '%s' "${retired[*]}")

for sample in 'a slip of' 'off the plate' 'a mesh of 5' 'of room to' 'Blind strips' '--map 1:2' \
  'no guard is kept' 'at true size.'; do
  printf '%s\n' "$sample" | grep -qP "$pattern" || { echo "the pattern misses: $sample"; exit 1; }
done
for sample in 'mesh bounds' '{{mesh.rows}}' 'guard band' 'the guard band' 'true size (1:1)' '--map 1..2/3' \
  '"spot": {' 'a template'; do
  if printf '%s\n' "$sample" | grep -qP "$pattern"; then echo "the pattern hits: $sample"; exit 1; fi
done

files=$(find README.md examples profiles tests/cli/approved -type f ! -name '*.png' ! -name '*.svg' | sort)
[ "$(printf '%s\n' "$files" | wc -l)" -gt 250 ] || { echo "hardly any file was looked at"; exit 1; }
# Runs that show how an old word is answered name it; those are looked at by reading them.
found=$(printf '%s\n' "$files" | grep -vE '/(options-unread|bracket-colons|bracket-old-option|bounds-colons|travel-colons|margins-four-numbers|within-four-numbers|bracket-coverage-map-short|template-old-word|draw-paper-old-word|setup-old-word|setup-near-words|option-near-word|fit-within-three)\.txt$' |
  tr '\n' '\0' | xargs -0 grep -nP "$pattern" | cut -c1-200 || true)
if [ -n "$found" ]; then
  printf '%s\n' "$found"
  echo "words as above were given up; see the glossary in DEVELOPERS.md"
  exit 1
fi
