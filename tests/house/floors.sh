#!/usr/bin/env bash
# Fails when a floor includes from a floor above it, when a header has no floor, or when
# Boost.Geometry is included anywhere but in src/geometry, or when floor 4 builds limits or looks for
# something along them: what it writes is in the results that it is given. Argument: the repository.
set -euo pipefail
cd "${1:?the repository}"

# shellcheck disable=SC2016  # awk's own dollars
# Floors: 1 geometry, 2 model, 3 tasks, 4 formats, 5 cli. A new public header gets a floor here.
find include src -name '*.h' -o -name '*.cpp' | sort | xargs awk '
  BEGIN {
    split("geometry model tasks formats cli", folder, " ")
    for (f in folder) floor_of["src/" folder[f]] = f
    floor_of["src/web"] = 5
    give(1, "error.h geometry.h progress.h version.h")
    give(2, "setup.h change.h validate.h limits.h regions.h rig.h tolerance.h")
    give(3, "check.h remarks.h mesh_numbers.h numbers_to_enter.h fit.h measure.h explain.h bracket.h coverage_map.h")
    give(3, "candidates.h compare_grids.h head_place.h walk.h cover.h")
    give(4, "fault.h read_setup.h write_check.h write_fit.h fill.h rewrite_setup.h")
    give(4, "read_readings.h write_measure.h write_explain.h write_bracket.h")
    give(4, "read_candidates.h read_probe.h draw.h write_comparison.h write_report.h write_true_size.h write_setup.h")
    give(4, "write_walk.h write_cover.h read_motion.h")
  }
  function give(floor, names,   name, i) {
    split(names, name, " ")
    for (i in name) public[name[i]] = floor
  }
  function complain(text) { print FILENAME ":" FNR ": " text; wrong = 1 }
  # The floor of a file given as include/leeway/NAME or src/FOLDER/NAME; 0 when it has none.
  function floor_number(path,   parts, n) {
    n = split(path, parts, "/")
    if (path ~ /^include\/leeway\//) return n == 3 ? public[parts[3]] + 0 : 0
    return n >= 3 ? floor_of[parts[1] "/" parts[2]] + 0 : 0
  }
  FNR == 1 {
    here = floor_number(FILENAME)
    files++
    if (!here) complain("has no floor: name it in tests/house/floors.sh")
  }
  /^[ \t]*#[ \t]*include[ \t]*[<"]/ {
    match($0, /[<"][^>"]*[>"]/)
    what = substr($0, RSTART + 1, RLENGTH - 2)
    quoted = substr($0, RSTART, 1) == "\""
    includes++
    if (what ~ /^boost\/geometry/ && FILENAME !~ /^src\/geometry\//)
      complain("Boost.Geometry belongs in src/geometry: " what)
    if (FILENAME ~ /^src\/formats\// && what ~ /^(model\/(limits|offsets|regions)|tasks)\//)
      complain("limits and searches belong on floors 2 and 3: " what)
    if (what ~ /^(sstream|iostream|istream|ostream|fstream|locale|regex)$/ && FILENAME !~ /^src\/cli\//)
      complain("a stream brings locales, a twentieth of the page: " what)
    if (what ~ /\.\./) complain("include from the root of src or include, not by ..: " what)
    if (what ~ /^leeway\//) there = floor_number("include/" what)
    else if (quoted) there = floor_number("src/" what)
    else next
    if (!there) complain("includes a file without a floor: " what)
    else if (here && there > here) complain("floor " here " includes from floor " there ": " what)
    if (FILENAME ~ /^include\// && what !~ /^leeway\//)
      complain("a public header includes a private one: " what)
  }
  FILENAME ~ /^src\/formats\// &&
    /(^|[^A-Za-z_])(Limits|MoveLimits|OffsetLimits|Regions|Rig)( [a-z_]+)?[({]/ {
      complain("limits are built on floors 2 and 3: " $0)
  }
  END {
    if (!files || !includes) { print "nothing was looked at"; exit 1 }
    if (!wrong) print files " files with " includes " includes keep to their floors"
    exit wrong
  }'
