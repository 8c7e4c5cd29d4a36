#!/usr/bin/env python3
"""The fewest spares of a rota against GLPK, the GNU Linear Programming Kit (Debian's glpk-utils).

    rota_glpk_test.py BECKET

Invented fleets are entered as a person would enter them; `becket rota` says how many spares are
needed. The same is put to glpsol as an integer program made here from the fleet alone: for each
piece and open day, her boat not being let from then to the collect, whether it is handed in then,
bare or with a spare; every piece once, on or before the day it is due; the station's weeks within
its limit; of a boat's pieces no more bare on a day than she has over; and the number of spares at
least what is away with one on any day. Its least number must be the program's, and proven.
"""
import datetime
import random
import re
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import ROOT, TODAY as DAY, Book, check, end, scaled, scratch  # noqa: E402

SHEET = ROOT / "tests" / "golden" / "rota" / "in-isles.yaml"
TODAY = datetime.date.fromisoformat(DAY)
ONE = datetime.timedelta(days=1)
FLEETS = scaled(24)


class Fleet:
    """Boats with jackets of one due day each; all that an integer program needs to know."""

    def __init__(self, seed, most_boats=6):
        draw = random.Random(seed)
        self.turn_round = draw.randint(3, 9)
        self.weekdays = draw.choice(["mon-fri", "mon-sun"])
        self.boats = []
        for number in range(draw.randint(2, most_boats)):
            due = TODAY + draw.randint(4, 30) * ONE
            over = draw.choice([0, 0, 1, 2])
            self.boats.append((f"Boat {number}", draw.randint(1, 4), over, due))
        pieces = sum(persons + over for _, persons, over, _ in self.boats)
        self.weekly = draw.choice([0, 0, max(4, pieces // 2)])
        self.booked = []  # the days on which each boat is let, or None
        for _ in self.boats:
            first = TODAY + draw.randint(0, 20) * ONE
            last = first + draw.randint(1, 6) * ONE
            self.booked.append((first, last) if draw.random() < 0.4 else None)

    def is_open(self, day):
        return self.weekdays == "mon-sun" or day.weekday() < 5

    def collect_of(self, hand_in):
        day = hand_in + self.turn_round * ONE
        while not self.is_open(day):
            day += ONE
        return day

    def is_let(self, boat, hand_in):
        """Whether it is let on a day from the hand-in to the collect, both too."""
        booked = self.booked[boat]
        return booked and booked[0] <= self.collect_of(hand_in) and booked[1] >= hand_in

    # ---- as a person enters it ----

    def enter(self, run, folder):
        (folder / "sheets").mkdir()
        (folder / "sheets" / "isles.yaml").write_bytes(SHEET.read_bytes())
        rows = ["vessel,tag,kind,made,served"]
        for boat, persons, over, due in self.boats:
            served = due.replace(year=due.year - 1)
            rows += [f"{boat},{boat}-{n},lifejacket-auto,2023-03,{served}"
                     for n in range(persons + over)]
        (folder / "fleet.csv").write_text("\n".join(rows) + "\n", encoding="utf-8")
        run("book", "new", "--currency", "EUR")
        run("import", "fleet.csv")
        for boat, persons, _, _ in self.boats:
            run("vessel", boat, "--lay-up", "none", "--persons", str(persons), "--base", "Sula",
                "--sheet", "isles")
        for (boat, *_), booked in zip(self.boats, self.booked):
            if booked:
                run("booking", boat, "--from", str(booked[0]), "--to", str(booked[1]))
        run("station", "Loft", "--turn-round", str(self.turn_round), "--open", self.weekdays,
            *(["--weekly", str(self.weekly)] if self.weekly else []))

    # ---- as an integer program, in CPLEX LP format ----

    def program(self):
        once, weeks, bare, spare, names = [], {}, {}, {}, []
        for boat, (_, persons, over, due) in enumerate(self.boats):
            for piece in range(persons + over):
                ways = []
                for offset in range((due - TODAY).days + 1):
                    day = TODAY + offset * ONE
                    if not self.is_open(day) or self.is_let(boat, day):
                        continue
                    gone = range(offset, (self.collect_of(day) - TODAY).days)
                    for way in ("s",) + (("b",) if over else ()):
                        name = f"{way}_{boat}_{piece}_{offset}"
                        ways.append(name)
                        weeks.setdefault(day.isocalendar()[:2], []).append(name)
                        for away in gone:
                            where = spare if way == "s" else bare
                            key = away if way == "s" else (boat, away)
                            where.setdefault(key, []).append(name)
                names += ways
                once.append((" + ".join(ways) or "0 spares") + " = 1")
        rules = once
        if self.weekly:
            rules += [f"{' + '.join(ways)} <= {self.weekly}" for ways in weeks.values()]
        rules += [f"{' + '.join(ways)} <= {self.boats[boat][2]}"
                  for (boat, _), ways in bare.items()]
        rules += [f"{' + '.join(ways)} - spares <= 0" for ways in spare.values()]
        return ("Minimize\n least: spares\nSubject To\n" +
                "\n".join(f" r{n}: {wrap(rule)}" for n, rule in enumerate(rules)) +
                "\nGeneral\n spares\nBinary\n" + "\n".join(f" {name}" for name in names) +
                "\nEnd\n")


def wrap(rule):
    """The format allows no long lines."""
    words = rule.split(" ")
    return "\n ".join(" ".join(words[at:at + 40]) for at in range(0, len(words), 40))


def solve(program, folder):
    """The least number of spares, or None where there is no plan."""
    (folder / "rota.lp").write_text(program, encoding="utf-8")
    done = subprocess.run(
        ["glpsol", "--lp", "rota.lp", "--cuts", "-o", "rota.txt"],
        cwd=folder, capture_output=True, text=True, check=True)
    report = (folder / "rota.txt").read_text(encoding="utf-8")
    if re.search(r"^Status: +INTEGER OPTIMAL", report, re.M):
        return round(float(re.search(r"^Objective:.*= *([0-9.e+]+)", report, re.M)[1]))
    if "NO PRIMAL FEASIBLE" in done.stdout or re.search(r"^Status: +INTEGER EMPTY", report, re.M):
        return None
    sys.exit(f"glpsol came to no end: {done.stdout[-400:]}")


def main():
    problems, needed, impossible, unproven = [], [], 0, 0
    for seed in range(1, FLEETS + 1):
        fleet = Fleet(seed)
        with scratch() as name:
            folder = Path(name)
            book = Book(folder / "fleet.db")
            fleet.enter(book.must, folder)
            group = book.ask("rota", "--stand-ins", "30")["groups"][0]
            least = solve(fleet.program(), folder)
        found = group["spares_needed"] if group["possible"] else None
        # where boats are let a search may be given up: it says so, and is held to the number all
        # the same
        unproven += not group["proven"]
        if found != least or not (group["proven"] or any(fleet.booked)):
            problems.append(f"fleet {seed}: GLPK says {least}, the program {found}, "
                            f"{'' if group['proven'] else 'not '}proven")
        impossible += least is None
        needed += [] if least is None else [least]
    if FLEETS >= 24 and (len(set(needed)) < 3 or not impossible):
        problems.append(f"the fleets are too much alike: {needed}, {impossible} impossible")
    if unproven > max(1, FLEETS / 8):
        problems.append(f"{unproven} are not proven")
    check(f"{FLEETS} fleets, {unproven} not proven, {impossible} impossible, the others with {min(needed)} to "
          f"{max(needed)} spares: as GLPK says", not problems, "\n".join(problems))
    end()


main()
