#!/usr/bin/env bash
# The linker compares the types and functions of all floors, as compiled for optimisation at link
# time (-flto), and finds none defined in two ways (-Wodr). Nothing is linked into a program.
# Arguments: the compiler (GCC), the object files.
set -euo pipefail
compiler=${1:?the compiler}
shift
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT

# compared OBJECT...: says what is defined in two ways, and fails then.
compared() {
  "$compiler" -r -flto -flinker-output=rel -Wodr -Wlto-type-mismatch -Werror "$@" -o "$place/all.o"
}

# Planted first: a test that cannot fail is none.
echo 'struct Same { int a; ~Same() {} }; int one(Same s) { return s.a; }' >"$place/one.cpp"
echo 'struct Same { char a; ~Same() {} }; int other(Same s) { return s.a; }' >"$place/other.cpp"
for file in one other; do "$compiler" -flto -c "$place/$file.cpp" -o "$place/$file.o"; done
if compared "$place/one.o" "$place/other.o" >"$place/said" 2>&1; then
  echo "two types of one name were not found"
  exit 1
fi
grep -q "One Definition Rule" "$place/said" || { cat "$place/said"; exit 1; }

[ "$#" -ge 5 ] || { echo "only $# object files"; exit 1; }
for object; do
  # What was compiled without -flto holds nothing to compare.
  readelf -SW "$object" | grep gnu.lto_ >/dev/null || { echo "$object is not for the linker"; exit 1; }
done
compared "$@"
echo "$# object files agree"
