#!/usr/bin/env bash
# Each type outside anonymous namespaces is defined once in the whole tree: two different types of one
# name break the one definition rule, which no compiler notices that sees one file at a time.
# Argument: the repository.
set -euo pipefail
cd "${1:?the repository}"

# shellcheck disable=SC2016  # awk's own dollars
# The formatter keeps what stands in a namespace at the left margin, and nested types indented.
find include src -name '*.h' -o -name '*.cpp' | sort | xargs awk '
  FNR == 1 { depth = 0; anonymous = 0; space = "" }
  /^namespace( [a-z_:]+)? \{/ {
    name[++depth] = $2 == "{" ? "" : $2
    if (name[depth] == "") anonymous++
  }
  /^\}  \/\/ namespace/ { if (name[depth--] == "") anonymous-- }
  /^(struct|class|union|enum|enum class) [A-Za-z_0-9]+/ && !anonymous {
    if ($0 ~ /;[ ]*(\/\/.*)?$/ && $0 !~ /\{/) next  # only declared
    type = $2 == "class" ? $3 : $2
    space = ""
    for (i = 1; i <= depth; i++) space = space name[i] "::"
    types++
    if (seen[space type]) {
      print FILENAME ":" FNR ": a second " space type "; the first is at " seen[space type]
      wrong = 1
    } else {
      seen[space type] = FILENAME ":" FNR
    }
  }
  END {
    if (types < 100) { print "only " types + 0 " types were found"; exit 1 }
    if (!wrong) print types " types, each defined once"
    exit wrong
  }'
