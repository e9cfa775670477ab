#!/usr/bin/env bash
# floors.sh must fail on each wrong include that is planted in a copy. Argument: the repository.
set -euo pipefail
repository=${1:?the repository}
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
copy=$(mktemp -d)
trap 'rm -rf "$copy"' EXIT

fresh_copy() {
  rm -rf "$copy/include" "$copy/src"
  cp -R "$repository/include" "$repository/src" "$copy/"
}

# plant FILE LINE EXPECTED: LINE at the end of FILE makes floors.sh fail and say EXPECTED.
plant() {
  fresh_copy
  mkdir -p "$(dirname "$copy/$1")"
  printf '%s\n' "$2" >>"$copy/$1"
  if bash "$here/floors.sh" "$copy" >"$copy/said"; then
    echo "not found: $2 in $1"
    exit 1
  fi
  if ! grep -qF -- "$3" "$copy/said"; then
    echo "$2 in $1: expected '$3', got:"
    cat "$copy/said"
    exit 1
  fi
}

fresh_copy
bash "$here/floors.sh" "$copy" || { echo "and nothing is planted yet"; exit 1; }

plant src/geometry/planted.cpp '#include "model/limits_impl.h"' 'floor 1 includes from floor 2'
plant src/model/planted.cpp '#include "leeway/check.h"' 'floor 2 includes from floor 3'
plant src/tasks/planted.h '  #  include <leeway/read_setup.h>' 'floor 3 includes from floor 4'
plant src/formats/planted.cpp '#include "cli/commands/check_command.h"' 'floor 4 includes from floor 5'
plant include/leeway/geometry.h '#include "leeway/setup.h"' 'floor 1 includes from floor 2'
plant include/leeway/check.h '#include "tasks/check_impl.h"' 'a public header includes a private one'
plant include/leeway/unheard_of.h '#include <vector>' 'has no floor'
plant src/loose.cpp '#include <vector>' 'has no floor'
plant src/model/planted.cpp '#include <boost/geometry.hpp>' 'Boost.Geometry belongs in src/geometry'
plant src/formats/planted.cpp '#include "model/limits/limit_list.h"' 'limits and searches belong on floors 2 and 3'
plant src/formats/planted.cpp '#include "tasks/fit/fit_search.h"' 'limits and searches belong on floors 2 and 3'
plant src/formats/planted.cpp '  const Limits limits(setup);' 'limits are built on floors 2 and 3'
plant src/model/planted.cpp '#include "../formats/json.h"' 'not by ..'
echo "every planted include was found"
