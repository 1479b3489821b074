#!/bin/bash
# Works the viewer's real window from outside: turns the house by a drag, picks an opening, hides the cladding, takes
# pictures of the screen, closes the window, and looks at the exit status. Arguments: the program, a job file.
# Exit status: 0 passed, 1 failed, 77 something that is needed is missing here.
set -u
. "$(dirname "$0")/window_support.sh"

openJob "$job"
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
openJob "$job"
xdotool getwindowgeometry "$window" | grep -q "900x620" || fail "the window did not come back at its size"
if xdotool help 2>&1 | grep -q windowquit; then
  xdotool windowquit "$window"
else
  xdotool key ctrl+q
fi
ends "the second window"

[ -n "${SILLWRIGHT_KEEP_PICTURES:-}" ] && cp "$work"/*.png "$SILLWRIGHT_KEEP_PICTURES"
echo "passed"
exit 0
