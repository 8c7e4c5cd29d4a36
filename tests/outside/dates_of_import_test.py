#!/usr/bin/python3
"""The dates that a first import keeps, which it reckons from the list's rows, are those that are
reckoned from the book: of random lists, each imported at once, and with its first row ahead of the
rest. So are those of gear that goes from boat to boat, of more boats than are reckoned at once."""
import csv
import random
import sqlite3
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, end, same, scaled, scratch  # noqa: E402

COLUMNS = ["vessel", "tag", "kind", "serial", "quantity", "place", "made", "packed", "bought", "fitted",
           "expires", "served", "task", "next", "station", "certificate", "part_of", "price", "state",
           "because", "make", "capacity", "rating"]
KINDS = ["liferaft-canister", "lifejacket-auto", "gas-cylinder", "flare-red-hand", "extinguisher-powder",
         "epirb", "tether", "lifejacket-light", "other-gear"]
MARKED = {"flare-red-hand", "epirb", "lifejacket-light"}


def stamp(drawn, first, last):
    year, month, day = drawn.randint(first, last), drawn.randint(1, 12), drawn.randint(1, 28)
    return drawn.choice(["", f"{year}", f"{year}-{month:02d}", f"{year}-{month:02d}-{day:02d}",
                         f"{year}-{month:02d}~", f"before {year}-{month:02d}"])


def served(drawn, row):
    """A record; a service of what no sheet asks a service of is refused, so all are inspections."""
    done = f"{drawn.randint(2019, 2026)}-{drawn.randint(1, 11):02d}"
    row.update(served=done, task=drawn.choice(["service", "inspect", "test", "weigh"]))
    if drawn.random() < 0.3:
        row.update(next=f"{drawn.randint(2027, 2029)}-{drawn.randint(1, 12):02d}", station="Loft North",
                   certificate=f"C-{drawn.randint(1, 99)}")


def rows_of(drawn, boats, each):
    for number in range(boats * each):
        boat = f"Boat {number // each:03d}"
        kind = drawn.choice(KINDS)
        row = dict.fromkeys(COLUMNS, "")
        row.update(vessel=boat, tag=f"T-{number}", kind=kind, serial=f"{drawn.getrandbits(48):012X}",
                   place=drawn.choice(["", "locker"]), made=stamp(drawn, 2009, 2025),
                   packed=stamp(drawn, 2018, 2025), bought=stamp(drawn, 2018, 2025),
                   fitted=stamp(drawn, 2018, 2025), make=drawn.choice(["", "Quorl"]))
        if kind in MARKED or drawn.random() < 0.2:
            row["expires"] = stamp(drawn, 2025, 2031)
        if drawn.random() < 0.6:
            served(drawn, row)
        if drawn.random() < 0.2 and number % each > 0:
            row["part_of"] = f"T-{number - drawn.randint(1, number % each)}"
        if drawn.random() < 0.1:
            # the last of a boat is no whole: parts of what is withdrawn are refused
            row.update(state="withdrawn" if number % each == each - 1 else "reserve")
        if kind == "liferaft-canister" and drawn.random() < 0.5:
            row["capacity"] = "6"
        yield row


def write(path, rows):
    with path.open("w", newline="", encoding="utf-8") as file:
        lines = csv.DictWriter(file, COLUMNS)
        lines.writeheader()
        lines.writerows(rows)
    return str(path)


def kept(book):
    """What is kept: by tag, by vessel, and that it tells of the last entry."""
    with sqlite3.connect(f"file:{book}?mode=ro", uri=True) as db:
        return (db.execute("SELECT tag, vessel, dates FROM reckoned ORDER BY tag").fetchall(),
                db.execute("SELECT vessel, seen_day FROM reckoned_vessel ORDER BY vessel").fetchall())


def compare(folder, name, rows, told_before):
    found = []
    for way in ("whole", "parts"):
        path = folder / f"{name} {way}.db"
        book = Book(path)
        for words in told_before:
            book.must("vessel", *words)
        for part in ([rows] if way == "whole" else [rows[:1], rows]):
            book.must("import", write(folder / "list.csv", part), "--serials-are-right",
                      "--services-are-right", "--names-are-right")
        found.append(kept(path))
    check(f"{name}: there are dates", len(found[0][0]) > len(rows) / 3, len(found[0][0]))
    same(f"{name}: the dates are the same", found[1], found[0])


def carry(folder, drawn, boats):
    """The gear of each boat goes to the next, the last one's to the first, and some is withdrawn;
    what is kept then is what is kept once all is reckoned anew, and of all gear that is left."""
    path = folder / "carried.db"
    book = Book(path)
    rows = list(rows_of(drawn, boats, 1))
    for row in rows:
        row.update(kind="liferaft-canister", state="", made="2015-03", served="2024-05", task="service")
    book.must("import", write(folder / "list.csv", rows), "--names-are-right")
    first = kept(path)[0]
    for number, row in enumerate(rows):
        row["vessel"] = f"Boat {(number + 1) % boats:03d}"
    for row in rows[::50]:
        row["state"] = "withdrawn"
    book.must("import", write(folder / "list.csv", rows), "--names-are-right")
    carried = kept(path)
    check("all were kept, and each that is left is now", (len(first), len(carried[0])) ==
          (boats, boats - boats // 50), (len(first), len(carried[0])))
    same("each is another boat's", [(tag, f"Boat {(int(tag[2:]) + 1) % boats:03d}") for tag, _, _ in carried[0]],
         [row[:2] for row in carried[0]])
    with sqlite3.connect(path) as db:
        for table in ("reckoned", "reckoned_vessel", "reckoning"):
            db.execute(f"DELETE FROM {table}")
    book.must("book", "accept")
    book.must("amend", "T-1", "--notes", "seen")
    same("reckoned anew they are the same", carried, kept(path))


def main(folder):
    drawn = random.Random(17)
    sheets = [["Boat 000", "--sheet", "us-recreational", "--sheet", "practice"],
              ["Boat 002", "--sheet", "practice", "--lay-up", "11-01..03-31"], ["Boat 999", "--persons", 4]]
    for round_ in range(scaled(3)):
        rows = list(rows_of(drawn, 25, 8))
        compare(folder, f"by boats {round_}", rows, sheets[:round_ % 4])
        drawn.shuffle(rows)
        # the first stays a thing of its own
        rows.sort(key=lambda row: row["part_of"] != "")
        compare(folder, f"in any order {round_}", rows, sheets[:round_ % 4])
    rows = list(rows_of(drawn, 3, 1500))
    compare(folder, "more than are read at once", rows, [])
    carry(folder, drawn, 600)


with scratch() as there:
    main(Path(there))
end()
