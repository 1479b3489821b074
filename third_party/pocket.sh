#!/bin/sh
# Makes the page for a phone, which `sillwright export JOB --out F.html` fills: assets/pocket/page.html.
# Wants Emscripten (Debian's packages, which it installs); the program and its users don't.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
root=$(dirname "$here")
sh "$here/setup.sh" pocket
# shellcheck source=build.sh
. "$here/build.sh"

# Debian's acorn, where node is not Debian's own.
export NODE_PATH=/usr/share/nodejs
# -Oz: a page is held to 3 MB, and -Os passes that.
build "$root/build/pocket" pocket -DCMAKE_BUILD_TYPE=MinSizeRel -DCMAKE_CXX_FLAGS_MINSIZEREL="-Oz -DNDEBUG" \
  -DSILLWRIGHT_TESTS=OFF \
  -DCMAKE_TOOLCHAIN_FILE=/usr/share/emscripten/cmake/Modules/Platform/Emscripten.cmake
mkdir -p "$root/assets/pocket"
node "$root/src/pocket/page/compose.js" "$folder/src/pocket/pocket.js" "$root/assets/pocket/page.html"
ls -l "$root/assets/pocket/page.html"
