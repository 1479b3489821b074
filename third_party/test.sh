#!/bin/sh
# Sets everything up, builds the program with its tests and passes them all.
#   test.sh             Release
#   test.sh sanitize    with AddressSanitizer and UndefinedBehaviorSanitizer
set -eu

here=$(cd "$(dirname "$0")" && pwd)
root=$(dirname "$here")

sh "$here/setup.sh" test
# shellcheck source=build.sh
. "$here/build.sh"

case "${1:-}" in
  sanitize) build_sanitized all ;;
  '') build "$root/build/tests" all -DCMAKE_BUILD_TYPE=Release ;;
  *) echo "test.sh: nothing, or 'sanitize'." >&2; exit 2 ;;
esac
ctest --test-dir "$folder" --output-on-failure -j "$(nproc)"
