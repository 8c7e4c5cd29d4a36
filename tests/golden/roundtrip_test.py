#!/usr/bin/env python3
"""An export read back changes nothing: the demonstration books, out and in again.

    roundtrip_test.py BECKET

Prints a line `ok NAME` or `not ok NAME` a check.
"""
import re
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, demonstration, end, scratch  # noqa: E402

def round_trip(name, book):
    """Exports, imports into the same book and into a fresh one, and compares."""
    first, again = book.folder / f"{name}.csv", book.folder / f"{name}-again.csv"
    fresh = Book(book.folder / f"{name}-fresh.db")
    book.must("export", first)
    due = book.ask("due")

    summary = book.must("import", first).strip().splitlines()[-1]
    check(f"an export of the {name}'s book changes nothing when it is imported",
          re.fullmatch(r"0 added, 0 changed, \d+ as they were, 0 new records", summary), summary)
    check(f"the {name}'s due list is the same after it", book.ask("due") == due)

    fresh.must("import", first, "--serials-are-right")
    fresh.must("export", again)
    check(f"a fresh book made from the {name}'s export gives the same export",
          first.read_bytes() == again.read_bytes())


def main():
    with scratch() as folder:
        for name, book in zip(("owner", "fleet"), demonstration(folder)):
            round_trip(name, book)
    end()


main()
