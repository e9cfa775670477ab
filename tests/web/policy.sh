#!/usr/bin/env bash
# The hashes that the report's content security policy allows are those of its styles and script,
# computed here by sha256sum and base64 (CSP Level 3, 2.3.1), and of nothing else. Argument: the
# program.
#
# After a change of kReportStyle, kReportScript or plan_css() this says what the hashes are now.
set -euo pipefail
leeway=$(realpath "${1:?the program}")
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

"$leeway" draw "$root/examples/godwit-side-bracket.json" --output "$work/report.html" || [ $? = 1 ]

hash_of() { sha256sum | cut -d' ' -f1 | tr -d '\n' | tr a-f A-F | basenc --decode --base16 | base64 -w0; }

# kind index: the text of the element of that index (from 1), byte for byte.
text_of() {
  KIND=$1 INDEX=$2 perl -0777 -ne '
    my @all = /<$ENV{KIND}>(.*?)<\/$ENV{KIND}>/gs; print $all[$ENV{INDEX} - 1] // ""' \
    "$work/report.html"
}

policy=$(grep -o "default-src [^\"]*" "$work/report.html" | head -n 1)
failed=0
hashes=0
for kind in style script; do
  allowed=$(grep -o "$kind-src [^;]*" <<<"$policy")
  count=$(grep -o "<$kind>" "$work/report.html" | wc -l)
  [ "$count" -gt 0 ] || { echo "there is no $kind"; failed=1; }
  [ "$(grep -o sha256- <<<"$allowed" | wc -l)" = "$count" ] ||
    { echo "$count elements $kind, but: $allowed"; failed=1; }
  for ((i = 1; i <= count; i++)); do
    hash=$(text_of "$kind" "$i" | tr -d '\r' | hash_of | tr -d '\n')
    hashes=$((hashes + 1))
    if ! grep -qF "'sha256-$hash'" <<<"$allowed"; then
      echo "$kind $i has the hash $hash, the policy says: $allowed"
      failed=1
    fi
  done
done
case $policy in *unsafe*) echo "the policy allows something unsafe: $policy"; failed=1 ;; esac
echo "$hashes hashes looked at"
exit "$failed"
