#!/bin/sh
# Passes the tests on a bare Debian: makes one in a folder that isn't there yet, clones the last commit into it, runs
# test.sh there and removes the folder again. Wants root, debootstrap (package of that name) and the right to mount.
#   bare.sh SUITE FOLDER [COMMAND [FILE]]   bare.sh trixie build/trixie; COMMAND instead of 'sh third_party/test.sh', FILE
#                                           laid beside the clone
#   bare.sh SUITE FOLDER prepare            makes it with the packages that the tests want, and leaves it to the next call
# Status 0: passed; 1: failed; 3: can't be tried on this machine, and a line that says why.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
suite=${1:?"which suite? bare.sh SUITE FOLDER"}
bare=${2:?"into which folder? bare.sh SUITE FOLDER"}
command=${3:-sh third_party/test.sh}

unable() {
  echo "bare.sh: Debian $suite is not tried: $1."
  exit 3
}
[ "$(id -u)" -eq 0 ] || unable "wants root"
command -v debootstrap >/dev/null 2>&1 || unable "there is no debootstrap"
unshare --mount true 2>/dev/null || unable "this machine refuses mounts"
if [ -e "$bare" ] && [ ! -e "$bare/prepared" ]; then echo "bare.sh: $bare is there already; name a folder that isn't." >&2; exit 1; fi

mkdir -p "$bare"
bare=$(cd "$bare" && pwd)
log=$bare.log
trap 'rm -rf --one-file-system "$bare"' EXIT
trap 'exit 1' INT TERM
if [ ! -e "$bare/prepared" ]; then
  unshare --mount debootstrap --variant=minbase "$suite" "$bare" >"$log" 2>&1 || unable "debootstrap failed, see $log"
  # This machine's way to the net, and what its clock is worth.
  apt-config dump Acquire | grep -iE 'proxy|check' >"$bare/etc/apt/apt.conf.d/99machine" || true
  cp -L /etc/resolv.conf /etc/hosts "$bare/etc/"
fi
rm -rf "$bare/root/sillwright"
git clone -q "$(dirname "$here")" "$bare/root/sillwright"
[ -z "${4:-}" ] || cp "$4" "$bare/root/"

# In a mount namespace of its own: whatever ends this script, nothing stays mounted.
inside() {
  # shellcheck disable=SC2016 — expanded inside
  unshare --mount sh -c 'mount --bind /proc "$1/proc" && mount --rbind /dev "$1/dev" &&
    exec chroot "$1" env -i HOME=/root PATH=/usr/sbin:/usr/bin:/sbin:/bin sh -c "cd ~/sillwright && $2"' \
    sh "$bare" "$1" >>"$log" 2>&1
}
if [ "$command" = prepare ]; then
  inside 'sh third_party/setup.sh test' || unable "its packages can't be installed, see $log"
  touch "$bare/prepared"
  trap - EXIT
  exit 0
fi

echo "In a bare Debian $suite: $command (log: $log)"
status=0
inside "$command" || status=$?
tail -n 6 "$log"
if [ "$status" -ne 0 ]; then
  echo "FAILED on a bare Debian $suite (status $status)"
  exit 1
fi
echo "passed on a bare Debian $suite"
