"""Killing the program while a bag comes back leaves all of it or nothing.

The same return is begun many times on a copy of one book and killed (SIGKILL) after a
random time; what the book then exports is either what it exported before or what it exports
after. The times are drawn from a fixed seed over somewhat more than a whole run. Once more with
the write lock held by another program, so that it can't get on: nothing is changed then.
"""
import os
import random
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROUNDS = 60
SEED = 20261209
DAY = ["--today", "2026-12-09"]


def run(becket, book, *words):
    done = subprocess.run([becket, "--book", str(book), *DAY, *words], capture_output=True,
                          text=True, check=False)
    if done.returncode != 0:
        sys.exit(f"{' '.join(words)} ended with {done.returncode}: {done.stderr.strip()}")
    return done.stdout


def make_book(becket, folder):
    """Forty jackets with a light each, all ashore, and the bag they come back in."""
    book, bag = folder / "whole.db", folder / "back.csv"
    run(becket, book, "vessel", "Quillfish")
    run(becket, book, "station", "Depot")
    run(becket, book, "enter", "lifejacket-auto", "--vessel", "Quillfish", "--tag",
        "LJ-1..LJ-40", "--serials", "C-101..C-140", "--served", "2025-12-05")
    run(becket, book, "enter", "lifejacket-light", "--vessel", "Quillfish", "--part-of",
        "LJ-1..LJ-40", "--tag", "LT-1..LT-40", "--expires", "2027-03")
    run(becket, book, "land", "LJ-1..LJ-40", "--to", "Depot", "--on", "2026-11-25")
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


def copy_book(book, place):
    for ending in ("", "-wal", "-shm"):
        Path(str(place) + ending).unlink(missing_ok=True)
        if Path(str(book) + ending).exists():
            shutil.copy(str(book) + ending, str(place) + ending)


def killed(becket, book, bag, after):
    """Begins the return and kills it after so many seconds; True when it was still running."""
    process = subprocess.Popen(
        [becket, "--book", str(book), *DAY, "return", "--from-csv", str(bag)],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    time.sleep(after)
    process.send_signal(signal.SIGKILL)
    return process.wait() == -signal.SIGKILL


def check_random(becket, book, bag, folder):
    place = folder / "killed.db"
    before = run(becket, book, "export", "-")
    copy_book(book, place)
    begun = time.monotonic()
    run(becket, place, "return", "--from-csv", str(bag))
    took = time.monotonic() - begun
    after = run(becket, place, "export", "-")
    draw = random.Random(SEED)
    torn, caught, all_of_it = 0, 0, 0
    for _ in range(ROUNDS):
        copy_book(book, place)
        caught += killed(becket, place, bag, draw.random() * took * 1.1)
        found = run(becket, place, "export", "-")
        all_of_it += found == after
        torn += found not in (before, after)
    print(f"# {ROUNDS} rounds of at most {took * 1.1:.2f} s: killed in {caught}, all of it "
          f"written in {all_of_it}")
    return [("the bag changes the book", before != after),
            ("most returns were killed while they ran", caught >= ROUNDS // 3),
            ("a return that is killed leaves all or nothing", torn == 0)]


def check_locked(becket, book, bag, folder):
    """The lock is taken before anything is written, so killing it while it waits is killing it
    between the reading and the writing, every time."""
    place = folder / "locked.db"
    copy_book(book, place)
    before = run(becket, place, "export", "-")
    other = sqlite3.connect(place, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    caught = killed(becket, place, bag, 0.5)
    other.execute("ROLLBACK")
    other.close()
    return [("a return that waits for another program is killed while it waits", caught),
            ("and has changed nothing", run(becket, place, "export", "-") == before)]


def main():
    becket = os.path.abspath(sys.argv[1])
    with tempfile.TemporaryDirectory(prefix="becket-kill-") as scratch:
        folder = Path(scratch)
        os.environ["HOME"] = scratch
        book, bag = make_book(becket, folder)
        answers = check_random(becket, book, bag, folder)
        answers += check_locked(becket, book, bag, folder)
    for name, good in answers:
        print(("ok " if good else "not ok ") + name)
    return 0 if all(good for _, good in answers) else 1


sys.exit(main())
