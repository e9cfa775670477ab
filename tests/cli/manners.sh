#!/usr/bin/env bash
# How the command behaves towards terminals, pipes, full disks and existing files.
#
#   tests/cli/manners.sh PATH-OF-LEEWAY
set -uo pipefail
export LC_ALL=C
unset NO_COLOR

leeway=$(realpath "$1")
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
inline=$here/files/inline.json
faulty=$here/files/many-faults.json
large=$here/files/large-grid.json
work=$(mktemp -d)
trap 'chmod -R u+rwx "$work"; rm -rf "$work"' EXIT
cd "$work"

tests=0
failed=0
# expect CLAIM COMMAND...: the command must succeed.
expect() {
  local claim=$1
  shift
  tests=$((tests + 1))
  "$@" && return
  failed=$((failed + 1))
  echo "not so: $claim" >&2
  sed 's/^/    err: /' err >&2
}
# run STATUS ARGUMENTS...: output goes to the files out and err.
run() {
  local wanted=$1 status=0
  shift
  "$leeway" "$@" > out 2> err || status=$?
  expect "leeway $* ends with $wanted, not $status" [ "$status" = "$wanted" ]
}
says() { grep -qF -- "$1" err; }
one_line_said() { [ "$(wc -l < err)" = 1 ]; }
nothing_left() { [ -z "$(find . -name '.leeway-*')" ]; }

# --- results and complaints keep to their streams
run 1 check "$inline"
expect "a verdict says nothing on standard error" [ ! -s err ]
run 2 check "$faulty"
expect "a faulty file gives nothing on standard output" [ ! -s out ]

# --- pipes
for format in text csv json markdown; do
  status=0
  { "$leeway" check "$large" --format $format; echo $? > status; } 2> err | head -c 1 > out
  expect "a closed pipe ends $format with the verdict's status" [ "$(cat status)" = 1 ]
  expect "a closed pipe ends $format without a word" [ ! -s err ]
done
{ "$leeway" --help; echo $? > status; } 2> err | true
expect "a closed pipe ends help without a word" [ ! -s err ]
{ sleep 0.2; cat "$inline"; } | "$leeway" check - > piped 2> err
"$leeway" check "$inline" > out 2>> err
expect "standard input gives what the file gives" cmp -s piped out
"$leeway" check <(cat "$inline") > piped 2> err
expect "a setup can come from a pipe with a name" cmp -s piped out

# --- output that cannot go
if [ -w /dev/full ]; then
  for arguments in "check $inline" "check $large --format csv" --help --version; do
    status=0
    "$leeway" $arguments > /dev/full 2> err || status=$?
    expect "a full disk under standard output ends with 2: $arguments" [ $status = 2 ]
    expect "and is said in one line" one_line_said
    expect "and in words" says "cannot write to standard output: no space is left"
  done
  run 2 check "$inline" --output /dev/full
  expect "a full device is named" says 'cannot write "/dev/full": no space is left'
  expect "a device stays a device" [ -c /dev/full ]
fi
status=0
"$leeway" check "$inline" >&- 2> err || status=$?
expect "a closed standard output ends with 2" [ $status = 2 ]
expect "and is said" says "cannot write to standard output"
status=0
"$leeway" check - <&- > out 2> err || status=$?
expect "a closed standard input ends with 2" [ $status = 2 ]
expect "and is said" says "standard input"
status=0
"$leeway" check "$inline" 2>&- > out || status=$?
expect "a closed standard error changes nothing" [ $status = 1 ]
run 0 check "$here/files/nothing-asked.json" --output /dev/null
echo before > kept
"$leeway" check "$here/files/nothing-asked.json" --output /dev/stdout >> kept || status=$?
expect "standard output by its other name is added to" [ "$(head -n 1 kept)" = before ]
expect "and gets the result" [ "$(wc -l < kept)" -gt 1 ]
"$leeway" check "$here/files/nothing-asked.json" --output /dev/fd/5 5>> kept > out || status=$?
expect "so does a numbered descriptor" [ "$(grep -c '^Lengths' kept)" = 2 ]
expect "and standard output then stays empty" [ ! -s out ]

# --- files are written whole or not at all
"$leeway" check "$inline" --format csv > wanted 2> err
run 1 check "$inline" --format csv --output new.csv
expect "a new file holds what standard output would" cmp -s wanted new.csv
expect "nothing goes to standard output then" [ ! -s out ]
expect "no other file is left" nothing_left
(umask 027; "$leeway" check "$inline" --output masked > out 2> err)
expect "a new file obeys the mask" [ "$(stat -c %a masked)" = 640 ]

echo precious > kept
chmod 604 kept
run 2 check "$faulty" --output kept
expect "a faulty setup leaves the file alone" [ "$(cat kept)" = precious ]
run 2 check "$inline" --format pigeon --output kept
expect "a faulty option leaves the file alone" [ "$(cat kept)" = precious ]
status=0
(ulimit -f 8; "$leeway" check "$large" --format csv --output kept > out 2> err) || status=$?
expect "a file that may not grow so large ends with 2" [ $status = 2 ]
expect "and is said" says "the file would be larger than is allowed"
expect "and leaves the file alone" [ "$(cat kept)" = precious ]
expect "and nothing else" nothing_left
run 1 check "$inline" --output kept
expect "a replaced file is new" [ "$(head -c 6 kept)" = Dunlin ]
expect "a replaced file keeps its permissions" [ "$(stat -c %a kept)" = 604 ]

echo old > target
ln -s target link
run 1 check "$inline" --output link
expect "a link stays a link" [ -L link ]
expect "and its file is replaced" [ "$(head -c 6 target)" = Dunlin ]
ln -s nowhere loose
run 2 check "$inline" --output loose
expect "a link to nowhere is refused" says "it is a link that leads nowhere"
run 2 check "$inline" --output no-such-folder/x
expect "a missing folder is said" says 'cannot write "no-such-folder/x": there is no such file or folder'
run 2 check "$inline" --output .
expect "a folder is refused" says "it is a folder"
mkdir shut
echo old > shut/file
chmod 555 shut
if ! touch shut/probe 2> /dev/null; then
  run 2 check "$inline" --output shut/file
  expect "a folder without permission is said" says "access is not allowed"
fi
echo old > locked
chmod 444 locked
if ! { true > locked; } 2> /dev/null; then
  run 2 check "$inline" --output locked
  expect "a file without permission is said" says "access is not allowed"
fi
mkfifo pipe
cat pipe > through &
run 1 check "$inline" --format csv --output pipe
wait
expect "a pipe with a name is written through" cmp -s wanted through

# --- a setup is not overwritten by its own verdict
mkdir machines
printf '{"format": "leeway-machine-1", "bed": {"rectangle": {"x": [0, 9], "y": [0, 9]}}, "travel": {"rectangle": {"x": [0, 9], "y": [0, 9]}}}' > machines/m.json
printf '{"format": "leeway-setup-1", "machine": "machines/m.json", "probe": {"offset": [0, 0]}}' > s.json
cp s.json s.copy
cp machines/m.json m.copy
ln s.json hard
ln -s machines/m.json soft
for output in s.json ./s.json hard machines/m.json soft machines/../machines/m.json; do
  run 2 check s.json --output "$output"
  expect "$output is refused" says "is read from"
done
status=0
"$leeway" check - --output s.json < s.json > out 2> err || status=$?
expect "standard input's own file is refused" [ $status = 2 ]
expect "the setup is as it was" cmp -s s.json s.copy
expect "the profile is as it was" cmp -s machines/m.json m.copy

# --- files named within files
printf '{"format": "leeway-setup-1", "machine": "pipe", "probe": {"offset": [0, 0]}}' > waits.json
expect "a profile that is a pipe does not make it wait" timeout 5 "$leeway" --version > out 2> err
run 2 check waits.json
expect "and is refused" says "it is no ordinary file"
printf '{"format": "leeway-setup-1", "machine": "m.json\\u0000", "probe": {"offset": [0, 0]}}' > zero.json
run 2 check zero.json
mkdir elsewhere
run 0 check s.json
(cd elsewhere && "$leeway" check ../s.json) > out2 2> err
expect "profiles are found from anywhere" cmp -s out out2
head -c $((16 * 1024 * 1024 + 1)) /dev/zero | tr '\0' ' ' > big.json
run 2 check big.json
expect "a file over 16 MiB is refused in a line" one_line_said
status=0
timeout 20 "$leeway" check /dev/zero > out 2> err || status=$?
expect "an endless file is refused" [ $status = 2 ]

# --- a signal leaves nothing behind
# A grid of $1 x $1 points, none of which is within reach.
long_work() {
  printf '{"format": "leeway-setup-1", "machine": {"bed": {"rectangle": {"x": [0, 900], "y": [0, 900]}},'
  printf '"travel": {"disc": {"center": [450, 450], "radius": 500}}}, "probe": {"offset": [700, 0]},'
  printf '"request": {"grid": {"columns": %d, "rows": %d, "x": [-400, 100], "y": [0, 900]}}}' "$1" "$1"
}
long_work 500 > long.json
"$leeway" check long.json --format csv --output killed > out 2> err &
victim=$!
for _ in $(seq 100); do
  [ -n "$(find . -name '.leeway-*')" ] && break
  sleep 0.05
done
expect "the temporary file was there to be seen" [ -n "$(find . -name '.leeway-*')" ]
kill -TERM $victim
status=0
wait $victim 2> /dev/null || status=$?
expect "a signal ends it as a signal does" [ $status = 143 ]
expect "a signal leaves nothing behind" nothing_left
expect "nor the file itself" [ ! -e killed ]

# --- terminals
escape=$(printf '\033')
if command -v script > /dev/null; then
  terminal() { script -qec "$1" /dev/null < /dev/null; }
  TERM=xterm terminal "$leeway check $here/../../examples/heron-side-bracket.json" > out 2> err
  expect "a terminal gets colour" grep -q "${escape}\[1;31mX" out
  TERM=xterm NO_COLOR=1 terminal "$leeway check $here/../../examples/heron-side-bracket.json" > out 2> err
  expect "NO_COLOR is obeyed" [ -z "$(grep "$escape" out)" ]
  TERM=xterm NO_COLOR= terminal "$leeway check $here/../../examples/heron-side-bracket.json" > out 2> err
  expect "an empty NO_COLOR asks for nothing" grep -q "${escape}\[1;31mX" out
  TERM=dumb terminal "$leeway check $here/../../examples/heron-side-bracket.json" > out 2> err
  expect "a dumb terminal gets none" [ -z "$(grep "$escape" out)" ]
  TERM=xterm terminal "$leeway check $here/../../examples/heron-side-bracket.json --format json" > out 2> err
  expect "other formats are never coloured" [ -z "$(grep "$escape" out)" ]
  TERM=xterm terminal "$leeway check $inline > plain" > out 2> err
  expect "a file gets no colour" [ -z "$(grep "$escape" plain)" ]
  expect "short work shows no progress" [ ! -s out ]
  # Large enough to take more than the second after which progress is shown.
  for size in 500 1000 2000 3000; do
    long_work $size > long.json
    begun=$(date +%s%N)
    TERM=xterm terminal "$leeway check long.json > plain" > out 2> err
    [ $(($(date +%s%N) - begun)) -gt 2000000000 ] && break
  done
  expect "long work shows progress" grep -q 'Checking: [0-9]* %' out
  "$leeway" check long.json > plain 2> err
  expect "but not into a file" [ ! -s err ]
else
  echo "script(1) is missing: terminals were not tried" >&2
  [ -z "${CI:-}" ] || failed=$((failed + 1))
fi

# --- the program's own fault. Too little memory is none of ours, but the nearest thing that can be
# had from outside; a program built with sanitizers cannot start then.
if (ulimit -v 150000; "$leeway" --version) > out 2> err; then
  status=0
  long_work 3000 > long.json
  (ulimit -v 150000; "$leeway" check long.json) > out 2> err || status=$?
  expect "without memory it ends with 3, not $status" [ $status = 3 ]
  expect "and says so in a line" one_line_said
  expect "in words" says "the memory of this machine is not enough"
fi

echo "$tests claims, $failed not so"
[ "$failed" = 0 ]
