#!/usr/bin/env python3
"""The years ahead with service prices that change with age, beside GLPK: random boats with
rafts, whole commands on one side, and on the other a model made from the same figures with
python-dateutil's months and birthdays (tests/support/years_problems.py writes it as a program
for GLPK). In about half of them one station has no prices and is near: what it asks counts as
the highest that another does at that age. About a third have a beacon besides, whose
battery stations renew: such a refit leaves the beacon's service, and only another beacon has
both anew. Every plan must be proven and cost what GLPK's optimum costs.

    years_ages_glpk_test.py BECKET
"""
import csv
import random
import re
import subprocess
import sys
from datetime import date, timedelta
from pathlib import Path

from dateutil.relativedelta import relativedelta

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import ROOT, Book, check, end, scaled, scratch  # noqa: E402
from years_problems import Problem  # noqa: E402


PROBLEMS = scaled(40)
SEED = 20261125
STATIONS = ("Loft", "Shed", "Yard")
KIND = "liferaft-canister"
BEACON = "epirb"
RULE = """  - id: {id}
    kinds: [{kind}]
    task: {task}
    doer: station
    grade: practice
{more}    clocks:
      - {{ from: {start} }}
    source: test
    standing: common practice
"""
LAST = "[last, made], months: {}"


def sheet_text():
    """A raft every three years, and every year once ten years old; a beacon every four, and its
    battery by its mark; under the head of a built-in sheet."""
    built_in = (ROOT / "data" / "sheets" / "practice.yaml").read_text(encoding="utf-8")
    head = built_in[:built_in.index("\nrules:") + len("\nrules:\n")]
    rules = (("service", KIND, "service", "", LAST.format(36)),
             ("aged", KIND, "service", "    when: {age-from: 120}\n", LAST.format(12)),
             ("check", BEACON, "service", "", LAST.format(48)),
             ("battery", BEACON, "renew", "    refit: yes\n", "[marked]"))
    words = ("id", "kind", "task", "more", "start")
    return head + "".join(RULE.format(**dict(zip(words, rule))) for rule in rules)


class Raft:
    def __init__(self, chance):
        self.made = date(2010, 1, 1) + timedelta(days=chance.randint(0, 5800))
        self.served = max(self.made, date(2023, 11, 1)) + timedelta(days=chance.randint(0, 700))
        self.served = min(self.served, date(2026, 11, 1))
        self.renew = chance.randint(8, 40) * 5000


class Beacon:
    """Its mark is of a refit on record, or nobody knows of which battery."""

    def __init__(self, chance):
        self.made = date(2014, 1, 1) + timedelta(days=chance.randint(0, 4300))
        self.served = max(self.made, date(2023, 11, 1)) + timedelta(days=chance.randint(0, 700))
        self.served = min(self.served, date(2026, 11, 1))
        self.refit = None
        since = self.made
        if chance.random() < 0.5:
            since = self.refit = date(2025, 1, 1) + timedelta(days=chance.randint(0, 600))
        self.mark = max(since, date(2026, 1, 1)) + timedelta(days=chance.randint(400, 1900))
        self.renew = chance.randint(6, 30) * 2500
        # so long is the next battery good: days, or None for the sixty months of a beacon
        self.days = (self.mark - since).days
        if self.refit is None and date(2026, 11, 25) + relativedelta(months=60) \
                < date(2026, 11, 25) + timedelta(days=self.days):
            self.days = None

    def marked(self, day):
        return day + (timedelta(days=self.days) if self.days else relativedelta(months=60))


class Boat(Problem):
    """A boat's rafts; a raft's place is (winter of its last visit, winter it was new in), -1
    for what was before. A beacon's is (of its last visit, of its last service, of its last
    battery, new in)."""

    def __init__(self, seed):  # pylint: disable=super-init-not-called
        chance = random.Random(seed)
        self.winters, self.stations = chance.randint(4, 8), len(STATIONS)
        self.trips = [chance.randint(0, 12) * 1000 for _ in STATIONS]
        self.prices = [self.draw_prices(chance) for _ in STATIONS]
        if chance.random() < 0.5:
            unpriced = chance.randrange(len(STATIONS))
            dearest = [(age, minor + chance.randint(0, 2) * 4000) for age, minor in self.prices[0]]
            self.prices = [self.prices[0]] * len(STATIONS)
            self.prices[unpriced - 1], self.prices[unpriced] = dearest, []
            self.trips[unpriced] = 0
        self.gear = [Raft(chance) for _ in range(chance.randint(2, 9))]
        self.checks = [chance.randint(2, 16) * 1000 for _ in STATIONS]
        self.batteries = [chance.randint(2, 16) * 1000 for _ in STATIONS]
        self.gear += [Beacon(chance) for _ in range(chance.choice((0, 0, 1)))]

    @staticmethod
    def draw_prices(chance):
        """(age, price) of a station's steps, mostly upwards."""
        steps, age, minor = [], 0, chance.randint(4, 10) * 5000
        for _ in range(chance.randint(1, 4)):
            steps.append((age, minor))
            age += chance.randint(1, 9)
            minor = max(0, minor + chance.randint(-2, 10) * 4000)
        return steps

    @staticmethod
    def work_day(winter):
        """Ten days before the last of March, when the gear must be back."""
        return date(2027 + winter, 3, 21)

    def price(self, station, born, winter):
        age = relativedelta(self.work_day(winter), born).years
        asked = [[minor for years, minor in prices if years <= age][-1:]
                 for prices in self.prices]
        return max(sum(asked, [])) if not asked[station] else asked[station][0]

    @staticmethod
    def good(born, last, winter):
        """Nothing lapses from April to October after a winter."""
        first, end = date(2027 + winter, 4, 1), date(2027 + winter, 10, 31)
        aged = max(first, born + relativedelta(months=120))
        return (end <= last + relativedelta(months=36)
                and (aged > end or end <= last + relativedelta(months=12)))

    def beacon_ways(self, gear, here, winter):
        """What may be done to a beacon in a winter: (there, station, price)."""
        _, served, battery, new = here
        return [((winter,) * 4, None, gear.renew)] + [
            ((winter, winter if check else served, winter if refit else battery, new), s,
             check * self.checks[s] + refit * self.batteries[s])
            for s in range(len(STATIONS)) for check, refit in ((1, 0), (0, 1), (1, 1))]

    def beacon_jumps(self, gear):
        start = (-1, -1, -1, -1)
        seen, todo, jumps = {start}, [start], []
        while todo:
            here = todo.pop()
            visit, served, battery, _ = here
            good = min((gear.served if served < 0 else self.work_day(served))
                       + relativedelta(months=48),
                       gear.mark if battery < 0 else gear.marked(self.work_day(battery)))
            for winter in range(visit + 1, self.winters + 1):
                if winter > max(visit, 0) and date(2026 + winter, 10, 31) > good:
                    break
                if winter == self.winters:
                    jumps.append((here, "end", None, 0))
                    break
                for there, station, minor in self.beacon_ways(gear, here, winter):
                    jumps.append((here, there, station, minor))
                    if there not in seen:
                        seen.add(there)
                        todo.append(there)
        return start, jumps

    def jumps(self, gear):
        if isinstance(gear, Beacon):
            return self.beacon_jumps(gear)
        start = (-1, -1)
        seen, todo, jumps = {start}, [start], []
        while todo:
            visit, new = here = todo.pop()
            born = gear.made if new < 0 else self.work_day(new)
            last = gear.served if visit < 0 else self.work_day(visit)
            for winter in range(visit + 1, self.winters + 1):
                if any(not self.good(born, last, t) for t in range(max(visit, 0), winter)):
                    break
                if winter == self.winters:
                    jumps.append((here, "end", None, 0))
                    break
                ways = [((winter, winter), None, gear.renew)]
                ways += [((winter, new), s, self.price(s, born, winter))
                         for s in range(len(STATIONS))]
                for there, station, minor in ways:
                    jumps.append((here, there, station, minor))
                    if there not in seen:
                        seen.add(there)
                        todo.append(there)
        return start, jumps


def becket_plan(boat, folder):
    book = Book(folder / "book.db")

    (folder / "sheets").mkdir()
    (folder / "sheets" / "rafts.yaml").write_text(sheet_text(), encoding="utf-8")
    book.must("vessel", "Quillfish", "--lay-up", "11-01..03-31", "--sheet", "rafts")
    for at, (name, trip, prices) in enumerate(zip(STATIONS, boat.trips, boat.prices)):
        words = [f"{KIND}:service" + (f"@{age}y" if age else "") + f"={minor / 100:.2f}"
                 for age, minor in prices]
        words += [f"{BEACON}:service={boat.checks[at] / 100:.2f}",
                  f"{BEACON}:renew={boat.batteries[at] / 100:.2f}"]
        book.must("station", name, "--turn-round", "10", "--trip", f"{trip / 100:.2f}",
            *(word for price in words for word in ("--price", price)))
    with open(folder / "rafts.csv", "w", newline="", encoding="utf-8") as file:
        rows = csv.writer(file)
        rows.writerow(["vessel", "tag", "kind", "made", "expires", "price", "task", "served",
                       "refit"])
        for number, gear in enumerate(boat.gear):
            beacon = isinstance(gear, Beacon)
            words = ["Quillfish", f"G-{number}", BEACON if beacon else KIND, gear.made,
                     gear.mark if beacon else "", f"{gear.renew / 100:.2f}"]
            rows.writerow(words + ["service", gear.served, ""])
            if beacon and gear.refit:
                rows.writerow(words[:2] + [""] * 4 + ["renew", gear.refit, "yes"])
    book.must("import", str(folder / "rafts.csv"), "--serials-are-right")
    return book.ask("years", boat.winters)


def glpk_cost(boat, folder):
    model, answer = folder / "model.lp", folder / "answer"
    model.write_text(boat.as_lp(), encoding="ascii")
    run = subprocess.run(["glpsol", "--lp", str(model), "--cuts", "-w", str(answer)],
                         capture_output=True, text=True, check=False)
    if "INTEGER OPTIMAL SOLUTION FOUND" not in run.stdout:
        raise RuntimeError(f"GLPK has no answer:\n{run.stdout}")
    found = re.search(r"^s mip \d+ \d+ o (\S+)", answer.read_text(encoding="ascii"), re.M)
    return round(float(found.group(1)))


def main():
    unequal, unproven, stepped, renewed, supposed, refitted = [], 0, 0, 0, 0, 0
    for number in range(PROBLEMS):
        boat = Boat(SEED + number)
        with scratch() as folder:
            plan = becket_plan(boat, Path(folder))
            cost = glpk_cost(boat, Path(folder))
        items = [item for winter in plan["winters"] for item in winter["items"]]
        stepped += any(item["from_years"] for item in items)
        renewed += any(item["task"] == "renew" and item["kind"] == KIND for item in items)
        refitted += any(item["task"] == "renew" and item["kind"] == BEACON and item["station"]
                        for item in items)
        supposed += any(item["supposed"] for item in items)
        unproven += not plan["proven"] or bool(plan["lapses"])
        if plan["minor"] != cost:
            unequal.append(f"boat {number}: we say {plan['minor']}, GLPK {cost}")
    check(f"{PROBLEMS} boats' years with prices by age are proven", unproven == 0,
          f"{unproven} are not")
    check(f"{PROBLEMS} boats' years with prices by age cost what GLPK's cost", not unequal,
          "\n".join(unequal))
    check(f"prices from an age on are in {stepped} of the plans, renewals in {renewed}",
          min(stepped, renewed) > PROBLEMS / 4)
    check(f"refits are in {refitted} of the plans", refitted > PROBLEMS / 10)
    check(f"a price that is not known counts in {supposed} of the plans", supposed > PROBLEMS / 40)
    end()


main()
