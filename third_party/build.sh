# Sourced by the scripts beside it.
# build FOLDER TARGET CMAKE_ARGUMENT…: configures once, then builds. The log stays in FOLDER/build.log; a failure shows its end.
build() {
  folder=$1; target=$2; shift 2
  mkdir -p "$folder"
  launcher=
  command -v ccache >/dev/null 2>&1 && launcher=-DCMAKE_CXX_COMPILER_LAUNCHER=ccache
  log=$folder/build.log
  echo "Building $target in $folder (log: $log)"
  # shellcheck disable=SC2086 — empty or one argument
  if ! { cmake -S "$root" -B "$folder" -G Ninja $launcher "$@" && cmake --build "$folder" --target "$target"; } >"$log" 2>&1; then
    tail -n 40 "$log" >&2
    echo "The build failed; the whole log is in $log." >&2
    exit 1
  fi
}
