#!/usr/bin/env bash
# Installs with apt what a build of leeway needs and this machine lacks; does nothing when all is
# there. Shared by quickstart.sh, page.sh and tests/run.sh.
#
#   install-packages.sh build|page|tests FOLDER
#
# FOLDER is the build folder. Debian's Boost 1.81 package excludes 1.74, the default. Where 1.74 is
# installed it stays: then Boost 1.81 is unpacked into FOLDER/packages instead, and CMake finds it
# by -DCMAKE_PREFIX_PATH=FOLDER/packages/usr.
set -euo pipefail

purpose=${1:?build, page or tests}
folder=${2:?the build folder}

# Each line: what must be there (a command, a header, a file), then the package that brings it.
needs="
command:g++ g++
command:cmake cmake
command:ninja ninja-build
header:nlohmann/json.hpp nlohmann-json3-dev
header:CLI/CLI.hpp libcli11-dev
header:fmt/format.h libfmt-dev
header:fast_float/fast_float.h libfast-float-dev
header:utf8proc.h libutf8proc-dev
header:zlib.h zlib1g-dev
"
if [ "$purpose" != build ]; then
  needs+="
command:em++ emscripten
command:npm npm
command:zopfli zopfli
"
fi
if [ "$purpose" = tests ]; then
  needs+="
command:git git
command:chromium chromium
command:firefox-esr firefox-esr
command:pdftoppm poppler-utils
header:gtest/gtest.h libgtest-dev
header:expat.h libexpat1-dev
header:geos_c.h libgeos-dev
header:gmp.h libgmp-dev
header:mpfr.h libmpfr-dev
file:/etc/ssl/certs/ca-certificates.crt ca-certificates
"
fi

is_installed() { dpkg-query -W -f='${Status}' "$1" 2>/dev/null | grep -q 'ok installed'; }

is_there() {
  local kind=${1%%:*} what=${1#*:}
  case $kind in
    command) command -v "$what" >/dev/null ;;
    file) [ -e "$what" ] ;;
    header)
      local include
      for include in /usr/include /usr/local/include "/usr/include/$(uname -m)-linux-gnu"; do
        [ -e "$include/$what" ] && return 0
      done
      return 1 ;;
  esac
}

boost_is_new_enough() {
  local root version
  for root in /usr/local /usr "$folder/packages/usr"; do
    version=$(sed -n 's/^#define BOOST_VERSION \([0-9]*\)$/\1/p' \
      "$root/include/boost/version.hpp" 2>/dev/null || true)
    [ "${version:-0}" -ge 108100 ] && return 0
  done
  return 1
}

missing=()
while read -r need package; do
  if [ -n "$need" ] && ! is_there "$need"; then missing+=("$package"); fi
done <<<"$needs"

unpack_boost=no
if ! boost_is_new_enough; then
  if command -v dpkg-query >/dev/null && is_installed libboost1.74-dev; then
    unpack_boost=yes
  else
    missing+=(libboost1.81-dev)
  fi
fi

# The tests unpack CGAL themselves (tests/judges/get-cgal.sh); apt must know of it then.
refresh=no
if [ "$purpose" = tests ] && command -v apt-cache >/dev/null &&
  ! apt-cache show libcgal-dev >/dev/null 2>&1; then
  refresh=yes
fi

if [ "${#missing[@]}" -eq 0 ] && [ "$unpack_boost$refresh" = nono ]; then exit 0; fi

if ! command -v apt-get >/dev/null; then
  echo "This script installs packages on Debian 12 only. Install the like of: ${missing[*]}" >&2
  exit 2
fi
as_root=()
if [ "$(id -u)" -ne 0 ]; then
  if ! command -v sudo >/dev/null; then
    echo "Missing: ${missing[*]}. Run this as root, or install sudo." >&2
    exit 2
  fi
  as_root=(sudo)
fi

export DEBIAN_FRONTEND=noninteractive
"${as_root[@]}" apt-get update -q
if [ "${#missing[@]}" -gt 0 ]; then
  echo "Installing: ${missing[*]}"
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
    apt-get install -q -y --no-install-recommends "${missing[@]}"
fi
if [ "$unpack_boost" = yes ]; then
  echo "Boost 1.74 stays installed; unpacking Boost 1.81 into the build folder."
  mkdir -p "$folder/packages"
  cd "$folder/packages"
  apt-get download -q libboost1.81-dev
  dpkg -x libboost1.81-dev_*.deb .
  rm -f libboost1.81-dev_*.deb
fi
