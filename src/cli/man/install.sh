#!/bin/sh
# Installs a manual page for each command, becket-winter(1): man/install.sh BECKET SCDOC FOLDER
set -eu

becket=$1
scdoc=$2
folder=$MESON_INSTALL_DESTDIR_PREFIX/$3
mkdir -p "$folder"
for command in $("$becket" help --names commands); do
	"$becket" help --man "$command" | "$scdoc" >"$folder/becket-$command.1"
	chmod 644 "$folder/becket-$command.1"
done
