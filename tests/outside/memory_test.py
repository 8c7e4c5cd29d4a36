"""Memory that runs out ends every command with words and status 3, and the book is whole.

Each command runs under a limit on its address space (RLIMIT_AS), from just under what it needs down
to what the bare program takes to start, on a copy of one book. Whatever the limit, the command
either does all it should, or ends with status 3 and words; then nothing is changed in the book,
unless the words say that it had been changed by then, and then all of it is. The expected outcome
is what `base/memory.h` promises: an address space that is too small is the operating system's way
of running out.
"""
import resource
import sqlite3
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, SANITIZED, check, end, scratch, skip  # noqa: E402

STEPS = 12
MIB = 1 << 20
UNCHANGED = "Nothing was changed in the book."
CHANGED = "The book had been changed by then and is whole"
COMMANDS = {
    "due": ["due", "--json"],
    "muster": ["muster"],
    "winter": ["winter", "--json"],
    "years": ["years", "Quillfish"],
    "export": ["export", "-"],
    "import": ["import", "more.csv"],
    "land": ["land", "LJ-1..LJ-400", "--to", "Depot", "--on", "2026-11-25"],
    "record": ["record", "LJ-7", "service", "--on", "2026-11-20"],
    "return": ["return", "LJ-401", "--task", "service", "--on", "2026-11-25"],
    "attach": ["attach", "LJ-9", "label.txt"],
    "calendar": ["calendar", "out.ics"],
    "calendar read": ["calendar", "read", "given.ics"],
    "undo": ["book", "undo"],
    "backup": ["book", "backup", "copy.db", "--over"],
    "survey": ["survey", "--help"],
}


def make_book(folder):
    """Four hundred jackets with a light each, and a list of four hundred more."""
    book = Book(folder / "whole.db")
    book.must("vessel", "Quillfish", "--lay-up", "11-01..03-31")
    book.must("station", "Depot")
    book.must("enter", "lifejacket-auto", "--vessel", "Quillfish", "--tag", "LJ-1..LJ-400",
        "--served", "2025-12-05", "--serials", "C-101..C-500")
    book.must("enter", "lifejacket-auto", "--vessel", "Quillfish", "--tag", "LJ-401", "--served", "2025-12-05")
    book.must("land", "LJ-401", "--to", "Depot", "--on", "2026-11-20")
    book.must("calendar", "given.ics")
    (folder / "label.txt").write_text("Made 2020\n", encoding="utf-8")
    rows = ["vessel,tag,kind,expires"]
    rows += [f"Quillfish,FL-{n},flare-red-hand,2029-06" for n in range(1, 401)]
    (folder / "more.csv").write_text("\n".join(rows) + "\n", encoding="utf-8")
    return book


def limited(book, words, most):
    """The finished command under a limit in bytes."""
    def limit():
        resource.setrlimit(resource.RLIMIT_AS, (most, most))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    return subprocess.run(book.command(*words), cwd=book.folder, env=book.environment,
                          capture_output=True, preexec_fn=limit, check=False,
                          stdin=subprocess.DEVNULL)


def least(fits):
    """The least limit in MiB for which `fits` holds, by halving."""
    low, high = 1, 1024
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if fits(middle * MIB) else (middle, high)
    return high


def contents(book):
    """How many rows each table has, and that the file is sound. What the dates were when last
    seen (`reckoned`) is kept by a change of its own, after a command's."""
    with sqlite3.connect(f"file:{book.path}?mode=ro", uri=True) as db:
        sound = db.execute("PRAGMA integrity_check").fetchone()[0]
        names = [row[0] for row in db.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name <> 'reckoned'")]
        return sound, {name: db.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0]
                       for name in names}


def outcome(done, before, after, whole):
    """What is wrong with how a command ended; "" when nothing is."""
    told = done.stderr.decode(errors="replace")
    if after[0] != "ok":
        return f"the book is damaged: {after[0]}"
    if done.returncode == 0:
        return "" if after == whole else "it ended well and did not do all of it"
    if done.returncode != 3 or told.strip() == "":
        return f"status {done.returncode}, words: {told[:200]!r}"
    if after == before:
        return "" if CHANGED not in told else f"nothing is changed, but: {told[:200]!r}"
    return "" if after == whole and CHANGED in told else f"half is written: {told[:200]!r}"


def main():
    if SANITIZED:
        skip("a limit on memory", "the sanitizers want an address space of their own")
        return end()
    with scratch() as name:
        book = make_book(Path(name))
        before, ended, own = contents(book), 0, 0
        start = least(lambda most: limited(book, ["--version"], most).returncode == 0)
        for command, words in COMMANDS.items():
            place = book.copy("all.db")
            usual = place.run(*words).returncode
            whole = contents(place)
            full = least(lambda most: limited(book.copy("try.db"), words, most)
                         .returncode == usual)
            wrong = []
            for step in range(STEPS):
                most = start * MIB + (full - start) * MIB * step // STEPS
                place = book.copy("try.db")
                done = limited(place, words, most)
                if done.returncode == usual != 0:
                    continue
                trouble = outcome(done, before, contents(place), whole)
                ended += done.returncode == 3
                own += b"memory ran out" in done.stderr
                if trouble:
                    wrong.append(f"at {most} bytes: {trouble}")
            check(f"{command} ends with words, or does all of it, whatever the limit",
                  not wrong, "\n".join(wrong))
        check("the limits were reached", ended > len(COMMANDS) and own > len(COMMANDS),
              f"{ended} ended with status 3, {own} in the program's own words")
    return end()


main()
