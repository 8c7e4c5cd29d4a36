"""Killing the program while a bag comes back leaves all of it or nothing.

The same return is begun many times on a copy of one book and killed (SIGKILL) after a
random time; what the book then exports is either what it exported before or what it exports
after. The times are drawn from a fixed seed over somewhat more than the fastest of three whole
runs: on a busy machine a slow one would put most of them behind the end. Once more with
the write lock held by another program, so that it can't get on: nothing is changed then.
"""
import random
import signal
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, end, scaled, scratch  # noqa: E402

ROUNDS = scaled(60)
SEED = 20261209
DAY = "2026-12-09"


def make_book(folder):
    """Forty jackets with a light each, all ashore, and the bag they come back in."""
    book, bag = Book(folder / "whole.db", DAY), folder / "back.csv"
    book.must("vessel", "Quillfish")
    book.must("station", "Depot")
    book.must("enter", "lifejacket-auto", "--vessel", "Quillfish", "--tag",
        "LJ-1..LJ-40", "--serials", "C-101..C-140", "--served", "2025-12-05")
    book.must("enter", "lifejacket-light", "--vessel", "Quillfish", "--part-of",
        "LJ-1..LJ-40", "--tag", "LT-1..LT-40", "--expires", "2027-03")
    book.must("land", "LJ-1..LJ-40", "--to", "Depot", "--on", "2026-11-25")
    rows = ["tag,result,task,next,certificate,renewed"]
    for number in range(1, 41):
        result = ("passed", "passed-shorter", "condemned", "not-done")[number % 4]
        rows.append(",".join([
            f"LJ-{number}", result, "service" if result.startswith("passed") else "",
            "2027-06" if result == "passed-shorter" else "",
            f"C{number}" if result.startswith("passed") else "",
            f"LT-{number}=2031-01" if result == "passed" else ""]))
    bag.write_text("\n".join(rows) + "\n", encoding="utf-8")
    return book, bag


def killed(book, bag, after):
    """Begins the return and kills it after so many seconds; True when it was still running."""
    process = subprocess.Popen(
        book.command("return", "--from-csv", bag), env=book.environment,
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    time.sleep(after)
    process.send_signal(signal.SIGKILL)
    return process.wait() == -signal.SIGKILL


def seconds(place, bag):
    begun = time.monotonic()
    place.must("return", "--from-csv", str(bag))
    return time.monotonic() - begun


def check_random(book, bag):
    before = book.must("export", "-")
    whole = [book.copy(f"whole-{number}.db") for number in range(3)]
    took = min(seconds(place, bag) for place in whole)
    after = whole[0].must("export", "-")
    draw = random.Random(SEED)
    torn, caught, all_of_it = 0, 0, 0
    for _ in range(ROUNDS):
        place = book.copy("killed.db")
        caught += killed(place, bag, draw.random() * took * 1.1)
        found = place.must("export", "-")
        all_of_it += found == after
        torn += found not in (before, after)
    print(f"# {ROUNDS} rounds of at most {took * 1.1:.2f} s: killed in {caught}, all of it "
          f"written in {all_of_it}")
    return [("the bag changes the book", before != after),
            ("most returns were killed while they ran", caught >= ROUNDS // 3),
            ("a return that is killed leaves all or nothing", torn == 0)]


def check_locked(book, bag):
    """The lock is taken before anything is written, so killing it while it waits is killing it
    between the reading and the writing, every time."""
    place = book.copy("locked.db")
    before = place.must("export", "-")
    other = sqlite3.connect(place.path, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    caught = killed(place, bag, 0.5)
    other.execute("ROLLBACK")
    other.close()
    return [("a return that waits for another program is killed while it waits", caught),
            ("and has changed nothing", place.must("export", "-") == before)]


def main():
    with scratch() as folder:
        book, bag = make_book(Path(folder))
        for name, good in check_random(book, bag) + check_locked(book, bag):
            check(name, good)
    end()


main()
