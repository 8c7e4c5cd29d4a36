#!/bin/sh
# Calendar files must pass the byte lint and read the same in parsers that no one here wrote.
#
# usage: ics_parsers_test.sh FILE.ics...    any files
#        ics_parsers_test.sh [BECKET]       with BUILD=<build directory>: the nasty texts of
#                                           tests/support/ics_driver.c, and calendars/*.ics
#
# A parser that can't be had (no node, no npm or no network at the first run, no Debian
# packages) is a skip with its reason.
set -eu
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
root=$(CDPATH='' cd -- "$here/../.." && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
status=0

skip() {
	echo "skip calendars in other parsers: $1"
	exit 0
}

# try NAME COMMAND...: runs one check and says how it went.
try() {
	name=$1
	shift
	if "$@"; then
		echo "ok $name"
	else
		echo "not ok $name"
		status=1
	fi
}

lint() {
	/usr/bin/python3 "$root/tests/support/ics_lint.py" "$@"
}

compare() {
	/usr/bin/python3 "$here/ics_parsers.py" "$@"
}

/usr/bin/python3 -c 'import icalendar, recurring_ical_events, vobject' 2>/dev/null ||
	skip 'python3-icalendar, -vobject or -recurring-ical-events is not installed'
command -v node >/dev/null || skip 'node is not installed'
# npm ci empties node_modules first, so it runs only where what is there is not what is asked.
if ! (cd "$here" && npm ls --silent >/dev/null 2>&1); then
	npm --prefix "$here" ci --silent --ignore-scripts ||
		skip 'npm could not fetch the parsers'
fi

case ${1:-} in
*.ics)
	for file in "$@"; do
		try "lint of $file" lint "$file"
		try "six parsers on $file" compare "$file"
	done
	exit $status
	;;
esac

driver=$BUILD/tests/support/ics_driver
"$driver" "$scratch/nasty.ics" "$scratch/expected"
"$driver" "$scratch/again.ics" "$scratch/expected"
try 'the same calendar twice is the same bytes' cmp "$scratch/nasty.ics" "$scratch/again.ics"
try 'lint of nasty texts' lint "$scratch/nasty.ics"
try 'six parsers on nasty texts' compare --expected "$scratch/expected" "$scratch/nasty.ics"

# A lint that finds nothing in a spoilt file would be none.
spoil() {
	sed "$1" "$scratch/nasty.ics" >"$scratch/spoilt.ics"
	! cmp -s "$scratch/nasty.ics" "$scratch/spoilt.ics" &&
		! lint "$scratch/spoilt.ics" >/dev/null
}
try 'lint finds a comma without its backslash' spoil 's/\\,/,/'
try 'lint finds a line without its carriage return' spoil '/^STATUS/s/\r$//'
try 'lint finds a line that is too long' spoil '/^SUMMARY:mm*\r$/s/\r$/mmmmmmmmmmmmmmmmmmmmmmmm&/'
try 'lint finds an alarm after the start' spoil 's/^TRIGGER:-PT15H/TRIGGER:PT15H/'
try 'lint finds a blank at the end of a line' spoil '/^TRANSP/s/\r$/ \r/'
try 'lint finds an event of two days' spoil 's/^\(DTEND;VALUE=DATE:2027020\)./\19/'
try 'lint finds two properties that changed places' spoil \
	'/^STATUS/{s/.*/TRANSP:TRANSPARENT\r/;n;s/.*/STATUS:CONFIRMED\r/;}'

for file in "$root"/calendars/*.ics; do
	[ -e "$file" ] || continue
	try "lint of calendars/${file##*/}" lint "$file"
	try "six parsers on calendars/${file##*/}" compare "$file"
done
exit $status
