# Sourced by tests that use an npm package: need NAME VERSION FOLDER WHAT brings it into a folder, or ends the test as
# skipped (77) with WHAT did not happen, where npm or its registry can't be reached.

need() {
  skip() {
    echo "SKIPPED: $1. $2"
    exit 77
  }
  command -v node >/dev/null 2>&1 || skip 'there is no node here' "$4"
  [ -e "$3/node_modules/$1/package.json" ] && return
  command -v npm >/dev/null 2>&1 || skip 'there is no npm here' "$4"
  mkdir -p "$3"
  timeout 120 npm install --no-audit --no-fund --ignore-scripts --no-save --prefix "$3" "$1@$2" >"$3/npm.log" 2>&1 ||
    skip "npm could not fetch $1 $2 (log: $3/npm.log)" "$4"
}
