#!/usr/bin/env bash
# `leeway --version` prints the version of version.h. Arguments: the command, version.h.
set -euo pipefail
expected=$(sed -n 's/^#define LEEWAY_VERSION "\([0-9.]*\)"$/\1/p' "${2:?version.h}")
[ -n "$expected" ] || { echo "no version in $2"; exit 1; }
said=$("${1:?the command}" --version)
printf '%s\n' "$said" | grep -qE "(^|[^0-9.])${expected//./\\.}([^0-9.]|\$)" || {
  echo "expected $expected, got: $said"
  exit 1
}
