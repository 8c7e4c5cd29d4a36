#!/usr/bin/env python3
"""Two programs write to one book while a third copies it: nothing is lost.

    together_test.py BECKET

Two writers enter, amend and record gear, each with its own tags, as fast as they can, until
each has done so with ROUNDS pieces, and meanwhile a third program makes a backup after the
other and checks each. Afterwards all that was said to be done is in the book, the journal has
an entry for every command and no other, and a check finds nothing.
Prints a line `ok NAME` or `not ok NAME` a check.
"""
import sys
import threading
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, end, scaled, scratch  # noqa: E402

ROUNDS = scaled(60)


class Writer(threading.Thread):
    """One program after the other, each a command of this writer's."""

    def __init__(self, book, name):
        super().__init__()
        self.book, self.name_of_it = book, name
        self.places, self.done, self.failed = {}, 0, []

    def do(self, *words):
        result = self.book.run(*words, "--signed", self.name_of_it)
        if result.returncode == 0:
            self.done += 1
        else:
            self.failed.append(f"{words}: {result.stderr}")
        return result.returncode == 0

    def run(self):
        for number in range(1, ROUNDS + 1):
            tag = f"{self.name_of_it}-{number}"
            if self.do("enter", "lifejacket-auto", "--vessel", "Brass Lantern", "--tag", tag):
                self.places[tag] = ""
            if self.do("amend", tag, "--place", f"locker {number}"):
                self.places[tag] = f"locker {number}"
            self.do("record", "inspect", tag, "--on", "2026-03-01")


def copy_again_and_again(book, folder, writers):
    """How many copies were made, and those that were not sound."""
    copies, wrong = 0, []
    while any(writer.is_alive() for writer in writers):
        copy = folder / "copy.db"
        made = book.run("book", "backup", copy, "--over")
        found = Book(copy).run("book", "check")
        if made.returncode != 0 or found.returncode != 0:
            wrong.append(made.stderr + found.stdout + found.stderr)
        copies += 1
    return copies, wrong


def main():
    with scratch() as name:
        folder = Path(name)
        book = Book(folder / "book.db")
        book.must("vessel", "Brass Lantern")
        writers = [Writer(book, name) for name in ("A", "B")]
        for writer in writers:
            writer.start()
        copies, wrong = copy_again_and_again(book, folder, writers)
        for writer in writers:
            writer.join()

        done = sum(writer.done for writer in writers)
        failed = [why for writer in writers for why in writer.failed]
        items = {item["tag"]: item["place"]
                 for item in book.ask("list")}
        expected = {tag: place for writer in writers for tag, place in writer.places.items()}
        entries = book.ask("book", "journal")
        check(f"{done} changes by two programs at once, none refused", not failed,
              "\n  ".join(failed[:3]))
        check("both got to write", min(writer.done for writer in writers) > 5)
        check("all that was said to be done is in the book", items == expected,
              f"{len(items)} items, expected {len(expected)}")
        check("each has its entry in the journal", len(entries) == done + 1,
              f"{len(entries)} entries, expected {done + 1}")
        for writer in writers:
            own = sum(entry["who"] == writer.name_of_it for entry in entries)
            check(f"{writer.name_of_it} signed its own", own == writer.done, str(own))
        check(f"{copies} copies meanwhile, each sound", copies > 0 and not wrong,
              "\n  ".join(wrong[:3]))
        found = book.run("book", "check")
        check("a check finds nothing", found.returncode == 0, found.stdout)
    end()


main()
