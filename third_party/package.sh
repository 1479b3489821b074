#!/bin/sh
# Sets everything up and builds what can be handed on, into build/package:
#   package.sh               sillwright_VERSION_ARCHITECTURE.deb, for the Debian release that it is built on
#   package.sh --portable    sillwright-VERSION-ARCHITECTURE.tar.gz too: a folder with the program, its libraries and
#                            fonts, started by the file `sillwright` in it; wants a Linux as new as the one it is built on
#   package.sh --twice       the package, then again from a clone in another folder, and compares: the same commit built by
#                            the same compiler gives the same bytes
# With the page for a phone, where Emscripten can be had.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
root=$(dirname "$here")
case "${1:-}" in
  '' | --portable | --twice) ;;
  *) echo "package.sh: nothing, '--portable' or '--twice'." >&2; exit 2 ;;
esac

sh "$here/setup.sh" package
sh "$here/pocket.sh" || echo "The package goes without the page for a phone."
# shellcheck source=build.sh
. "$here/build.sh"
SOURCE_DATE_EPOCH=$(git -C "$root" log -1 --format=%ct)
export SOURCE_DATE_EPOCH
# Debian's hardening; and nothing in the bytes that tells where they were built.
build "$root/build/package" documents -DCMAKE_BUILD_TYPE=Release -DSILLWRIGHT_TESTS=OFF -DSILLWRIGHT_SOURCE_ASSETS= \
  -DCMAKE_INSTALL_PREFIX=/usr \
  "-DCMAKE_CXX_FLAGS=-ffile-prefix-map=$root=. -fstack-protector-strong -D_FORTIFY_SOURCE=2" \
  "-DCMAKE_EXE_LINKER_FLAGS=-Wl,-z,relro,-z,now"
(umask 022 && cd "$root/build/package" && cpack -G DEB >cpack.log 2>&1) ||
  { cat "$root/build/package/cpack.log" >&2; exit 1; }
ls "$root"/build/package/*.deb
if [ "${1:-}" = --portable ]; then sh "$here/package/portable.sh" "$root/build/package"; fi
if [ "${1:-}" = --twice ]; then
  again=$(mktemp -d)
  trap 'rm -rf "$again"' EXIT
  git clone -q "$root" "$again/a-longer-name"
  CCACHE_DISABLE=1 sh "$again/a-longer-name/third_party/package.sh"
  for file in "$root"/build/package/*.deb; do cmp "$file" "$again/a-longer-name/build/package/$(basename "$file")"; done
  echo "Both builds give the same bytes."
fi
