#!/usr/bin/env bash
# A definition stands where one looks for it: a free function that a header declares is defined in a
# file of the header's name, or of its name and a further word (write_check_csv.cpp), or in a file
# whose first block of includes names the header: that block says what a file defines.
# Argument: the repository.
set -euo pipefail
cd "${1:?the repository}"

# shellcheck disable=SC2016  # awk's own dollars
{ find include src -name '*.h' | sort; find src -name '*.cpp' | sort; } | xargs awk '
  function base(path) { sub(/.*\//, "", path); sub(/\.[a-z]+$/, "", path); return path }
  # The name of a free function on a line that begins in the first column; empty for anything else.
  function name_on(line,   rest) {
    if (line !~ /^[A-Za-z_][A-Za-z0-9_:<>,&* ]*[ &*][a-z_][a-z0-9_]*\(/) return ""
    if (line ~ /^(inline|constexpr|template|using|static|friend|return|else|class|struct|enum|namespace)\>/)
      return ""
    rest = line
    sub(/\(.*/, "", rest)
    sub(/.*[ &*]/, "", rest)
    return rest ~ /::|^operator/ ? "" : rest
  }
  FNR == 1 {
    header = FILENAME ~ /\.h$/
    first = ""; block = 0; hidden = 0
    include_path = FILENAME
    sub(/^(include|src)\//, "", include_path)
  }
  /^namespace \{/ { hidden = 1 }
  /^\}  \/\/ namespace$/ { hidden = 0 }
  !header && /^#include "/ && block < 2 { block = 1; split($0, part, "\""); first = first part[2] "\n" }
  !header && block == 1 && (/^$/ || /^#include </) { block = 2 }
  !header && block == 0 && /^#include </ { block = 2 }
  {
    name = hidden ? "" : name_on($0)
    if (name == "") next
    if (header) { declared[name] = declared[name] include_path "\n"; next }
    if (!(name in declared)) next
    looked++
    count = split(declared[name], homes, "\n")
    at_home = 0
    for (i = 1; i < count; i++) {
      home = base(homes[i])
      if (base(FILENAME) == home || index(base(FILENAME), home "_") == 1) at_home = 1
      if (index("\n" first, "\n" homes[i] "\n")) at_home = 1
    }
    if (!at_home) {
      print FILENAME ":" FNR ": " name "() is declared in " homes[1]
      wrong = 1
    }
  }
  END {
    if (looked < 300) { print "hardly any definition was looked at: " looked + 0; exit 1 }
    if (!wrong) print looked " definitions are at home"
    exit wrong
  }'
