#!/usr/bin/env python3
"""How what it takes grows with the fleet, from 100 boats to 10,000, as a drawing.

    growth_bench.py BECKET [MOST_BOATS] [--write]

Makes books of invented boats (fleets.py), each about three times as big as the one before, and runs
each command on each: processor's seconds, in which other work on the machine shows least. Prints
them, with the power of the number of boats that fits them best (least squares of the logarithms): 0
is flat, 1 grows as the fleet does. The peer is the sqlite3 shell, which reads every row of the same
book. Below stands what each takes of the biggest book, with its peak memory. With --write gnuplot
draws the lines into growth.svg here, which DEVELOPERS.md shows, and what is below goes there too. A
benchmark, not a test: nothing is asserted.
"""
import csv
import datetime
import math
import os
import platform
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import fleet_bench
import fleets

SIZES = [100, 300, 1000, 3000, 10000]
DRAWING = Path(__file__).resolve().parent / "growth.svg"
MARKS = ("<!-- growth_bench.py --write -->\n", "<!-- end of growth -->\n")
PEER = "the sqlite3 shell's SELECT of all rows"


def new_boat(folder):
    """A list of the gear of a boat that no book has."""
    path = Path(folder) / "new boat.csv"
    with path.open("w", newline="", encoding="utf-8") as file:
        rows = csv.writer(file)
        rows.writerow(fleets.COLUMNS)
        for row in fleets.pieces(1):
            told = dict(zip(fleets.COLUMNS, row))
            # neither its tags nor its numbers are near those of the book
            told.update(vessel="New Boat", tag=told["tag"].replace("T", "NEW"), serial=told["serial"][::-1],
                        part_of=told["part_of"].replace("T", "NEW"))
            rows.writerow(told.values())
    return path


def works(boats, folder):
    """What is done with a book of so many boats, by what it is called."""
    number = boats // 2
    boat, tag = f"Boat {number:05d}", f"T-{number * fleets.ITEMS + 1}"
    return {"due of one boat": ["due", "--vessel", boat],
            "why of one piece": ["why", tag],
            "record of one piece": ["record", "inspect", tag, "--on", fleets.TODAY],
            "muster of one boat": ["muster", "--vessel", boat],
            "import of a new boat's list": ["import", new_boat(folder)],
            "due of all": ["due", "--json"],
            "muster of all": ["muster", "--json"],
            "export of all": ["export", "-"],
            "winter of all": ["winter", "--json"],
            "remind of all": ["remind"],
            "now": ["now"],
            "calendar of all": ["calendar", "-"]}  # the last: it keeps what it gave out


def measure(becket, book, boats):
    """Seconds and megabytes of each work, in the order in which they stand."""
    found = {name: fleet_bench.measured(fleet_bench.program(becket, book, *words), runs=5 if "one" in name else 1)
             for name, words in works(boats, Path(book).parent).items()}
    found[PEER] = fleet_bench.measured(["sqlite3", book, fleet_bench.ROWS], runs=1)
    return found


def power(points):
    """The slope of the straight line that fits the logarithms best."""
    logs = [(math.log(size), math.log(value)) for size, value in points]
    x_mean = sum(x for x, _ in logs) / len(logs)
    y_mean = sum(y for _, y in logs) / len(logs)
    return (sum((x - x_mean) * (y - y_mean) for x, y in logs) /
            sum((x - x_mean) ** 2 for x, _ in logs))


def draw(lines, title):
    """Gives gnuplot the points of each line; the drawing is the same bytes for the same points."""
    words = ["set terminal svg size 860,560 dynamic font 'sans,12' background '#ffffff' name 'growth'",
             f"set output '{DRAWING}'", f"set title '{title}' noenhanced", "set logscale xy",
             "set xlabel 'boats'", "set ylabel 'seconds of the processor'", "set grid",
             "set key outside right top", "set xrange [80:12500]"]
    drawn = ", ".join(f"'-' using 1:2 with linespoints title \"{name}: power {power(points):.2f}\""
                      for name, points in lines.items())
    words.append(f"plot {drawn}")
    for points in lines.values():
        words += [f"{size} {value:.4f}" for size, value in points] + ["e"]
    subprocess.run(["gnuplot"], input="\n".join(words) + "\n", text=True, check=True)


def table(boats, found):
    words = [f"{boats} boats, {boats * fleets.ITEMS} pieces; {platform.machine()}, {os.cpu_count()} processors, "
             f"{datetime.date.today():%-d %b %Y}.\n\n", f"| work | seconds | MB | beside {PEER} |\n|---|---|---|---|\n"]
    words += [f"| {name} | {seconds:.3f} | {megabytes:.0f} | {seconds / found[PEER][0]:.2g} times |\n"
              for name, (seconds, megabytes) in found.items()]
    return "".join(words)


def tell(sizes, write):
    """Prints what was found of each size, and with `write` draws it."""
    lines = {}
    for boats, found in sizes.items():
        for name, (seconds, _) in found.items():
            lines.setdefault(name, []).append((boats, seconds))
    for name, points in lines.items():
        told = ", ".join(f"{size}: {value:.3f} s" for size, value in points)
        print(f"{name}: {told}" + (f"; power {power(points):.2f}" if len(points) > 1 else ""))
    below = table(max(sizes), sizes[max(sizes)])
    print(below, end="")
    if write:
        draw(lines, f"{fleets.ITEMS} pieces a boat; {platform.machine()}, {os.cpu_count()} "
             f"processors, {datetime.date.today():%-d %b %Y}")
        fleet_bench.put(MARKS, below)


def main():
    words = [word for word in sys.argv[1:] if word != "--write"]
    becket, most = os.path.abspath(words[0]), int(words[1]) if len(words) > 1 else SIZES[-1]
    if shutil.which("sqlite3") is None:
        sys.exit("sqlite3 is not installed, which all is held against")
    if "--write" in sys.argv and shutil.which("gnuplot") is None:
        sys.exit("gnuplot (Debian's gnuplot-nox) is not installed, which draws it")
    sizes = {}
    for boats in (size for size in SIZES if size <= most):
        with tempfile.TemporaryDirectory() as folder:
            book = Path(folder) / "fleet.db"
            fleets.by_sql(becket, book, boats)
            sizes[boats] = measure(becket, book, boats)
    tell(sizes, "--write" in sys.argv)


if __name__ == "__main__":
    main()
