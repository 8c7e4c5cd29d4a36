#!/usr/bin/env python3
"""A book lasts: its journal can't be rewritten, older books keep their answers, copies are whole
or not there, and what is not right is said in words.

    keep_test.py BECKET

Prints a line `ok NAME` or `not ok NAME` a check.
"""
import csv
import io
import json
import os
import random
import re
import resource
import shutil
import signal
import sqlite3
import subprocess
import sys
import threading
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BECKET, Book, check, end, same, scratch, skip  # noqa: E402

HERE = Path(__file__).resolve().parent

# What was corrected since older programs answered. Common practice no longer lowers the grade of a
# printed mark or of use, which is the maker's; the days are as they were.
MAKERS = {("version-1", "EP-1", "renew"), ("version-1", "LJ-2", "service"),
          ("version-1", "FL-1", "renew"), ("version-9", "FL-1", "renew")}
# A rule that does not hold asks for nothing any more: a marked flare not for the day it was made.
ASKED = {("version-1", "FL-1", "renew"), ("version-9", "FL-1", "renew")}
# Where nobody said on which weekdays a station takes gear in, Monday to Friday is supposed.
SUPPOSED = {"open": "mon-fri", "open_supposed": True}


def run(book, *words, **how):
    """The command's result."""
    return Book(book).run(*words, **how)


def says(name, done, status, message):
    """One result: the command ends with this status, and says this and nothing else."""
    same(name, (status, f"becket: {message}\n"), (done.returncode, done.stderr))


def version(book):
    """The version of the book's tables; of a fresh one, the newest that the program knows."""
    db = sqlite3.connect(book)
    found = db.execute("PRAGMA user_version").fetchone()[0]
    db.close()
    return found


def fresh(folder, name, raft="LR-1"):
    """A small book with one raft, in WAL as the program leaves it."""
    book = folder / name
    run(book, "vessel", "Brass Lantern")
    run(book, "enter", "liferaft-canister", "--vessel", "Brass Lantern", "--tag", raft,
        "--made", "2021-04")
    run(book, "record", "service", raft, "--on", "2024-05-20")
    return book


def tags(book):
    return [row["tag"] for row in json.loads(run(book, "list", "--json").stdout)]


def journal_is_only_added_to(folder):
    """With SQLite's own shell, which knows nothing of this program."""
    if shutil.which("sqlite3") is None:
        skip("the journal is only added to", "sqlite3 is not installed")
        return
    book = fresh(folder, "shell.db")
    before = run(book, "book", "journal", "--json").stdout
    tries = (
        ("an entry changed", "UPDATE journal SET who = 'nobody' WHERE number = 1",
         "; no entry can be changed"),
        ("an entry taken out", "DELETE FROM journal WHERE number = 2",
         "; no entry can be taken out"),
        ("all lines taken out", "DELETE FROM journal_line", "; no line can be taken out"),
        ("a line changed", "UPDATE journal_line SET became = 'x'", "; no line can be changed"),
        ("an entry replaced", "INSERT OR REPLACE INTO journal SELECT number, 0, 0, 'nobody', '',"
         " NULL, changes FROM journal WHERE number = 2", ", at its end"),
        ("an entry put in between", "INSERT INTO journal SELECT number + 7, 0, 0, '', '', NULL,"
         " changes FROM journal WHERE number = 2", ", at its end"),
    )
    for name, sql, why in tries:
        done = subprocess.run(["sqlite3", str(book), sql], capture_output=True, text=True,
                              check=False)
        check(f"SQLite's shell is refused {name}", done.returncode != 0 and re.fullmatch(
            rf".*[:,] the journal is only ever added to{re.escape(why)}( \(\d+\))?\n", done.stderr),
            done.stderr)
    check("nothing of it was changed", run(book, "book", "journal", "--json").stdout == before)


def same_keys(kept, found):
    """True when all that was kept is found, whatever was added since."""
    if isinstance(kept, dict):
        return all(key in found and same_keys(kept[key], found[key]) for key in kept)
    if isinstance(kept, list):
        return len(kept) == len(found) and all(map(same_keys, kept, found))
    return kept == found


def stations_keep_their_prices(book, name, kept):
    """The last entry of such a book raised a price from 29.00: it is taken back."""
    stations = [station | SUPPOSED for station in json.loads(kept.read_text(encoding="utf-8"))]
    check(f"{name}: stations say the same",
          same_keys(stations, json.loads(run(book, "station", "--json").stdout)))
    done = run(book, "book", "undo")
    stations = json.loads(run(book, "station", "--json").stdout)
    check(f"{name}: a price set by that program is taken back",
          done.returncode == 0 and stations[0]["prices"][0]["minor"] == 2900,
          done.stderr + str(stations))


def book_of_dump(dump, folder):
    book = folder / f"{dump.stem}.db"
    db = sqlite3.connect(book)
    db.executescript(dump.read_text(encoding="utf-8"))
    db.close()
    return book


def dump_of(book):
    """All that is in a book, as SQL, with the version its header says."""
    with sqlite3.connect(book) as db:
        return [*db.execute("PRAGMA user_version"), *db.iterdump()]


def an_older_book_that_cannot_be_kept(folder):
    """Where no copy can be made nothing is brought up to date."""
    name = folder / "full"
    name.mkdir()
    book = book_of_dump(HERE / "books/version-9.sql", name)
    dumped = dump_of(book)
    done = run(book, "vessel", "Brass Lantern", preexec_fn=limited(40 * 1024))
    check("an older book of which no copy can be kept stays as it is",
          done.returncode == 3 and "keeping a copy of the older book" in done.stderr
          and dump_of(book) == dumped, done.stderr)
    for number in ["", *(f"-{number}" for number in range(2, 121))]:
        (name / f"{book.name}.version-9{number}").write_text("in the way", encoding="utf-8")
    done = run(book, "vessel", "Brass Lantern")
    kept = name / f"{book.name}.version-9-121"
    check("however many were kept before, it is kept under the next name",
          done.returncode == 0 and kept.exists() and dump_of(kept) == dumped, done.stderr)


def older_books_keep_their_answers(folder):
    """Each book in `books` was written by the program of its version, with its answers."""
    newest = version(fresh(folder, "newest.db"))
    for dump in sorted(HERE.glob("books/version-*.sql")):
        name, book = dump.stem, book_of_dump(dump, folder)
        kept = {part: dump.with_name(f"{name}-{part}").read_text(encoding="utf-8")
                for part in ("due.json", "show.json", "export.csv")}
        says(f"a book of {name} is not read as if it were a new one", run(book, "due"), 3,
             f"opening the book {book}: the book is of an older program (version "
             f"{name.split('-')[1]}, expected {newest}) and has to be opened for writing once to "
             'bring it up to date; "becket book upgrade" does that')
        dumped = dump_of(book)
        done = run(book, "vessel", "Brass Lantern")
        check(f"a book of {name} is brought up to date", done.returncode == 0)
        kept_as = book.with_name(f"{book.name}.version-{name.split('-')[1]}")
        check(f"{name}: it is kept as it was, and that is said",
              f"is kept in {kept_as}" in " ".join(done.stderr.split())
              and dump_of(kept_as) == dumped, done.stderr)
        check(f"{name}: what is kept is its owner's alone, as the book is",
              kept_as.stat().st_mode == book.stat().st_mode)
        check(f"{name}: it is kept once",
              run(book, "vessel", "Brass Lantern").returncode == 0
              and len(list(folder.glob(f"{book.name}.version-*"))) == 1)
        due = json.loads(run(book, "due", "--json", "--routine").stdout)
        older = [row | ({"grade": "maker"} if (name, row["tag"], row["task"]) in MAKERS else {})
                 | ({"missing": None} if (name, row["tag"], row["task"]) in ASKED else {})
                 for row in json.loads(kept["due.json"])]
        check(f"{name}: due says the same", same_keys(older, due),
              json.dumps(due))
        show = [json.loads(run(book, "show", item["tag"], "--json").stdout)
                for item in json.loads(kept["show.json"])]
        check(f"{name}: show says the same", same_keys(json.loads(kept["show.json"]), show),
              json.dumps(show))
        before = list(csv.DictReader(io.StringIO(kept["export.csv"])))
        after = list(csv.DictReader(io.StringIO(run(book, "export", "-").stdout)))
        check(f"{name}: export says the same", same_keys(before, after), str(after))
        stations = dump.with_name(f"{name}-station.json")
        if stations.exists():
            stations_keep_their_prices(book, name, stations)
        check(f"{name}: a check finds nothing", run(book, "book", "check").returncode == 0)
        run(book, "amend", "LJ-1", "--place", "locker")
        done = run(book, "book", "undo")
        check(f"{name}: a change is taken back", done.returncode == 0, done.stderr)


def older_papers_are_given_back(folder):
    """Papers of version 9, whose bytes stand in their own rows and in the journal's entries."""
    book, out = book_of_dump(HERE / "books/version-9.sql", folder), folder / "papers"
    kept = {"LR-1": b"%PDF-1.4\n" + bytes(range(256)), "LJ-1": b"Made 2019, no. J1\n"}

    def holds(*expected):
        shutil.rmtree(out, ignore_errors=True)
        for tag in expected:
            run(book, "papers", tag, "--out", out)
        found = sorted(path.read_bytes() for path in out.glob("*"))
        listed = sorted(paper["tag"] for paper in json.loads(run(book, "papers", "--json").stdout))
        return found == sorted(kept[tag] for tag in expected) and listed == sorted(expected)

    run(book, "vessel", "Brass Lantern", "--persons", 6)
    check("an older paper comes out as it went in", holds("LR-1"))
    for name, entry, expected in (
            ("one that was removed comes back", 13, ("LR-1", "LJ-1")),
            ("one that was put in goes", 12, ("LR-1",)),
            ("the other one goes", 11, ()),
            ):
        done = run(book, "book", "undo", entry)
        check(f"an older paper: {name}", done.returncode == 0 and holds(*expected), done.stderr)
    done = run(book, "book", "undo", json.loads(
        run(book, "book", "journal", "--json").stdout)[-1]["number"])
    check("an older paper: it comes back", done.returncode == 0 and holds("LR-1"), done.stderr)
    check("a check of older papers finds nothing", run(book, "book", "check").returncode == 0)


def copies(folder):
    """Backup and restore, as they should go."""
    book, copy = fresh(folder, "own.db"), folder / "copy.db"
    check("a copy is a book",
          run(book, "book", "backup", copy).returncode == 0 and tags(copy) == ["LR-1"])
    says("a copy writes over nothing unless told to", run(book, "book", "backup", copy), 2,
         f"{copy} is there already; choose another name, or write over it with --over")
    run(book, "enter", "epirb", "--vessel", "Brass Lantern", "--tag", "EP-1")
    check("told to, it does", run(book, "book", "backup", copy, "--over").returncode == 0 and
          tags(copy) == ["EP-1", "LR-1"])
    says("a book is not copied over itself", run(book, "book", "backup", book, "--over"), 2,
         f"{book} is the book itself; expected another file")
    run(book, "withdraw", "EP-1", "--because", "lost")
    run(book, "amend", "LR-1", "--place", "cockpit")
    done = run(book, "book", "restore", copy)
    check("a copy is put back",
          done.returncode == 0 and tags(book) == ["EP-1", "LR-1"], done.stderr)
    kept = Path(f"{book}.before-restore")
    check("what was there is kept beside it", kept.exists() and tags(kept) == ["LR-1"])
    run(book, "book", "restore", copy)
    check("and the next one, under another name", Path(f"{book}.before-restore-2").exists())
    last = json.loads(run(book, "book", "journal", "--json").stdout)[-1]
    check("restoring stands in the journal, and changed nothing",
          last["command"].startswith("book restore") and not last["lines"], str(last))
    check("changes before it can be taken back", run(book, "book", "undo").returncode == 0)
    away = folder / "new" / "away.db"
    says("a book is restored to no folder that is not there", run(away, "book", "restore", copy),
         3, f"restoring from {copy}: writing beside {away}: No such file or directory")
    away.parent.mkdir()
    check("a lost book is restored", run(away, "book", "restore", copy).returncode == 0 and
          len(tags(away)) == 2 and
          os.listdir(away.parent)[0].startswith("away.db"))


def rights(path):
    return oct(path.stat().st_mode & 0o777)


def private(folder):
    """A book, what SQLite keeps beside it and its copies are their owner's, however lax the umask
    is; rights that a book has are told, and left."""
    before = os.umask(0)
    book, copy, away = fresh(folder, "private.db"), folder / "private-copy.db", folder / "back.db"
    db = sqlite3.connect(book)
    run(book, "record", "service", "LR-1", "--on", "2025-05-20")
    db.execute("SELECT COUNT(*) FROM item").fetchone()
    run(book, "record", "service", "LR-1", "--on", "2026-05-20")
    files = [book, *(Path(f"{book}{ending}") for ending in ("-wal", "-shm"))]
    same("a new book and what is beside it are for its owner alone", ["0o600"] * 3,
         [rights(file) for file in files])
    db.close()
    said = run(book, "book", "check")
    check("and a check has nothing to say of that", (said.returncode, said.stderr) == (0, ""), said.stderr)
    book.chmod(0o644)
    run(book, "book", "backup", copy)
    run(away, "book", "restore", copy)
    run(book, "book", "restore", copy)
    kept = Path(f"{book}.before-restore")
    same("its copies too, whatever its rights are", ["0o600"] * 3,
         [rights(file) for file in (copy, away, kept)])
    says("wider rights are told by a check", run(book, "book", "check"), 0,
         f'note: others who use this machine can read {book}: its rights are 644. "chmod 600" '
         "keeps it to you, if that is not meant")
    run(book, "record", "inspect", "LR-1", "--on", "2026-06-20")
    same("and left as they are", "0o644", rights(book))
    os.umask(before)


def own_sheets(folder):
    """A copy carries the person's own sheets, and restoring puts them back; one that differs is
    kept, and said."""
    home, away = folder / "home", folder / "away"
    (home / "sheets").mkdir(parents=True)
    away.mkdir()
    book, copy = fresh(home, "book.db"), folder / "copy.db"
    mine, ours = home / "sheets" / "mine.yaml", home / "sheets" / "ours.yaml"
    builtin = Path(__file__).resolve().parents[2] / "data" / "sheets" / "practice.yaml"
    mine.write_bytes(builtin.read_bytes())
    ours.write_bytes(b"# caf\xe9\r\n\0 no sheet yet")
    (home / "sheets" / "notes.txt").write_text("no sheet")
    first = {path.name: path.read_bytes() for path in (mine, ours)}
    run(book, "vessel", "Brass Lantern", "--sheet", "mine")
    said = run(book, "book", "backup", copy)
    check("a copy says which sheets are in it",
          "Your own rule sheets are in it, too: mine, ours\n" in said.stdout, said.stdout + said.stderr)
    db = sqlite3.connect(book)
    check("the book itself carries none",
          db.execute("SELECT COUNT(*) FROM own_sheet").fetchone()[0] == 0)
    db.close()

    def beside(place):
        return {path.name: path.read_bytes() for path in (place / "sheets").iterdir()}

    said = run(away / "book.db", "book", "restore", copy)
    same("on another machine they are beside the book, to the byte", first, beside(away))
    same("it is said", f"{away / 'book.db'} is again as {copy} has it.\n"
         "So are your own rule sheets: mine, ours\n", said.stdout)
    same("they are followed there", run(book, "due", "--json").stdout,
         run(away / "book.db", "due", "--json").stdout)
    db = sqlite3.connect(away / "book.db")
    check("the restored book carries none",
          db.execute("SELECT COUNT(*) FROM own_sheet").fetchone()[0] == 0)
    db.close()
    (away / "sheets" / "ours.yaml").write_text("another")
    (away / "sheets" / "third.yaml").write_text("untouched")
    said = run(away / "book.db", "book", "restore", copy)
    same("one that differs is kept, one that the copy has not is left",
         {**first, "ours.yaml.before-restore": b"another", "third.yaml": b"untouched"},
         beside(away))
    check("and it is said where", f"The sheet ours was another one; it is kept in "
          f"{away / 'sheets' / 'ours.yaml.before-restore'}\n" in said.stdout, said.stdout)
    (away / "sheets" / "ours.yaml").write_text("a third one")
    run(away / "book.db", "book", "restore", copy)
    same("the next one under another name", b"a third one",
         beside(away).get("ours.yaml.before-restore-2"))
    (away / "sheets" / "ours.yaml").write_text("a fourth one")
    run(away / "book.db", "amend", "LR-1", "--place", "cockpit")
    before, answer = beside(away), run(away / "book.db", "list", "--json").stdout
    broken = folder / "broken.db"
    shutil.copy(copy, broken)
    with open(broken, "r+b") as file:
        file.seek(8192)
        file.write(b"\xff" * 30000)
    done = run(away / "book.db", "book", "restore", broken)
    check("a restore that fails moves no sheet", done.returncode == 3 and beside(away) == before
          and run(away / "book.db", "list", "--json").stdout == answer, done.stderr)
    db = sqlite3.connect(copy)
    db.execute("UPDATE own_sheet SET name = '../../escape' WHERE name = 'ours'")
    db.commit()
    db.close()
    run(copy, "book", "accept")  # it is no damage that is looked for
    done = run(away / "book.db", "book", "restore", copy)
    says("a sheet whose name leads elsewhere is refused, and nothing restored", done, 2,
         f'restoring from {copy}: it carries a rule sheet "../../escape", which is no name of a sheet')
    check("and nothing moved", beside(away) == before and not (folder / "escape.yaml").exists()
          and run(away / "book.db", "list", "--json").stdout == answer)


def live_restore(folder):
    """A program that has the book open sees the old book or the new one."""
    book, copy = fresh(folder, "live.db"), folder / "live-copy.db"
    run(book, "book", "backup", copy)
    run(book, "enter", "epirb", "--vessel", "Brass Lantern", "--tag", "EP-1")
    db = sqlite3.connect(book)
    db.execute("BEGIN")
    count = "SELECT COUNT(*) FROM item"
    check("a reader reads", db.execute(count).fetchone()[0] == 2)
    done = run(book, "book", "restore", copy)
    check("restoring does not change what an open reader sees",
          done.returncode == 0 and db.execute(count).fetchone()[0] == 2, done.stderr)
    db.rollback()
    check("afterwards it sees the restored book", db.execute(count).fetchone()[0] == 1)
    db.close()


def refusals(folder):
    """What is no book, or no book for this program."""
    book = fresh(folder, "refuse.db")
    before = run(book, "export", "-").stdout
    notes = folder / "notes.txt"
    notes.write_text("not a book\n" * 100, encoding="utf-8")
    other = folder / "other.db"
    db = sqlite3.connect(other)
    db.execute("CREATE TABLE x (y)")
    db.commit()
    db.close()
    newer = folder / "newer.db"
    run(book, "book", "backup", newer)
    db = sqlite3.connect(newer)
    db.execute("PRAGMA user_version = 999")
    db.close()
    broken = folder / "broken.db"
    run(book, "book", "backup", broken)
    with open(broken, "r+b") as file:
        file.seek(8192)
        file.write(b"\xff" * 600)
    too_new = (f"opening the book {newer}: the book is of a newer program (its version is 999, the "
               f"newest known here is {version(book)}); use that program")
    for name, path, words in (
            ("a text", notes, f"opening the book {notes}: the file is no book"),
            ("another database", other, f"opening the book {other}: the file is an SQLite "
             "database, but no book of this program"),
            ("a newer program's book", newer, too_new),
            ("a damaged copy", broken, "the file is damaged; restore a backup with "
             '"becket book restore FILE"'),
            ("a missing file", folder / "none.db",
             f"opening the book {folder / 'none.db'}: there is no such book")):
        says(f"{name} is not restored, and it is said why", run(book, "book", "restore", path), 3,
             f"restoring from {path}: {words}")
    says("a newer book is not checked", run(newer, "book", "check"), 3, too_new)
    check("none of them changed the book", run(book, "export", "-").stdout == before)
    done = run(broken, "book", "check")
    check("a damaged book is told from a sound one, with what to do",
          (done.returncode, done.stderr) == (1, "") and done.stdout.startswith(
              "the file is sound  not so: 1 found\n\nthe file: ") and done.stdout.endswith(
              '\n  restore a backup with "becket book restore FILE"; a damaged file is best not\n'
              "  written to any more\n"), done.stdout + done.stderr)
    done = run(broken, "book", "restore", book)
    check("a damaged book is replaced by a sound one",
          done.returncode == 0 and tags(broken) == ["LR-1"], done.stderr)
    left = sorted(path.name for path in folder.iterdir() if path.name.startswith("."))
    check("nothing half-made is left behind", not left, str(left))


def limited(size):
    """No file may grow beyond `size` bytes: what a full disk does, without filling one."""
    return lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))


def full_disk(folder):
    book, copy = fresh(folder, "full.db"), folder / "full-copy.db"
    run(book, "book", "backup", copy)
    before = run(book, "export", "-").stdout
    small = limited(40 * 1024)
    done = run(book, "book", "backup", folder / "never.db", preexec_fn=small)
    says("no room for a copy: it is said", done, 3, f"copying the book to {folder / 'never.db'}: "
         "disk I/O error (File too large)")
    check("no room for a copy: no copy", not (folder / "never.db").exists())
    done = run(book, "book", "restore", copy, preexec_fn=small)
    check("no room to restore: nothing is changed",
          done.returncode == 3 and not Path(f"{book}.before-restore").exists(), done.stderr)
    done = run(book, "vessel", "Grey Plover", preexec_fn=limited(4096))
    check("no room for a change: it is said", done.returncode == 3, done.stderr)
    check("the book is as it was", run(book, "export", "-").stdout == before and
          run(book, "book", "check").returncode == 0)
    mounted = folder / "tiny"
    mounted.mkdir()
    if subprocess.run(["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(mounted)],
                      capture_output=True, check=False).returncode != 0:
        skip("a disk that is full", "no file system can be mounted here")
        return
    done = run(book, "book", "backup", mounted / "copy.db")
    left = os.listdir(mounted)
    subprocess.run(["umount", str(mounted)], check=False)
    says("a disk that is full is called so", done, 3, f"copying the book to {mounted / 'copy.db'}: "
         "there is no room left on the disk; nothing was written")
    check("no copy is left on it", not left, str(left))


def read_only(folder):
    """Rights bind everyone but root, who runs this part as nobody."""
    how = {"user": 65534} if os.geteuid() == 0 else {}
    book, shut = fresh(folder, "still.db"), folder / "shut"
    shut.mkdir()
    shut.chmod(0o555)
    for path in (folder, folder.parent):
        path.chmod(0o755)
    try:
        subprocess.run([BECKET, "--version"], capture_output=True, check=True, **how)
    except (OSError, subprocess.CalledProcessError) as why:
        skip("what can't be written", f"nobody else can run the program: {why}")
        return
    run(book, "book", "backup", shut / "sealed.db")
    (shut / "sealed.db").chmod(0o444)
    done = run(shut / "sealed.db", "book", "backup", shut / "copy.db", **how)
    says("a copy into a folder that can't be written is refused", done, 3, "copying the book to "
         f"{shut / 'copy.db'}: writing beside {shut / 'copy.db'}: Permission denied")
    done = run(shut / "sealed.db", "book", "check", **how)
    check("a book that can't be written is checked", done.returncode == 0,
          done.stdout + done.stderr)
    done = run(shut / "sealed.db", "book", "undo", **how)
    says("but nothing in it is taken back", done, 3,
         f"opening the book {shut / 'sealed.db'}: Permission denied")
    book.chmod(0o644)
    done = run(shut / "sealed.db", "book", "restore", book, **how)
    says("nor is it restored over", done, 3, f"restoring from {book}: writing beside "
         f"{shut / 'sealed.db'}: Permission denied")


def killed(folder):
    """Killed at any moment, a restore leaves the old book or the new one, and both sound."""
    book, copy = fresh(folder, "killed.db"), folder / "killed-copy.db"
    run(book, "enter", "epirb", "--vessel", "Brass Lantern", "--tag", "EP-1")
    run(book, "book", "backup", copy)
    draw = random.Random(7)
    wrong, ended = [], 0
    for turn in range(25):
        run(book, "record", "inspect", "LR-1", "--on", "2026-01-01")
        program = subprocess.Popen([BECKET, "--book", str(book), "book", "restore", str(copy)],
                                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        time.sleep(draw.uniform(0.005, 0.05))
        program.send_signal(signal.SIGKILL)
        ended += program.wait() != 0
        if run(book, "book", "check").returncode != 0 or tags(book) != ["EP-1", "LR-1"]:
            wrong.append(f"turn {turn}")
        for path in folder.glob("killed.db.before-restore*"):
            if run(path, "book", "check").returncode != 0:
                wrong.append(f"turn {turn}: {path.name}")
            path.unlink()
    check(f"killed {ended} times while restoring, it is sound", not wrong and ended > 0,
          str(wrong))


def busy(folder):
    """Another program that writes is waited for, 5 seconds."""
    book = fresh(folder, "busy.db")
    db = sqlite3.connect(book, isolation_level=None, check_same_thread=False)
    db.execute("BEGIN IMMEDIATE")
    begun = time.monotonic()
    done = run(book, "amend", "LR-1", "--place", "cockpit")
    waited = time.monotonic() - begun
    check("a writer that does not end is waited for", waited > 4.5, f"{waited:.1f} s")
    says("and then it is said", done, 3, "opening a transaction: another program is writing to the "
         "book and did not finish within 5 seconds")
    timer = threading.Timer(1, lambda: db.execute("ROLLBACK"))
    timer.start()
    done = run(book, "amend", "LR-1", "--place", "cockpit")
    check("a writer that ends is waited for", done.returncode == 0, done.stderr)
    timer.join()
    db.execute("BEGIN IMMEDIATE")
    check("a copy waits for no writer",
          run(book, "book", "backup", folder / "meanwhile.db").returncode == 0 and
          tags(folder / "meanwhile.db") == ["LR-1"])
    db.close()


def main():
    with scratch() as outer:
        for part in (journal_is_only_added_to, older_books_keep_their_answers,
                     an_older_book_that_cannot_be_kept,
                     older_papers_are_given_back, copies, private, own_sheets,
                     live_restore, refusals, full_disk, read_only, killed, busy):
            folder = Path(outer) / part.__name__
            folder.mkdir()
            part(folder)
    end()


main()
