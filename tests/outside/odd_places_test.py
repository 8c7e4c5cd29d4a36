"""A newer program's book, a file or a folder that can't be written, a clock set back; and that the
build carries the sheets there are.

Every command that needs no terminal, no paper and no network is tried on each. A newer book is
refused by all of them with words and status 3, and no byte of it changes. Where the file or the
folder can't be written, what only reads says what it says elsewhere, and what writes is refused
with words and status 3 and changes nothing. (Rights bind everyone but root, who runs this part as
nobody.) After the clock was set back the journal goes on by its numbers, what was given out keeps
its UID with a higher SEQUENCE (RFC 5545, 3.8.7.4), and the last change is the one taken back.
"""
import hashlib
import os
import re
import sqlite3
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BECKET, ROOT, Book, check, end, same, scratch, skip  # noqa: E402

DAY = "2026-11-29"
READING = (
    ["ashore"], ["booking"], ["due"], ["due", "--json"], ["export", "-"], ["history", "LJ-1"], ["list"], ["muster"],
    ["now"], ["papers"], ["rota"], ["show", "LR-1"], ["spent"], ["station"], ["vessel"], ["where", "LJ-2"],
    ["why", "LR-1"], ["winter"], ["winter", "--json"], ["years"], ["book", "journal"], ["book", "check"],
)
WRITING = (
    ["amend", "LR-1", "--place", "deck"], ["enter", "epirb", "--vessel", "Quillfish", "--tag", "EP-1"],
    ["extend", "LR-1", "--task", "service", "--until", "2027-06-30", "--paper", "N 4"],
    ["import", "more.csv"], ["land", "LJ-2", "--to", "Depot"], ["move", "LJ-2", "--vessel", "Brass Lantern"],
    ["record", "service", "LR-1", "--on", "2026-11-28"], ["return", "LJ-1", "--task", "service", "--on", DAY],
    ["station", "Depot", "--turn-round", "21"], ["vessel", "Quillfish", "--persons", "6"],
    ["withdraw", "LJ-2", "--because", "lost"], ["calendar", "out.ics"], ["book", "undo"], ["book", "accept"],
    ["remind", "--weekday", "sunday"], ["booking", "Quillfish", "--from", "2027-06-01", "--to", "2027-06-08"],
    ["reserve", "LJ-2"], ["interval", "LR-1", "--task", "service", "--every", "24", "--paper", "Manual 3"], ["remind"],
)


def make_book(folder):
    book = Book(folder / "whole.db", DAY)
    book.must("vessel", "Quillfish", "--persons", "4", "--base", "Cove")
    book.must("vessel", "Brass Lantern", "--base", "Cove")
    book.must("station", "Depot", "--turn-round", "14")
    book.must("enter", "liferaft-canister", "--vessel", "Quillfish", "--tag", "LR-1", "--made", "2020-05")
    book.must("enter", "lifejacket-auto", "--vessel", "Quillfish", "--tag", "LJ-1..LJ-4", "--served", "2025-12-05")
    book.must("land", "LJ-1", "--to", "Depot", "--on", "2026-11-20")
    book.must("calendar", folder / "first.ics")
    (folder / "more.csv").write_text("vessel,tag,kind,expires\nQuillfish,FL-1,flare-red-hand,2029-06\n", encoding="utf-8")
    return book


def answers(book, words, **how):
    done = book.run(*words, **how)
    return done.returncode, done.stdout, done.stderr


def refuses(name, book, commands, why, **how):
    """Each of them ends with status 3, these words, and an unchanged file."""
    before, wrong = book.path.read_bytes(), []
    for words in commands:
        status, out, said = answers(book, words, **how)
        if status != 3 or not re.search(why, said) or out != "" or book.path.read_bytes() != before:
            wrong.append(f"{' '.join(words)}: {status}, {out[:80]}{said[:200]}")
    check(f"{name}: all {len(commands)} are refused, and nothing is changed", not wrong, "\n".join(wrong))


def a_newer_book(book):
    newer = book.copy("newer.db")
    with sqlite3.connect(newer.path) as db:
        db.execute("PRAGMA user_version = 999")
    db.close()
    for side in book.folder.glob("newer.db-*"):
        side.unlink()
    refuses("a newer program's book", newer, READING + WRITING, r"of a newer program .*; use that program")


def as_nobody(folder):
    """How to run as someone whom rights bind; None where that can't be."""
    how = {"user": 65534} if os.geteuid() == 0 else {}
    try:
        subprocess.run([BECKET, "--version"], capture_output=True, check=True, **how)
    except (OSError, subprocess.CalledProcessError) as why:
        skip("what can't be written", f"nobody else can run the program: {why}")
        return None
    folder.chmod(0o755)
    return how


def sealed(book, what, file_mode, folder_mode, how):
    place = book.folder / what
    place.mkdir()
    for name in ("more.csv",):
        (place / name).write_bytes((book.folder / name).read_bytes())
    there = Book(place / "book.db", DAY)
    book.must("book", "backup", str(there.path))
    expected = [answers(there, words) for words in READING]
    for side in place.glob("book.db-*"):
        side.unlink()
    if how:
        os.chown(there.path, 65534, 65534)
    there.path.chmod(file_mode)
    place.chmod(folder_mode)
    wrong = []
    for words, wanted in zip(READING, expected):
        found = answers(there, words, **how)
        if found[:2] != wanted[:2]:
            wrong.append(f"{' '.join(words)}: {found} and not {wanted}")
    check(f"{what}: all {len(READING)} that read answer as elsewhere", not wrong, "\n".join(wrong))
    refuses(what, there, WRITING, r"Permission denied|can't be written|readonly|read-only", **how)
    place.chmod(0o755)


def events(path):
    """{UID: SEQUENCE} of a calendar."""
    text = path.read_text(encoding="utf-8").replace("\n ", "")
    return {re.search(r"^UID:(.*)$", event, re.M)[1]: int(re.search(r"^SEQUENCE:(\d+)", event, re.M)[1])
            for event in text.split("BEGIN:VEVENT")[1:]}


def a_clock_set_back(book):
    back, past = book.copy("back.db"), "2024-02-01"
    for words in READING:
        done = back.run(*words, today=past)
        check_words = f"{' '.join(words)}: {done.returncode} {done.stderr}"
        if done.returncode not in (0, 1):
            check("set back, what reads answers", False, check_words)
    before = back.ask("book", "journal")
    first = events(book.folder / "first.ics")
    back.must("station", "Depot", "--turn-round", "28", today=past)
    entries = back.ask("book", "journal")
    check("set back, the journal goes on by its numbers",
          [entry["number"] for entry in entries] == list(range(1, len(before) + 2)), entries)
    back.must("calendar", "again.ics", today=past)
    back.must("calendar", "again.ics")
    again = events(book.folder / "again.ics")
    check("set back and forth, what was given out keeps its UID, and no SEQUENCE falls",
          set(first) <= set(again) and all(again[uid] >= first[uid] for uid in first)
          and any(again[uid] > first[uid] for uid in first), f"{first}\n{again}")
    undone = back.run("book", "undo", today=past)
    check("set back, the last change is the one taken back",
          undone.returncode == 0 and f"ntry {len(before) + 1}" in undone.stdout, undone.stdout + undone.stderr)
    check("and the book is in order", back.run("book", "check", today=past).returncode == 0)


def done_elsewhere(book):
    """What is refused below would be done, so that it is refused for the place's sake."""
    wrong = []
    for words in WRITING:
        done = book.copy("try.db").run(*words)
        if done.returncode != 0:
            wrong.append(f"{' '.join(words)}: {done.returncode} {done.stderr}")
    check(f"elsewhere all {len(WRITING)} that write are done", not wrong, "\n".join(wrong))


def the_sheets_of_the_build(book):
    """The digest that the book keeps of the figures it was reckoned by is BLAKE2b (RFC 7693), 32
    bytes, of the names and the bytes of the files in `data`: the program carries just those."""
    digest = hashlib.blake2b(digest_size=32)
    for path in sorted([ROOT / "data/kinds.yaml", *(ROOT / "data/sheets").glob("*.yaml")], key=lambda path: path.name):
        digest.update(path.name.encode() + b"\0" + path.read_bytes())
    with sqlite3.connect(f"file:{book.path}?mode=ro", uri=True) as db:
        kept = db.execute("SELECT figures FROM reckoning").fetchone()[0]
    same("the program carries the kinds and sheets of data, to the byte", digest.hexdigest(), kept)


def main():
    with scratch() as name:
        book = make_book(Path(name))
        the_sheets_of_the_build(book)
        done_elsewhere(book)
        a_newer_book(book)
        a_clock_set_back(book)
        how = as_nobody(Path(name))
        if how is not None:
            sealed(book, "a file that can't be written", 0o444, 0o755, how)
            sealed(book, "a folder that can't be written", 0o644, 0o555, how)
    end()


main()
