#!/bin/sh
# Starts the program in this folder with its own libraries and fonts, wherever the folder lies.
here=$(dirname "$(readlink -f "$0")")
path=$here/libraries
known=$(PATH=$PATH:/usr/sbin:/sbin ldconfig -p 2>/dev/null)
for library in "$here"/shared/*; do  # those that the graphics driver opens too: the system's, where it has them
  case $known in
    *"$(basename "$library") (libc6,"*) ;;
    *) path=$path:$library ;;
  esac
done
FONTCONFIG_FILE=$here/fonts/fonts.conf LD_LIBRARY_PATH=$path${LD_LIBRARY_PATH:+:$LD_LIBRARY_PATH} exec "$here/usr/bin/sillwright" "$@"
