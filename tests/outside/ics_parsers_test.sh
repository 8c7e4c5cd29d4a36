#!/bin/sh
# Calendar files must read the same in parsers that no one here wrote.
#
# usage: ics_parsers_test.sh FILE.ics...         any files
#        ics_parsers_test.sh --driver PROGRAM    the nasty texts of tests/support/ics_driver.c
#
# Exit 77, which meson calls a skip, where a parser can't be had: without node and npm, with
# no network at the first run, or without Debian's python3-icalendar and python3-vobject.
set -eu
here=$(cd "$(dirname "$0")" && pwd)

skip()
{
	echo "skipped: $1"
	exit 77
}

/usr/bin/python3 -c 'import icalendar, vobject' 2>/dev/null ||
	skip 'python3-icalendar or python3-vobject is not installed'
command -v node >/dev/null || skip 'node is not installed'
# npm ci empties node_modules first, so it runs only when the lock file is newer.
if [ ! "$here/node_modules/.package-lock.json" -nt "$here/package-lock.json" ]; then
	(cd "$here" && npm ci --silent) || skip 'npm could not fetch the parsers'
fi

if [ "${1:-}" = --driver ]; then
	room=$(mktemp -d)
	trap 'rm -rf "$room"' EXIT
	"$2" "$room/nasty.ics" "$room/expected"
	"$2" "$room/again.ics" "$room/expected"
	cmp "$room/nasty.ics" "$room/again.ics"
	python3 "$here/../support/ics_lint.py" "$room/nasty.ics"
	/usr/bin/python3 "$here/ics_parsers.py" --expected "$room/expected" "$room/nasty.ics"
else
	python3 "$here/../support/ics_lint.py" "$@"
	/usr/bin/python3 "$here/ics_parsers.py" "$@"
fi
