"""Memory that runs out at any allocation: words and status 3, and the book is whole.

tests/support/failing_memory.c, loaded before the program, lets the allocation of a number fail,
alone or with all after it; the numbers are drawn over all that a command makes. Then the command
does all it should (where the failing one could be done without), or ends with status 2 or 3 and
words, and the book holds what it held before, or all that the command writes. Two libraries fall
over by themselves (FALLS says in which call, and why); there is no way to end with words in what
does not come back. Such a fall is counted and printed with its call, the book must be whole, and it
is one only where the innermost call outside the C library is that library's: a fall in the
program's own code, or in another library, is a failure. Under a limit, as the system sets one, none
of them does: memory_test.py.
"""
import collections
import itertools
import random
import sqlite3
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BUILD, SANITIZED, Book, check, end, scaled, scratch, skip  # noqa: E402

SHIM = BUILD / "tests" / "support" / "libfailing_memory.so"
POINTS = scaled(25)
# They can't be told beforehand: neither takes an allocator of the caller's (libical has
# icalmemory_set_mem_alloc_funcs from 3.1 on only; libmagic has none), and both ask for memory anew
# at each line or each entry of a table.
FALLS = {
    "libmagic.so": "magic_buffer frees a tree of which it has not set all",
    "libical.so": "what malloc gave is written to unseen: strncpy in icalparser_parse, strcpy in what makes text",
}
OF_THE_C_LIBRARY = ("libfailing_memory", "/libc.so", "/ld-linux")
COMMANDS = {
    "due": "due", "muster": "muster", "winter": "winter --json", "years": "years", "now": "now", "list": "list",
    "show": "show LR-1 --json", "export": "export -", "import": "import list.csv", "land": "land LJ-1 --to Depot",
    "return": "return LJ-4 --task service", "record": "record service LR-1 --on 2026-11-20",
    "extend": "extend LR-1 --task service --until 2027-06-30 --paper N4", "withdraw": "withdraw LJ-2 --because lost",
    "attach": "attach LR-1 more.txt", "papers": "papers LR-1 --out out", "undo": "book undo", "check": "book check",
    "backup": "book backup b.db --over", "remind": "remind", "calendar": "calendar c.ics",
    "calendar read": "calendar read whole.ics",
}


def make_book(folder):
    book = Book(folder / "whole.db", "2026-11-29")
    book.must("vessel", "Quillfish", "--persons", "4")
    book.must("station", "Depot")
    book.must("enter", "liferaft-canister", "--vessel", "Quillfish", "--tag", "LR-1", "--made", "2020-05")
    book.must("enter", "lifejacket-auto", "--vessel", "Quillfish", "--tag", "LJ-1..LJ-4", "--served", "2025-12-05")
    (folder / "label.txt").write_text("Made 2020\n", encoding="utf-8")
    (folder / "more.txt").write_text("No. 5\n", encoding="utf-8")
    (folder / "list.csv").write_text("vessel,tag,kind,expires\nQuillfish,FL-1,flare-red-hand,2029-06\n", encoding="utf-8")
    book.must("attach", "LR-1", "label.txt")
    book.must("land", "LJ-4", "--to", "Depot")
    book.must("calendar", "whole.ics")
    return book


def contents(book):
    """Whether the file is sound, and all that is the person's in it."""
    with sqlite3.connect(f"file:{book.path}?mode=ro", uri=True) as db:
        sound = db.execute("PRAGMA integrity_check").fetchone()[0]
        return sound, [db.execute(f"SELECT * FROM {table} ORDER BY 1, 2").fetchall()
                       for table in ("item", "record", "movement", "paper", "extension")]


def failing(book, words, at, once):
    more = {"LD_PRELOAD": str(SHIM), "FAILING_AT": str(at)} | ({"FAILING_ONCE": "1"} if once else {})
    return book.run(*words, env=more)


def library_of(words):
    """The library in which the program fell and the function it had called of it, by its own words,
    where that is one of FALLS; else None."""
    calls = [call for call in words.partition("fell:\n")[2].splitlines() if not any(part in call for part in OF_THE_C_LIBRARY)]
    name = calls[0].partition("(")[0].rpartition("/")[2] if calls else ""
    if not any(name.startswith(library) for library in FALLS):
        return None
    of_it = list(itertools.takewhile(lambda call: f"/{name}(" in call, calls))
    return name + " " + of_it[-1].partition("(")[2].partition("+")[0]


def try_command(name, words, book):
    before, place, count = contents(book), book.copy("all.db"), book.folder / "count"
    count.unlink(missing_ok=True)
    usual = place.run(*words, env={"LD_PRELOAD": str(SHIM), "FAILING_COUNT": str(count)}).returncode
    after, made = contents(place), int(count.read_text(encoding="utf-8"))
    draw, wrong, fell, tries = random.Random(7), [], collections.Counter(), 0
    for at in sorted({draw.randint(1, made) for _ in range(POINTS)}):
        for once in (False, True):
            place, tries = book.copy("try.db"), tries + 1
            done = failing(place, words, at, once)
            held = contents(place)
            fallen = library_of(done.stderr) if done.returncode < 0 else None
            fell.update([fallen] if fallen else [])
            ended = done.returncode == usual or (done.returncode in (2, 3) and done.stderr.strip() != "")
            if not (ended or fallen) or held[0] != "ok" or held not in (before, after):
                wrong.append(f"{'one' if once else 'from'} {at} of {made}: {done.returncode} {done.stderr[:200]}")
    print(f"# {name}: {tries} of {made} allocations failed" + "".join(f", {count} fell in {call}" for call, count in fell.items()))
    check(f"{name}: without memory it ends with words, and the book is whole", not wrong, "\n".join(wrong[:9]))


def main():
    if SANITIZED:
        skip("failing allocations", "the sanitizers have an allocator of their own")
        return end()
    with scratch() as name:
        book = make_book(Path(name))
        for command, words in COMMANDS.items():
            try_command(command, words.split(), book)
    return end()


main()
