#!/bin/sh
# Is everything formatted by .clang-format? With 'fix': formats it. Version 14 rules; others differ in details.
set -eu
cd "$(dirname "$0")/.."
tool=$(command -v clang-format-14 || true)
if [ -z "$tool" ]; then
  echo "format.sh: wants clang-format-14 (Debian 12: apt-get install clang-format-14)." >&2
  exit 1
fi
files=$(git ls-files '*.h' '*.cpp')
# shellcheck disable=SC2086
if [ "${1:-}" = fix ]; then exec "$tool" -i $files; fi
# shellcheck disable=SC2086
exec "$tool" --dry-run -Werror $files
