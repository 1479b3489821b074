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
    # No threads of the graphics driver: the leak checker then has one thread's memory to look at.
    export LP_NUM_THREADS=0 MESA_SHADER_CACHE_DISABLE=true
    # clang before 17 and GCC before 14 take a library's thread-local block that begins 16 bytes into a page for one that
    # glibc before 2.25 laid out, read a length beside it, and the leak checker crashes following that ("Tracer caught
    # signal 11"). Which run it hits depends on how the heap has filled. Without the interceptor the block is found still.
    export ASAN_OPTIONS=intercept_tls_get_addr=0
    export LSAN_OPTIONS="suppressions=$here/leaks.txt:print_suppressions=0"
    build_sanitized all
    # Other programs' work on what this one wrote is the same without sanitizers.
    set -- -LE once ;;
  quick) build "$root/build/tests" all -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_FLAGS_RELEASE=-O1; set -- ;;
  '') build "$root/build/tests" all -DCMAKE_BUILD_TYPE=Release ;;
  *) echo "test.sh: nothing, 'quick' or 'sanitize'." >&2; exit 2 ;;
esac
ctest --test-dir "$folder" --output-on-failure -j "$(nproc)" "$@"
