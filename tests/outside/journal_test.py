#!/usr/bin/env python3
"""The journal tells every step, and taking all of them back gives the same book again.

    journal_test.py BECKET [SEED]

Draws COMMANDS random commands of every kind that writes. After each, the book's tables
are read with Python's own SQLite and compared with what they were: a command that changed
something must have written one entry, whose lines name the very values; any other none. Then
all are taken back, the newest first, and each step must give the tables as they were. Last,
entries are taken back and forth by random numbers: one that is refused changes nothing, and
`book check` never finds anything. Prints a line `ok NAME` or `not ok NAME` a check.
"""
import csv
import json
import random
import sqlite3
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import TODAY, Book, check, end, scaled, scratch  # noqa: E402

# What the journal does not watch: itself, what the program remembers of reminders, and how often
# the book was written to, which taking back raises too.
UNWATCHED = {"journal", "journal_line", "journal_page", "journal_piece", "reminder", "feed",
             "feed_given", "caldav_resource", "paper_bytes", "reckoning", "reckoned_vessel",
             "reckoned", "own_sheet", "revision"}
# Columns of an item whose text stands in the journal as it stands in the book.
PLAIN = ("description", "serial", "place", "notes", "make", "rating")
VESSELS = ["Brass Lantern", "Grey Plover", "Sjöstjärnan", "Tern's Rest"]
STATIONS = ["Marrin Raft Loft", "Lorne Jackets", "Quay & Sons"]
BASES = ["Port Marrin", "Cape Lorne", ""]
KINDS = ["liferaft-canister", "hydrostatic-release", "lifejacket-auto", "gas-cylinder",
         "flare-red-hand", "extinguisher-powder", "epirb", "first-aid-kit"]
TASKS = ["service", "inspect", "weigh", "test", "renew", "register"]
EVENTS = ["fired", "inflated", "activated", "used"]
WORDS = ["cabin", "cockpit", "under the \"old\" strap", "", "Koje 3, ümläut", "a, b; c"]
COMMANDS = scaled(1000)


class Watched(Book):
    """The program and its book, with a second look at its tables."""

    def run(self, *words, **how):
        done = super().run(*words, **how)
        if done.returncode not in (0, 1, 2):
            raise SystemExit(f"not ok journal: {words}: {done.returncode} {done.stderr}")
        return done

    def tables(self):
        """Every watched table's rows, and how many entries the journal has."""
        db = sqlite3.connect(f"file:{self.path}?mode=ro", uri=True)
        names = sorted(name for name, in db.execute(
            "SELECT name FROM sqlite_schema WHERE type = 'table'"))
        rows = {name: sorted(db.execute(f'SELECT * FROM "{name}"'), key=repr)
                for name in names if name not in UNWATCHED}
        count = db.execute("SELECT COUNT(*) FROM journal").fetchone()[0]
        plain = {tag: values for tag, *values in db.execute(
            f"SELECT tag, {', '.join(PLAIN)} FROM item")}
        db.close()
        return rows, count, plain


class Draw:
    """Random commands, most of which make sense."""

    def __init__(self, seed, book):
        self.random = random.Random(seed)
        self.book = book
        self.tags = []
        self.ashore = []
        self.next = 1

    def pick(self, things):
        return self.random.choice(things)

    def tag(self):
        return self.pick(self.tags) if self.tags and self.random.random() < 0.95 else "XX-0"

    def date(self):
        year, month, day = (self.random.randint(2018, 2027), self.random.randint(1, 12),
                            self.random.randint(1, 28))
        return self.pick([f"{year}-{month:02}-{day:02}"] * 3 + [f"{year}-{month:02}", f"{year}"])

    def day(self):
        return f"{self.random.randint(2019, 2026)}-{self.random.randint(1, 12):02}-" \
               f"{self.random.randint(1, 28):02}"

    def some(self, *pairs):
        """Each option with its value, or not."""
        out = []
        for name, value in pairs:
            if self.random.random() < 0.4:
                out.append(f"--{name}={value}")
        return out

    def details(self):
        return self.some(
            ("description", self.pick(WORDS)), ("serial", f"S{self.random.randint(1, 60)}"),
            ("place", self.pick(WORDS)), ("made", self.date()), ("fitted", self.date()),
            ("expires", self.pick(["before ", ""]) + self.date()), ("notes", self.pick(WORDS)),
            ("price", str(self.random.randint(0, 90000))), ("make", self.pick(WORDS)),
            ("part-of", self.tag()))

    def vessel(self):
        return ["vessel", self.pick(VESSELS), *self.some(
            ("base", self.pick(BASES)), ("persons", str(self.random.randint(0, 12))),
            ("area", self.pick(["coastal", ""])), ("length", "11.2"), ("margin", "7"),
            ("built", "1998"), ("lay-up", self.pick(["none", "10-15..04-15", "06-01..08-31"])),
            ("winter", "2026=2026-10-10..2027-04-15"),
            ("sheet", self.pick(["practice", "uk-private"]))),
            *(["--use", self.pick(["private", "commercial"]), "--from", self.day()]
              if self.random.random() < 0.4 else [])]

    def station(self):
        return ["station", self.pick(STATIONS), *self.some(
            ("base", self.pick(BASES)), ("turn-round", str(self.random.randint(0, 60))),
            ("closed", "12-20..01-31"), ("kinds", self.pick(KINDS)), ("trip", "4500"),
            ("price", self.pick(KINDS) + self.pick(["", ":service", "@10y", ":service@5y"])
             + "=" + self.pick(["450.00", "620.00", "none"])))]

    def enter(self):
        tag = f"T-{self.next}"
        self.next += 1
        self.tags.append(tag)
        return ["enter", self.pick(KINDS), "--vessel", self.pick(VESSELS), "--tag", tag,
                *self.details()]

    def amend(self):
        return ["amend", self.tag(), *self.details()]

    def record(self):
        if self.random.random() < 0.15:
            return ["record", self.pick(EVENTS), self.tag(), "--on", self.day()]
        tags = sorted({self.tag() for _ in range(self.random.randint(1, 3))})
        return ["record", self.pick(TASKS), *tags, "--on", self.date(), *self.some(
            ("by", self.pick(STATIONS)), ("next", self.date()), ("price", "2900"),
            ("certificate", f"C {self.random.randint(1, 40)}"))]

    def extend(self):
        return ["extend", self.tag(), "--task", self.pick(TASKS), "--until", self.day(),
                "--paper", f"P {self.random.randint(1, 9)}"]

    def rows(self):
        path = self.book.folder / "in.csv"
        with open(path, "w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file)
            writer.writerow(["vessel", "tag", "kind", "serial", "place", "made", "served",
                             "part_of"])
            for _ in range(self.random.randint(1, 6)):
                tag = self.tag() if self.random.random() < 0.5 else f"T-{self.next}"
                if tag == f"T-{self.next}":
                    self.next += 1
                    self.tags.append(tag)
                writer.writerow([self.pick(VESSELS), tag, self.pick(KINDS),
                                 self.pick(["", f"S{self.random.randint(1, 60)}"]),
                                 self.pick(WORDS), self.date(), self.pick(["", self.day()]),
                                 ""])
        return ["import", str(path), "--services-are-right"]

    def movement(self):
        """Today, or on any day; what went ashore comes back more often than not."""
        tag, other = self.tag(), self.tag()
        on = ["--on", self.day()] if self.random.random() < 0.3 else []
        if self.ashore and self.random.random() < 0.4:
            return ["return", self.ashore.pop(), *on, "--task", "service", *self.some(
                ("next", self.date()), ("certificate", f"C {self.random.randint(1, 40)}"))]
        act = self.random.randint(0, 5)
        if act == 0:
            self.ashore.append(tag)
        return [["land", tag, "--to", self.pick(STATIONS), *on],
                ["move", tag, "--vessel", self.pick(VESSELS), *on],
                ["withdraw", tag, "--because", self.pick(["lost", "sold", "condemned"]), *on],
                ["reserve", tag, *on],
                ["reserve", tag, "--aboard", *on],
                ["stand-in", tag, "--for", other, "--until", "2027-03-01", *on]][act]

    def attach(self):
        path = self.book.folder / f"label-{self.random.randint(1, 5)}.txt"
        path.write_text(f"label {self.random.randint(1, 9)}\n", encoding="utf-8")
        return ["attach", self.tag(), str(path)]

    def command(self):
        return self.random.choices(
            [self.vessel, self.station, self.enter, self.amend, self.record, self.extend,
             self.rows, self.movement, self.attach,
             lambda: ["book", "currency", self.pick(["EUR", "GBP", "DKK"])]],
            [8, 4, 18, 22, 22, 4, 5, 14, 3, 1])[0]()


def unsound(book):
    """What a check finds; commands do let parts be on another boat than what they are inside,
    or stay when that is withdrawn, and a check then says so."""
    result = json.loads(book.run("book", "check", "--json").stdout)
    return [finding["what"] for finding in result["findings"]
            if finding["rule"] not in ("part-apart", "part-left")]


def plain_changes(before, after):
    """What changed in the plain texts of items that were there before and are after."""
    return sorted((tag, field, old, new) for tag in before if tag in after
                  for field, old, new in zip(PLAIN, before[tag], after[tag]) if old != new)


def told_changes(entry):
    return sorted((line["name"], line["field"], line["was"] or "", line["became"] or "")
                  for line in entry["lines"] if line["about"] == "item" and
                  line["act"] == "changed" and line["field"] in PLAIN)


def forth(book, draw, count):
    """The commands; returns the tables before each entry, what it changed in plain texts,
    and what went wrong."""
    stack, changes, wrong, kinds = [], [], [], {}
    rows, entries, plain = book.tables()
    for _ in range(count):
        words = draw.command()
        done = book.run(*words)
        then, then_entries, then_plain = book.tables()
        changed = then != rows
        if then_entries - entries != (1 if changed else 0):
            wrong.append(f"{words}: {then_entries - entries} entries, changed: {changed}")
        if done.returncode == 2 and changed:
            wrong.append(f"{words}: failed and changed the book")
        if changed:
            stack.append(rows)
            changes.append(plain_changes(plain, then_plain))
            kinds[words[0]] = kinds.get(words[0], 0) + 1
        rows, entries, plain = then, then_entries, then_plain
    return stack, changes, wrong, kinds


def back(book, stack):
    """Takes all back, the newest first; what went wrong."""
    wrong = []
    for step, expected in enumerate(reversed(stack)):
        done = book.run("book", "undo")
        if done.returncode != 0:
            wrong.append(f"step {step}: {done.stderr}")
            break
        if book.tables()[0] != expected:
            wrong.append(f"step {step}: other tables than before the change")
            break
    return wrong


def to_and_fro(book, draw, count):
    """Commands and takings back by number, mixed; how many of each, and what went wrong."""
    wrong, undone, refused = [], 0, 0
    rows, entries, _ = book.tables()
    for step in range(count):
        if draw.random.random() < 0.5:
            book.run(*draw.command())
            rows, entries, _ = book.tables()
            continue
        number = draw.random.randint(max(1, entries - 40), max(1, entries))
        done = book.run("book", "undo", str(number))
        then, then_entries, _ = book.tables()
        if done.returncode == 0:
            undone += 1
            if then_entries != entries + 1:
                wrong.append(f"undo {number}: {then_entries - entries} entries")
        else:
            refused += 1
            if then != rows or then_entries != entries:
                wrong.append(f"undo {number} was refused and changed the book")
        rows, entries = then, then_entries
        if step % 25 == 0 and (found := unsound(book)):
            wrong.append(f"after undo {number}: {found}")
    return wrong, undone, refused


def begin(folder, seed):
    """A new book in a folder of its own, and what is drawn for it."""
    folder.mkdir()
    book = Watched(folder / "book.db", TODAY, LOGNAME="mara")
    book.must("book", "new", "--identity", "0123456789abcdef" * 2)
    for vessel in VESSELS:
        book.must("vessel", vessel)
    return book, Draw(seed, book)


def all_forth_and_back(folder, count, seed):
    """The long run, and what holds of it."""
    book, draw = begin(folder, seed)
    first = book.tables()[0]
    export = book.run("export", "-", "--all").stdout

    stack, changes, wrong, kinds = forth(book, draw, count)
    check(f"each of {count} commands is one entry or changes nothing", not wrong,
          "\n  ".join(wrong[:5]))
    print("  " + ", ".join(f"{name} {n}" for name, n in sorted(kinds.items())))
    check("most of them changed something", len(stack) > count / 3, str(kinds))

    found = unsound(book)
    check("the book is sound", not found, str(found))
    entries = json.loads(book.run("book", "journal", "--json").stdout)
    untold = [f"{entry['command']}: {told_changes(entry)}, not {expected}"
              for entry, expected in zip(entries[-len(stack):], changes)
              if told_changes(entry) != expected]
    check("the journal tells from what to what", not untold, "\n  ".join(untold[:5]))
    check("its numbers have no gaps", [entry["number"] for entry in entries] ==
                  list(range(1, len(entries) + 1)))
    check("each entry is signed and says something",
          all(entry["who"] == "mara" and entry["lines"] for entry in entries))

    wrong = back(book, stack)
    check("each is taken back to the very tables before it", not wrong,
          "\n  ".join(wrong))
    check("all taken back is the book at its beginning", book.tables()[0] == first)
    check("and so is what it exports",
          book.run("export", "-", "--all").stdout == export)


def main():
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 20261125
    with scratch() as name, ThreadPoolExecutor(1) as beside:
        mixed = beside.submit(lambda: to_and_fro(
            *begin(Path(name) / "mixed", seed + 1), COMMANDS // 2))
        all_forth_and_back(Path(name) / "long", COMMANDS, seed)
        wrong, undone, refused = mixed.result()
    check("entries are taken back to and fro, or refused whole", not wrong,
          "\n  ".join(wrong[:5]))
    check(f"{undone} were taken back, {refused} refused", undone > 0 and refused > 0)
    end()


main()
