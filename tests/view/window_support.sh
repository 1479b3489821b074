# Sourced by the tests that work the viewer's real window: a display of its own, the viewer on it, and hands for both.
# Arguments of the test: the program, a job file.
program=$1
job=$2

for needed in Xvfb xdotool import compare; do
  if ! command -v "$needed" > /dev/null; then
    echo "skipped: $needed is not installed"
    exit 77
  fi
done

work=$(mktemp -d)
xvfb=
viewer=
cleanUp() {
  [ -n "$viewer" ] && kill "$viewer" 2> /dev/null
  [ -n "$xvfb" ] && kill "$xvfb" 2> /dev/null
  wait 2> /dev/null
  rm -rf "$work"
}
trap cleanUp EXIT

fail() {
  echo "FAILED: $1"
  [ -n "${SILLWRIGHT_KEEP_PICTURES:-}" ] && import -window root "$SILLWRIGHT_KEEP_PICTURES/failed.png"
  [ -f "$work/words" ] && sed 's/^/  viewer: /' "$work/words"
  exit 1
}

# A display that nothing else uses: the server picks the number and writes it to file descriptor 3.
Xvfb -displayfd 3 -screen 0 1280x800x24 -nolisten tcp 3> "$work/display" 2> "$work/xvfb" &
xvfb=$!
for _ in $(seq 100); do
  [ -s "$work/display" ] && break
  sleep 0.1
done
[ -s "$work/display" ] || {
  echo "skipped: Xvfb does not start: $(tail -1 "$work/xvfb")"; exit 77; }
DISPLAY=:$(cat "$work/display")
export DISPLAY
export XDG_CONFIG_HOME=$work/settings
export XDG_STATE_HOME=$work/state
export XDG_CACHE_HOME=$work/cache
# Mesa's driver keeps a few hundred bytes when GLFW lets go of it: a program of six GLFW calls "leaks" the same. A
# sanitized build still stops at every other fault here, and the off-screen tests look for leaks.
export ASAN_OPTIONS=${ASAN_OPTIONS:+$ASAN_OPTIONS:}detect_leaks=0

items=$work/items

# openJob JOB: the viewer on that job, at rest, with the keyboard in its window.
openJob() {
  rm -f "$items"
  "$program" "$1" "$items" 2> "$work/words" &
  viewer=$!
  rest
  window=$(xdotool search --onlyvisible --name Sillwright | head -1)
  [ -n "$window" ] || fail "there is no window of that name"
  xdotool windowfocus --sync "$window"
  rest
}

# Waits until no picture has been drawn for half a second.
rest() {
  local before=-1 now
  for _ in $(seq 120); do
    kill -0 "$viewer" 2> /dev/null || fail "the viewer ended by itself"
    now=$(awk -F '\t' '$1 == "pictures" { print $2 }' "$items" 2> /dev/null)
    [ -n "$now" ] && [ "$now" = "$before" ] && return
    before=${now:--1}
    sleep 0.5
  done
  fail "the viewer does not come to rest"
}
# column NAME N: the N-th column of the line that starts with NAME.
column() { awk -F '\t' -v name="$1" -v n="$2" '$1 == name { print $n }' "$items"; }
# aim NAME: the place of the line that starts with NAME into at_x and at_y.
aim() {
  at_x=$(column "$1" 2)
  at_y=$(column "$1" 3)
  [ -n "$at_x" ] || fail "there is no \"$1\" in the window"
}
clickItem() {
  aim "$1"
  xdotool mousemove "$at_x" "$at_y" click 1
}
# differ A B: number of pixels that differ.
differ() { compare -metric AE "$1" "$2" null: 2>&1 | awk '{ printf "%d", $1 }'; }

# Waits for the viewer's end, which must be a good one.
ends() {
  for _ in $(seq 100); do
    kill -0 "$viewer" 2> /dev/null || break
    sleep 0.1
  done
  kill -0 "$viewer" 2> /dev/null && fail "$1 did not close"
  wait "$viewer"
  status=$?
  viewer=
  [ "$status" = 0 ] || fail "$1 ended with status $status"
}

