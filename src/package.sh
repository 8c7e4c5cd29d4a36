#!/bin/sh
# Makes a Debian package of the program, on Debian 12 (as root, or with sudo for what is missing):
#
#   sh src/package.sh            build/package/becket_VERSION-1_ARCHITECTURE.deb
#
# Install it with: apt install ./build/package/becket_*.deb
# Removing it takes away the program alone: books are in each person's own folder.
set -eu
ROOT=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
. "$ROOT/src/packages.sh"
PACKAGE=$ROOT/build/package

# shellcheck disable=SC2086
install_packages $BUILD_PACKAGES $PACKAGE_PACKAGES
version=$(sed -n "s/^  version: '\(.*\)',/\1/p" "$ROOT/meson.build")
tree=$PACKAGE/becket-$version
rm -rf "$PACKAGE"
mkdir -p "$tree"
for part in README.md meson.build src data LICENSE; do
	cp -R "$ROOT/$part" "$tree/"
done
mv "$tree/src/package/debian" "$tree/debian"
build_depends=$(echo $BUILD_PACKAGES | sed 's/ /, /g')
sed -i "s/@BUILD_PACKAGES@/$build_depends/" "$tree/debian/control"
cat >"$tree/debian/changelog" <<END
becket ($version-1) unstable; urgency=medium

  * What is new is told in CHANGES.md.

 -- becket contributors <maintainers@becket.invalid>  $(date -R -r "$ROOT/src/CHANGES.md")
END
if ! (cd "$tree" && dpkg-buildpackage -b -us -uc) >"$PACKAGE/build.log" 2>&1; then
	tail -n 40 "$PACKAGE/build.log" >&2
	exit 1
fi
ls "$PACKAGE"/becket_*.deb
