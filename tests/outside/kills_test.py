"""Killing the program at any moment leaves all of an act or nothing of it, and nothing behind.

An import, an undo, the upgrade of an older book, a backup and the writing of reminders are each
begun many times on a copy of a book and killed (SIGKILL) after a random time, drawn from a fixed
seed over somewhat more than a whole run. Then the book exports what it did before or what it does
after; its check finds nothing; SQLite's own check neither; the file that was written is there whole
or not at all. Done again, the act does what it would have done, and no file that the killed runs
were making is left an hour later. Few rounds by default; TESTS_SCALE=34 kills a thousand.
"""
import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import ROOT, Book, check, end, scaled, scratch  # noqa: E402

ROUNDS = scaled(6)
SEED = 20261129
DAY = "2026-11-29"
LEFT = ".becket-"


def make_book(folder):
    book = Book(folder / "whole.db", DAY)
    book.must("vessel", "Quillfish", "--base", "Cove")
    book.must("station", "Depot")
    book.must("enter", "liferaft-canister", "--vessel", "Quillfish", "--tag", "LR-1..LR-3",
              "--made", "2020-05")
    book.must("record", "service", "LR-1..LR-3", "--on", "2024-05-20", "--by", "Depot")
    rows = ["vessel,tag,kind,made,served"] + [
        f"Quillfish,LJ-{n},lifejacket-auto,2021-04,2025-12-05" for n in range(1, 201)]
    (folder / "list.csv").write_text("\n".join(rows) + "\n", encoding="utf-8")
    older = Book(folder / "older.db", DAY)
    with sqlite3.connect(older.path) as db:
        db.executescript((ROOT / "tests/outside/books/version-9.sql").read_text(encoding="utf-8"))
    db.close()
    return book, older


def acts(folder, book, older):
    """Of each its name, the book, its words, and the file it writes."""
    return [("import", book, ("import", folder / "list.csv"), None),
            ("undo", book, ("book", "undo"), None),
            ("upgrade", older, ("book", "upgrade"), None),
            ("backup", book, ("book", "backup", folder / "copy.db"), folder / "copy.db"),
            ("calendar", book, ("calendar", folder / "out.ics"), folder / "out.ics")]


def killed(book, words, after):
    process = subprocess.Popen(book.command(*words), env=book.environment, cwd=book.folder,
                               stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                               stderr=subprocess.DEVNULL)
    time.sleep(after)
    process.send_signal(signal.SIGKILL)
    return process.wait() == -signal.SIGKILL


def looked_at(book):
    """A copy of it, without what looking at older ones kept beside the last."""
    for kept in book.folder.glob("seen.db.*"):
        kept.unlink()
    return book.copy("seen.db")


def exported(book):
    """What a book holds, of an older one once it is upgraded (a copy of it is)."""
    place = looked_at(book)
    done = place.run("book", "upgrade")
    return done.stderr if done.returncode != 0 else place.must("export", "-")


def written(path):
    """What an act wrote: a book as it exports, a text as it is but for the second of writing."""
    if path is None or not path.exists():
        return None
    return exported(Book(path, DAY)) if path.suffix == ".db" else path.read_text(encoding="utf-8")


def sound(book):
    place = looked_at(book)
    with sqlite3.connect(place.path) as db:
        found = db.execute("PRAGMA integrity_check").fetchone()[0]
    db.close()
    place.must("book", "upgrade")
    return found == "ok" and place.run("book", "check").returncode == 0


def leftovers(folder):
    return [path for path in folder.iterdir() if LEFT in path.name]


def try_act(folder, draw, act):
    name, book, words, target = act
    before, place = exported(book), book.copy("killed.db")
    begun = time.monotonic()
    place.must(*words)
    took = time.monotonic() - begun
    after, made = exported(place), written(target)
    caught, bad, seen = 0, [], 0
    for number in range(ROUNDS):
        if target is not None:
            target.unlink(missing_ok=True)
        place = book.copy("killed.db")
        for kept in folder.glob("killed.db.*"):
            kept.unlink()
        caught += killed(place, words, draw.random() * took * 1.1)
        seen += len(leftovers(folder))
        if exported(place) not in (before, after) or not sound(place):
            bad.append(f"round {number}: the book is torn")
        if written(target) not in (None, made):
            bad.append(f"round {number}: the file is torn")
        for path in leftovers(folder):
            os.utime(path, (time.time() - 7200,) * 2)
        if target is not None:
            target.unlink(missing_ok=True)
        place = book.copy("killed.db")
        place.must(*words)
        if written(target) != made or leftovers(folder):
            bad.append(f"round {number}: done again it leaves {leftovers(folder)}")
    print(f"# {name}: {ROUNDS} rounds, killed in {caught}; {seen} files were half made")
    check(f"{name}: killed, it leaves all or nothing", not bad, "\n".join(bad[:9]))
    return caught


def main():
    draw = random.Random(SEED)
    print(f"# seed {SEED}")
    with scratch() as name:
        folder = Path(name)
        book, older = make_book(folder)
        caught = sum(try_act(folder, draw, act) for act in acts(folder, book, older))
        check("most runs were killed while they ran", caught >= ROUNDS * 5 // 3, str(caught))
        stale, fresh, other = (folder / f".copy.db{ending}" for ending in (
            ".becket-aB3xY9", ".becket-cD4zW8", ".becket-notes"))
        for path in (stale, fresh, other):
            path.write_text("half", encoding="utf-8")
        for path in (stale, other):
            os.utime(path, (time.time() - 7200,) * 2)
        (folder / "copy.db").unlink(missing_ok=True)
        book.must("book", "backup", folder / "copy.db")
        check("what a killed run was making is cleared an hour later, nothing else is",
              [stale.exists(), fresh.exists(), other.exists()] == [False, True, True])
    end()


main()
