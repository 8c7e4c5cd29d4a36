#!/bin/sh
# The calendars kept in calendars/ are those that src/first-run.sh makes, to the byte; and
# making them again from the same book changes nothing.
#   calendars_test.sh BECKET
set -eu
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
sh "$ROOT/data/demo/make-demo.sh" "$1" "$scratch/owner.db" "$scratch/fleet.db"
status=0

# compare NAME BOOK WORDS...: writes a calendar twice and compares it with the one kept.
compare() {
	name=$1
	book=$2
	shift 2
	for time in first again; do
		"$BECKET" --book "$scratch/$book.db" --today 2026-11-25 \
			calendar "$scratch/$name.ics" --name "Becket demo $name" "$@" >/dev/null
		if cmp "$scratch/$name.ics" "$ROOT/calendars/$name.ics"; then
			echo "ok calendars/$name.ics, made the $time time"
		else
			echo "not ok calendars/$name.ics, made the $time time: run src/first-run.sh" \
				"and read what changed"
			status=1
		fi
	done
}

compare owner owner
compare fleet fleet
compare base fleet --base "Port Marrin"
compare to-dos owner --to-dos
exit $status
