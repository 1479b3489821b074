#!/bin/sh
# Tries what package.sh made, in the bare Debian that this is run in as root: try.sh FILE, a .deb or a portable .tar.gz.
# Every verb runs as a user who has no home and may write into one folder alone. A package is taken off again and leaves nothing.
#   bare.sh trixie build/bare 'sh third_party/package/try.sh ../*.deb' build/package/*.deb
set -eu

file=$(readlink -f "$1")
export DEBIAN_FRONTEND=noninteractive
apt-get update -q >/dev/null
case $file in
  *.deb)
    apt-get install -y -q --no-install-recommends "$file" >/dev/null
    program=/usr/bin/sillwright jobs=/usr/share/sillwright/jobs ;;
  *)
    apt-get install -y -q --no-install-recommends libegl1 libgl1 libgl1-mesa-dri >/dev/null  # what a desktop has
    mkdir -p /opt/portable && tar -xzf "$file" -C /opt/portable --strip-components=1
    program=/opt/portable/sillwright jobs=/opt/portable/usr/share/sillwright/jobs ;;
esac

work=$(mktemp -d) && chmod 777 "$work" && cd "$work"
as_nobody() {  # wanted status, then the verb and what it is given
  wanted=$1; shift
  got=0
  setpriv --reuid=65534 --regid=65534 --clear-groups env -i PATH=/usr/bin:/bin HOME=/nonexistent \
    "$program" "$@" >"$work/said" 2>&1 || got=$?
  [ "$got" -eq "$wanted" ] && return
  echo "try.sh: '$*' ends with $got, not $wanted:" >&2
  cat "$work/said" >&2
  exit 1
}
job=$jobs/boatshed.toml
as_nobody 0 --version; cat said
as_nobody 0 check "$job"
as_nobody 1 check "$jobs/not-yet.toml" --json
as_nobody 0 steps "$job" --crew
as_nobody 0 list "$job" --csv lists --xlsx lists.xlsx
as_nobody 0 schedule lists/order-list.csv --out again.toml
as_nobody 0 measure "$job" --form form.csv
as_nobody 0 diff "$job" "$job"
as_nobody 0 completion bash
as_nobody 0 practice au
as_nobody 0 exercise "$(dirname "$jobs")/exercises/01-five-cards.toml"
as_nobody 0 exercise "$(dirname "$jobs")/exercises/01-five-cards.toml" --page cards.html
for ending in glb obj dxf html ifc; do as_nobody 0 export "$job" --out "house.$ending"; done
as_nobody 0 import house.ifc --out imported.toml
as_nobody 0 check imported.toml
as_nobody 0 sheets "$job" --out house.pdf
as_nobody 0 picture "$job" --out house.png
as_nobody 0 handbook "$job" --opening S2 --out book.pdf
command -v ffmpeg >/dev/null || as_nobody 2 film "$job" --opening S2 --out film.webm  # says that it wants ffmpeg
as_nobody 2
ls -l

case $file in
  *.deb)
    apt-get purge -y -q sillwright >/dev/null
    left=$(find / -xdev -iname '*sillwright*' -not -path '/root/*' -not -path '/proc/*')
    [ -z "$left" ] || { echo "try.sh: left behind: $left" >&2; exit 1; } ;;
esac
echo "$(basename "$file"): every verb runs"
