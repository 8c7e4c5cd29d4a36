#!/usr/bin/env python3
"""Two programs write to one book while a third copies it: nothing is lost.

    together_test.py BECKET [SECONDS]

For SECONDS (30) two writers enter, amend and record gear, each with its own tags, as fast as
they can, and a third program makes a backup after the other and checks each. Afterwards all
that was said to be done is in the book, the journal has an entry for every command and no
other, and a check finds nothing. Prints a line `ok NAME` or `not ok NAME` a check.
"""
import json
import os
import subprocess
import sys
import tempfile
import threading
import time
from pathlib import Path

BECKET = os.path.abspath(sys.argv[1])
SECONDS = float(sys.argv[2]) if len(sys.argv) > 2 else 30


def run(book, *words):
    return subprocess.run([BECKET, "--book", str(book), *words], capture_output=True,
                          text=True, check=False, stdin=subprocess.DEVNULL)


class Writer(threading.Thread):
    """One program after the other, each a command of this writer's."""

    def __init__(self, book, name, end):
        super().__init__()
        self.book, self.name_of_it, self.end = book, name, end
        self.places, self.done, self.failed = {}, 0, []

    def do(self, *words):
        result = run(self.book, *words, "--signed", self.name_of_it)
        if result.returncode == 0:
            self.done += 1
        else:
            self.failed.append(f"{words}: {result.stderr}")
        return result.returncode == 0

    def run(self):
        number = 0
        while time.monotonic() < self.end:
            number += 1
            tag = f"{self.name_of_it}-{number}"
            if self.do("enter", "lifejacket-auto", "--vessel", "Brass Lantern", "--tag", tag):
                self.places[tag] = ""
            if self.do("amend", tag, "--place", f"locker {number}"):
                self.places[tag] = f"locker {number}"
            self.do("record", "inspect", tag, "--on", "2026-03-01")


def copy_again_and_again(book, folder, end):
    """How many copies were made, and those that were not sound."""
    copies, wrong = 0, []
    while time.monotonic() < end:
        copy = folder / "copy.db"
        made = run(book, "book", "backup", str(copy), "--over")
        found = run(copy, "book", "check")
        if made.returncode != 0 or found.returncode != 0:
            wrong.append(made.stderr + found.stdout + found.stderr)
        copies += 1
    return copies, wrong


def check(holds, name, why=""):
    print(("ok together: " if holds else "not ok together: ") + name)
    if not holds:
        print(f"  {why}")
    return holds


def main():
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        book = folder / "book.db"
        run(book, "vessel", "Brass Lantern")
        end = time.monotonic() + SECONDS
        writers = [Writer(book, name, end) for name in ("A", "B")]
        for writer in writers:
            writer.start()
        copies, wrong = copy_again_and_again(book, folder, end)
        for writer in writers:
            writer.join()

        done = sum(writer.done for writer in writers)
        failed = [why for writer in writers for why in writer.failed]
        items = {item["tag"]: item["place"]
                 for item in json.loads(run(book, "list", "--json").stdout)}
        expected = {tag: place for writer in writers for tag, place in writer.places.items()}
        entries = json.loads(run(book, "book", "journal", "--json").stdout)
        good = check(not failed, f"{done} changes by two programs at once, none refused",
                     "\n  ".join(failed[:3]))
        good &= check(min(writer.done for writer in writers) > 5, "both got to write")
        good &= check(items == expected, "all that was said to be done is in the book",
                      f"{len(items)} items, expected {len(expected)}")
        good &= check(len(entries) == done + 1, "each has its entry in the journal",
                      f"{len(entries)} entries, expected {done + 1}")
        for writer in writers:
            own = sum(entry["who"] == writer.name_of_it for entry in entries)
            good &= check(own == writer.done, f"{writer.name_of_it} signed its own", str(own))
        good &= check(copies > 0 and not wrong, f"{copies} copies meanwhile, each sound",
                      "\n  ".join(wrong[:3]))
        found = run(book, "book", "check")
        good &= check(found.returncode == 0, "a check finds nothing", found.stdout)
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
