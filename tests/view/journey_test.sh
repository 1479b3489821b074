#!/bin/bash
# One person's way through the viewer's real window: a sill is dragged, a figure typed while dragging, both undone; a
# figure typed into the sheet; a distance measured, a cut laid; saved, closed and opened again. The file then differs
# in the one figure that was typed. Arguments: the program, a job file. Exit status as window_test.sh.
set -u
. "$(dirname "$0")/window_support.sh"

own=$work/shed.toml
cp "$job" "$own"
openJob "$own"
clickItem "opening J2"
rest
xdotool key o
rest

# figures NAME: those of the handle of that name.
figures() { column "handle $1" 4; }
# expect WHAT FOUND WANTED
expect() { [ "$2" = "$3" ] || fail "$1: \"$2\", not \"$3\""; }

sill="sill of J2"
expect "the sill at first" "$(figures "$sill")" 1050
aim "handle $sill"
xdotool mousemove "$at_x" "$at_y"
rest
import -window root "$work/at_handle.png"
xdotool mousedown 1 mousemove "$at_x" $((at_y - 6)) mousemove "$at_x" $((at_y - 24)) mouseup 1
rest
dragged=$(figures "$sill")
[ "$dragged" -gt 1050 ] && [ "$dragged" -lt 1400 ] || fail "the sill was dragged up to $dragged"
expect "steps after a drag" "$(column "state done" 2)" 1

aim "handle $sill"
xdotool mousemove "$at_x" "$at_y" mousedown 1 mousemove "$at_x" $((at_y + 8))
rest
xdotool type 1123
rest
import -window root "$work/typing.png"
xdotool key Return mouseup 1
rest
expect "the sill as typed while dragging" "$(figures "$sill")" 1123

xdotool key ctrl+z
rest
expect "the sill after one step back" "$(figures "$sill")" "$dragged"
xdotool key ctrl+z
rest
expect "the sill after two steps back" "$(figures "$sill")" 1050
expect "what there is to undo" "$(column "state done" 3)" -

# The sheet is longer than the window: wheel it up until the field is in sight.
field="set sill above the plate's underside"
aim "$field"
xdotool mousemove "$at_x" 300
rest
for _ in $(seq 20); do
  aim "$field"
  [ "$at_y" -lt 700 ] && break
  xdotool click 5
  rest
done
clickItem "$field"
rest
xdotool type 1072
rest
import -window root "$work/in_the_sheet.png"
xdotool key Return Escape  # Enter goes on to the next field; Escape leaves that
rest
expect "the sill as typed in the sheet" "$(figures "$sill")" 1072

# The two edges of the opening are in sight, where their handles were; the cladding beside them can be measured to.
aim "handle left edge of J2"
from_x=$((at_x - 40)) from_y=$at_y
aim "handle width of J2"
xdotool key d
rest
xdotool mousemove "$from_x" "$from_y" click 1
rest
xdotool mousemove $((at_x + 40)) "$at_y" click 1
rest
expect "places measured between" "$(column "state measured" 2)" 2
import -window root "$work/measured.png"
xdotool key d k
rest
expect "the cut" "$(column "state cut" 2)" 1
import -window root "$work/cut.png"
xdotool key k k k
rest
expect "the cut put away" "$(column "state cut" 2)" 0

xdotool key ctrl+s
rest
xdotool key ctrl+q
ends "the window"

diff "$job" "$own" > "$work/diff"
expect "lines of the file that differ" "$(grep -c '^>' "$work/diff")" 1
expect "lines of the file that are gone" "$(grep -c '^<' "$work/diff")" 1
expect "the line" "$(sed -n 's/^> *//p' "$work/diff" | tr -d ' ')" "sill=1072"
[ -n "$(find "$work/state" -name '*.recovery' 2> /dev/null)" ] && fail "a recovery file was left behind"

openJob "$own"
expect "what is asked at the next start" "$(column "state asking" 2)" 0
clickItem "opening J2"
rest
xdotool key o
rest
expect "the sill after opening again" "$(figures "$sill")" 1072
xdotool key ctrl+q
ends "the second window"

[ -n "${SILLWRIGHT_KEEP_PICTURES:-}" ] && cp "$work"/*.png "$SILLWRIGHT_KEEP_PICTURES"
echo "passed"
exit 0
