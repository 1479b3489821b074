#!/bin/bash
# Works the viewer's real window from outside: turns the house by a drag, picks an opening, hides the cladding, takes
# pictures of the screen, closes the window, and looks at the exit status. Arguments: the program, a job file.
# Exit status: 0 passed, 1 failed, 77 something that is needed is missing here.
set -u
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
# Mesa's driver keeps a few hundred bytes when GLFW lets go of it: a program of six GLFW calls "leaks" the same. A
# sanitized build still stops at every other fault here, and the off-screen tests look for leaks.
export ASAN_OPTIONS=${ASAN_OPTIONS:+$ASAN_OPTIONS:}detect_leaks=0

items=$work/items
"$program" "$job" "$items" 2> "$work/words" &
viewer=$!

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
clickItem() {
  local x y
  x=$(column "$1" 2)
  y=$(column "$1" 3)
  [ -n "$x" ] || fail "there is no \"$1\" to click"
  xdotool mousemove "$x" "$y" click 1
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

rest
window=$(xdotool search --onlyvisible --name Sillwright | head -1)
[ -n "$window" ] || fail "there is no window of that name"
xdotool windowfocus --sync "$window"
rest
import -window root "$work/start.png"

yaw=$(column yaw 2)
xdotool mousemove 620 330 mousedown 1 mousemove 700 330 mousemove 760 345 mouseup 1
rest
[ "$(column yaw 2)" != "$yaw" ] || fail "a drag did not turn the house"
import -window root "$work/turned.png"
[ "$(differ "$work/start.png" "$work/turned.png")" -gt 20000 ] || fail "the turned house looks as before"

clickItem "opening J2"
rest
[ "$(column picked 2)" -ge 0 ] || fail "a click in the strip picked no opening"
import -window root "$work/picked.png"
[ "$(differ "$work/turned.png" "$work/picked.png")" -gt 20000 ] || fail "picking an opening changed nothing"

xdotool key 2
rest
[ "$(column picked 3)" = 2 ] || fail "the key 2 did not hide the cladding"
import -window root "$work/open.png"
[ "$(differ "$work/picked.png" "$work/open.png")" -gt 20000 ] || fail "the cladding is still drawn"

# Nothing is drawn while nothing happens.
before=$(column pictures 2)
sleep 1.5
[ "$(column pictures 2)" = "$before" ] || fail "pictures are drawn at rest"

# A small window must not be left with nothing drawn: resize, and the picture follows.
xdotool windowsize --sync "$window" 900 620
rest
[ "$(column pictures 2)" -gt "$before" ] || fail "a resized window was not drawn again"

xdotool key ctrl+q
ends "the first window"
grep -q "width = 900" "$XDG_CONFIG_HOME/sillwright/window.toml" || fail "the window's size was not remembered"

# Once more: it comes back at that size. The window manager's way of closing ends it too, where this xdotool has it.
"$program" "$job" "$items" 2> "$work/words" &
viewer=$!
rest
window=$(xdotool search --onlyvisible --name Sillwright | head -1)
xdotool getwindowgeometry "$window" | grep -q "900x620" || fail "the window did not come back at its size"
if xdotool help 2>&1 | grep -q windowquit; then
  xdotool windowquit "$window"
else
  xdotool windowfocus --sync "$window" key ctrl+q
fi
ends "the second window"

[ -n "${SILLWRIGHT_KEEP_PICTURES:-}" ] && cp "$work"/*.png "$SILLWRIGHT_KEEP_PICTURES"
echo "passed"
exit 0
