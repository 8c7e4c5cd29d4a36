#!/bin/sh
# A disk without a byte left: a book on it can still be read, checked and copied elsewhere, also
# where changes wait beside it; what writes says so and changes nothing. The disk is a small one in
# memory, in a mount namespace of its own, which is gone with this script.
#
#   BECKET=path/to/becket sh tests/outside/full_disk_test.sh
set -u
: "${BECKET:=${1:?the program}}"
BECKET=$(realpath "$BECKET")
export BECKET TZ=UTC LC_ALL=C.UTF-8
if [ "${FULL_DISK:-}" = '' ]; then
	FULL_DISK=$(mktemp -d) || exit 1
	export FULL_DISK
	for how in -m -rm; do
		if unshare "$how" mount -t tmpfs -o size=2m tmpfs "$FULL_DISK" 2>"$FULL_DISK/err"; then
			unshare "$how" sh "$0" "$BECKET"
			status=$?
			rm -rf "$FULL_DISK"
			exit "$status"
		fi
	done
	echo 'skip full disk: no disk can be mounted here'
	rm -rf "$FULL_DISK"
	exit 0
fi

mount -t tmpfs -o size=2m tmpfs "$FULL_DISK" || exit 1
elsewhere=$(mktemp -d) || exit 1
trap 'rm -rf "$elsewhere"' EXIT
cd "$FULL_DISK" || exit 1
status=0

# expect NAME WANTED FOUND
expect() {
	if [ "$2" = "$3" ]; then
		echo "ok full disk: $1"
	else
		echo "not ok full disk: $1: expected \"$2\", found \"$3\""
		status=1
	fi
}

becket() {
	timeout 120 "$BECKET" --today 2026-11-25 --book "$FULL_DISK/book" "$@"
}

vessels() {
	"$BECKET" --book "$1" vessel --json 2>&1 | grep -o '"vessel": "[A-Z][a-z]*"' | cut -d '"' -f 4 |
		tr '\n' ' '
}

# fill: takes what room there is, to the last byte; give: gives it back.
fill() {
	cat /dev/zero >filling 2>"$elsewhere/err"
	expect 'it is full' 0 "$(df --output=avail . | tail -n 1 | tr -d ' ')"
}

# asked WHAT NAMES: the book is read, checked and copied, and not written.
asked() {
	expect "$1: it is read" "$2" "$(vessels book)"
	becket book check >"$elsewhere/out" 2>"$elsewhere/err"
	expect "$1: it is checked" 0 "$?"
	rm -f "$elsewhere/copy"
	becket book backup "$elsewhere/copy" >"$elsewhere/out" 2>"$elsewhere/err"
	expect "$1: it is copied elsewhere" 0 "$?"
	expect "$1: the copy has all of it" "$2" "$(vessels "$elsewhere/copy")"
	becket vessel Zed >"$elsewhere/out" 2>"$elsewhere/err"
	expect "$1: it is not written, and that is said" '3 1' \
		"$? $(grep -c 'there is no room left on the disk; nothing was written' "$elsewhere/err")"
	expect "$1: it is as it was" "$2" "$(vessels book)"
}

becket vessel Amberjay >"$elsewhere/out" || exit 1
fill
asked 'a book at rest' 'Amberjay '
rm -f filling book-shm book-wal
becket vessel Loon >"$elsewhere/out"
expect 'with room again it is written' 'Amberjay Loon ' "$(vessels book)"

# A reader that is killed leaves what was written meanwhile in the log beside the book.
if command -v sqlite3 >"$elsewhere/out"; then
	mkfifo "$elsewhere/hold"
	sqlite3 book <"$elsewhere/hold" >"$elsewhere/held" 2>&1 &
	holder=$!
	exec 3>"$elsewhere/hold"
	echo 'BEGIN; SELECT count(*) FROM vessel;' >&3
	until [ -s "$elsewhere/held" ]; do
		sleep 0.1
	done
	becket vessel Merganser >"$elsewhere/out"
	kill -9 "$holder"
	wait "$holder" 2>"$elsewhere/err"
	exec 3>&-
	rm -f book-shm
	expect 'changes wait beside the book' yes "$([ -s book-wal ] && echo yes)"
	fill
	asked 'a book with changes beside it' 'Amberjay Loon Merganser '
	expect 'and they wait still' yes "$([ -s book-wal ] && echo yes)"
	rm -f filling
	becket vessel Teal >"$elsewhere/out"
	expect 'with room again that is written, too' 'Amberjay Loon Merganser Teal ' "$(vessels book)"
else
	echo 'skip full disk: changes that wait: sqlite3 is not installed'
fi

exit "$status"
