#!/usr/bin/env bash
# Runs what README and its kin show: in each block that begins with `$ build/leeway ...` the command
# is run, and must print what stands there; in a block of shell the lines that begin with
# `build/leeway` must not fail. README is short and plain: at most 200 lines, no sentence of more
# than 25 words.
#
#   tests/cli/documents.sh PATH-OF-LEEWAY
#   LEEWAY_APPROVE=1 tests/cli/documents.sh PATH-OF-LEEWAY    keeps what it prints now; read it!
set -euo pipefail
export LC_ALL=C NO_COLOR=1

leeway=$(realpath "$1")
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp -R "$root/examples" "$root/profiles" "$work"
mkdir -p "$work/build" "$work/tests/cli"
cp -R "$root/tests/cli/files" "$work/tests/cli"
ln -s "$leeway" "$work/build/leeway"
cd "$work"

failed=0
runs=0
complain() { echo "$*" >&2; failed=$((failed + 1)); }

# What a command prints. Exit status 1 is an answer, not a failure; 2 where it is shown to refuse.
run_command() {
  local status=0
  runs=$((runs + 1))
  eval "$1" > "$work/out" 2> "$work/err" || status=$?
  [ "$status" -le 1 ] || [[ $1 == *'2>&1' && $status = 2 ]] ||
    complain "$document: exit status $status of: $1"$'\n'"$(cat "$work/err")"
}

# Copies a document to $work/now, with what each run prints today.
rewrite() {
  local line state=text command=
  while IFS= read -r line; do
    case $state in
      text)
        [ "$line" = '```' ] && state=block
        [ "$line" = '```sh' ] && state=shell
        ;;
      block | shell)
        if [ "$line" = '```' ]; then
          state=text
        elif [[ $line == '$ build/leeway '* || $line == 'build/leeway '* || -n $command ]]; then
          command+=${line#\$ }
          if [[ $command == *\\ ]]; then
            command=${command%\\}
          else
            run_command "$command"
            command=
            if [ "$state" = block ]; then
              printf '%s\n\n' "$line"
              cat "$work/out"
              state=old
              continue
            fi
          fi
        elif [ "$state" = block ]; then
          state=other
        fi
        ;;
      old)
        [ "$line" = '```' ] || continue
        state=text
        ;;
      other) [ "$line" != '```' ] || state=text ;;
    esac
    printf '%s\n' "$line"
  done < "$root/$document" > "$work/now"
}

# Sentences of running text with more than 25 words; code in backticks is one word.
long_sentences() {
  awk '
    function flush(   n, i, words, parts) {
      gsub(/`[^`]*`/, "code", text)
      gsub(/\*\*/, "", text)
      n = split(text, parts, /[.!?:]\)? /)
      for (i = 1; i <= n; i++) if (split(parts[i], words, " ") > 25) print parts[i]
      text = ""
    }
    /^```/ { flush(); code = !code; next }
    code { next }
    /^## Licence/ { exit }
    /^(#|\||!)/ || /^$/ { flush(); next }
    /^ *([-*]|[0-9]+\.) / { flush() }
    { text = text $0 " " }
    END { flush() }' "$root/README.md"
}

for document in README.md examples/README.md profiles/README.md; do
  rewrite
  if [ "${LEEWAY_APPROVE:-}" = 1 ]; then
    cp "$work/now" "$root/$document"
  elif ! diff -u --label written --label now "$root/$document" "$work/now" >&2; then
    complain "$document: shows another run than the command gives"
  fi
done
[ "$runs" -ge 10 ] || complain "only $runs runs shown: what happened to the documents?"

lines=$(wc -l < "$root/README.md")
[ "$lines" -le 200 ] || complain "README.md has $lines lines, more than 200"
long=$(long_sentences)
[ -z "$long" ] || complain "README.md: sentences of more than 25 words:"$'\n'"$long"

echo "$runs runs shown, $failed complaints"
[ "$failed" = 0 ]
