#!/usr/bin/env python3
"""A year in days: the reminders written anew on each of them, as a feed is.

    year_days_test.py BECKET

From 1 September to 31 August, on the demonstration's books and on drawn ones, with nobody acting,
with someone who lands and returns as told, and with someone two weeks late. On every day:

- no event changes or goes unless its own day has passed or the book has changed;
- nothing is first given out with all its alarms past, unless its day is today;
- the shore list, the papers and the calendar have the same hand-ins, but for those that the list
  says are given out from a later day on, which are in neither;
- the feed has what the file has, to the word;
- what waits rings at least once in any four weeks in which its station takes gear in and its boat
  is not let, from its first alarm until it is landed or past its last day, and in the two weeks
  ahead of that.

A fleet in use all year lives with a kept rota, too, its boats let now and then: `rota --keep` on
the first day and each second month. There the rota has the day that list, papers and calendar have,
for every piece that is given out, and the papers have all of it.

The calendar is read here with a few lines of our own. From TESTS_SCALE=2 on every book is lived
through in each of the three ways, the fleet's too, and the feed is fetched on every day, not on
each fifteenth; it draws two books more for each (20 at 10). YEAR names one book to live through
alone: `YEAR=fleet`, `YEAR=drawn-7`, `YEAR=kept-3`. From TESTS_SCALE=1 on a kept fleet for each is
lived through in all three ways; below, one of them is for eighty days.
"""
import datetime
import json
import os
import random
import re
import signal
import socket
import subprocess
import sys
import tempfile
import urllib.request
from pathlib import Path

ROOT = Path(os.environ.get("ROOT", Path(__file__).resolve().parents[2]))
BECKET = os.path.abspath(sys.argv[1])
# with the sanitizers the owner's year alone; the tier `long` lives the drawn ones plain
SCALE = float(os.environ.get("TESTS_SCALE", "1")) / (5 if os.environ.get("SANITIZED") == "yes" else 1)
FIRST, LAST = datetime.date(2026, 9, 1), datetime.date(2027, 8, 31)
ONE = datetime.timedelta(1)
CLOSED = {"Varne Sound Raft Loft": ("12-20", "01-31"), "Marrin Raft Station": ("12-20", "01-10"),
          "Safety Depot": ("12-24", "01-02"), "Loft": ("12-20", "01-10")}
wrong = []


def fail(where, words):
    wrong.append(f"{where}: {words}")
    if len(wrong) <= 40:
        print(f"not ok {where}: {words}")


def day_of(text):
    return datetime.date.fromisoformat(text)


class Book:
    def __init__(self, path, folder):
        self.path, self.folder, self.address = str(path), folder, None

    def run(self, day, *words, statuses=(0, 1)):
        done = subprocess.run([BECKET, "--book", self.path, "--today", str(day), *words],
                              capture_output=True, text=True, check=False, cwd=self.folder)
        if done.returncode not in statuses:
            raise SystemExit(f"{words} on {day}: status {done.returncode}: {done.stderr}")
        return done.stdout

    def calendar(self, day):
        self.run(day, "calendar", "out.ics")
        return read(Path(self.folder, "out.ics").read_bytes().decode("utf-8"))


    def feed(self, day):
        """The feed of the fleet on a day. Address and port are chosen once, for they are kept in
        the book; so that is done before the first day."""
        if self.address is None:
            told = self.run(day, "serve", "new")
            self.address = re.search(r"http://[^/]+(\S+)", told).group(1)
            with socket.socket() as free:
                free.bind(("127.0.0.1", 0))
                self.port = str(free.getsockname()[1])
        serving = subprocess.Popen([BECKET, "--book", self.path, "--today", str(day), "serve",
                                    "--port", self.port], stdout=subprocess.PIPE,
                                   stderr=subprocess.DEVNULL, text=True, cwd=self.folder)
        serving.stdout.readline()
        with urllib.request.urlopen(f"http://127.0.0.1:{self.port}{self.address}",
                                    timeout=60) as answer:
            body = answer.read().decode("utf-8")
        serving.send_signal(signal.SIGINT)
        serving.stdout.close()
        serving.wait(timeout=60)
        return read(body)


def read(text):
    """Events by UID: (day, summary, description, sequence, days ahead on which it rings)."""
    events = {}
    for part in text.replace("\r\n ", "").split("BEGIN:VEVENT")[1:]:
        head = part.split("BEGIN:VALARM")[0]
        field = lambda name: next((line.split(":", 1)[1] for line in head.split("\r\n")
                                   if re.match(name + "[:;]", line)), "")
        start = field("DTSTART")
        rings = []
        for days, hours in re.findall(r"TRIGGER:-P(?:(\d+)D)?T(\d+)H", part):
            rings.append(int(days or 0) + 1)
            assert hours == "15"
        events[field("UID")] = (datetime.date(int(start[:4]), int(start[4:6]), int(start[6:])),
                                field("SUMMARY"), field("DESCRIPTION"), field("SEQUENCE"), rings)
    return events


def is_hand_in(event):
    return event[1].startswith(("Hand in ", "Still to hand in "))


def tags_in(event):
    return set(re.findall(r"(?:^|\\n)- (\S+) ", event[2]))


def is_closed(station, day):
    if station not in CLOSED:
        return False
    first, last = CLOSED[station]
    here = f"{day.month:02}-{day.day:02}"
    return here >= first or here <= last


class Year:
    """One book through a year, with someone who acts in a way."""

    def __init__(self, name, book, acts, last=LAST):
        self.name, self.book, self.acts, self.last = f"{name}, {acts}", book, acts, last
        self.bookings = getattr(book, "bookings", None)  # of a kept rota's fleet; by day
        self.before, self.changes, self.passed = None, 0, 0
        self.waiting = {}  # tag: (station, last day, rings)
        self.boat = {}  # tag: its vessel
        self.first_day = {}  # tag: the day it was given out for, until that is come
        self.landed = {}  # tag: (station, tasks)

    def compare(self, day, events, acted):
        for uid, old in (self.before or {}).items():
            new = events.get(uid)
            if new == old:
                continue
            self.changes += 1
            if old[0] < day or acted:
                self.passed += old[0] < day
                continue
            fail(self.name, f"on {day} \"{old[1]}\" of {old[0]} became "
                 f"{(str(new[0]) + ' ' + new[1] + ' ' + words_changed(old[2], new[2])) if new else 'nothing'}")
        for uid, new in events.items():
            if self.before is not None and uid not in self.before or self.before is None:
                if new[0] != day and all(new[0] - ahead * ONE < day for ahead in new[4]):
                    fail(self.name, f"on {day} \"{new[1]}\" is new for {new[0]}, its alarms past")

    def agree(self, day, lists, events):
        listed = set()
        for vessel in lists:
            for trip in vessel["hand_in"]:
                later = trip["given_from"]
                if later and not str(day) < later <= trip["hand_in"]:
                    fail(self.name, f"on {day} {trip['hand_in']} is given out from {later}")
                for item in trip["items"] if not later else []:
                    listed.add((trip["hand_in"], item["tag"]))
        papers = {(docket["hand_in"], piece["tag"])
                  for docket in json.loads(self.book.run(day, "shore-papers", "--json"))
                  if not docket.get("landed", False) and docket["hand_in"]
                  for piece in docket["pieces"]}
        if self.bookings is not None:
            self.agree_rota(day, listed, papers)
        given = {(str(event[0]), tag) for event in events.values() if is_hand_in(event)
                 for tag in tags_in(event)}
        # a text that is cut says how many lines it leaves out; of that day only what it names is
        # held
        cut = {str(event[0]) for event in events.values() if "\\nAnd " in event[2]}
        # of a boat in use all year what waits is told ahead, before any list has a day for it
        waiting = {line["tag"] for vessel in lists if vessel["winter"] is None
                   for line in vessel["waits"]}
        given = {one for one in given if one in listed or one[1] not in waiting}
        if not given <= listed or any(day not in cut for day, _ in listed - given):
            fail(self.name, f"on {day} list and calendar differ: {sorted(listed ^ given)[:6]}")
        if not {tag for _, tag in papers} <= {tag for _, tag in listed} or \
                not papers <= listed:
            fail(self.name, f"on {day} list and papers differ: {sorted(papers - listed)[:6]}")

    def agree_rota(self, day, listed, papers):
        """All that is listed is given out; rota and papers have it on that day."""
        rota = {(line["hand_in"], line["tag"])
                for group in json.loads(self.book.run(day, "rota", "--json"))["groups"]
                for line in group["lines"]}
        if not listed <= rota:
            fail(self.name, f"on {day} list and rota differ: {sorted(listed - rota)[:4]}, rota "
                 f"{sorted(pair for pair in rota if pair[1] in dict(map(reversed, listed)))[:6]}")
        if papers != listed:
            fail(self.name, f"on {day} list and papers differ: {sorted(papers ^ listed)[:6]}")

    def keep_rota(self, day):
        """True where something was written: the rota is given out, or a boat is let."""
        kept = day == FIRST or (day.day == 1 and day.month % 2 == 1)
        if kept:
            self.book.run(day, "rota", "--keep")
        for boat, first, last in self.bookings.get(day, []):
            self.book.run(day, "booking", boat, "--from", str(first), "--to", str(last))
        return kept or day in self.bookings

    def note_waiting(self, day, lists):
        now = {}
        for vessel in lists:
            for trip in vessel["hand_in"]:
                for item in trip["items"]:
                    self.boat[item["tag"]] = vessel["vessel"]
                    if item["not_after"]:
                        now[item["tag"]] = (trip["station"] or "", day_of(item["not_after"]))
        for tag, (station, last) in now.items():
            known = self.waiting.get(tag)
            rings = known[2] if known and known[1] == last else []
            self.waiting[tag] = (station, last, rings)
        for tag in set(self.waiting) - set(now):
            self.close(tag, day)

    def ring(self, day, events):
        for event in events.values():
            if any(event[0] - ahead * ONE == day for ahead in event[4]) and \
                    (is_hand_in(event) or event[1].startswith("Last day to hand in ")):
                tags = tags_in(event)
                if self.bookings is not None and not is_hand_in(event):
                    # a rota's hand-ins are months apart: what else waits there has its alarms to
                    # come
                    tags = {tag for tag in tags & set(self.waiting)
                            if self.waiting[tag][1] == event[0]}
                if "\\nAnd " in event[2]:  # cut: it rings for all that goes there
                    tags |= {tag for tag, (station, _, _) in self.waiting.items()
                             if (station or "an approved station") in event[1]}
                for tag in tags & set(self.waiting):
                    self.waiting[tag][2].append(day)

    def close(self, tag, day):
        station, last, rings = self.waiting.pop(tag)
        if last >= day or not rings:  # landed, or no longer wanted
            end = day
        else:
            end = last
            if not any(end - 14 * ONE <= ring < end for ring in rings):
                fail(self.name, f"{tag} did not ring ahead of {end}, its last day: {rings}")
        for ring, after in zip(rings, rings[1:] + [end]):
            quiet = sum(not is_closed(station, there) and not self.is_let(tag, there)
                        for there in (ring + n * ONE for n in range((after - ring).days)))
            if quiet > 28:
                fail(self.name, f"{tag} was silent from {ring} to {after}")

    def is_let(self, tag, day):
        return any(boat == self.boat[tag] and first <= day <= last
                   for told in (self.bookings or {}).values() for boat, first, last in told)

    # ---- acting ----

    def act(self, day, lists, events):
        """Lands and returns what is asked; true when the book changed."""
        if self.acts == "nobody":
            return False
        late = 14 * ONE if self.acts == "two weeks late" else 0 * ONE
        acted = False
        for vessel in lists:
            for trip in vessel["hand_in"]:
                for item in trip["items"] if not trip["given_from"] else []:
                    tag = item["tag"]
                    if self.first_day.get(tag, day) >= day:
                        self.first_day[tag] = day_of(trip["hand_in"])
                    if self.first_day[tag] + late <= day and tag not in self.landed:
                        tasks = [i["task"] for i in trip["items"] if i["tag"] == tag]
                        if self.land(day, tag, trip["station"] or "An approved station"):
                            self.landed[tag] = (day, tasks)
                            acted = True
        for event in events.values():
            if event[1].startswith("Collect ") and event[0] + late <= day:
                for tag in tags_in(event) & set(self.landed):
                    for task in self.landed.pop(tag)[1]:
                        if task != "renew":
                            self.book.run(day, "record", task, tag, "--on", str(day))
                    self.book.run(day, "return", tag, "--on", str(day), statuses=(0, 1, 2))
                    self.first_day.pop(tag, None)
                    acted = True
        return acted

    def land(self, day, tag, station):
        done = subprocess.run([BECKET, "--book", self.book.path, "--today", str(day), "land", tag,
                               "--to", station, "--on", str(day)], capture_output=True, text=True,
                              check=False)
        return done.returncode == 0

    def live(self):
        day, acted = FIRST, False
        self.book.feed(FIRST)
        while day <= self.last:
            if self.bookings is not None:
                acted = self.keep_rota(day) or acted
            events = self.book.calendar(day)
            self.compare(day, events, acted)
            lists = json.loads(self.book.run(day, "winter", "--json"))
            self.agree(day, lists, events)
            self.note_waiting(day, lists)
            if SCALE >= 2 or (day - FIRST).days % 15 == 0:
                if self.book.feed(day) != events:
                    fail(self.name, f"on {day} the feed is not what the file has")
            self.ring(day, events)
            self.before = events
            acted = self.act(day, lists, events)
            day += ONE
        print(f"# {self.name}: {self.changes} changes in a year, {self.passed} of days passed, "
              f"{len(self.before)} events at its end")


def words_changed(old, new):
    at = next((n for n, (a, b) in enumerate(zip(old, new)) if a != b), min(len(old), len(new)))
    return f"[{old[max(0, at - 40):at + 40]}] -> [{new[max(0, at - 40):at + 40]}]"


def drawn(folder, seed):
    """A boat or two with rafts, jackets and what the owner does, due on any day of two years."""
    draw = random.Random(seed)
    book = Book(Path(folder) / f"drawn-{seed}.db", folder)
    start = FIRST - 90 * ONE
    book.run(start, "book", "new", "--currency", "EUR", "--identity", f"{seed:032x}")
    boats = ["Skarv", "Tern"][:draw.randint(1, 2)]
    for boat in boats:
        words = ["--base", "Sula"] if draw.random() < 0.5 else []
        book.run(start, "vessel", boat, "--lay-up",
                 draw.choice(["11-01..03-31", "10-15..04-15", "none"]), *words)
    book.run(start, "station", "Loft", "--turn-round", str(draw.choice([7, 14, 28])),
             "--closed", "12-20..01-10", *(["--open", "mon-fri"] if draw.random() < 0.5 else []))
    for number in range(draw.randint(4, 10)):
        kind = draw.choice(["liferaft-valise", "lifejacket-auto", "extinguisher-powder",
                            "flare-red-hand", "epirb", "hydrostatic-release", "first-aid-kit"])
        served = FIRST - draw.randint(0, 900) * ONE
        words = ["--expires", str(FIRST + draw.randint(-200, 700) * ONE)] \
            if kind.startswith("flare") else ["--served", str(served)]
        book.run(FIRST, "enter", kind, "--vessel", draw.choice(boats), "--tag", f"G-{number}",
                 "--made", f"{draw.randint(2015, 2024)}-05", *words)
    return book


def kept(folder, seed):
    """Two or three boats in use all year, each with a raft and some jackets, and a spare of each or
    two; now and then one is let for days ahead."""
    draw = random.Random(1000 + seed)
    book = Book(Path(folder) / f"kept-{seed}.db", folder)
    start = FIRST - 90 * ONE
    book.run(start, "book", "new", "--currency", "EUR", "--identity", f"{1000 + seed:032x}")
    book.run(start, "station", "Loft", "--turn-round", str(draw.choice([7, 14, 21])),
             "--closed", "12-20..01-10", "--open", "mon-fri")
    boats = ["Avocet", "Bittern", "Curlew"][:draw.randint(2, 3)]
    for boat in [*boats, "Sula store"]:
        words = ["--store", "yes"] if boat == "Sula store" else ["--use", "commercial"]
        book.run(start, "vessel", boat, "--base", "Sula", "--lay-up", "none", *words)
        for kind in ["liferaft-valise", *["lifejacket-auto"] * draw.randint(1, 2)]:
            served = FIRST - draw.randint(30, 330) * ONE if boat in boats else FIRST - ONE
            book.run(FIRST, "enter", kind, "--vessel", boat, "--made", "2022-05", "--served", str(served))
    book.bookings = {}
    let = dict.fromkeys(boats, FIRST)  # until when a boat is, so that no two bookings meet
    for told in sorted(FIRST + draw.randint(0, 300) * ONE for _ in range(draw.randint(1, 5))):
        boat = draw.choice(boats)
        first = max(told, let[boat]) + draw.randint(2, 60) * ONE
        let[boat] = first + draw.randint(1, 10) * ONE
        book.bookings.setdefault(told, []).append((boat, first, let[boat]))
    return book


def demo(folder, name):
    subprocess.run(["sh", str(ROOT / "data/demo/make-demo.sh"), BECKET, f"{folder}/owner.db",
                    f"{folder}/fleet.db"], check=True, capture_output=True)
    return Book(f"{folder}/{name}.db", folder)


def years():
    """Each book's name, how it is made, how someone acts on it, and its last day."""
    modes = ["nobody", "as told", "two weeks late"]
    only = os.environ.get("YEAR")
    every = SCALE >= 2 or only is not None
    for acts in modes if every else modes[:1]:
        yield "owner", lambda folder: demo(folder, "owner"), acts, LAST
    for acts in modes if every else []:
        yield "fleet", lambda folder: demo(folder, "fleet"), acts, LAST
    named = int(only.split("-")[1]) if only and only.startswith("drawn-") else 0
    for seed in range(1, max(int(2 * SCALE), named) + 1):
        for acts in modes if every else [modes[seed % 3]]:
            yield f"drawn-{seed}", lambda folder, seed=seed: drawn(folder, seed), acts, LAST
    named = int(only.split("-")[1]) if only and only.startswith("kept-") else 0
    if SCALE < 1 and only is None:  # let on 28 November, with a hand-in missed two weeks before
        yield "kept-3", lambda folder: kept(folder, 3), "as told", FIRST + 80 * ONE
    for seed in range(1, max(int(SCALE), named) + 1):
        for acts in modes:
            yield f"kept-{seed}", lambda folder, seed=seed: kept(folder, seed), acts, LAST


def main():
    only = os.environ.get("YEAR")
    lived = 0
    for name, make, acts, last in years():
        if only in (None, name):
            with tempfile.TemporaryDirectory() as folder:
                Year(name, make(folder), acts, last).live()
            lived += 1
    print(f"{lived} years, {len(wrong)} differences")
    print("ok a year in days" if lived and not wrong else "not ok a year in days")
    return 1 if wrong or not lived else 0


if __name__ == "__main__":
    sys.exit(main())
