#!/bin/sh
# Sets everything up, builds the program with its tests and passes them all.
#   test.sh             Release
#   test.sh quick       less optimised, which is compiled sooner: for a second release of the system
#   test.sh sanitize    with AddressSanitizer and UndefinedBehaviorSanitizer
set -eu

here=$(cd "$(dirname "$0")" && pwd)
root=$(dirname "$here")

sh "$here/setup.sh" test
# shellcheck source=build.sh
. "$here/build.sh"

case "${1:-}" in
  sanitize)
    # No threads of the graphics driver: while they end with the program, the leak checker's own thread now and then
    # crashes over them ("Tracer caught signal 11"). So it has one thread to look at, and finds what it found before.
    export LP_NUM_THREADS=0 MESA_SHADER_CACHE_DISABLE=true
    export LSAN_OPTIONS="suppressions=$here/leaks.txt:print_suppressions=0"
    build_sanitized all
    # Other programs' work on what this one wrote is the same without sanitizers.
    set -- -LE once ;;
  quick) build "$root/build/tests" all -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_FLAGS_RELEASE=-O1; set -- ;;
  '') build "$root/build/tests" all -DCMAKE_BUILD_TYPE=Release ;;
  *) echo "test.sh: nothing, 'quick' or 'sanitize'." >&2; exit 2 ;;
esac
ctest --test-dir "$folder" --output-on-failure -j "$(nproc)" "$@"
