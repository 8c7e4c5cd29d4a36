"""A bit that a disk flipped in a book, or a book cut short, changes no answer in silence.

A book with gear, records, movements, a settled hand-in and a journal is damaged in one bit, at
random (half of the bits anywhere in the file, half in bytes that are not zero, where most values
are), or is cut. Then `becket book check` tells it, or refuses the file; or else nothing has
changed: what Python's sqlite3 module reads of every table and of the schema is what it was, row by
row, and so are the answers. The revision and the dates as last reckoned are left out, as
`src/book/check_inside.h` says; a flip there must change no answer either: a tenth of the harmless
are asked.
"""
import random
import sqlite3
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, end, scaled, scratch  # noqa: E402

FLIPS = scaled(1000)
CUTS = scaled(40)
SEED = 20261129
DAY = "2026-11-29"
LEFT_OUT = {"revision", "reckoning", "reckoned", "reckoned_vessel"}
ANSWERS = (("due", "--json"), ("muster", "--json"), ("winter", "--json"))


def make_book(folder):
    book = Book(folder / "whole.db", DAY)
    book.must("vessel", "Quillfish", "--persons", "4", "--base", "Cove")
    book.must("station", "Depot", "--turn-round", "14")
    book.must("enter", "liferaft-canister", "--vessel", "Quillfish", "--tag", "LR-1",
              "--made", "2020-05", "--serial", "R-44", "--price", "900")
    book.must("enter", "lifejacket-auto", "--vessel", "Quillfish", "--tag", "LJ-1..LJ-12",
              "--served", "2025-12-05")
    book.must("enter", "flare-red-hand", "--vessel", "Quillfish", "--tag", "FL-1",
              "--quantity", "6", "--expires", "2027-06")
    book.must("record", "service", "LR-1", "--on", "2024-05-20", "--by", "Depot",
              "--certificate", "C 7")
    book.must("land", "LJ-1..LJ-4", "--to", "Depot", "--on", "2026-11-20")
    book.must("return", "LJ-1", "--task", "service", "--on", "2026-11-27")
    book.must("amend", "LR-1", "--place", "deck")
    book.must("book", "undo")
    book.must("calendar", folder / "reminders.ics")
    return book


def rows(path):
    """All that Python reads of a book; None where it can't."""
    try:
        with sqlite3.connect(f"file:{path}?immutable=1", uri=True) as db:
            db.text_factory = bytes
            names = [name.decode() for (name,) in db.execute(
                "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")]
            read = {name: sorted(map(repr, db.execute(f'SELECT * FROM "{name}"')))
                    for name in names if name not in LEFT_OUT}
            read["schema"] = sorted(map(repr, db.execute(
                "SELECT type, name, tbl_name, sql FROM sqlite_schema")))
        return read
    except (sqlite3.Error, UnicodeDecodeError):
        return None


def answers(book):
    return [book.run(*words).stdout for words in ANSWERS]


def damage(whole, draw):
    """One flipped bit, and where."""
    at = draw.randrange(len(whole))
    while draw.random() < 0.5 and whole[at] == 0:
        at = draw.randrange(len(whole))
    bit = draw.randrange(8)
    changed = bytearray(whole)
    changed[at] ^= 1 << bit
    return bytes(changed), f"bit {bit} of byte {at}"


def judge(book, number, content, where, before):
    """What became of it: told, harmless, or a word of what changed in silence."""
    place = Book(book.folder / f"{number}.db", DAY)
    place.path.write_bytes(content)
    done = place.run("book", "check")
    found = "named" if "not as becket wrote it: " in " ".join(done.stdout.split()) else "told"
    if done.returncode not in (0, 1, 3):
        found = f"{where}: book check ended with {done.returncode}: {done.stderr}"
    elif done.returncode == 0:
        same_rows = rows(place.path) == before[0]
        same_answers = number % 10 != 0 or answers(place) == before[1]
        found = "harmless" if same_rows and same_answers else (
            f"{where}: not told, {'rows' if not same_rows else 'answers'} changed")
    for side in place.path.parent.glob(f"{number}.db*"):
        side.unlink()
    return found


def main():
    draw = random.Random(SEED)
    with scratch() as name:
        book = make_book(Path(name))
        whole = book.path.read_bytes()
        check("the whole book is in order", book.run("book", "check").returncode == 0)
        before = rows(book.path), answers(book)
        work = [damage(whole, draw) for _ in range(FLIPS)]
        with ThreadPoolExecutor(2) as pool:
            flips = list(pool.map(lambda n: judge(book, n, *work[n], before), range(FLIPS)))
            cuts = [draw.randrange(1, len(whole)) for _ in range(CUTS)]
            cut = list(pool.map(lambda n: judge(book, FLIPS + n, whole[:cuts[n]],
                                                f"cut to {cuts[n]}", before), range(CUTS)))
        print(f"# seed {SEED}, {len(whole)} bytes; {FLIPS} flips: {flips.count('told') + flips.count('named')} told, "
              f"{flips.count('named')} of them with the value and what it was, "
              f"{flips.count('harmless')} changed nothing; {CUTS} cuts: {cut.count('told')} told")
        silent = [word for word in flips + cut if word not in ("told", "named", "harmless")]
        check("no flip and no cut changes an answer in silence", not silent,
              "\n".join(silent[:20]))
        check("a flipped value is named with what it was", flips.count("named") > FLIPS // 50)
        check("flips hit values: some are told, some hit free space",
              flips.count("told") > FLIPS // 10 and flips.count("harmless") > 0)
    end()


main()
