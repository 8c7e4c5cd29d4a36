#!/usr/bin/env python3
"""What a page costs the program that answers it.

    page_bench.py BECKET [BOATS...]

Makes books of invented boats (fleets.py; 40 and 4000 when not said), each boat let for twenty weeks
from Saturday to Saturday but for one in four that lies ready, and asks each page five times.
Printed are the medians of the processor's seconds that the answering program needed, in which other
work on the machine shows least, of the seconds until the answer was there, and its size. Before
that, how many pages a second the demonstration's fleet has, the pages of its index in turn, beside
Python's http.server with a file of their size. A benchmark, not a test: nothing is asserted. What
is aimed at is 100 pages a second, 0.1 seconds at 40 boats and 1 at 4000.
"""
import datetime
import http.cookiejar
import os
import re
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path

import fleets

RUNS = 5
ROUNDS = 20
INDEX = ["/winter", "/winter?vessel=Amberjay", "/back", "/locker?boat=Amberjay", "/locker/AJ-FE-1",
         "/saturday", "/years", "/reminders", "/safe"]
WEEKS = 20
SATURDAY = datetime.date(2027, 4, 3)
PAGES = [f"/saturday?on={SATURDAY}", "/saturday", "/saturday?base=none-1", "/winter", "/locker?boat=Boat%2000001",
         "/locker/T-61", "/back", "/years?boat=Boat%2000001", "/reminders", "/list", "/sheet/practice", "/safe"]


def let(book, boats):
    """Lets three boats in four, the one after the other for a party more."""
    con = sqlite3.connect(book)
    for number in range(boats):
        if number % 4 == 0:
            continue
        for week in range(WEEKS):
            first = SATURDAY + datetime.timedelta(weeks=week)
            last = first + datetime.timedelta(days=6)
            con.execute("INSERT INTO booking (vessel_id, first_day, last_day, persons, children, note) "
                        "VALUES (?, ?, ?, ?, 0, '')",
                        (number + 1, int(f"{first:%Y%m%d}"), int(f"{last:%Y%m%d}"), 2 + number % 7))
    con.commit()
    con.close()


class House:
    """A book whose page is open."""

    def __init__(self, becket, book, folder):
        environment = {**os.environ, "XDG_RUNTIME_DIR": str(folder)}
        self.child = subprocess.Popen(
            [becket, "--book", str(book), "--today", fleets.TODAY, "page", "--no-browser"],
            stdout=subprocess.PIPE, text=True, env=environment)
        address = None
        while address is None:
            line = self.child.stdout.readline()
            if line == "":
                sys.exit("the page did not open")
            address = re.search(r"http:\S+", line)
        self.origin = re.match(r"http://[^/]+", address.group()).group()
        self.client = urllib.request.build_opener(
            urllib.request.HTTPCookieProcessor(http.cookiejar.CookieJar()))
        self.client.open(address.group()).read()

    def used(self):
        """The processor's seconds it has had."""
        fields = Path(f"/proc/{self.child.pid}/stat").read_text().rsplit(")", 1)[1].split()
        return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")

    def ask(self, page):
        """Processor's seconds, seconds, and kilobytes of an answer."""
        used, began = self.used(), time.monotonic()
        with self.client.open(self.origin + page) as answer:
            size = len(answer.read())
        return self.used() - used, time.monotonic() - began, size / 1024

    def close(self):
        self.child.terminate()
        self.child.wait()


class Peer:
    """Python's own server, with one file."""

    def __init__(self, folder, size):
        (Path(folder) / "page.html").write_bytes(b"x" * size)
        self.child = subprocess.Popen(
            [sys.executable, "-u", "-m", "http.server", "--bind", "127.0.0.1", "--directory", folder, "0"],
            stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        self.origin = re.search(r"http:\S+?(?=/)[^)]*(?=/\))", self.child.stdout.readline()).group()
        self.client = urllib.request.build_opener()

    used, ask, close = House.used, House.ask, House.close


def each_second(name, house, pages):
    """Prints how many of these pages are answered a second, asked one after the other."""
    asked = [house.ask(page) for _ in range(ROUNDS) for page in pages]
    used, waited, size = (sum(each) / len(asked) for each in zip(*asked))
    print(f"  {name:28} {1 / used if used else 0:6.0f} a second of the processor, {1 / waited:6.0f} a second, "
          f"{size:7.0f} KB each", flush=True)
    return size


def demonstration(becket):
    """The pages of the index of the demonstration's fleet, in turn."""
    script = Path(__file__).resolve().parents[2] / "data/demo/make-demo.sh"
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run(["sh", str(script), becket, f"{folder}/owner.db", f"{folder}/fleet.db"],
                       check=True, stdout=subprocess.DEVNULL)
        house = House(becket, Path(folder) / "fleet.db", folder)
        print("the demonstration's fleet")
        size = each_second("becket page", house, INDEX)
        house.close()
        peer = Peer(folder, int(size * 1024))
        each_second("python3 -m http.server", peer, ["/page.html"])
        peer.close()


def main():
    becket = os.path.abspath(sys.argv[1])
    demonstration(becket)
    for boats in [int(word) for word in sys.argv[2:]] or [40, 4000]:
        with tempfile.TemporaryDirectory() as folder:
            book = Path(folder) / "fleet.db"
            fleets.by_sql(becket, book, boats)
            let(book, boats)
            house = House(becket, book, folder)
            print(f"{boats} boats, {boats * fleets.ITEMS} pieces")
            for page in PAGES:
                used, waited, size = (statistics.median(each) for each in
                                      zip(*(house.ask(page) for _ in range(RUNS))))
                print(f"  {page:28} {used:6.3f} s of the processor, {waited:6.3f} s, {size:7.0f} KB",
                      flush=True)
            house.close()


if __name__ == "__main__":
    main()
