#!/bin/sh
# The page as a person uses it, in Debian's chromium, and as axe-core judges it.
#
# usage: page_test.sh BECKET [--whole] [PART...]
# parts: the files of this folder that end in .part.mjs
#
# What can't be had (no node, no npm or no network at the first run, no chromium) is a skip with
# its reason.
set -eu
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
becket=$1
shift

skip() {
	echo "skip the page in a browser: $1"
	exit 0
}

command -v node >/dev/null 2>&1 || skip "there is no node"
command -v chromium >/dev/null 2>&1 || skip "there is no chromium"
# again where what is asked for has changed since
if [ ! -e "$here/node_modules/.package-lock.json" ] ||
	[ "$here/package-lock.json" -nt "$here/node_modules/.package-lock.json" ]; then
	(cd "$here" && npm ci --no-audit --no-fund --silent) >/dev/null 2>&1 ||
		skip "npm can't fetch what drives it"
fi
exec node "$here/run.mjs" "$becket" "$@"
