#!/bin/sh
# A book is an ordinary SQLite file: SQLite's own shell finds nothing wrong with it, knows
# it by its application id, and refuses what the schema forbids.
#
#   BECKET=path/to/becket sh tests/outside/book_sqlite_test.sh
set -u
: "${BECKET:=${1:?the program}}"
: "${ROOT:=$(CDPATH='' cd -- "$(dirname -- "$0")/../.." && pwd)}"
command -v sqlite3 >/dev/null || { echo "skip book_sqlite: sqlite3 is not installed"; exit 0; }
directory=$(mktemp -d) || exit 1
trap 'rm -rf "$directory"' EXIT
book=$directory/boats.book
status=0

# expect NAME WANTED FOUND
expect() {
	if [ "$2" = "$3" ]; then
		echo "ok book_sqlite: $1"
	else
		echo "not ok book_sqlite: $1: expected \"$2\", found \"$3\""
		status=1
	fi
}

becket() {
	"$BECKET" "$@" --book "$book" --today 2026-09-01 >/dev/null || {
		echo "not ok book_sqlite: becket $*"
		exit 1
	}
}

ask() {
	sqlite3 "$book" "PRAGMA foreign_keys = ON; $1" 2>&1
}

becket vessel 'Amber Tern' --persons 4
becket station 'Raft Loft' --turn-round 35 --closed 12-20..01-31
becket enter liferaft-canister --vessel 'Amber Tern' --tag LR-1 --made 2020-03
becket enter hydrostatic-release --vessel 'Amber Tern' --tag HR-1 --part-of LR-1
becket record service LR-1 --on 2024-05-20 --by 'Raft Loft'

expect 'integrity_check' ok "$(ask 'PRAGMA integrity_check')"
expect 'foreign_key_check' '' "$(ask 'PRAGMA foreign_key_check')"
# "bckt" in ASCII: 62 63 6b 74.
expect 'application_id' "$(printf '%d' 0x62636b74)" "$(ask 'PRAGMA application_id')"
expect 'user_version' "$(find "$ROOT/src/book/migrations" -name '*.sql' | wc -l | tr -d ' ')" \
	"$(ask 'PRAGMA user_version')"
expect 'every table is strict' 0 \
	"$(ask "SELECT COUNT(*) FROM pragma_table_list
		WHERE schema = 'main' AND type = 'table' AND name NOT LIKE 'sqlite_%' AND NOT strict")"
expect 'a stamp to the month has no day' 20200300 \
	"$(ask "SELECT made FROM item WHERE tag = 'LR-1'")"
expect 'a part knows its parent' LR-1 \
	"$(ask "SELECT parent.tag FROM item JOIN item AS parent ON parent.id = item.parent_id
		WHERE item.tag = 'HR-1'")"

# refuses NAME SQL: SQLite says that a constraint failed.
refuses() {
	case $(ask "$2") in
	*constraint\ failed*) echo "ok book_sqlite: refuses $1" ;;
	*) expect "refuses $1" 'a failed constraint' 'none' ;;
	esac
}
refuses 'an unknown state' "UPDATE item SET state = 'lost'"
refuses 'a parent that is not there' 'UPDATE item SET parent_id = 99'
refuses 'two items of one tag' "UPDATE item SET tag = 'LR-1'"
exit $status
