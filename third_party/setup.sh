#!/bin/sh
# Installs the Debian packages that third_party/packages.txt lists and that are not there yet.
#   setup.sh build     what the program needs
#   setup.sh test      that, and what the tests need
#   setup.sh package   what the program and its packages need
#   setup.sh pocket    what the page for a phone is made with
# Asks for sudo only where something is missing and the user is not root.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
want=${1:-build}

packages() {  # section names as arguments
  section=
  while IFS= read -r line; do
    line=${line%%#*}
    line=$(echo "$line" | tr -d ' \t')
    case "$line" in
      '') ;;
      '['*']') section=${line#[}; section=${section%]} ;;
      *) for s in "$@"; do [ "$s" = "$section" ] && echo "$line"; done ;;
    esac
  done < "$here/packages.txt"
  return 0
}

case "$want" in
  build) names=$(packages build) ;;
  package) names=$(packages build package) ;;
  pocket) names=$(packages pocket) ;;
  test) names=$(packages build test) ;;
  *) echo "setup.sh: 'build', 'test', 'package' or 'pocket', not '$want'." >&2; exit 2 ;;
esac

missing=
for name in $names; do
  status=$(dpkg-query -W -f='${db:Status-Status}' "$name" 2>/dev/null || true)
  [ "$status" = installed ] || missing="$missing $name"
done
[ -n "$missing" ] || exit 0

if ! command -v apt-get >/dev/null 2>&1; then
  echo "setup.sh: this script installs Debian packages and there is no apt-get here. Wanted:$missing" >&2
  exit 1
fi
as_root=
if [ "$(id -u)" -ne 0 ]; then
  if ! command -v sudo >/dev/null 2>&1; then
    echo "setup.sh: these packages are missing and there is no sudo; as root: apt-get install$missing" >&2
    exit 1
  fi
  as_root=sudo
fi
echo "Installing:$missing"
$as_root env DEBIAN_FRONTEND=noninteractive apt-get update -q
# shellcheck disable=SC2086 — a list of names
$as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends $missing
