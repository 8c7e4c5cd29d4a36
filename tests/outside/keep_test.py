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
from harness import BECKET, Book, check, end, scratch, skip  # noqa: E402

HERE = Path(__file__).resolve().parent


def run(book, *words, **how):
    """The command's result."""
    return Book(book).run(*words, **how)


def says(done, status, *words):
    return done.returncode == status and all(word in done.stderr for word in words)


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
    tries = {
        "an entry changed": "UPDATE journal SET who = 'nobody' WHERE number = 1",
        "an entry taken out": "DELETE FROM journal WHERE number = 2",
        "all lines taken out": "DELETE FROM journal_line",
        "a line changed": "UPDATE journal_line SET became = 'x'",
        "an entry replaced": "INSERT OR REPLACE INTO journal SELECT number, 0, 0, 'nobody', '',"
                             " NULL, changes FROM journal WHERE number = 2",
        "an entry put in between": "INSERT INTO journal SELECT number + 7, 0, 0, '', '', NULL,"
                                   " changes FROM journal WHERE number = 2",
    }
    for name, sql in tries.items():
        done = subprocess.run(["sqlite3", str(book), sql], capture_output=True, text=True,
                              check=False)
        check(f"SQLite's shell is refused {name}",
              done.returncode != 0 and "only ever added to" in done.stderr, done.stderr)
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
    stations = json.loads(kept.read_text(encoding="utf-8"))
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


def older_books_keep_their_answers(folder):
    """Each book in `books` was written by the program of its version, with its answers."""
    for dump in sorted(HERE.glob("books/version-*.sql")):
        name, book = dump.stem, book_of_dump(dump, folder)
        kept = {part: dump.with_name(f"{name}-{part}").read_text(encoding="utf-8")
                for part in ("due.json", "show.json", "export.csv")}
        check(f"a book of {name} is not read as if it were a new one",
              says(run(book, "due"), 3, "older program", "opened for writing"))
        check(f"a book of {name} is brought up to date",
              run(book, "vessel", "Brass Lantern").returncode == 0)
        due = json.loads(run(book, "due", "--json", "--routine").stdout)
        check(f"{name}: due says the same", same_keys(json.loads(kept["due.json"]), due),
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
    check("a copy writes over nothing unless told to",
          says(run(book, "book", "backup", copy), 2, "is there already", "--over"))
    run(book, "enter", "epirb", "--vessel", "Brass Lantern", "--tag", "EP-1")
    check("told to, it does", run(book, "book", "backup", copy, "--over").returncode == 0 and
          tags(copy) == ["EP-1", "LR-1"])
    check("a book is not copied over itself",
          says(run(book, "book", "backup", book, "--over"), 2, "the book itself"))
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
    check("a book is restored to no folder that is not there",
          says(run(away, "book", "restore", copy), 3, "No such file"))
    away.parent.mkdir()
    check("a lost book is restored", run(away, "book", "restore", copy).returncode == 0 and
          len(tags(away)) == 2 and
          os.listdir(away.parent)[0].startswith("away.db"))


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
    for name, path, words in (
            ("a text", notes, "the file is no book"),
            ("another database", other, "no book of this program"),
            ("a newer program's book", newer, "newer program"),
            ("a damaged copy", broken, "damaged"),
            ("a missing file", folder / "none.db", "there is no such book")):
        done = run(book, "book", "restore", path)
        check(f"{name} is not restored", done.returncode == 3, done.stderr)
        if path != broken:
            check(f"{name}: it is said why", words in done.stderr, done.stderr)
    check("a newer book is not checked", says(run(newer, "book", "check"), 3, "newer program"))
    check("none of them changed the book", run(book, "export", "-").stdout == before)
    done = run(broken, "book", "check")
    check("a damaged book is told from a sound one, with what to do",
          done.returncode in (1, 3) and "restore" in done.stdout + done.stderr,
          done.stdout + done.stderr)
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
    check("no room for a copy: no copy",
          done.returncode == 3 and "File too large" in done.stderr and
          not (folder / "never.db").exists(), done.stderr)
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
    check("a disk that is full is called so, and no copy is left on it",
          says(done, 3, "no room left on the disk") and not left, done.stderr + str(left))


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
    check("a copy into a folder that can't be written is refused",
          says(done, 3, "Permission denied"), done.stderr)
    done = run(shut / "sealed.db", "book", "check", **how)
    check("a book that can't be written is checked", done.returncode == 0,
          done.stdout + done.stderr)
    done = run(shut / "sealed.db", "book", "undo", **how)
    check("but nothing in it is taken back", says(done, 3, "Permission denied"), done.stderr)
    done = run(shut / "sealed.db", "book", "restore", book, **how)
    check("nor is it restored over", says(done, 3, "Permission denied"), done.stderr)


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
    check("a writer that does not end is waited for, and then it is said",
          says(done, 3, "another program", "5 seconds") and waited > 4.5,
          f"{waited:.1f} s: {done.stderr}")
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
                     older_papers_are_given_back, copies,
                     live_restore, refusals, full_disk, read_only, killed, busy):
            folder = Path(outer) / part.__name__
            folder.mkdir()
            part(folder)
    end()


main()
