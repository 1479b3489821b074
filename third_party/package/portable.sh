#!/bin/sh
# The portable folder, from a build of the target `documents`: portable.sh BUILD_FOLDER. Leaves it there, and its tar.gz.
# The system's own: the C library, and OpenGL with its driver. Beside the program: every other library, and the fonts.
# A library that the driver opens too is taken from the system where it has it, or two releases of one would meet.
set -eu

build=$(cd "$1" && pwd)
here=$(cd "$(dirname "$0")" && pwd)
version=$("$build/src/cli/sillwright" --version | cut -d' ' -f2)
name=sillwright-$version-$(uname -m)
folder=$build/$name

rm -rf "$folder"
PATH=$PATH:/usr/sbin:/sbin
cmake --install "$build" --prefix "$folder/usr" --strip >/dev/null
mkdir -p "$folder/licences"

# keep FILE TARGET: and the licence of the package that the file is of.
keep() {
  mkdir -p "$(dirname "$2")"
  cp "$1" "$2"
  real=$(readlink -f "$1")
  package=$({ dpkg -S "$real" || dpkg -S "${real#/usr}"; } 2>/dev/null | sed 's/:.*//')  # packages may know it by /lib alone
  cp "/usr/share/doc/$package/copyright" "$folder/licences/$package"
}
libraries() {  # "name path", of the program and of what its window library opens by itself
  ldd "$folder/usr/bin/sillwright" | sed -n 's|^\t\([^ ]*\) => \(/[^ ]*\) .*|\1 \2|p'
  window=$(ldd "$folder/usr/bin/sillwright" | sed -n 's|.*libglfw.* => \(/[^ ]*\) .*|\1|p')
  grep -aoE 'lib[A-Za-z0-9-]+\.so\.[0-9]+' "$window" | sort -u | while read -r opened; do
    ldconfig -p | sed -n "s|^\t$opened (libc6,.* => |$opened |p" | head -n 1
  done
}

libraries | sort -u | while read -r library path; do
  case $library in
    libc.so* | libm.so* | libdl.so* | libpthread.so* | librt.so* | libGL* | libEGL* | libOpenGL* | libOSMesa* | libvulkan*) ;;
    libX* | libxcb* | libwayland* | libdrm* | libgbm* | libexpat* | libz.so* | libzstd* | libffi* | libbsd* | libmd.so* | \
      libstdc++* | libgcc_s*) keep "$path" "$folder/shared/$library/$library" ;;
    *) keep "$path" "$folder/libraries/$library" ;;
  esac
done
for font in Inter:regular Inter:semibold "DejaVu Sans:book" "DejaVu Sans:bold"; do
  file=$(fc-match --format '%{file}' "$font")
  keep "$file" "$folder/fonts/$(basename "$file")"
done
cp "$here/fonts.conf" "$folder/fonts/"
cp "$here/start.sh" "$folder/sillwright"
chmod 755 "$folder/sillwright"

tar --sort=name --mtime="@$SOURCE_DATE_EPOCH" --owner=0 --group=0 --numeric-owner -C "$build" -c "$name" | gzip -9n >"$folder.tar.gz"
ls "$folder.tar.gz"
