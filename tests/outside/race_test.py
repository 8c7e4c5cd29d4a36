#!/usr/bin/env python3
"""Two acts worked out from the same book at the same moment: nothing is lost.

    race_test.py BECKET

A third program holds the write lock while two acts read the book, so that both have worked out
what to write before either can begin. Each act is raced against itself and against an import.
What both said, and what the book holds afterwards, is what one of them after the other gives, in
one of the two orders: reference runs without a race say what that is.
Prints a line `ok NAME` or `not ok NAME` a check.
"""
import json
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, end, scratch  # noqa: E402

DAY = "2026-11-28"
HELD = 0.3  # seconds; where a machine takes longer to read the book the race is only gentler

ACTS = {
    "record": ["record", "service", "LR-1", "--on", "2026-11-20", "--certificate", "C1"],
    "record renew": ["record", "renew", "EX-1", "--on", "2026-11-20", "--serial", "K77"],
    "land": ["land", "LR-1", "--to", "Depot", "--on", "2026-11-20"],
    "return": ["return", "LJ-2", "--on", "2026-11-20", "--task", "service"],
    "move": ["move", "EX-1", "--vessel", "Quillfish"],
    "move some": ["move", "FL-1", "--quantity", "2", "--spares", "Cove"],
    "withdraw": ["withdraw", "EX-1", "--because", "lost"],
    "reserve": ["reserve", "EX-1"],
    "stand-in": ["stand-in", "EX-2", "--for", "EX-1"],
    "stand-in hired": ["stand-in", "extinguisher-foam", "--for", "EX-1", "--until", "2027-03-01"],
    "enter": ["enter", "epirb", "--vessel", "Brass Lantern"],
    "enter twice": ["enter", "epirb", "--vessel", "Brass Lantern", "--tag", "EP-1"],
    "amend": ["amend", "LR-1", "--place", "lazarette"],
    "extend": ["extend", "LR-1", "--task", "service", "--until", "2027-02-01", "--paper", "X1"],
    "interval": ["interval", "LR-1", "--task", "service", "--every", "36", "--paper", "M1"],
    "vessel": ["vessel", "Brass Lantern", "--area", "coastal"],
    "station": ["station", "Depot", "--turn-round", "10"],
    "remind": ["remind", "--weekday", "sunday"],
}


def make_book(folder):
    book = Book(folder / "whole.db", DAY)
    book.must("vessel", "Brass Lantern", "--base", "Cove")
    book.must("vessel", "Quillfish", "--base", "Cove")
    book.must("station", "Depot")
    for words in (["liferaft-canister", "--tag", "LR-1", "--made", "2020-05"],
                  ["lifejacket-auto", "--tag", "LJ-1..LJ-3", "--served", "2025-12-05"],
                  ["extinguisher-foam", "--tag", "EX-1..EX-2", "--made", "2024-01"],
                  ["flare-red-hand", "--tag", "FL-1", "--quantity", "6", "--expires", "2027-06"]):
        book.must("enter", *words, "--vessel", "Brass Lantern")
    book.must("land", "LJ-2", "--to", "Depot", "--on", "2026-11-10")
    return book


def state(book):
    """All that the book holds, as it says it itself, and what each change did by the journal."""
    entries = [[entry["command"], sorted(map(json.dumps, entry["lines"]))]
               for entry in book.ask("book", "journal")]
    return [book.must("export", "-"), entries, book.must("station"), book.must("remind")]


def said(result):
    return [result.returncode, result.stdout, result.stderr]


def one_after_the_other(book, first, second, name):
    copy = book.copy(name)
    return [said(copy.run(*first)), said(copy.run(*second))], state(copy)


def at_once(book, first, second, name):
    copy = book.copy(name)
    lock = sqlite3.connect(copy.path, isolation_level=None)
    lock.execute("BEGIN IMMEDIATE")
    running = [subprocess.Popen(copy.command(*words), env=copy.environment, text=True,
                                stdout=subprocess.PIPE, stderr=subprocess.PIPE)
               for words in (first, second)]
    time.sleep(HELD)
    lock.execute("ROLLBACK")
    lock.close()
    words = []
    for process in running:
        out, err = process.communicate(timeout=60)
        words.append([process.returncode, out, err])
    return words, state(copy)


def race(book, name, first, second):
    """The second order is tried only where it is another, and the first was not the one."""
    found = at_once(book, first, second, "race.db")
    one = one_after_the_other(book, first, second, "one.db")
    if list(found) == list(one):
        return check(f"{name}: as one after the other", True)
    words, ends = one_after_the_other(book, second, first, "other.db")
    other = [words[::-1], ends]
    return check(f"{name}: as one after the other", list(found) == other,
                 f"said {found[0]}\n  one after the other {one[0]}\n  or {other[0]}\n  "
                 f"the book {'agrees' if found[1] in (one[1], ends) else 'differs'}")


def main():
    with scratch() as name:
        folder = Path(name)
        book = make_book(folder)
        untagged, rows = folder / "beacon.csv", folder / "rows.csv"
        untagged.write_text("vessel,kind,made\nBrass Lantern,epirb,2024-03\n", encoding="utf-8")
        rows.write_text("vessel,tag,kind,place,serial\nBrass Lantern,LR-1,liferaft-canister,"
                        "deck,R-7\nQuillfish,EX-1,extinguisher-foam,galley,K77\n", encoding="utf-8")
        other = folder / "other.csv"
        other.write_text("vessel,kind,made\nQuillfish,epirb,2025-09\n", encoding="utf-8")
        race(book, "two imports of an untagged beacon", ["import", str(untagged)],
             ["import", str(other)])
        for act, words in ACTS.items():
            race(book, f"{act}, twice", words, words)
            race(book, f"{act} and import", words, ["import", str(rows)])
    end()


main()
