#!/usr/bin/env python3
"""Rotas of invented fleets, carried out: every hand-in, collect and spare of a plan is entered in
the book on its day, as a person would enter it, and every boat is mustered on every day.

    rota_test.py BECKET

Besides, with nothing of the program: collect days are counted off day by day, weekly limits and
what is ashore at once are added up, and a spare is in one place at a time and large enough.
Where a plan says that a boat falls short, she must, on that very day; where it names what would
help, the plan made with that help must hold.
"""
import csv
import datetime
import random
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import ROOT, Book, check, end, scaled, scratch  # noqa: E402

SHEET = ROOT / "tests" / "golden" / "rota" / "in-isles.yaml"
TODAY = datetime.date(2026, 11, 25)
FLEETS = scaled(10)

# Extinguishers of two kinds that count together.
FIRE_RULE = """  - id: isles-fire
    kinds: [extinguisher-powder, extinguisher-foam]
    task: service
    doer: station
    grade: law
    clocks:
      - from: [last, made]
        months: 12
    source: invented for a test
    standing: common practice
carriage:
"""
FIRE_LINE = """  - id: isles-fire
    title: extinguishers
    need: {points: 2}
    serves:
      - kinds: [extinguisher-powder, extinguisher-foam]
        points: 1
    source: invented for a test
    standing: common practice
"""
LOFT = "Sula Raft Loft"
BASE = "Sula Isles"
HIRE = "Hire"
ONE = datetime.timedelta(days=1)

checks = 0
problems = []


def hold(right, words):
    """Notes a sentence where something is not right."""
    global checks
    checks += 1
    if not right:
        problems.append(words)


def day_of(words):
    return datetime.date.fromisoformat(words)


class Fleet:
    """Some boats with rafts and jackets, a store, and one station."""

    def __init__(self, seed):
        self.random = random.Random(seed)
        draw = self.random
        self.turn_round = draw.choice([3, 5, 8, 10, 14])
        self.weekdays = draw.choice(["mon-fri", "mon-sun"])
        self.weekly = draw.choice([0, 0, 3, 6])
        self.away = draw.choice([0, 0, 2, 4])
        self.closed = draw.choice([None, ("12-20", "01-06")])
        self.stand_ins = draw.choice([0, 1, 6])
        self.crowded = draw.random() < 0.4  # all due within a few weeks
        self.rows = []
        self.boats = {f"Boat {letter}": draw.randint(2, 6)
                      for letter in "ABCDE"[:draw.randint(2, 5)]}
        self.capacity = {}
        for boat, persons in self.boats.items():
            self.fill(boat, persons)
        for number in range(draw.randint(0, 2)):
            self.add("Store", f"S-LR-{number}", "liferaft-valise", TODAY - 10 * ONE,
                     draw.choice([4, 6, 8]))
        for number in range(draw.randint(0, 3)):
            self.add("Store", f"S-LJ-{number}", "lifejacket-auto", TODAY - 10 * ONE)
        for number in range(1, self.stand_ins + 1):
            self.add(HIRE, f"H-LR-{number}", "liferaft-valise", TODAY, 12)
            self.add(HIRE, f"H-LJ-{number}", "lifejacket-auto", TODAY)
            self.add(HIRE, f"H-FP-{number}", "extinguisher-powder", TODAY)
            self.add(HIRE, f"H-FF-{number}", "extinguisher-foam", TODAY)

    def fill(self, boat, persons):
        draw = self.random
        rafts = [6] if draw.random() < 0.7 else [4, 4]
        for number, capacity in enumerate(rafts):
            self.add(boat, f"{boat[-1]}-LR-{number}", "liferaft-valise", self.served(),
                     capacity)
        served = self.served()
        for number in range(persons + draw.randint(0, 3)):
            self.add(boat, f"{boat[-1]}-LJ-{number}", "lifejacket-auto", served)
        served = self.served()
        for kind, mark in (("powder", "FP"), ("foam", "FF")):
            for number in range(draw.randint(1, 2)):
                self.add(boat, f"{boat[-1]}-{mark}-{number}", f"extinguisher-{kind}", served)

    def served(self):
        """A year and a day ago at most, so that it is in date today."""
        return TODAY - self.random.randint(330 if self.crowded else 60, 360) * ONE

    def add(self, boat, tag, kind, served, capacity=0):
        self.capacity[tag] = capacity
        raft = kind == "liferaft-valise"
        self.rows.append([boat, tag, kind, "2023-03", "2023-03" if raft else "", served,
                          capacity or "", "1"])

    def enter(self, book):
        (book.folder / "sheets").mkdir()
        sheet = SHEET.read_text(encoding="utf-8").replace("carriage:\n", FIRE_RULE) + FIRE_LINE
        (book.folder / "sheets" / "isles.yaml").write_text(sheet, encoding="utf-8")
        with open(book.folder / "fleet.csv", "w", newline="", encoding="utf-8") as file:
            writer = csv.writer(file)
            writer.writerow(["vessel", "tag", "kind", "made", "packed", "served", "capacity",
                             "quantity"])
            writer.writerows(self.rows)
        book.must("book", "new", "--currency", "EUR")
        book.must("import", "fleet.csv")
        for boat, persons in self.boats.items():
            book.must("vessel", boat, "--base", BASE, "--lay-up", "none", "--persons",
                     str(persons), "--sheet", "isles")
        for store, base in (("Store", BASE), (HIRE, "Elsewhere")):
            if any(row[0] == store for row in self.rows):
                book.must("vessel", store, "--store", "yes", "--base", base, "--sheet",
                         "isles")
        words = ["--closed", "..".join(self.closed)] if self.closed else []
        words += ["--weekly", str(self.weekly)] if self.weekly else []
        book.must("station", LOFT, "--base", BASE, "--turn-round", str(self.turn_round),
                 "--open", self.weekdays, *words)

    def options(self):
        words = ["--stand-ins", str(self.stand_ins)] if self.stand_ins else []
        return words + (["--away", str(self.away)] if self.away else [])

    # ---- what a plan must keep to ----

    def is_shut(self, day):
        return self.closed and ((day.month, day.day) >= (12, 20) or (day.month, day.day) <= (1, 6))

    def is_open(self, day):
        return not self.is_shut(day) and (self.weekdays == "mon-sun" or day.weekday() < 5)

    def collect_of(self, hand_in):
        day, left = hand_in, self.turn_round
        while left > 0 or not self.is_open(day):
            left -= not self.is_shut(day)
            day += ONE
        return day


def spare_of(line):
    """The tag of what stands in, or None."""
    if line["in_its_place"] == "hired":
        return f"H-{line['tag'].split('-')[1]}-{line['hired']}"
    return line["spare"]


def check_group(name, fleet, group):
    """Days, limits and spares of one sort of gear."""
    lines = [line for line in group["lines"] if line["hand_in"]]
    stays = {}
    for line in lines:
        hand_in, collect = day_of(line["hand_in"]), day_of(line["collect"])
        tag, spare = line["tag"], spare_of(line)
        hold(fleet.is_open(hand_in) and collect == fleet.collect_of(hand_in),
             f"{name}: {tag} from {hand_in} can't be back on {collect}")
        hold(line["late"] == (hand_in > day_of(line["not_after"])), f"{name}: {tag} late")
        if spare:
            hold(fleet.capacity[spare] >= fleet.capacity[tag],
                 f"{name}: {spare} is too small for {tag}")
            hold(all(collect <= first or end <= hand_in
                      for first, end in stays.get(spare, [])),
                 f"{name}: {spare} is in two boats at once")
            stays.setdefault(spare, []).append((hand_in, collect))
    if group["possible"]:
        hold(len(stays) == group["spares_needed"], f"{name}: spares miscounted")
    for line in lines:
        day = day_of(line["hand_in"])
        away = sum(other["hand_in"] <= str(day) < other["collect"] for other in lines)
        hold(not fleet.away or away <= fleet.away, f"{name}: {away} ashore on {day}")


def check_weeks(name, fleet, rota):
    weeks = {}
    for group in rota["groups"]:
        for line in group["lines"]:
            if line["hand_in"]:
                week = day_of(line["hand_in"]).isocalendar()[:2]
                weeks[week] = weeks.get(week, 0) + 1
    hold(not fleet.weekly or max(weeks.values()) <= fleet.weekly,
         f"{name}: more than {fleet.weekly} in a week")


# ---- carried out ----

def events_of(rota):
    """(day, order, act, line), by day: what comes back first, so that its spare is free."""
    events = []
    for group in rota["groups"]:
        for line in group["lines"]:
            if line["hand_in"]:
                events.append((day_of(line["hand_in"]), 1, "out", line))
                events.append((day_of(line["collect"]), 0, "back", line))
    return sorted(events, key=lambda event: (event[0], event[1], event[3]["tag"]))


def carry_out(book, day, act, line):
    spare = spare_of(line)
    if act == "out":
        book.must("land", line["tag"], "--to", LOFT, today=day)
        if spare:
            book.must("move", spare, "--vessel", line["vessel"], today=day)
    else:
        book.must("return", line["tag"], "--as-asked", "--done", line["hand_in"], today=day)
        if spare:
            home = ["--vessel", HIRE if spare.startswith("H-") else "Store"]
            book.must("move", spare, *home, today=day)


def first_shorts(book, rota):
    """Enters the plan day by day; for each boat the first day on which she is short."""
    events = events_of(rota)
    last = day_of(rota["to"])
    days = sorted({TODAY} | {event[0] for event in events if event[0] <= last})
    shorts = {}
    for at, day in enumerate(days):
        for event in events:
            if event[0] == day:
                carry_out(book, day, *event[2:])
        end = days[at + 1] - ONE if at + 1 < len(days) else last
        for muster in book.ask("muster", "--from", str(day), "--to",
                               str(end))["vessels"]:
            if not muster["ok"]:
                shorts.setdefault(muster["vessel"], muster["first_short"])
    return shorts


def fix_options(fleet, fix):
    """The options that try out what is to help; None where it is not one of options."""
    stand_ins, away = fleet.stand_ins, fleet.away
    if fix["fix"] == "spares":
        stand_ins += fix["number"]
    elif fix["fix"] == "away":
        away = fix["number"]
    else:
        return None
    words = ["--stand-ins", str(stand_ins)] if stand_ins else []
    return words + (["--away", str(away)] if away else [])


def check_fixes(name, fleet, book, rota):
    """With the help that is named a sort of gear does not fail. Not asked where other sorts take
    room in the same weeks, for there it is planned after them."""
    for group in rota["groups"]:
        for fix in group["fixes"]:
            words = fix_options(fleet, fix)
            if words is None or (fleet.weekly and len(rota["groups"]) > 1):
                continue
            helped = book.ask("rota", "--kind", group["kind"], *words)
            hold(helped["groups"][0]["possible"],
                 f"{name}: {group['kind']} does not hold with {fix}")


def run_fleet(seed, counts):
    fleet = Fleet(seed)
    name = f"fleet {seed}"
    with scratch() as folder:
        book = Book(Path(folder) / "fleet.db")
        fleet.enter(book)
        rota = book.ask("rota", *fleet.options())
        for group in rota["groups"]:
            check_group(name, fleet, group)
        check_weeks(name, fleet, rota)
        check_fixes(name, fleet, book, rota)
        told = {short["vessel"]: short["from"] for short in rota["shorts"]}
        found = first_shorts(book, rota)
        hold(told == found, f"{name}: short by the rota {told}, carried out {found}")
        hold(rota["holds"] == (not found), f"{name}: holds is {rota['holds']}")
        counts["holds" if rota["holds"] else "short"] += 1
        counts["hand-ins"] += sum(event[2] == "out" for event in events_of(rota))


def main():
    counts = {"holds": 0, "short": 0, "hand-ins": 0}
    for seed in range(1, FLEETS + 1):
        run_fleet(seed, counts)
    least = min(3, FLEETS // 3)
    hold(min(counts["holds"], counts["short"]) >= least, f"too much of one sort: {counts}")
    check(f"{FLEETS} fleets, {counts['hand-ins']} hand-ins carried out, {counts['holds']} hold, "
          f"{counts['short']} do not: {checks} times as planned", not problems,
          "\n".join(problems[:20]))
    end()


main()
