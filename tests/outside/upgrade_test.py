#!/usr/bin/env python3
"""What an upgrade changed is told once, and nothing else is called an upgrade.

    upgrade_test.py BECKET

`books/before-dates.sql` was written by the program as it was before the meaning of dates was
corrected, and `before-dates-due.json` is what that program said of it. That program kept no dates;
where they are to be compared, its answers are put where it would have kept them. The dates that
moved are derived by hand below, each from the rule or the meaning that changed.

Then random books: after each command that writes, the dates kept are those that `due` gives for the
day of which they are kept, of every vessel, whatever was touched.
"""
import json
import os
import random
import re
import sqlite3
import stat
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, demonstration, end, same, scaled, scratch, skip  # noqa: E402

HERE = Path(__file__).resolve().parent / "books"
ADVICE = "reckons otherwise than when something was last written"

# vessel, tag, task: what it was and what it is, as (due, state). By hand:
MOVED = {
    # A service window keeps the day only for what was done inside it. Made 15 Jun 2018, so the
    # first clock said 15 Jun; what came before 29 May 2026 is not known, so the year starts anew.
    ("Brass Lantern", "LJ-1", "service"): (("2026-06-15", "overdue"), ("2027-05-29", "in-date")),
    # Spanish law has no figure for a raft any more (12 months of service, 60 of its cylinder's
    # test, were of a repealed order): the maker's interval is asked for, and the test is gone.
    ("Cork Petrel", "LR-3", "service"): (("2027-03-01", "in-date"), (None, "date-unknown")),
    ("Cork Petrel", "LR-3", "test"): (("2027-01-10", "in-date"), None),
    # The paper's 1 Oct 2026 ends with the extended test of 1 Aug 2026, which counts as the yearly
    # service: a year from that.
    ("Grey Plover", "FE-1", "service"): (("2026-10-01", "overdue"), ("2027-08-01", "in-date")),
    # Fired on 1 Mar and on 1 Aug 2026, no service between: out from the first, so the day before.
    ("Grey Plover", "LR-2", "service"): (("2026-07-31", "overdue"), ("2026-02-28", "overdue")),
    # Stamped 2013, twelve years: good to the end of the twelfth year after it.
    ("Quay Wren", "FE-3", "renew"): (("2025-01-01", "expired"), ("2025-12-31", "expired")),
    # An uninspected vessel's disposable extinguisher is looked at monthly and maintained yearly,
    # which her sheet did not ask before: a month and a year from the first day of 2013.
    ("Sand Martin", "FE-2", "inspect"): (None, ("2013-02-01", "overdue")),
    ("Sand Martin", "FE-2", "service"): (None, ("2014-01-01", "overdue")),
    # The printed mark counts on every day, not only from 1 Oct 2027, when a rule that reads it
    # comes into force: June 2025 is good through its last day.
    ("Sand Martin", "FL-2", "renew"): (("2027-09-30", "in-date"), ("2025-06-30", "expired")),
}


def day_number(day):
    return int(day.replace("-", "")) if day else 0


def put_kept(book, rows, meanings):
    """Puts dates where another program would have kept them."""
    with sqlite3.connect(book.path) as db:
        db.execute("DELETE FROM reckoned")
        dates = {}
        for row in rows:
            dates.setdefault((row["tag"], row["vessel"]), []).extend([
                row["task"], day_number(row["due"]), day_number(row["good_through"]), row["state"],
                row["rule"] or "", row["sheet"] or ""])
        db.executemany("INSERT INTO reckoned VALUES (?, ?, ?)", [
            (*key, "".join(f"{value}/" for value in values)) for key, values in dates.items()])
        db.execute("UPDATE reckoning SET figures = 'those of before', meanings = ?", (meanings,))
    db.close()


def kept(book):
    """The dates kept, and for each vessel the day."""
    db = sqlite3.connect(f"file:{book.path}?mode=ro", uri=True)
    rows = {}
    for vessel, tag, dates in db.execute("SELECT vessel, tag, dates FROM reckoned"):
        values = dates.split("/")
        for task, due, good, state in zip(values[::6], *(values[n::6] for n in (1, 2, 3))):
            rows[(vessel, tag, task)] = (int(due), int(good), state)
    seen = dict(db.execute("SELECT vessel, seen_day FROM reckoned_vessel"))
    db.close()
    return rows, seen


def older(folder, name):
    book = Book(folder / name, "2026-10-15")
    db = sqlite3.connect(book.path)
    db.executescript((HERE / "before-dates.sql").read_text(encoding="utf-8"))
    db.close()
    return book


def pair(date):
    return None if date is None else (date["due"], date["state"])


def moved(answer):
    return {(row["vessel"], row["tag"], row["task"]): (pair(row["was"]), pair(row["is"]))
            for row in answer["moved"]}


def an_older_book(folder):
    """It kept no dates, so which moved can't be told; that is said, with what is read otherwise."""
    book = older(folder, "older.db")
    done = book.run("amend", "LJ-1", "--place", "locker")
    check("an older book: it is said that it can't be told", done.returncode == 0 and
          "kept no dates" in done.stderr, done.stderr)
    check("and what is read otherwise since",
          done.stderr.count("read otherwise since") > 5, done.stderr)
    entry = book.ask("book", "journal")[-2]
    same("the journal keeps it, as an entry of its own",
         ("book upgrade", len(re.findall("read otherwise since", done.stderr)), "amend LJ-1"),
         (entry["command"], len(entry["lines"]), book.ask("book", "journal")[-1]["command"][:10]))
    done = book.run("amend", "LJ-1", "--place", "cabin")
    same("it is said once", (0, ""), (done.returncode, done.stderr))
    done = book.run("book", "undo")
    same("what is taken back is the last change, not the upgrade", (0, "locker"),
         (done.returncode, book.ask("show", "LJ-1")["place"]))


def what_moved(folder):
    """With the dates that the older program had reckoned."""
    book = older(folder, "moved.db")
    book.must("book", "upgrade")
    rows = json.loads((HERE / "before-dates-due.json").read_text(encoding="utf-8"))
    put_kept(book, rows, 0)
    before = book.path.read_bytes()
    done = book.run("due", today="2026-10-20")
    check("who only reads is told that there is something to tell",
          done.returncode == 0 and ADVICE in done.stderr, done.stderr)
    check("and writes nothing", book.path.read_bytes() == before)
    sealed(book)
    told = book.copy("told.db")
    done = told.run("amend", "LJ-1", "--place", "locker", today="2026-10-20")
    check("who writes is told by the way", done.returncode == 0 and
          f"{len(MOVED)} dates have moved" in done.stderr and
          "LJ-1 on Brass Lantern, service: was 15 Jun 2026, overdue, window to 15 Jul 2026 "
          "(uk-c-lifejacket-service of uk-small-commercial), now 29 May 2027, in date, window to "
          "29 Jun 2027 (uk-c-lifejacket-service of uk-small-commercial)" in done.stderr,
          done.stderr)
    answer = book.ask("book", "upgrade", today="2026-10-20")
    same("the dates that moved are those derived by hand", MOVED, moved(answer))
    check("as seen on the day of which they were kept",
          {row["seen"] for row in answer["moved"]} == {"2026-10-15"} and answer["kept"] and
          answer["rule_sheets"] and not answer["not_told"], str(answer))
    entry = book.ask("book", "journal", "--number", answer["entry"])[0]
    same("the journal has a line for each, and for each meaning",
         (len(MOVED), len(answer["meanings"])),
         (sum(line["about"] == "item" for line in entry["lines"]),
          sum(line["field"] == "meaning" for line in entry["lines"])))
    lines = [(line["name"], line["field"], line["was"], line["became"]) for line in entry["lines"]]
    check("in words that name the rule", (
        "FL-2", "renew due", "2027-09-30 in-date, by us-signal-marked of us-recreational",
        "2025-06-30 expired, by label") in lines, str(lines))
    check("a tag's journal tells it", any(
        one["command"] == "book upgrade" for one in book.ask("book", "journal", "FL-2")))
    same("it is told once", [], book.ask("book", "upgrade", today="2026-10-20")["moved"])
    same("and nothing is said any more", "", book.run("due", today="2026-10-21").stderr)


def sealed(book):
    """A book that can't be written: who asks is told all the same. As nobody, for root may all."""
    copy = book.copy("sealed.db")
    how = {"user": 65534} if os.geteuid() == 0 else {}
    copy.path.chmod(stat.S_IRUSR | stat.S_IRGRP | stat.S_IROTH)
    for path in (copy.folder, copy.folder.parent):
        path.chmod(0o755)
    try:
        done = copy.run("book", "upgrade", "--json", today="2026-10-20", **how)
    except (OSError, subprocess.CalledProcessError) as why:
        skip("a book that can't be written", f"nobody else can run the program: {why}")
        return
    if done.returncode == 126 or not done.stdout:
        check("a book that can't be written is told of too", False, done.stderr)
        return
    check("a book that can't be written is told of too",
          moved(json.loads(done.stdout)) == MOVED and "not kept" in done.stderr,
          done.stdout + done.stderr)


def the_demonstration(folder):
    """By hand: its yacht follows common practice alone, whose intervals for her kinds are the same
    before and after; none of her papers states a next date, nothing was fired, inflated or used,
    and nothing was extended; no part of hers stands in for a service; common practice has no
    windows. So no date moves: only grades do, which are no dates."""
    owner, _ = demonstration(folder)
    rows = json.loads((HERE / "before-dates-demo-due.json").read_text(encoding="utf-8"))
    put_kept(owner, rows, 0)
    answer = owner.ask("book", "upgrade", today="2026-11-28")
    same("no date of the demonstration's yacht has moved", ([], len(rows) > 50),
         (answer["moved"], True))


def what_is_no_upgrade(folder):
    """Days that pass, things done, sheets that only read otherwise."""
    book = Book(folder / "plain.db", "2026-10-15")
    sheets = folder / "sheets"
    sheets.mkdir()
    own = sheets / "own.yaml"

    def write(months, remark):
        own.write_text(f"""# {remark}
sheet: own
title: Own
for: a test
compiled: 2026-10-01
cautions:
  - made up for a test
rules:
  - id: own-jacket
    kinds: [lifejacket-auto]
    task: service
    doer: station
    grade: practice
    clocks:
      - from: [made]
        months: {months}
        holds: first
      - from: [last]
        months: {months}
        holds: again
    source: common practice, made up
    standing: common practice
""", encoding="utf-8")
    write(12, "first")
    book.must("vessel", "Grey Plover", "--sheet", "own")
    book.must("enter", "lifejacket-auto", "--vessel", "Grey Plover", "--tag", "LJ-1",
              "--made", "2026-01-10")
    book.must("vessel", "Brass Lantern", "--sheet", "practice")
    book.must("enter", "epirb", "--vessel", "Brass Lantern", "--tag", "EB-1", "--made", "2024")
    done = book.run("record", "service", "LJ-1", "--on", "2027-03-01", today="2027-05-01")
    same("a day that passed and a service done are no upgrade", (0, ""),
         (done.returncode, done.stderr))
    write(12, "second")
    check("a sheet whose words alone changed may have moved something, for all one knows",
          ADVICE in book.run("due", today="2027-05-02").stderr)
    done = book.run("amend", "LJ-1", "--place", "locker", today="2027-05-02")
    same("who writes finds that nothing did, and nothing is said", (0, ""),
         (done.returncode, done.stderr))
    write(6, "third")
    done = book.run("amend", "EB-1", "--place", "cabin", today="2027-10-01")
    check("a sheet of one's own that has another figure is told of, as of the day before",
          done.returncode == 0 and "1 date has moved" in done.stderr and
          "LJ-1 on Grey Plover, service: was 1 Mar 2028, in date (own-jacket of own), now "
          "1 Sep 2027, in date (own-jacket of own)" in done.stderr, done.stderr)
    write(24, "fourth")
    with sqlite3.connect(book.path) as db:
        entry = db.execute("SELECT number FROM journal_line WHERE name = 'LJ-1' "
                           "AND field = 'place'").fetchone()[0]
        db.execute("UPDATE reckoning SET entry = ?", (entry - 1,))
    db.close()
    answer = book.ask("book", "upgrade", today="2027-10-01")
    same("where something was written since, it is said that it can't be told",
         ([], ["Brass Lantern", "Grey Plover"]), (answer["moved"], answer["not_told"]))
    own.write_text("title: broken", encoding="utf-8")
    done = book.run("amend", "EB-1", "--place", "locker", today="2027-10-02")
    check("a sheet that can't be read stops no command that does not need it",
          done.returncode == 0, done.stderr)
    write(6, "fifth")
    done = book.run("amend", "LJ-1", "--place", "cabin", today="2027-10-02")
    check("what could not be told then is told when it can be",
          "1 date has moved" in done.stderr, done.stderr)


ROWS_OF_42 = """
ALTER TABLE record DROP COLUMN refit;
DROP TABLE reckoned;
CREATE TABLE reckoned (vessel TEXT NOT NULL REFERENCES reckoned_vessel (vessel) ON DELETE CASCADE,
    tag TEXT NOT NULL CHECK (tag <> ''), task TEXT NOT NULL, due_day INTEGER NOT NULL,
    good_day INTEGER NOT NULL, state TEXT NOT NULL, rule TEXT NOT NULL, sheet TEXT NOT NULL,
    PRIMARY KEY (tag, task)) STRICT, WITHOUT ROWID;
CREATE INDEX reckoned_of_vessel ON reckoned (vessel);
PRAGMA user_version = 42;
"""


def dates_in_a_row_a_task(folder):
    """A book of version 42 kept each date in a row: those of a piece are put together, and none is
    another."""
    book = Book(folder / "rows.db", "2026-10-15")
    book.must("vessel", "Brass Lantern")
    book.must("enter", "epirb", "--vessel", "Brass Lantern", "--tag", "EB-1", "--made", "2024")
    boat, tag = "Brass Lantern", 'B "2"; \'é'
    with sqlite3.connect(book.path) as db:
        db.executescript(ROWS_OF_42)
        db.executemany("INSERT INTO reckoned VALUES (?, ?, ?, ?, ?, ?, ?, ?)", [
            (boat, "EB-1", "renew", 0, 0, "date-unknown", "", ""),
            (boat, "EB-1", "test", 20250201, 20250228, "overdue", "odd", "a sheet of one's own"),
            (boat, tag, "service", 20300131, 20300131, "in-date", "", "practice")])
    db.close()
    book.must("station", "Depot")
    same("dates that were kept in a row a task are kept", {
        (boat, "EB-1", "renew"): (0, 0, "date-unknown"),
        (boat, "EB-1", "test"): (20250201, 20250228, "overdue"),
        (boat, tag, "service"): (20300131, 20300131, "in-date")}, kept(book)[0])


class Life:
    """Random commands on a small fleet."""

    def __init__(self, seed, book):
        self.random = random.Random(seed)
        self.book = book
        self.day = 20270101
        self.tags = []
        self.boats = ["Brass Lantern", "Grey Plover", "Sand Martin"]
        for boat in self.boats:
            book.must("vessel", boat, "--sheet", "practice")

    def date(self):
        return f"{self.random.randint(2019, 2026)}-{self.random.randint(1, 12):02d}-15"

    def enter(self):
        kind = self.random.choice(["liferaft-canister", "lifejacket-auto", "gas-cylinder",
                                   "flare-red-hand", "hydrostatic-release", "epirb"])
        self.tags.append(f"T-{len(self.tags) + 1}")
        words = ["enter", kind, "--vessel", self.random.choice(self.boats), "--tag",
                 self.tags[-1], "--made", self.date(), "--quantity", "1"]
        if len(self.tags) > 2 and self.random.random() < 0.4:
            words += ["--part-of", self.random.choice(self.tags[:-1])]
        return words

    def words(self):
        pick = self.random.choice
        if len(self.tags) < 3 or self.random.random() < 0.2:
            return self.enter()
        tag = pick(self.tags)
        return pick([
            ["record", pick(["service", "inspect", "fired", "inflated"]), tag, "--on", self.date()],
            ["record", "renew", tag, "--on", self.date(), *pick([["--new"], ["--refit", "--expires", self.date()]])],
            ["move", tag, "--vessel", pick(self.boats)],
            ["amend", tag, "--part-of", pick([*self.tags, ""])],
            ["amend", tag, "--made", self.date()],
            ["withdraw", tag, "--because", "lost"],
            ["land", tag, "--to", "Marrin Raft Loft"],
            ["return", tag],
            ["vessel", pick(self.boats), "--use", pick(["private", "commercial"]), "--from",
             self.date()],
            ["vessel", pick(self.boats), "--sheet", pick(["practice", "solas-convention"])],
            ["book", "undo"],
            ["interval", tag, "service", "--months", "24", "--paper", "manual"],
            ["station", "Marrin Raft Loft", "--turn-round", pick(["14", "21"])],
        ])


def dates_are_kept(folder):
    """What is kept is what `due` says, for the day of which it is kept."""
    wrong, done, entries = [], 0, 0
    for seed in range(scaled(4)):
        book = Book(folder / f"life-{seed}.db")
        life = Life(seed, book)
        for step in range(60):
            today = f"2027-{1 + step // 6:02d}-{1 + step % 28:02d}"
            words = life.words()
            result = book.run(*words, today=today)
            done += result.returncode == 0
            rows, seen = kept(book)
            expected = {}
            for vessel, day in seen.items():
                text = f"{day // 10000}-{day // 100 % 100:02d}-{day % 100:02d}"
                for row in book.ask("due", "--routine", "--vessel", vessel, today=text):
                    expected[(vessel, row["tag"], row["task"])] = (
                        day_number(row["due"]), day_number(row["good_through"]), row["state"])
            if rows != expected or "moved" in result.stderr:
                wrong.append(f"seed {seed} step {step} {words}: "
                             f"{set(rows.items()) ^ set(expected.items())} {result.stderr}")
                break
        entries += len(book.ask("book", "journal"))
    check(f"after each of {done} commands and {entries} entries the dates kept are those of due",
          not wrong and done > 20 * scaled(4), "\n".join(wrong[:3]))


def main():
    with scratch() as outer:
        for part in (an_older_book, what_moved, the_demonstration, what_is_no_upgrade,
                     dates_in_a_row_a_task, dates_are_kept):
            folder = Path(outer) / part.__name__
            folder.mkdir()
            part(folder)
    end()


main()
