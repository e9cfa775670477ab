#!/usr/bin/env bash
# Installs into a temporary prefix, then builds and runs a program of somebody else's with it.
# Arguments: the build folder, the consumer's folder, the compiler, the generator, the sanitizers.
set -euo pipefail
build=${1:?} consumer=${2:?} compiler=${3:?} generator=${4:?} sanitize=${5:-}
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT

cmake --install "$build" --prefix "$place/prefix" >/dev/null
for file in bin/leeway include/leeway/check.h share/leeway/profiles/machines/godwit.json; do
  [ -e "$place/prefix/$file" ] || { echo "not installed: $file"; exit 1; }
done

# A copy, so that nothing can be found beside the source by chance; Debug, as theirs may differ.
cp -R "$consumer" "$place/source"
flags=()
if [ -n "$sanitize" ]; then flags=("-DCMAKE_CXX_FLAGS=-fsanitize=$sanitize"); fi
cmake -S "$place/source" -B "$place/build" -G "$generator" -DCMAKE_CXX_COMPILER="$compiler" \
  -DCMAKE_PREFIX_PATH="$place/prefix" -DCMAKE_BUILD_TYPE=Debug "${flags[@]}" >"$place/log" 2>&1 ||
  { cat "$place/log"; exit 1; }
cmake --build "$place/build" >"$place/log" 2>&1 || { cat "$place/log"; exit 1; }

said=$("$place/build/consumer")
[ "$said" = "unreachable, travel right, -9.5" ] || { echo "unexpected: $said"; exit 1; }
"$place/prefix/bin/leeway" --version
