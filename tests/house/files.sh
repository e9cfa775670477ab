# shellcheck shell=bash
# Sourced by the tests of this folder.
#
# list_files REPOSITORY: the files that belong to the repository, one a line, relative to it. That
# is what git tracks or would track; where git cannot tell (an unpacked archive, a clone of another
# user) it is what lies there, without dot-git and build folders.
list_files() {
  if git -C "$1" rev-parse --show-toplevel >/dev/null 2>&1; then
    (cd "$1" && git ls-files --cached --others --exclude-standard | while read -r file; do
      if [ -e "$file" ]; then printf '%s\n' "$file"; fi
    done)
  else
    (cd "$1" && find . \( -path ./.git -o -path './build*' -o -name .cache \
      -o -name node_modules \) -prune -o -type f -print | sed 's|^\./||')
  fi
}
