#!/bin/sh
# The calendars kept in calendars/ are those that src/first-run.sh makes, to the byte; and
# making them again from the same book changes nothing.
#   calendars_test.sh BECKET
set -eu
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
sh "$ROOT/data/demo/make-demo.sh" "$1" "$scratch/owner.db" "$scratch/fleet.db"
status=0
for name in owner fleet; do
	for time in first again; do
		"$1" --book "$scratch/$name.db" --today 2026-11-25 \
			calendar "$scratch/$name.ics" --name "Becket demo $name" >/dev/null
		if cmp "$scratch/$name.ics" "$ROOT/calendars/$name.ics"; then
			echo "ok calendars/$name.ics, made the $time time"
		else
			echo "not ok calendars/$name.ics, made the $time time: run src/first-run.sh" \
				"and read what changed"
			status=1
		fi
	done
done
exit $status
