#!/usr/bin/env python3
"""How long a big fleet takes, beside what SQLite's own shell needs to read the same rows.

    fleet_bench.py BECKET [BOATS]

Makes a book of BOATS invented boats (500 when not said) with 60 items each and a service record
an item, then runs each command five times and prints the median wall time. The limit in the
last column is the sqlite3 shell selecting every row of the tables that the command loads,
in the same run: no program that reads the book can be faster than reading the book.
A benchmark, not a test: nothing is asserted, and the figures are those of the machine.
"""
import csv
import random
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

RUNS = 5
ITEMS = 60
TODAY = "2026-11-25"
KINDS = ["liferaft-canister", "lifejacket-auto", "lifejacket-auto", "lifejacket-auto",
         "flare-red-hand", "extinguisher-powder", "epirb", "tether", "gas-cylinder",
         "lifejacket-light"]
MARKED = {"flare-red-hand", "epirb"}
ROWS = "SELECT * FROM vessel; SELECT * FROM item; SELECT * FROM record;"


def write_inventory(path, boats):
    """The same invented inventory for the same number of boats."""
    drawn = random.Random(1)

    def month(first, last):
        return f"{drawn.randint(first, last)}-{drawn.randint(1, 12):02d}"

    with open(path, "w", newline="", encoding="utf-8") as file:
        rows = csv.writer(file)
        rows.writerow(["vessel", "tag", "kind", "made", "expires", "served", "task"])
        for number in range(boats * ITEMS):
            kind = KINDS[number % len(KINDS)]
            rows.writerow([f"Boat {number // ITEMS:05d}", f"T-{number}", kind,
                           month(2012, 2024), month(2026, 2030) if kind in MARKED else "",
                           month(2025, 2025), "service"])


def median_seconds(command):
    """The median wall time of five runs; the answer is read and thrown away. The status
    may be 1, "not all right"."""
    times = []
    for _ in range(RUNS):
        begun = time.monotonic()
        done = subprocess.run(command, stdout=subprocess.DEVNULL, check=False)
        if done.returncode not in (0, 1):
            sys.exit(f"{' '.join(command)} ended with {done.returncode}")
        times.append(time.monotonic() - begun)
    return statistics.median(times)


def count_against(program):
    """Gives every boat persons, a length and a sheet with carriage lines; one transaction, by
    SQLite's shell, for it is no part of what is measured."""
    book = program[program.index("--book") + 1]
    subprocess.run(["sqlite3", book, "BEGIN; UPDATE vessel SET length_cm = 1000; UPDATE "
                    "vessel_period SET persons = 8; INSERT INTO vessel_sheet (vessel_id, "
                    "position, sheet) SELECT id, 1, 'us-recreational' FROM vessel; COMMIT;"],
                   check=True)


def main():
    becket = sys.argv[1]
    boats = int(sys.argv[2]) if len(sys.argv) > 2 else 500
    with tempfile.TemporaryDirectory() as scratch:
        book, inventory = Path(scratch) / "fleet.db", Path(scratch) / "fleet.csv"
        write_inventory(inventory, boats)
        program = [becket, "--book", str(book), "--today", TODAY]
        begun = time.monotonic()
        subprocess.run(program + ["import", str(inventory), "--serials-are-right"], check=True,
                       stdout=subprocess.DEVNULL)
        took = time.monotonic() - begun
        print(f"{boats} boats, {boats * ITEMS} items; median of {RUNS} runs, wall seconds")
        print(f"{'import (once)':<34}{took:>8.2f}")
        limit = median_seconds(["sqlite3", str(book), ROWS])
        for words in (["due", "--json"], ["winter", "--json"], ["export", "-"],
                      ["muster", "--season", "--year", "2027", "--json"]):
            if words[0] == "muster":
                count_against(program)
            seconds = median_seconds(program + words)
            print(f"{' '.join(words):<34}{seconds:>8.2f}"
                  f"   {seconds / limit:>5.1f} x the sqlite3 shell's {limit:.2f}")


if __name__ == "__main__":
    main()
