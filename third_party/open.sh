#!/bin/sh
# Sets everything up, builds the program and opens the viewer on a job (the demo house where none is named).
# Without a display: checks the job, and writes a picture of it and its sheets into build/out.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
root=$(dirname "$here")
job=${1:-$root/assets/jobs/boatshed.toml}

sh "$here/setup.sh" build
# shellcheck source=build.sh
. "$here/build.sh"
build "$root/build/program" sillwright -DCMAKE_BUILD_TYPE=Release -DSILLWRIGHT_TESTS=OFF
program=$root/build/program/src/cli/sillwright

if [ -n "${DISPLAY:-}" ] || [ -n "${WAYLAND_DISPLAY:-}" ]; then
  exec "$program" "$job"
fi
echo "No display: checking the job, and drawing its picture and its sheets instead of opening the viewer."
out=$root/build/out
mkdir -p "$out"
status=0
"$program" check "$job" || status=$?
[ "$status" -le 1 ] || exit "$status"   # 1 only says that something stops the work: that is an answer
name=$(basename "$job" .toml)
"$program" picture "$job" --out "$out/$name.png"
"$program" sheets "$job" --out "$out/$name.pdf"
echo "Picture: $out/$name.png"
echo "Sheets: $out/$name.pdf"
