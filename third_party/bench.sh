#!/bin/sh
# Builds the benchmarks (Release) and runs them all, one after another. Each prints its reference beside it.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
root=$(dirname "$here")

sh "$here/setup.sh" test
# shellcheck source=build.sh
. "$here/build.sh"
build "$root/build/bench" all -DCMAKE_BUILD_TYPE=Release -DSILLWRIGHT_TESTS=OFF -DSILLWRIGHT_BENCH=ON
for bench in "$root"/build/bench/tests/bench/bench_*; do
  echo "== $(basename "$bench")"
  "$bench"
done
