#!/bin/sh
# The README's first command, as a newcomer types it: in a copy of the tree with nothing
# built, without a list and with one that is good and one that is not.
set -eu
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
export XDG_DATA_HOME="$scratch/data"
export CFLAGS="-O0 -g0" # what is built quickly does the same
cd "$ROOT"
mkdir -p "$scratch/tree" "$scratch/mine"
tar -c --exclude node_modules meson.build src data tests | tar -x -C "$scratch/tree"
cd "$scratch/mine"
status=0

# expect NAME COMMAND...: one result.
expect() {
	name=$1
	shift
	if "$@"; then
		echo "ok first run: $name"
	else
		echo "not ok first run: $name"
		status=1
	fi
}

# run EXPECTED-STATUS WORDS...: runs it, keeping what it said in said.
run() {
	expected=$1
	shift
	got=0
	sh "$scratch/tree/src/first-run.sh" "$@" >said 2>&1 || got=$?
	[ "$got" = "$expected" ] || {
		cat said
		return 1
	}
}

expect "builds and answers without a list" run 0
expect "shows the owner's shore list" grep -qx "Quillfish: shore list" said
expect "shows every boat of the fleet that is not in date" grep -q "^  Amberjay  .*overdue" said
for name in owner fleet; do
	expect "writes calendars/$name.ics" \
		cmp "$scratch/tree/calendars/$name.ics" "$ROOT/calendars/$name.ics"
done

cat >bad.csv <<-END
	vessel,tag,kind,made,served
	Ternlet,LR-1,liferaft-valise,2019-05,12/11/2024
END
expect "refuses a list with a date that could be either way round" run 2 bad.csv
expect "names the line and the column" grep -q "line 2, column served" said
expect "makes no book of it" test ! -e "$scratch/data/becket/book.db"

cat >good.csv <<-END
	tag,kind,made,expires,served
	LR-1,liferaft-valise,2019-05,,12/11/2024
	FL-1,flare-red-hand,2023,06/2027,
END
expect "takes a good list with import's own options" \
	run 0 good.csv --dates day-first --vessel "Ternlet"
expect "shows its shore list" grep -qx "Ternlet: shore list" said
expect "writes its calendar beside it" \
	/usr/bin/python3 "$ROOT/tests/support/ics_lint.py" my-list.ics
expect "keeps it where becket looks by itself, and not with what is built" \
	test -e "$scratch/data/becket/book.db" -a ! -e "$scratch/tree/build/my-book.db"
expect "for its owner alone" test "$(stat -c %a "$scratch/data/becket/book.db")" = 600
expect "says where" grep -q "^The book is $scratch/data/becket/book.db:" said
before=$(cksum <"$scratch/data/becket/book.db")
expect "leaves a book that is there, and says so" \
	run 2 good.csv --dates day-first --vessel "Ternlet"
expect "changes nothing in it" test "$before" = "$(cksum <"$scratch/data/becket/book.db")"
expect "says what to do" grep -q 'becket import ".*good.csv" --dry-run$' said
expect "may be run again without a list" run 0
expect "refuses a list that is not there" run 3 nothing.csv

# At a terminal: the demonstrations ask nothing, the own list is asked about once.
cat >unclear.csv <<-END
	item,expires,served
	Red flares (6),2027-06,
	Liferaft,,13/11/2024
END
cat >person.py <<-'END'
	import os, pty, sys

	ANSWERS = [("written?", "y"), ("boat called", "Ternlet"), ("quantities (q)", "q"),
	           ('"Red flares"', "flare-red-hand"), ('"Liferaft"', "liferaft-valise")]
	pid, terminal = pty.fork()
	if pid == 0:
	    os.execvp("sh", ["sh", *sys.argv[1:]])
	shown, seen, asked = "", 0, []
	while True:
	    try:
	        piece = os.read(terminal, 4096)
	    except OSError:
	        break
	    shown += piece.decode("utf-8", "replace")
	    question = shown[seen:]
	    if question.endswith((": ", "] ", "? ")):
	        fits = [one for one in ANSWERS if one[0] in question]
	        os.write(terminal, (fits[0][1] + "\n").encode() if fits else b"\x04")
	        asked.append(fits[0][0] if fits else "not expected: " + question[-200:])
	        seen = len(shown)
	print(shown.replace("\r", ""))
	print(*(f"asked {one}" for one in asked), sep="\n")
	sys.exit(os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]))
END
person() {
	timeout 100 /usr/bin/python3 person.py "$scratch/tree/src/first-run.sh" "$@" >said 2>&1
}

rm -r "$scratch/data"
expect "asks at a terminal about the own list" person unclear.csv
expect "asks each thing once, and nothing about the demonstrations" \
	test "$(grep -c '^asked ' said)" = 5 -a "$(grep -c 'not expected' said)" = 0
expect "takes the list with the answers" grep -q "^Ternlet: shore list" said
expect "keeps six flares" grep -q "FL-1 added: flare-red-hand .*quantity 6" said
exit $status
