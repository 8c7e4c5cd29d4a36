#!/usr/bin/env python3
"""What one boat and a whole fleet cost, beside what SQLite's own shell needs for the same rows.

    fleet_bench.py BECKET [BOATS [ROWS_LOOP]] [--write]

Makes two books of invented boats (fleets.py), one of 10 and one of BOATS (500 when not said). Every
command is run five times; what is printed is the median of its processor's seconds, in which other
work on the machine shows least, and of its peak memory. The peer of a line is named beside it: the
shell reading every row of the tables for what is about the fleet, and a bare C loop that does
(rows_loop.c, found beside BECKET's build when not said), its `.import` of the same file for an
import, `due` of the same boat for what is about one; for `due` of all also a plain Python script,
which adds twelve months to each last service and sorts, as a person who can write one would, and
for `due --json` LibreOffice, where it is installed, with the same sum in a sheet (office_bench.py).
`growth` is how much more the big book costs than the small one, and to which power of the number of
boats that is. Below it stands what answers about the fleet, and one boat's `due`, take in
instructions, which other work on the machine does not change: counted by valgrind, where it is
installed, beside the loop, and the shell counting rows. With --write the table in DEVELOPERS.md is
written anew, with machine and day. A benchmark, not a test: nothing is asserted.
"""
import datetime
import math
import os
import platform
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

import fleets
import office_bench

RUNS = 5
SMALL = 10
ROWS = "SELECT * FROM vessel; SELECT * FROM item; SELECT * FROM record;"
COUNT = "SELECT COUNT(*) FROM vessel"
SCRIPT = """import datetime, sqlite3, sys
rows = []
for boat, tag, kind, marked, last in sqlite3.connect(sys.argv[1]).execute(
        "SELECT v.name, i.tag, i.kind, i.expires, MAX(r.on_day) FROM item i JOIN vessel v ON "
        "v.id = i.vessel_id LEFT JOIN record r ON r.item_id = i.id GROUP BY i.id"):
    days = [datetime.date(day // 10000 + years, day // 100 % 100 or 1, day % 100 or 1)
            for day, years in ((marked, 0), (last, 1)) if day]
    rows.append((min(days), boat, tag, kind))
for day, boat, tag, kind in sorted(rows):
    print(day.isoformat(), boat, tag, kind, sep=",")
"""
TABLE = Path(__file__).resolve().parents[2] / "DEVELOPERS.md"
MARKS = ("<!-- fleet_bench.py --write -->\n", "<!-- end -->\n")


def once(command):
    """Processor's seconds and peak megabytes of one run; the status may be 1, "not all right". GNU
    time starts it and tells its memory: what Python starts is counted with the memory that Python
    itself has."""
    with tempfile.NamedTemporaryFile("r") as peak:
        words = ["time", "-q", "-f", "%M", "-o", peak.name, *map(str, command)]
        process = subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
        said = process.stderr.read()
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode not in (0, 1):
            sys.exit(f"{' '.join(map(str, command))}: {said.decode()}")
        return used.ru_utime + used.ru_stime, int(peak.read()) / 1024


def measured(command, before=None, runs=RUNS):
    """The medians of some runs; `before` is called before each."""
    found = []
    for _ in range(runs):
        if before is not None:
            before()
        found.append(once(command))
    return tuple(statistics.median(each) for each in zip(*found))


def program(becket, book, *words):
    return [becket, "--book", book, "--today", fleets.TODAY, *words]


def of_one(boats):
    """What is asked of and done to one boat in the middle of the fleet; each change is taken back
    by the next."""
    number = boats // 2
    boat, tag = f"Boat {number:05d}", f"T-{number * fleets.ITEMS + 1}"
    loft = f"Loft of Base {number // fleets.BOATS_OF_BASE:03d}"
    return [("due", ["due", "--vessel", boat]), ("show", ["show", tag]), ("why", ["why", tag]),
            ("record", ["record", "inspect", tag, "--on", fleets.TODAY]),
            ("land and return", None, ["land", tag, "--to", loft],
             ["return", tag, "--task", "service"]),
            ("muster", ["muster", "--vessel", boat]), ("winter", ["winter", "--vessel", boat])]


def measure_one(becket, book, words, *more):
    if words is not None:
        return measured(program(becket, book, *words))
    found = [once(program(becket, book, *each)) for _ in range(RUNS) for each in more]
    return tuple(statistics.median(each) for each in zip(*found))


def lines_of_one(becket, books, boats):
    peer = None
    for small, big in zip(of_one(SMALL), of_one(boats)):
        few = measure_one(becket, books[SMALL], *small[1:])
        many = measure_one(becket, books[boats], *big[1:])
        peer = many if peer is None else peer
        yield (f"`{big[0]}` of one boat", many, f"{many[0] / peer[0]:.1f} times `due` of her",
               many[0] / few[0])


OF_FLEET = (["due"], ["due", "--json"], ["export", "-"], ["muster", "--json"], ["winter", "--json"])


def lines_of_fleet(becket, books, boats, loop):
    limit = measured(["sqlite3", books[boats], ROWS])
    bare = measured([loop, books[boats]])
    for words in OF_FLEET:
        if words[0] == "winter" and boats > 1000:
            continue
        few = measured(program(becket, books[SMALL], *words))
        many = measured(program(becket, books[boats], *words), runs=RUNS if boats <= 1000 else 3)
        beside = (f"{many[0] / bare[0]:.1f} times a bare C loop over all rows, "
                  f"{many[0] / limit[0]:.1f} times the sqlite3 shell's SELECT of them")
        if words == ["due"]:
            script = measured([sys.executable, "-c", SCRIPT, books[boats]])
            beside += f", {many[0] / script[0]:.1f} times a plain Python script"
        office = office_bench.measured(once, boats) if words == ["due", "--json"] and boats <= 1000 else None
        if office is not None:
            beside += (f", {many[0] / office[0][0]:.2f} times LibreOffice that opens and recalculates a sheet with "
                       f"one day a row ({office[0][0]:.1f} s, {office[1][0]:.1f} with nothing to recalculate; "
                       f"{office[0][1]:.0f} MB)")
        yield f"`{' '.join(words)}` of all", many, beside, many[0] / few[0]


def instructions(command):
    """What one run takes, in millions; None where nothing here counts them."""
    if shutil.which("valgrind") is None:
        return None
    return collected(subprocess.run(counted(command), stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
                                    text=True, check=False).stderr)


def counted(command):
    """The same command under valgrind, which then says how many instructions it took."""
    return ["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null", *map(str, command)]


def collected(said):
    """Millions of instructions, from what valgrind said; None where it said none."""
    found = re.search(r"Collected : (\d+)", said)
    return int(found.group(1)) / 1e6 if found else None


def least_of_import(loop, book, new):
    """What SQLite itself takes, in millions of instructions, to write the rows of a book into a new
    one: rows_copy.c, which stands beside the loop, less its reading; None where nothing counts
    them."""
    copy = Path(loop).parent / "rows_copy"
    both, reading = instructions([copy, book, new]), instructions([copy, book])
    return None if None in (both, reading) else both - reading


def line_of_import(becket, folder, boats, loop):
    """A first import, and how much more memory each further row takes than those of 10 boats."""
    inventory, book, peer = folder / "fleet.csv", folder / "import.db", folder / "peer.db"

    def empty():
        for path in folder.glob("import.db*"):
            path.unlink()
        peer.unlink(missing_ok=True)

    ours = program(becket, book, "import", inventory)
    theirs = ["sqlite3", peer, f".import --csv {inventory} item"]
    fleets.write_inventory(inventory, SMALL)
    few = measured(ours, empty)
    fleets.write_inventory(inventory, boats)
    many = measured(ours, empty, 3 if boats <= 1000 else 1)
    limit = measured(theirs, empty, 3)
    beside = f"{many[0] / limit[0]:.0f} times the shell's `.import`"
    if boats <= 200:
        empty()
        ours_counted = instructions(ours)
        floor = least_of_import(loop, book, peer)
        empty()
        theirs_counted = instructions(theirs)
        if None not in (ours_counted, floor, theirs_counted):
            beside += (f", {ours_counted / theirs_counted:.0f} times in instructions, and "
                       f"{ours_counted / floor:.1f} times what SQLite takes to add the same rows to the "
                       "same tables without a journal")
    empty()
    more = (many[1] - few[1]) * 1e6 / (boats - SMALL) / fleets.ITEMS
    return (f"`import` of {boats * fleets.ITEMS} rows", many,
            f"{beside}; {more:.0f} bytes of memory for each further row", many[0] / few[0])


def words_of_fleet(becket, books, boats, loop):
    """What is about all boats, in instructions, beside the loop; "" where they can't be counted."""
    if boats > 1000 or shutil.which("valgrind") is None:
        return ""
    bare = instructions([loop, books[boats]])
    told = [f"`{' '.join(words)}` {count:.0f}, {count / bare:.1f} times" for words in OF_FLEET[:-1]
            for count in [instructions(program(becket, books[boats], *words))]]
    return (f"\nIn millions of instructions, beside the {bare:.0f} of that loop: "
            f"{'; '.join(told)}.\n")


def words_of_start(becket, books, boats):
    """One boat's `due`, in instructions; "" where they can't be counted."""
    ours = instructions(program(becket, books[boats], *of_one(boats)[0][1]))
    theirs = instructions(["sqlite3", books[boats], COUNT])
    if ours is None or theirs is None:
        return ""
    return (f"\n`due` of one boat takes {ours:.1f} million instructions, {ours / theirs:.1f} times "
            f"`sqlite3 BOOK '{COUNT}'`.\n")


def growth_words(growth, boats):
    power = math.log(growth) / math.log(boats / SMALL) if growth and boats > SMALL else 0
    return "" if growth is None else f"{growth:.1f} times, power {power:.2f}"


def table(lines, boats):
    words = [f"{boats} boats, {boats * fleets.ITEMS} pieces; {platform.machine()}, "
             f"{os.cpu_count()} processors, {datetime.date.today():%-d %b %Y}.\n",
             "| work | seconds | MB | beside | growth from 10 boats |\n", "|---|---|---|---|---|\n"]
    for name, (seconds, megabytes), beside, growth in lines:
        words.append(f"| {name} | {seconds:.3f} | {megabytes:.0f} | {beside} | "
                     f"{growth_words(growth, boats)} |\n")
    words.insert(1, "\n")
    return "".join(words)


def put(marks, found):
    """Writes it between the marks in DEVELOPERS.md."""
    before, rest = TABLE.read_text().split(marks[0])
    TABLE.write_text(before + marks[0] + found + marks[1] + rest.split(marks[1], 1)[1])


def main():
    words = [word for word in sys.argv[1:] if word != "--write"]
    becket, boats = os.path.abspath(words[0]), int(words[1]) if len(words) > 1 else 500
    loop = (os.path.abspath(words[2]) if len(words) > 2 else
            Path(becket).parents[2] / "tests/support/rows_loop")
    if shutil.which("sqlite3") is None:
        sys.exit("sqlite3 is not installed, which all is held against")
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        books = {size: folder / f"{size}.db" for size in (SMALL, boats)}
        for size, book in books.items():
            fleets.by_sql(becket, book, size)
        lines = [*lines_of_one(becket, books, boats), *lines_of_fleet(becket, books, boats, loop),
                 line_of_import(becket, folder, boats, loop)]
        start = (words_of_fleet(becket, books, boats, loop) +
                 words_of_start(becket, books, boats))
    found = table(lines, boats) + start
    print(found, end="")
    if "--write" in sys.argv:
        put(MARKS, found)


if __name__ == "__main__":
    main()
