# Sourced by the scripts beside it.
# build FOLDER TARGET CMAKE_ARGUMENT…: configures once, then builds. The log stays in FOLDER/build.log; a failure shows its end.
build() {
  folder=$1; target=$2; shift 2
  mkdir -p "$folder"
  launcher=-DSILLWRIGHT_PRECOMPILE=ON  # or ccache, which keeps whole objects
  command -v ccache >/dev/null 2>&1 && launcher=-DCMAKE_CXX_COMPILER_LAUNCHER=ccache
  log=$folder/build.log
  echo "Building $target in $folder (log: $log)"
  if ! { cmake -S "$root" -B "$folder" -G Ninja "$launcher" "$@" && cmake --build "$folder" --target "$target"; } >"$log" 2>&1; then
    tail -n 40 "$log" >&2
    echo "The build failed; the whole log is in $log." >&2
    exit 1
  fi
}

# Can clang build and link with libFuzzer and the sanitizers? On Debian its runtime is a package of its own.
clang_fuzzes() {
  command -v clang++ >/dev/null 2>&1 || return 1
  tried=$(mktemp)
  echo 'extern "C" int LLVMFuzzerTestOneInput(const unsigned char*, unsigned long) { return 0; }' |
    clang++ -x c++ -fsanitize=fuzzer,address,undefined - -o "$tried" >/dev/null 2>&1 && could=0 || could=1
  rm -f "$tried"
  return "$could"
}

# build_sanitized TARGET: by clang with the fuzz targets where it is there, which also takes half of GCC's time; else by GCC.
build_sanitized() {
  if clang_fuzzes; then
    linker=; if command -v ld.lld >/dev/null 2>&1; then linker=-fuse-ld=lld; fi  # several times as fast as the usual one
    build "$root/build/sanitize" "$1" -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_COMPILER=clang++ -DSILLWRIGHT_FUZZ=ON \
      "-DCMAKE_EXE_LINKER_FLAGS=$linker"
  else
    build "$root/build/sanitize" "$1" -DCMAKE_BUILD_TYPE=Debug -DSILLWRIGHT_SANITIZE=ON
  fi
}
