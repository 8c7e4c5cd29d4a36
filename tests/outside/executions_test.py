#!/usr/bin/env python3
"""How many SQL statements an act on one piece executes, as SQLite's own trace tells them.

    executions_test.py BECKET

Each is a journey to a server where a book is shared, and time under the lock. The numbers are
limits: those that were reached when this was written, from opening the book to closing it, and none
of an act above 38, a third of the most that an act made at first. An act writes in one transaction,
and of the dates kept beside it only those that are others. Prints a line `ok NAME` or `not ok NAME`
a check.
"""
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BUILD, SANITIZED, Book, check, end, scratch, skip  # noqa: E402

SHIM = BUILD / "tests" / "support" / "libcount_statements.so"
DAY = "2026-11-28"
MOST = [
    (32, "record service LR-1 --on 2026-11-20"),
    (36, "land LJ-1 --to Depot"),
    (36, "return LJ-1 --task service"),
    (38, "move EX-1 --vessel Quillfish"),
    (33, "withdraw EX-1 --because lost"),
    (33, "reserve FL-1"),
    (35, "stand-in EX-2 --for LJ-2"),
    # all tags and numbers by a statement of their own, and the revision that they are of
    (36, "enter epirb --vessel Skerry"),
    (31, "amend LR-1 --place deck"),
    (32, "extend LR-1 --task service --until 2028-12-01 --paper X"),
    (33, "interval LR-1 --task service --every 36 --paper M"),
    (37, "vessel Skerry --area coastal"),
    (24, "station Depot --turn-round 10"),
    (38, "remind --weekday sunday"),
    (40, "remind"), # the list alone, which is for writing where something is chosen
    (18, "due"), # some boats at a time, in one transaction that reads
]


def make_book(folder):
    book = Book(folder / "book.db", DAY)
    for name in ("Skerry", "Quillfish"):
        book.must("vessel", name, "--base", "Cove")
    book.must("station", "Depot")
    for words in ("liferaft-canister --tag LR-1 --made 2020-05",
                  "lifejacket-auto --tag LJ-1..LJ-3 --served 2025-12-05",
                  "extinguisher-foam --tag EX-1..EX-2 --made 2024-01",
                  "flare-red-hand --tag FL-1 --quantity 6 --expires 2027-06"):
        book.must("enter", *words.split(), "--vessel", "Skerry")
    return book


def executed(book, words):
    """The statements that a command executes."""
    told = book.folder / "statements"
    told.unlink(missing_ok=True)
    book.environment.update(LD_PRELOAD=str(SHIM), STATEMENTS=str(told))
    book.must(*words.split())
    del book.environment["LD_PRELOAD"]
    return told.read_text(encoding="utf-8").splitlines()


def main():
    if SANITIZED:
        skip("executions", "the sanitizers' library must come first")
        return
    with scratch() as name:
        book = make_book(Path(name))
        for most, words in MOST:
            statements = executed(book, words)
            writes = sum(text.startswith("BEGIN IMMEDIATE") for text in statements)
            check(f"{words}: at most {most} executions", 0 < len(statements) <= most,
                  f"{len(statements)}")
            check(f"{words}: one transaction that writes", writes == (0 if words in ("due", "remind") else 1),
                  f"{writes}")
        kept = [text for text in executed(book, "amend LR-1 --place deck")
                if text.startswith(("INSERT INTO reckoned (", "DELETE FROM reckoned"))]
        check("dates that did not move are not written again", not kept, "\n".join(kept))
        moved = [text for text in executed(book, "record inspect LJ-3 --on 2026-11-20")
                 if text.startswith("INSERT INTO reckoned (")]
        check("the date that moved is, alone", len(moved) == 1, f"{len(moved)}")
    end()


main()
