#!/bin/sh
# From a fresh copy to a first answer, on Debian 12 (as root, or as one who may use sudo):
#
#   sh src/first-run.sh                          the two demonstration books
#   sh src/first-run.sh my-list.xlsx ...     your own list as well
#
# Your own list goes into your own book, where becket looks by itself; one that is there is left
# alone. Words after the list are options of `becket import`, such as --dates day-first,
# --vessel "Her name" or --map "Where=place". Safe to run again.
set -eu
here=$(pwd)
ROOT=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
. "$ROOT/src/packages.sh"

export PAGER=cat # one answer after the other, also at a terminal

BUILD=$ROOT/build
BECKET=$BUILD/src/cli/becket
DEMO_DAY=2026-11-25

say() {
	printf '\n== %s\n\n' "$*"
}

# demo NAME WORDS...: the demonstration's answers are those of its own day.
demo() {
	book=$BUILD/$1.db
	shift
	"$BECKET" --book "$book" --today "$DEMO_DAY" "$@"
}

build() {
	say "Building becket in $BUILD"
	# shellcheck disable=SC2086
	install_packages $BUILD_PACKAGES
	if ! { [ -f "$BUILD/build.ninja" ] || meson setup "$BUILD" "$ROOT"; } \
		>"$BUILD.log" 2>&1 || ! ninja -C "$BUILD" src/cli/becket >>"$BUILD.log" 2>&1; then
		cat "$BUILD.log" >&2
		exit 1
	fi
	rm -f "$BUILD.log"
	"$BECKET" --version
}

# summarise JSON: one line a boat from what `due --json` says.
summarise() {
	python3 - "$1" <<-'END'
		import collections, json, sys

		boats = collections.defaultdict(collections.Counter)
		for row in json.load(open(sys.argv[1], encoding="utf-8")):
		    boats[row["vessel"]][row["state"]] += 1
		for boat, states in sorted(boats.items()):
		    states.pop("in-date", None)
		    words = ", ".join(f"{n} {state.replace('-', ' ')}" for state, n in states.items())
		    print(f"  {boat:14} {words or 'all in date'}")
	END
}

show_demo() {
	say "Two demonstration books, invented from end to end: an owner's yacht, a charter fleet"
	rm -f "$BUILD/owner.db" "$BUILD/owner.db-wal" "$BUILD/owner.db-shm"
	rm -f "$BUILD/fleet.db" "$BUILD/fleet.db-wal" "$BUILD/fleet.db-shm"
	sh "$ROOT/data/demo/make-demo.sh" "$BECKET" "$BUILD/owner.db" "$BUILD/fleet.db"

	say "The owner's shore list for the winter, as of $DEMO_DAY (becket winter)"
	demo owner winter

	say "Her next three winters at least cost, and what planning saves (becket years 3)"
	demo owner years 3

	say "The fleet's boats on $DEMO_DAY: what is not in date (becket due --within 0 --strict)"
	status=0
	demo fleet due --within 0 --strict --json >"$BUILD/fleet-due.json" || status=$?
	case $status in
	0 | 1) summarise "$BUILD/fleet-due.json" ;;
	*) exit "$status" ;;
	esac
	echo "Piece by piece: $BECKET --book $BUILD/fleet.db --today $DEMO_DAY due --within 0"

	say "Which of them has aboard what the company's list asks for (becket muster)"
	demo fleet muster || [ $? = 1 ]

	say "Reminders for a calendar app (becket calendar)"
	mkdir -p "$ROOT/calendars"
	demo owner calendar "$ROOT/calendars/owner.ics" --name "Becket demo owner"
	demo fleet calendar "$ROOT/calendars/fleet.ics" --name "Becket demo fleet"
	demo fleet calendar "$ROOT/calendars/base.ics" --name "Becket demo base" \
		--base "Port Marrin"
	demo owner calendar "$ROOT/calendars/to-dos.ics" --name "Becket demo to-dos" --to-dos
}

# own_book: where becket keeps a person's own book, as its --book has it.
own_book() {
	case ${XDG_DATA_HOME:-} in
	/*) echo "$XDG_DATA_HOME/becket/book.db" ;;
	*) echo "$HOME/.local/share/becket/book.db" ;;
	esac
}

# leave_own CSV: there is a book of the reader's already, and no list is read into it unasked.
leave_own() {
	say "Your own book is there already"
	cat <<-END
		$own is left as it is, and nothing was read from $1.
		  To see what the list would change in it, and then to change it:
		    $BECKET import "$1" --dry-run
		    $BECKET import "$1"
		  To begin another book with it:
		    $BECKET --book another.db import "$1"
		  To keep a copy of the book first:
		    $BECKET book backup copy.db
	END
	exit 2
}

# read_own CSV IMPORT-OPTIONS...: at a terminal becket asks about what is not clear, shows what
# it comes to and writes after a yes; otherwise it is shown, and written where all is clear.
read_own() {
	if [ -t 0 ] && [ -t 2 ]; then
		"$BECKET" import "$@"
	else
		"$BECKET" import "$@" --dry-run && "$BECKET" import "$@" >/dev/null
	fi
}

# show_own CSV IMPORT-OPTIONS...: the same for the reader's own list.
show_own() {
	csv=$1
	shift
	calendar=$(dirname -- "$csv")/my-list.ics
	[ ! -e "$own" ] || leave_own "$csv"
	say "Your list, $csv, into your own book, $own"
	if ! read_own "$csv" "$@"; then
		cat <<-END

			Nothing was written. Mend the rows named above, or add options after the file:
			  --dates day-first      for dates like 30/04/2021 (or month-first)
			  --vessel "Her name"    when the list has no column for the boat
			  --map "Where=place"    when a column has a name of your own ("Where=ignore" to skip it)
			The columns:       $BECKET import --help
			The kinds of gear: $BECKET help kinds
		END
		exit 2
	fi

	say "Your shore list (becket winter)"
	"$BECKET" winter
	"$BECKET" calendar "$calendar"
	say "Your reminders are in $calendar"
	echo "The book is $own: becket finds it there by itself, and only you can read it."
}

what_next() {
	cat <<-END

		What next
	END
	if [ $# -gt 0 ]; then
		cat <<-END
			  Her winter, her use and your stations make the shore list better:
			    $BECKET vessel "Her name" --lay-up 11-01..03-31
			    $BECKET station "Its name" --turn-round 14
			  Why a date is what it is:
			    $BECKET why TAG
		END
	else
		cat <<-END
			  Your own gear: put it in a CSV file with a header row, such as
			    vessel,tag,kind,made,expires,served
			  (data/demo/owner.csv is an example with every column), and run
			    sh src/first-run.sh my-list.xlsx
		END
	fi
	cat <<-END

		Becket advises. The label on the gear, the maker's manual, the station's certificate,
		your authority and your surveyor decide.
	END
}

if [ $# -gt 0 ]; then
	case $1 in
	-*)
		echo "usage: sh src/first-run.sh [my-list.xlsx [options of becket import]]" >&2
		exit 2
		;;
	/*) csv=$1 ;;
	*) csv=$here/$1 ;;
	esac
	shift
	unset BECKET_BOOK
	own=$(own_book)
	if [ ! -r "$csv" ]; then
		echo "first-run.sh: $csv can't be read" >&2
		exit 3
	fi
	build
	show_demo
	show_own "$csv" "$@"
	what_next own
else
	build
	show_demo
	what_next
fi
