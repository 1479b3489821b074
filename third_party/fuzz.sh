#!/bin/sh
# Builds the fuzz targets (clang, libFuzzer, with the sanitizers; the rooms are those of test.sh sanitize) and runs each
# for some seconds, two at a time.
#   fuzz.sh [SECONDS [SEED]]      30 where none are named
# What a target has learnt stays in build/fuzz/corpus; an input that fails it is kept in build/fuzz/faults.
# With a seed, a target begins with no more than the inputs of the repository and tries the same ones each time, as far
# as it gets: a change is then tested, not the day's luck. New faults are found without one, and with more seconds.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
root=$(dirname "$here")
seconds=${1:-30}
seed=${2:-}
# shellcheck source=build.sh
. "$here/build.sh"

if ! clang_fuzzes; then
  echo "fuzz.sh: wants clang and its runtime: apt-get install clang libclang-rt-dev" >&2
  exit 1
fi
build_sanitized fuzz
targets=$folder/tests/fuzz
folder=$root/build/fuzz
mkdir -p "$folder/faults" "$folder/logs"

seeds() {  # where a target's first inputs lie
  case "$1" in
    job) echo "$root/assets/jobs $root/tests/job/good $root/tests/job/bad" ;;
    practice) echo "$root/assets/practice $root/tests/practice/bad" ;;
    mesh) echo "$root/assets/meshes $root/tests/fuzz/seeds/mesh" ;;
    schedule | words | plan | model) echo "$root/tests/fuzz/seeds/$1" ;;
    recovery) echo "$root/assets/jobs" ;;
    exercise) echo "$root/assets/exercises" ;;
  esac
}

longest() {  # bytes of an input: the longest practice, or the choices that make a house
  case "$1" in plan) echo 4096 ;; *) echo 131072 ;; esac
}

# The targets hold each input to a second of the processor's time; this is the wall's, for one that hangs.
run() {
  corpus=$folder/corpus/$1
  compared=1  # whether values that the target compares are tried as input: pointers are among them, and threads' order
  if [ -n "$seed" ]; then corpus=$folder/seeded/$1; rm -rf "$corpus"; compared=0; fi
  mkdir -p "$corpus"
  # Addresses stay put where the machine allows it.
  # shellcheck disable=SC2046,SC2086 — a list of folders; a command of several words
  $stay "$targets/fuzz_$1" -seed="${seed:-0}" -use_cmp="$compared" -max_total_time="$seconds" -timeout=20 -rss_limit_mb=2048 \
    -max_len="$(longest "$1")" -print_final_stats=1 -artifact_prefix="$folder/faults/$1-" "$corpus" $(seeds "$1") \
    >"$folder/logs/$1" 2>&1
}
if setarch -R true 2>/dev/null; then stay="setarch -R"; else stay=; fi

failed=
finish() {  # target, process
  status=failed
  if wait "$2"; then status=held; else failed="$failed $1"; fi
  executions=$(sed -n 's/^stat::number_of_executed_units: *//p' "$folder/logs/$1")
  covered=$(sed -n 's/.* cov: \([0-9]*\) .*/\1/p' "$folder/logs/$1" | tail -n 1)
  printf '%-10s %12s %10s  %s\n' "$1" "${executions:-?}" "${covered:-?}" "$status"
}

printf '%-10s %12s %10s\n' target executions edges
set -- job practice mesh schedule recovery words plan model exercise
while [ $# -gt 0 ]; do
  first=$1; shift
  run "$first" & first_process=$!
  if [ $# -gt 0 ]; then second=$1; shift; run "$second" & second_process=$!; else second=; fi
  finish "$first" "$first_process"
  if [ -n "$second" ]; then finish "$second" "$second_process"; fi
done
for name in $failed; do
  echo "--- $name" >&2
  tail -n 40 "$folder/logs/$name" >&2
done
[ -z "$failed" ]
