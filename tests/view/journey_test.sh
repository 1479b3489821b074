#!/bin/bash
# One person's way through the viewer's real window: a sill is dragged, a figure typed while dragging, both undone; a
# figure typed into the sheet; a distance measured, a cut laid; saved, closed and opened again. The file then differs
# in the one figure that was typed. Arguments: the program, a job file. Exit status as window_test.sh.
set -u
. "$(dirname "$0")/window_support.sh"

own=$work/shed.toml
cp "$job" "$own"
openJob "$own"

# state NAME: what the viewer says of itself.
state() { column "state $1" 2; }

# The first start's tour: each of its five things is done.
[ "$(state tour)" = 0 ] || fail "there is no tour at the first start"
import -window root "$work/tour.png"
clickItem "opening J2"
rest
[ "$(state tour)" = 1 ] || fail "picking an opening did not take the tour on"
xdotool key o
rest
aim "handle sill of J2"
xdotool mousemove "$at_x" "$at_y" mousedown 1 mousemove "$at_x" $((at_y - 6)) mousemove "$at_x" $((at_y - 14)) mouseup 1
rest
[ "$(state tour)" = 2 ] || fail "an edit did not take the tour on"
xdotool key ctrl+z
rest
[ "$(state tour)" = 3 ] || fail "undoing did not take the tour on"
xdotool key k
rest
[ "$(state tour)" = 4 ] || fail "cutting did not take the tour on"
xdotool key Escape w
sleep 1
xdotool key shift+w period  # the drops at rest, or nothing ever is
rest
[ "$(state tour)" = -1 ] || fail "laying a card did not end the tour"
# One key, one meaning: P prints here too, and the space bar plays.
xdotool key p
rest
[ "$(state page)" = 1 ] || fail "P did not open the page of what is printed"
# A page has pointer and keys to itself.
yaw=$(column yaw 2)
xdotool key Left 2 mousemove 300 300 click 4 click 1
rest
[ "$(column yaw 2)" = "$yaw" ] && [ "$(column picked 3)" = 0 ] || fail "keys reached what is behind the page"
xdotool key Escape
rest
xdotool key Escape
rest
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

# A right click offers what can be done with what lies there; Escape puts the list away.
aim "handle J2 as a whole"
xdotool mousemove $((at_x + 20)) $((at_y + 20)) click 3
rest
[ "$(state offered)" -gt 5 ] || fail "a right click on a window offers $(state offered) things"
import -window root "$work/offered.png"
xdotool key Escape
rest
expect "what is offered once Escape was pressed" "$(state offered)" 0
clickItem "Look inside …"
rest
[ "$(state offered)" -gt 3 ] || fail "the foot's group has no list"
xdotool key Escape
rest

# The panels fold, and come back; the window goes over the whole screen, and back.
free=$(state free)
xdotool key F9
rest
[ "$(state free)" -gt $((free + 300)) ] || fail "the panels do not fold"
import -window root "$work/folded.png"
xdotool key F9
rest
expect "room beside the panels" "$(state free)" "$free"
xdotool key F11
rest
import -window root "$work/full_screen.png"
xdotool key F11
rest
expect "the window's width after full screen" "$(state free)" "$free"

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

# A wall's plate tells a stop while it is dragged, and its neighbour's corner follows its length.
clickItem "wall jetty"
rest
aim "handle top of jetty"
xdotool mousemove "$at_x" "$at_y" mousedown 1 mousemove "$at_x" $((at_y + 20)) mousemove "$at_x" $((at_y + 70))
rest
expect "a stop told while the plate is dragged" "$(state stopped)" 1
import -window root "$work/stopped.png"
xdotool key Escape mouseup 1
rest
# So does its soffit, below the head of the door.
aim "handle soffit of jetty"
xdotool mousemove "$at_x" "$at_y" mousedown 1 mousemove "$at_x" $((at_y + 20)) mousemove "$at_x" $((at_y + 60))
rest
expect "a stop told while the soffit is dragged" "$(state stopped)" 1
import -window root "$work/soffit.png"
xdotool key Escape mouseup 1
rest
aim "handle length of jetty"
xdotool mousemove "$at_x" "$at_y" mousedown 1 mousemove $((at_x + 8)) "$at_y"
rest
xdotool type 7500
xdotool key Return mouseup 1
rest
clickItem "wall lane"
rest
expect "the wall across, after the other was made longer" "$(figures "length of lane")" 7500
xdotool key ctrl+z
rest
clickItem "opening J2"
rest
xdotool key o
rest

# A refusal moves nothing: the field below is where it was, and takes the next figure.
aim "set framed height"
below=$at_y
clickItem "set framed width"
rest
xdotool type 12
xdotool key Return
rest
[ "$(state refused)" = 1 ] || fail "a width of 12 was not refused"
import -window root "$work/refused.png"
aim "set framed height"
expect "the next field's place" "$at_y" "$below"
xdotool key Escape Escape
rest

# A path is typed, and the view stays.
yaw=$(column yaw 2)
xdotool key ctrl+o
rest
clickItem "set path"
rest
xdotool type "oil 2"
rest
expect "the view while a path is typed" "$(column yaw 2)" "$yaw"
xdotool key Escape Escape Escape
rest

# A page shuts out what lies behind it: nothing there is pointed at, dragged, picked or taken back.
clickItem "opening J2"
rest
xdotool key o
rest
aim "handle $sill"
xdotool key question
rest
expect "the page of keys" "$(state page)" 1
picked=$(column picked 2)
xdotool mousemove "$at_x" $((at_y - 30)) mousemove "$at_x" "$at_y"
rest
expect "what is pointed at behind a page" "$(state pointed)" "-1"
xdotool mousedown 1 mousemove "$at_x" $((at_y - 20)) mousemove "$at_x" $((at_y - 40)) mouseup 1
xdotool key ctrl+z n d k
rest
expect "the sill behind a page" "$(figures "$sill")" 1072
expect "what is picked behind a page" "$(column picked 2)" "$picked"
expect "measuring and the cut behind a page" "$(state measuring) $(state cut)" "0 0"
xdotool key Escape
rest
expect "pages after Escape" "$(state page)" 0
xdotool mousemove "$at_x" $((at_y - 30))
rest
[ "$(state pointed)" != -1 ] || fail "nothing is pointed at once the page is gone"

# One key, one meaning on one screen: D, P and U do in the order of work what they do beside it.
done_before=$(column "state done" 2)
for at in drawing work; do
  [ $at = work ] && xdotool key w && sleep 1 && xdotool key shift+w && rest  # without drops, or nothing ever is
  xdotool key d
  rest
  expect "D, measuring, at the $at" "$(state measuring) $(state page)" "1 0"
  xdotool key d p
  rest
  expect "P, what is printed, at the $at" "$(state measuring) $(state page)" "0 1"
  xdotool key Escape
  rest
  lens=$(state lens)
  xdotool key u
  rest
  [ "$(state lens)" != "$lens" ] || fail "U does not change the corner detail at the $at"
  expect "edits and cards after U at the $at" "$(column "state done" 2) $(state playing)" "$done_before 0"
done
xdotool key u u u w  # round to no corner, and the cards put away
rest

# Another program writes the file: Ctrl S twice asks, and writes over nothing.
echo "# another hand's line" >> "$own"
xdotool key ctrl+s
rest
xdotool key ctrl+s
rest
grep -q "another hand's line" "$own" || fail "Ctrl S twice wrote over what another program wrote"
xdotool key ctrl+shift+s
rest
grep -q "another hand's line" "$work"/shed-other*.toml || fail "the other version is not beside the file"
rm "$work"/shed-other*.toml

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

# What stands against an opening is walked through by a key.
own=$work/misread.toml
cp "$(dirname "$job")/not-yet.toml" "$own"
openJob "$own"
xdotool key n
rest
expect "what is told first" "$(state trouble)" 0
import -window root "$work/trouble.png"
xdotool key shift+n
rest
expect "what is told next" "$(state trouble)" 1
xdotool key ctrl+q
ends "the window of troubles"

# An inch job takes inches without a mark.
own=$work/garage.toml
cp "$(dirname "$job")/garage-header.toml" "$own"
openJob "$own"
clickItem "opening A"
rest
clickItem "read bottom width"
rest
xdotool type "48 5/8"
xdotool key Return
rest
import -window root "$work/inches.png"
xdotool key ctrl+s
rest
grep -q "widths *= \[1235.075, 1232, 1232\]" "$own" || fail "48 5/8 was not taken as inches: $(grep widths "$own")"
xdotool key ctrl+q
ends "the window of inches"

[ -n "${SILLWRIGHT_KEEP_PICTURES:-}" ] && cp "$work"/*.png "$SILLWRIGHT_KEEP_PICTURES"
echo "passed"
exit 0
