#!/usr/bin/env python3
"""An export read back changes nothing: the demonstration books, out and in again.

    roundtrip_test.py BECKET

Prints a line `ok NAME` or `not ok NAME` a check.
"""
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
TODAY = "2026-11-25"


def run(becket, book, *words):
    """What the command prints; anything but status 0 ends the test."""
    done = subprocess.run(
        [becket, "--book", str(book), "--today", TODAY, *map(str, words)],
        capture_output=True, text=True, check=False)
    if done.returncode != 0:
        raise SystemExit(f"{' '.join(map(str, words))}: {done.stderr}")
    return done.stdout


def check(name, holds, why=""):
    print(("ok " if holds else "not ok ") + name)
    if not holds:
        print(why)
    return holds


def round_trip(becket, name, book, folder):
    """Exports, imports into the same book and into a fresh one, and compares."""
    first, again = folder / f"{name}.csv", folder / f"{name}-again.csv"
    fresh = folder / f"{name}-fresh.db"
    run(becket, book, "export", first)
    due = run(becket, book, "due", "--json")

    summary = run(becket, book, "import", first).strip().splitlines()[-1]
    same = check(f"an export of the {name}'s book changes nothing when it is imported",
                 summary.startswith("0 added, 0 changed,") and
                 summary.endswith(" 0 new records"), summary)
    same &= check(f"the {name}'s due list is the same after it",
                  run(becket, book, "due", "--json") == due)

    run(becket, fresh, "import", first, "--serials-are-right")
    run(becket, fresh, "export", again)
    same &= check(f"a fresh book made from the {name}'s export gives the same export",
                  first.read_bytes() == again.read_bytes())
    return same


def main():
    becket = sys.argv[1]
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        books = {"owner": folder / "owner.db", "fleet": folder / "fleet.db"}
        subprocess.run(["sh", ROOT / "data/demo/make-demo.sh", becket,
                        books["owner"], books["fleet"]], check=True)
        held = [round_trip(becket, name, book, folder) for name, book in books.items()]
    return 0 if all(held) else 1


if __name__ == "__main__":
    sys.exit(main())
