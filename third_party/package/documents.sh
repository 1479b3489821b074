#!/bin/sh
# What the program says of itself, as a system wants it: documents.sh PROGRAM SOURCE OUT VERSION [SECONDS]
# Man pages from its help, completions, the guide with its pictures, the changelog. SECONDS since 1970: the date they bear.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
program=$1 source=$2 out=$3 version=$4 seconds=${5:-0}
export LC_ALL=C.UTF-8 SILLWRIGHT_ASSETS=$source/assets  # a package's program looks where it will be installed
day=$(date -u -d "@$seconds" +%Y-%m-%d)

rm -rf "$out"
mkdir -p "$out/share/man/man1" "$out/share/doc/sillwright" "$out/share/sillwright"

man_page() {  # the page's name, then the verb, if it is of one
  "$program" ${2:+"$2"} --help | awk -v verb="${2:-}" -v day="$day" -v version="$version" -f "$here/man.awk" >"$out/share/man/man1/$1.1"
  grep -q '^\.SH OPTIONS' "$out/share/man/man1/$1.1" || { echo "documents.sh: the help of $1 is not understood." >&2; exit 1; }
}
verbs=$("$program" --help | sed -n '/^subcommands:/I,/^$/s/^  \([a-z]\+\) .*/\1/p')
man_page sillwright
for verb in ${verbs:?"documents.sh: the help names no verb"}; do man_page "sillwright-$verb" "$verb"; done
gzip -9n "$out"/share/man/man1/*.1

if echo "$verbs" | grep -qx completion; then
  mkdir -p "$out/share/bash-completion/completions" "$out/share/zsh/vendor-completions" "$out/share/fish/vendor_completions.d"
  "$program" completion bash >"$out/share/bash-completion/completions/sillwright"
  "$program" completion zsh >"$out/share/zsh/vendor-completions/_sillwright"
  "$program" completion fish >"$out/share/fish/vendor_completions.d/sillwright.fish"
fi

cp "$here/copyright" "$out/share/doc/sillwright/copyright"
gzip -9n <"$source/assets/guide/changelog.txt" >"$out/share/doc/sillwright/NEWS.gz"
{
  printf 'sillwright (%s) unstable; urgency=medium\n\n  * What changed for a user stands in NEWS.gz.\n\n' "$version"
  printf ' -- The authors of Sillwright <sillwright@localhost.invalid>  %s\n' "$(date -u -R -d "@$seconds")"
} | gzip -9n >"$out/share/doc/sillwright/changelog.gz"

python3 "$here/guide.py" "$program" "$source" "$out/share/sillwright/guide"
