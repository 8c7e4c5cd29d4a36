#!/bin/sh
# What an unlucky machine and a careless hand do to a book: full disks, files at their limit
# of size, pipes in a file's place, a program killed in the middle of its work, two at once.
#
#   BECKET=path/to/becket sh tests/outside/hostile_test.sh
set -u
: "${BECKET:=${1:?the program}}"
: "${ROOT:=$(CDPATH='' cd -- "$(dirname -- "$0")/../.." && pwd)}"
directory=$(mktemp -d) || exit 1
trap 'rm -rf "$directory"' EXIT
cd "$directory" || exit 1
status=0
export TZ=UTC LC_ALL=C.UTF-8
export XDG_DATA_HOME="$directory/data"
unset BECKET_BOOK

# expect NAME WANTED FOUND
expect() {
	if [ "$2" = "$3" ]; then
		echo "ok hostile: $1"
	else
		echo "not ok hostile: $1: expected \"$2\", found \"$3\""
		status=1
	fi
}

becket() {
	timeout 120 "$BECKET" --today 2026-11-25 "$@"
}

# outcome COMMAND...: the exit status, and how many lines it said on standard error.
outcome() {
	"$@" >out 2>err
	echo "$? $(wc -l <err | tr -d ' ')"
}

# limited BLOCKS COMMAND...: no file may grow beyond so many blocks of 512 bytes or more.
limited() {
	blocks=$1
	shift
	(ulimit -f "$blocks" && becket "$@")
}

items() {
	becket list --book "$1" --json | grep -o '"tag"' | wc -l | tr -d ' '
}

becket vessel Amberjay --book good >out || exit 1
becket enter plb --vessel Amberjay --tag PL-1 --book good >out || exit 1
becket station 'Raft Loft' --turn-round 35 --book good >out || exit 1
becket enter liferaft-valise --vessel Amberjay --tag LR-1 --made 2019-04 \
	--notes "$(printf '%3000s.' x)" --book good >out || exit 1

# A book that is no book.
mkfifo pipe
mkdir folder
expect 'a pipe is no book' '3 1' "$(outcome becket vessel Zed --book pipe)"
expect 'and is still there' yes "$([ -p pipe ] && echo yes)"
expect 'a folder is no book' '3 1' "$(outcome becket vessel Zed --book folder)"
head -c 9000 good >cut
expect 'a book cut short is not read' '3 1' "$(outcome becket due --book cut)"
expect 'nor written' '3 1' "$(outcome becket vessel Zed --book cut)"
expect 'a book without a name is refused' '2 1' "$(outcome becket vessel Zed --book '')"
expect 'and none is made elsewhere' '' "$(find data 2>find.err)"

expect 'nor is a pipe attached as a paper' '3 1' "$(outcome becket attach PL-1 pipe --book good)"
expect 'nor a folder' '3 1' "$(outcome becket attach PL-1 folder --book good)"

# A first list that is refused leaves no book.
printf 'vessel,tag,kind,made\nAmberjay,PL-9,plb,31/02/2021\n' >bad.csv
expect 'a bad list begins no book' '2 1' "$(outcome becket import bad.csv --book none)"
printf 'vessel,tag,kind,part_of\nAmberjay,PL-9,plb,PL-8\n' >lost.csv
expect 'nor does one that fails when it is written' '2 1' \
	"$(outcome becket import lost.csv --book none)"
expect 'so there is none' '' "$(find . -name 'none*')"

# Names: as long as a label, and what is read is what is there.
turned=$(printf 'PL\342\200\256-2')
unseen=$(printf 'PL\342\200\213-2')
joined=$(printf '\331\205\333\214\342\200\214\330\256')
for tag in "$turned" "$unseen" "$(printf '%061d' 7)"; do
	expect 'a tag that hides something, or has no end' '2 1' \
		"$(outcome becket enter plb --vessel Amberjay --tag "$tag" --book good)"
done
expect 'letters that are joined by hand are letters' '0 0' \
	"$(outcome becket enter plb --vessel Amberjay --tag "$joined" --book good)"
expect 'a tag of sixty digits is one' '0 0' \
	"$(outcome becket enter plb --vessel Amberjay --tag "$(printf '%060d' 7)" --book good)"
expect 'a vessel with a turned name' '2 1' "$(outcome becket vessel "$turned" --book good)"
expect 'a station with a long one' '2 1' \
	"$(outcome becket station "$(printf '%0121d' 7)" --book good)"

# No room.
cp good small
expect 'a book at its limit of size' '3 1' "$(outcome limited 8 vessel Zed --book small)"
expect 'is as it was' "$(becket vessel --book good --json)" \
	"$(becket vessel --book small --json)"
expect 'a new book that finds no room' '3 1' "$(outcome limited 1 vessel Zed --book fresh)"
expect 'can be begun again' '0 0' "$(outcome becket vessel Zed --book fresh)"
expect 'a calendar that finds no room' '3 1' \
	"$(outcome limited 1 calendar season.ics --book good)"
expect 'an inventory that finds no room' '3 1' \
	"$(outcome limited 1 export gear.csv --book good)"
expect 'leave nothing behind' '' "$(find . -name '*season*' -o -name '*gear*')"
if [ -c /dev/full ]; then
	for command in list due winter vessel station help 'show LR-1' 'why LR-1'; do
		# shellcheck disable=SC2086
		becket $command --book good >/dev/full 2>err
		expect "$command on a full disk" '3 1' "$? $(wc -l <err | tr -d ' ')"
	done
else
	echo 'skip hostile: full disk: no /dev/full'
fi

# What fails leaves the book as it was; what was written before only the answer failed is told.
dated() {
	becket "$@" --book told/book
}
mkdir told
{
	dated vessel Amberjay
	dated station 'Raft Loft' --turn-round 35
	dated enter liferaft-valise --vessel Amberjay --tag LR-1 --made 2024-04 --served 2025-10-01
	dated land LR-1 --to 'Raft Loft' --on 2026-11-20
} >out 2>err || exit 1
cp told/book told/before
mkdir told/sheets
echo 'sheet: practice' >told/sheets/practice.yaml
# (the note that the sheet is one's own, and the fault)
expect 'a return beside a broken sheet' '2 2' \
	"$(outcome dated return LR-1 --task service --on 2026-11-25)"
expect 'changes nothing' same "$(cmp -s told/book told/before && echo same)"
expect 'nor does an extension' '2 2' \
	"$(outcome dated extend LR-1 --task service --until 2027-12-01 --paper X)"
expect 'there' same "$(cmp -s told/book told/before && echo same)"
rm -r told/sheets
if [ -c /dev/full ]; then
	dated return LR-1 --task service --on 2026-11-25 >/dev/full 2>err
	expect 'a return told to a full disk' '3 1' "$? $(wc -l <err | tr -d ' ')"
	expect 'is written, as is said' '1 "aboard"' \
		"$(grep -c 'the book was changed' err) $(dated show LR-1 --json |
			sed -n 's/.*"state": \("aboard"\).*/\1/p' | head -n 1)"
	dated due >/dev/full 2>err
	expect 'and of one that only asks nothing such is said' 0 \
		"$(grep -c 'the book was changed' err)"
fi

# What stands in an output's place.
(cat pipe >received) &
reader=$!
expect 'an inventory goes into a pipe' '0 0' "$(outcome becket export pipe --book good)"
wait "$reader"
expect 'which stays a pipe' yes "$([ -p pipe ] && echo yes)"
becket export - --book good >direct
expect 'and carries it whole' same "$(cmp -s direct received && echo same)"
echo old >target
chmod 600 target
ln -s target link
expect 'an inventory goes where a link points' '0 0' "$(outcome becket export link --book good)"
expect 'the link stays a link' target "$(readlink link)"
expect 'what it points to is new' same "$(cmp -s direct target && echo same)"
expect 'and as private as it was' '-rw-------' "$(find target -printf '%M')"
expect 'a folder is not written over' '3 1' "$(outcome becket export folder --book good)"
expect 'nothing is left beside it' '' "$(find . -name '.folder*')"

# Killed in the middle: all rows or none.
awk 'BEGIN {
	print "vessel,tag,kind,made"
	for (i = 0; i < 3000; i++)
		printf "Amberjay,B-%d,plb,2020-01-01\n", i
}' >many.csv
before=$(items good)
torn=0
for pause in 0.05 0.2 0.5 1; do
	cp good killed
	rm -f killed-wal killed-shm
	"$BECKET" --today 2026-11-25 import many.csv --book killed >out 2>err &
	victim=$!
	sleep "$pause"
	kill -9 "$victim" 2>err
	wait "$victim" 2>err
	found=$(items killed)
	[ "$found" = "$before" ] || [ "$found" = $((before + 3000)) ] || torn=$found
done
expect 'an import that is killed leaves all or nothing' 0 "$torn"

# Two at once: the second waits, and one that waits too long says so.
if command -v sqlite3 >found; then
	cp good held
	mkfifo hold
	sqlite3 held <hold >held.out 2>&1 &
	holder=$!
	exec 3>hold
	echo 'BEGIN IMMEDIATE; SELECT 1;' >&3
	tries=0
	until [ -s held.out ] || [ "$tries" = 100 ]; do
		sleep 0.1
		tries=$((tries + 1))
	done
	expect 'a book that another program holds is not written' '3 1' \
		"$(outcome becket vessel Zed --book held)"
	expect 'and the reason is told' 1 "$(grep -c 'another program is writing' err)"
	expect 'but it is read' '0 0' "$(outcome becket list --book held)"
	exec 3>&-
	wait "$holder"
	expect 'and written when it is free' '0 0' "$(outcome becket vessel Zed --book held)"
else
	echo 'skip hostile: a held book: sqlite3 is not installed'
fi

exit "$status"
