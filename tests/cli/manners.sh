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
readings=$here/../../examples/godwit-readings.csv
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
# Without the rights of root, whom no folder is shut to.
unprivileged() {
  if [ "$(id -u)" = 0 ]; then
    setpriv --reuid=65534 --regid=65534 --clear-groups "$@"
  else
    "$@"
  fi
}
# until_there COMMAND...: waits for what another process does, some seconds at most.
until_there() {
  for _ in $(seq 200); do
    "$@" && return
    sleep 0.05
  done
  return 1
}
temporary_file() { [ -n "$(find . -name '.leeway-*')" ]; }

# --- results and complaints keep to their streams
run 1 check "$inline"
expect "a verdict says nothing on standard error" [ ! -s err ]
run 2 check "$faulty"
expect "a faulty file gives nothing on standard output" [ ! -s out ]

# --- pipes
# A pipe whose reader has gone, as descriptor 9.
mkfifo gone
cat gone > read &
reader=$!
exec 9> gone
kill $reader
wait $reader 2> /dev/null
for arguments in "check $large --format text" "check $large --format csv" \
  "check $large --format json" "check $large --format markdown" "measure $readings" \
  "draw $inline --format svg"; do
  wanted=0
  "$leeway" $arguments > out || wanted=$?
  status=0
  "$leeway" $arguments 2> err >&9 || status=$?
  expect "a closed pipe ends $arguments with $wanted, not $status" [ $status = $wanted ]
  expect "a closed pipe ends $arguments without a word" [ ! -s err ]
done
status=0
"$leeway" --help 2> err >&9 || status=$?
expect "a closed pipe ends help well" [ $status = 0 ]
expect "a closed pipe ends help without a word" [ ! -s err ]
exec 9>&-
{ sleep 0.2; cat "$inline"; } | "$leeway" check - --long > piped 2> err
"$leeway" check "$inline" --long > out 2>> err
expect "a file gives a verdict" grep -q reachable out
expect "standard input gives what the file gives" cmp -s piped out
"$leeway" check <(cat "$inline") --long > piped 2> err
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
expect "so does a numbered descriptor" [ "$(grep -c '^In mm' kept)" = 2 ]
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
chmod 755 .
chmod 555 shut
chmod 666 shut/file
echo old > locked
chmod 444 locked
cp "$leeway" leeway
cp "$inline" .
for file in shut/file shut/new locked; do
  status=0
  unprivileged ./leeway check inline.json --output $file > out 2> err || status=$?
  expect "without permission $file ends with 2, not $status" [ $status = 2 ]
  expect "and that is said" says "cannot write \"$file\": access is not allowed"
done
expect "what may not be written is as it was" [ "$(cat shut/file locked)" = "$(printf 'old\nold')" ]
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
# Nobody writes to this pipe: to open it in the usual way is to wait for ever.
mkfifo silent
printf '{"format": "leeway-setup-1", "machine": "silent", "probe": {"offset": [0, 0]}}' > waits.json
status=0
timeout 10 "$leeway" check waits.json > out 2> err || status=$?
expect "a profile that is a pipe does not make it wait, but ends with 2, not $status" [ $status = 2 ]
expect "and is refused" says "it is no ordinary file"
printf '{"format": "leeway-setup-1", "machine": "machines/m.json\\u0000", "probe": {"offset": [0, 0]}}' > zero.json
run 2 check zero.json
expect "a name with a zero character is not cut off" says "the name holds a zero character"
mkdir elsewhere
run 0 check s.json --long
(cd elsewhere && "$leeway" check ../s.json --long) > out2 2> err
expect "profiles are found from anywhere" cmp -s out out2
head -c $((16 * 1024 * 1024 + 1)) /dev/zero | tr '\0' ' ' > big.json
run 2 check big.json
expect "a file over 16 MiB is refused in a line" one_line_said
expect "for its size" says "16 MiB"
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
# A pipe that is full keeps the program where everything but the last is done.
mkfifo full
exec 8<> full
head -c 65536 /dev/zero >&8
sized=(--bed 100x100 --travel 100x100 --offset 0,0)
cp "$here/../../examples/godwit-side-bracket.json" godwit.json
sed -i 's|\.\./profiles|'"$here"'/../../profiles|' godwit.json
cp godwit.json godwit.copy
# killed WHAT ARGUMENTS...: killed there, the command leaves the folder as it was.
killed() {
  local what=$1 signal status
  shift
  for signal in HUP:129 INT:130 QUIT:131 USR1:138 ALRM:142 TERM:143; do
    before=$(ls)
    env --default-signal "$leeway" "$@" 2> err >&8 &
    victim=$!
    expect "$what: the temporary file is there to be seen" until_there temporary_file
    kill -${signal%:*} $victim
    status=0
    wait $victim 2> /dev/null || status=$?
    expect "$what: SIG${signal%:*} ends it as a signal does, not with $status" [ $status = ${signal#*:} ]
    expect "$what: SIG${signal%:*} leaves nothing behind" nothing_left
    expect "$what: nor the file itself" [ "$(ls)" = "$before" ]
    expect "$what: what was there is as it was" cmp -s godwit.json godwit.copy
  done
}
killed "check --save" check --without-setup "${sized[@]}" --save new.json
killed "measure --write" measure "$readings" --resolution 0.1 --write godwit.json --force
killed "fit --write" fit godwit.json --write godwit.json --force
killed "fit --write a new file" fit godwit.json --write new.json
exec 8>&-

# --- where one file cannot be written, no other is
own=$work/own.json
cp godwit.json own.json
measure=(measure "$readings" --resolution 0.1 --write own.json --force)
fit=(fit own.json --write own.json --force)
save=(check --without-setup "${sized[@]}" --save new.json)
for output in no-such-folder/x . loose /dev/full; do
  [ -e "$output" ] || [ "$output" != /dev/full ] || continue
  for command in measure fit save; do
    declare -n arguments=$command
    run 2 "${arguments[@]}" --output "$output"
    expect "$command: $output is said" says "cannot write \"$output\""
    expect "$command: the setup is as it was" cmp -s own.json godwit.copy
    expect "$command: no new setup" [ ! -e new.json ]
    expect "$command: nothing is left" nothing_left
  done
done
expect "a new name for one file is no second file" [ ! -e result ]
for given in "${measure[*]}" "${fit[*]}"; do
  run 2 $given --output ./own.json
  expect "one file cannot be both: ${given%% *}" cmp -s own.json godwit.copy
done
run 2 "${save[@]}" --output ./new.json
expect "nor a saved one" says "name the same file"
run 0 check --without-setup --bed 100x100 --travel 100x100 --offset 10,0 --grid 3x3 --margins 20 \
  --save saved.json
expect "what to do next names the saved file" grep -qF "leeway fit saved.json" out
rm -f saved.json
status=0
(ulimit -f 0; "$leeway" "${measure[@]}" --output result > out 2> err) || status=$?
expect "where no file may grow measure ends with 2, not $status" [ $status = 2 ]
expect "and the setup is as it was" cmp -s own.json godwit.copy
expect "and there is no result" [ ! -e result ]
chmod 666 own.json
mkdir open sticky
cp own.json open/own.json
chmod 777 open
chmod 666 open/own.json
status=0
unprivileged ./leeway measure - --resolution 0.1 --write open/own.json --force --output shut/file \
  < "$readings" > out 2> err || status=$?
expect "a result without permission ends with 2, not $status" [ $status = 2 ]
expect "and that is said" says 'cannot write "shut/file": access is not allowed'
expect "and the setup is as it was" cmp -s open/own.json godwit.copy
cp own.json shut/own.json 2> /dev/null || { chmod 755 shut; cp own.json shut/own.json; chmod 555 shut; }
chmod 666 shut/own.json
echo before > open/result
chmod 666 open/result
status=0
unprivileged ./leeway measure - --resolution 0.1 --write shut/own.json --force --output open/result \
  < "$readings" > out 2> err || status=$?
expect "a setup without permission ends with 2, not $status" [ $status = 2 ]
expect "and that is said" says 'cannot write "shut/own.json": access is not allowed'
expect "and the result is as it was" [ "$(cat open/result)" = before ]
# In a folder of the sticky kind everybody makes files, but replaces only their own: it is found out
# when the other file has its name already.
if [ "$(id -u)" = 0 ]; then
  echo before > sticky/result
  chmod 666 sticky/result
  chmod 1777 sticky
  status=0
  unprivileged ./leeway measure - --resolution 0.1 --write open/own.json --force \
    --output sticky/result < "$readings" > out 2> err || status=$?
  expect "somebody else's file ends with 2, not $status" [ $status = 2 ]
  expect "and the setup is as it was" cmp -s open/own.json godwit.copy
  expect "and the result too" [ "$(cat sticky/result)" = before ]
fi
expect "nothing is left" nothing_left
run 0 "${measure[@]}" --output result
expect "otherwise the setup is changed" grep -q '"offset_uncertainty"' own.json
expect "and not only looked at" [ "$(cmp own.json godwit.copy > /dev/null; echo $?)" = 1 ]
expect "and the result is there" grep -q uncertainty result

# --- what measure writes, and when it does not
cp godwit.copy few.json
head -n 6 "$here/files/loose-bracket.csv" > few.csv
run 0 measure few.csv --write few.json --force
expect "a few pairs: their coverage factor is written" grep -q '"coverage_factor": 2.78' few.json
expect "and said" says '"few.json" now has "offset": [-38.75, 11.99], "offset_uncertainty": [0.125, 0.034] and "coverage_factor": 2.78 (it was 2)'
run 1 check few.json --format json
sed -i 's/"coverage_factor": 2.78/"coverage_factor": 3/' few.json
run 0 measure few.csv --write few.json --force
expect "a greater one stays" grep -q '"coverage_factor": 3' few.json
expect "and that is said" says 'its "coverage_factor" stays 3'
cp godwit.copy few.json
run 1 measure "$here/files/loose-bracket.csv" --write few.json --force
expect "a reading that stands out: nothing is written" cmp -s few.json godwit.copy
run 0 measure "$here/files/loose-bracket.csv" --keep six --write few.json --force
expect "kept, it is" grep -q '"offset": \[-38.825, 12.825\]' few.json

# --- terminals
escape=$(printf '\033')
# plain_words FILE WORD: it holds the word, and no colour.
plain_words() { grep -q "$2" "$1" && ! grep -q "$escape" "$1"; }
if command -v script > /dev/null; then
  terminal() { script -qec "$1" /dev/null < /dev/null; }
  TERM=xterm terminal "$leeway check $here/../../examples/godwit-side-bracket.json" > out 2> err
  expect "a terminal gets colour" grep -q "${escape}\[1;31mX" out
  TERM=xterm NO_COLOR=1 terminal "$leeway check $here/../../examples/godwit-side-bracket.json" > out 2> err
  expect "NO_COLOR is obeyed" plain_words out unreachable
  hebrew=$(printf '\327\251\327\234')
  isolated=$(printf '\342\201\250%s\342\201\251' "$hebrew")
  printf '{"machine": {"bed": {"rectangle": {"x": [0, 9], "y": [0, 9]}}, "travel": {"rectangle": {"x": [0, 9], "y": [0, 9]}}}, "probe": {"offset": [0, 0]}, "request": {"points": [{"name": "%s", "at": [50, 5]}]}}' "$hebrew" > hebrew.json
  LC_ALL=C.UTF-8 terminal "$leeway check hebrew.json" > out 2> err
  expect "a name read from right to left is isolated in a terminal" grep -q "X.* $isolated, at 50, 5" out
  LC_ALL=C terminal "$leeway check hebrew.json" > out 2> err
  expect "not where the terminal is not said to know UTF-8" grep -q "X.* $hebrew, at 50, 5" out
  LC_ALL=C.UTF-8 "$leeway" check hebrew.json > out 2> err || true
  expect "not in a pipe or a file" grep -q "  X $hebrew, at 50, 5" out
  TERM=xterm NO_COLOR= terminal "$leeway check $here/../../examples/godwit-side-bracket.json" > out 2> err
  expect "an empty NO_COLOR asks for nothing" grep -q "${escape}\[1;31mX" out
  TERM=dumb terminal "$leeway check $here/../../examples/godwit-side-bracket.json" > out 2> err
  expect "a dumb terminal gets none" plain_words out unreachable
  TERM=xterm terminal "$leeway check $here/../../examples/godwit-side-bracket.json --format json" > out 2> err
  expect "other formats are never coloured" plain_words out unreachable
  TERM=xterm terminal "$leeway check $inline > plain" > out 2> err
  expect "a file gets no colour" plain_words plain unreachable
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
