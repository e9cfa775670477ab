#!/usr/bin/env bash
# Unpacks the headers of CGAL, the judge of Minkowski sums, into a folder:
#
#   get-cgal.sh FOLDER      FOLDER/usr/include/CGAL is what CMake then looks for
#
# CGAL is headers alone. Debian's package cannot be installed here, because it wants Boost 1.74,
# which excludes our 1.81; unpacked it works with ours. It also needs GMP and MPFR, installed as
# libgmp-dev and libmpfr-dev. Says nothing and does nothing when the headers are there.
set -euo pipefail
folder=${1:?the folder to unpack into}

[ -e "$folder/usr/include/CGAL/minkowski_sum_2.h" ] && exit 0

fail() {
  echo "get-cgal.sh: $1" >&2
  echo "Without CGAL the Minkowski sums go unjudged; everything else builds and is tested." >&2
  exit 1
}
for tool in apt-get dpkg; do
  command -v "$tool" >/dev/null ||
    fail "needs Debian's apt-get and dpkg. Elsewhere, unpack CGAL 5.5 into $folder/usr/include."
done

mkdir -p "$folder"
work=$(mktemp -d "$folder/cgal-XXXXXX")
trap 'rm -rf "$work"' EXIT
(cd "$work" && apt-get download -q libcgal-dev) >"$work/log" 2>&1 || {
  cat "$work/log" >&2
  fail "apt-get could not download libcgal-dev. Is the network there, and has apt-get update been run?"
}
# Unpacked apart and moved last, so that a run which is broken off leaves nothing half done.
dpkg -x "$work"/libcgal-dev_*.deb "$work/unpacked" || fail "libcgal-dev could not be unpacked."
mkdir -p "$folder/usr/include"
rm -rf "$folder/usr/include/CGAL"
mv "$work/unpacked/usr/include/CGAL" "$folder/usr/include/CGAL"
echo "CGAL is unpacked into $folder."
