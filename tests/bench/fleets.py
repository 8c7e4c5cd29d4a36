"""Invented books of any size, the same each time for the same number of boats: for every benchmark.

    fleets.py BECKET BOOK BOATS      makes a book of so many boats, by SQL
    fleets.py BECKET --check         whether both ways make the same book of a few boats

A boat has ITEMS pieces, a sixth of them parts of others, a record each; a base has 50 boats and a
loft of its own. `by_import` makes the book with the program's own commands, as a person would;
`by_sql` writes the same rows with SQLite alone, which is quick enough for 10,000 boats, and lets
the program reckon them once. The two are held to each other: `--check`, and the tests do it.
"""
import csv
import random
import sqlite3
import subprocess
import sys
import tempfile
from pathlib import Path

ITEMS = 60
BOATS_OF_BASE = 50
TODAY = "2026-11-25"
# each kind with how many places before it the piece stands that it is part of
KINDS = [("liferaft-canister", 0), ("lifejacket-auto", 0), ("gas-cylinder", 1),
         ("lifejacket-auto", 0), ("flare-red-hand", 0), ("extinguisher-powder", 0), ("epirb", 0),
         ("tether", 0), ("lifejacket-auto", 0), ("lifejacket-light", 1)]
MARKED = {"flare-red-hand", "epirb"}
LOFT_KINDS = ["liferaft-canister", "lifejacket-auto", "extinguisher-powder"]
SHEETS = ["practice", "us-recreational"]
COLUMNS = ["vessel", "tag", "kind", "serial", "made", "expires", "served", "task", "part_of"]


def bases(boats):
    return [f"Base {number:03d}" for number in range((boats + BOATS_OF_BASE - 1) // BOATS_OF_BASE)]


def vessels(boats):
    """Name and base of each."""
    return [(f"Boat {number:05d}", f"Base {number // BOATS_OF_BASE:03d}")
            for number in range(boats)]


def pieces(boats):
    """The rows of the inventory, one after the other, in the order of COLUMNS."""
    drawn = random.Random(1)

    def month(first, last):
        return f"{drawn.randint(first, last)}-{drawn.randint(1, 12):02d}"

    for number in range(boats * ITEMS):
        kind, back = KINDS[number % len(KINDS)]
        yield [f"Boat {number // ITEMS:05d}", f"T-{number}", kind,
               f"{drawn.getrandbits(48):012X}", month(2012, 2024),
               month(2026, 2030) if kind in MARKED else "", month(2025, 2025), "service",
               f"T-{number - back}" if back else ""]


def write_inventory(path, boats):
    with open(path, "w", newline="", encoding="utf-8") as file:
        rows = csv.writer(file)
        rows.writerow(COLUMNS)
        rows.writerows(pieces(boats))


def run(becket, book, *words):
    """Runs a command; a status of 1 is "not all right", which these books never are."""
    done = subprocess.run([becket, "--book", str(book), "--today", TODAY, *map(str, words)],
                          capture_output=True, text=True, check=False)
    if done.returncode not in (0, 1):
        sys.exit(f"{' '.join(map(str, words))}: {done.stderr}")
    return done.stdout


def by_import(becket, book, boats):
    with tempfile.TemporaryDirectory() as folder:
        inventory = Path(folder) / "fleet.csv"
        write_inventory(inventory, boats)
        for name, base in vessels(boats):
            run(becket, book, "vessel", name, "--base", base, "--lay-up", "11-01..03-31", "--persons",
                6, "--length", 10, *(word for sheet in SHEETS for word in ("--sheet", sheet)))
        for base in bases(boats):
            run(becket, book, "station", f"Loft of {base}", "--base", base, "--turn-round", 14,
                "--kinds", ",".join(LOFT_KINDS))
        run(becket, book, "import", inventory)


def stamp(words):
    """A month as the book has it; 0 for none."""
    return int(words.replace("-", "")) * 100 if words else 0


def by_sql(becket, book, boats):
    run(becket, book, "book", "new")
    con = sqlite3.connect(book)
    numbers = {}
    for number, (name, base) in enumerate(vessels(boats), 1):
        numbers[name] = number
        con.execute("INSERT INTO vessel (id, name, base, length_cm) VALUES (?, ?, ?, 1000)",
                    (number, name, base))
        con.execute("INSERT INTO vessel_period (vessel_id, from_day, use, area, persons) "
                    "VALUES (?, 0, 'private', '', 6)", (number,))
        con.executemany("INSERT INTO vessel_sheet (vessel_id, position, sheet) VALUES (?, ?, ?)",
                        [(number, at, sheet) for at, sheet in enumerate(SHEETS)])
    for number, base in enumerate(bases(boats), 1):
        con.execute("INSERT INTO station (id, name, base) VALUES (?, ?, ?)",
                    (number, f"Loft of {base}", base))
        con.executemany("INSERT INTO station_kind (station_id, position, kind) VALUES (?, ?, ?)",
                        [(number, at, kind) for at, kind in enumerate(LOFT_KINDS)])
    # a part stands behind its whole, so the whole's number is known
    con.executemany(
        "INSERT INTO item (id, vessel_id, tag, kind, serial, made, expires, parent_id) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        ((number, numbers[row[0]], row[1], row[2], row[3], stamp(row[4]), stamp(row[5]),
          int(row[8][2:]) + 1 if row[8] else None) for number, row in enumerate(pieces(boats), 1)))
    con.executemany(
        "INSERT INTO record (item_id, task, on_day, on_wording, on_estimated, next_day, "
        "next_wording, next_estimated, station, certificate, price_minor, entered) "
        "VALUES (?, ?, ?, 0, 0, 0, 0, 0, '', '', -1, 1)",
        ((number, row[7], stamp(row[6])) for number, row in enumerate(pieces(boats), 1)))
    con.execute("DELETE FROM reckoning")
    con.commit()
    con.close()
    # the program numbers what is new behind what it knows of
    run(becket, book, "book", "accept")
    # a book without kept dates has those of all its gear kept by what is done first
    run(becket, book, "record", "inspect", "T-0", "--on", TODAY)
    run(becket, book, "book", "undo")
    run(becket, book, "book", "accept")  # or its check would tell that another program wrote it


def check(becket):
    """Prints whether both ways make the same book, and returns how many differences there are."""
    tables = {
        "vessel": "SELECT * FROM vessel", "vessel_period": "SELECT * FROM vessel_period",
        "vessel_sheet": "SELECT * FROM vessel_sheet", "station": "SELECT * FROM station",
        "station_kind": "SELECT * FROM station_kind", "item": "SELECT * FROM item ORDER BY id",
        "record": "SELECT item_id, task, on_day, on_wording, on_estimated, next_day, next_wording, "
                  "next_estimated, station, certificate, price_minor FROM record ORDER BY item_id",
        "reckoned": "SELECT * FROM reckoned ORDER BY tag"}
    wrong = 0
    with tempfile.TemporaryDirectory() as folder:
        books = [Path(folder) / "import.db", Path(folder) / "sql.db"]
        by_import(becket, books[0], 3)
        by_sql(becket, books[1], 3)
        cons = [sqlite3.connect(book) for book in books]
        found = {name: [con.execute(query).fetchall() for con in cons]
                 for name, query in tables.items()}
        for words in (["export", "-"], ["due", "--json"], ["muster", "--json"],
                      ["winter", "--json"], ["book", "check"]):
            found[" ".join(words)] = [run(becket, book, *words).replace(str(book), "BOOK")
                                      for book in books]
    for name, (one, other) in found.items():
        good = one == other and len(one) > 0
        wrong += not good
        print(f"{'ok' if good else 'not ok'} {name}: by import and by SQL alike")
    return wrong


if __name__ == "__main__":
    if sys.argv[2] == "--check":
        sys.exit(check(sys.argv[1]) > 0)
    by_sql(sys.argv[1], sys.argv[2], int(sys.argv[3]))
