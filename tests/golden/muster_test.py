#!/usr/bin/env python3
"""The muster of the demonstration's fleet against a count of our own, every day of two years.

    muster_test.py BECKET

A sheet made up for this test lies beside the book; its rules and carriage lines are written
a second time below, as plain as can be: is this piece in date on this very day, and do the
pieces add up? The gear is read from the demonstration's CSV file. Then boats that are
short get spares at their base: the moves that becket names are carried out, the muster must
be all right, and no smaller choice of spares may do.
"""
import csv
import functools
import itertools
import shlex
import sys
from collections import Counter
from datetime import date, timedelta
from pathlib import Path

from dateutil.relativedelta import relativedelta

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import ROOT, TODAY, check, demonstration, end, scaled, scratch  # noqa: E402

START = date.fromisoformat(TODAY)
DAYS = 731
EVERY = max(1, round(DAYS / scaled(DAYS)))  # day, or as many of them as are asked for
FLARES = ("flare-red-hand", "flare-red-parachute", "smoke-orange-buoyant")
FIRE = ("extinguisher-powder", "extinguisher-co2", "extinguisher-clean-agent")
SOURCE = "    source: made up for a test\n    standing: memory\n"


def rule(name, kinds, clocks, *, use="", grade="law", task="service"):
    """A rule in the words of a sheet."""
    when = f"    when: {{use: {use}}}\n" if use else ""
    rows = "".join(f"      - from: [{anchor}]\n" + "".join(
        f"        {key}: {value}\n" for key, value in more) for anchor, more in clocks)
    return (f"  - id: {name}\n    kinds: [{', '.join(kinds)}]\n{when}    task: {task}\n"
            f"    doer: owner\n    grade: {grade}\n    clocks:\n{rows}" + SOURCE)


def line(name, need, serves, *, use="", any_of=""):
    when = f"    when: {{use: {use}}}\n" if use else ""
    group = f"    any-of: {any_of}\n" if any_of else ""
    rows = "".join(f"      - {{kinds: [{kind}], points: {points}}}\n"
                   for kind, points in serves)
    return (f"  - id: {name}\n    title: {name}\n{when}    need: {{{need}}}\n"
            f"    serves:\n{rows}{group}" + SOURCE)


SHEET = (
    "sheet: count\ntitle: Made up\nfor: a test\ncompiled: 2026-11-25\n"
    "cautions: [made up for a test]\nrules:\n"
    + rule("flares", FLARES, [("marked", [])], task="renew")
    + rule("jacket-hire", ["lifejacket-auto"], [("last", [("months", 12)])],
           use="commercial")
    + rule("jacket-own", ["lifejacket-auto"], [("last", [("months", 20)])], use="private")
    + rule("fire", FIRE, [("last", [("months", 12), ("holds", "again")]),
                          ("made", [("months", 18), ("holds", "first")])],
           grade="maker")
    + rule("fire-look", FIRE, [("last", [("months", 6)])], grade="practice", task="inspect")
    + "carriage:\n"
    + line("jackets-hire", "per-person: 1, percent: 10", [("lifejacket-auto", 1)],
           use="commercial")
    + line("jackets-own", "per-person: 1", [("lifejacket-auto", 1)], use="private")
    + line("red", "points: 8", [("flare-red-hand", 1), ("flare-red-parachute", 2)])
    + line("smoke", "points: 2", [("smoke-orange-buoyant", 1)], any_of="day")
    + line("rocket", "points: 6", [("flare-red-parachute", 1)], any_of="day")
    + line("fire", "points: 2", [(kind, 1) for kind in FIRE]))


def need_and_serves(use, persons):
    """The carriage lines again: name, need, points of each kind, group."""
    jackets = (("jackets-hire", persons + -(-persons // 10)) if use == "commercial"
               else ("jackets-own", persons))
    return [(*jackets, {"lifejacket-auto": 1}, ""),
            ("red", 8, {"flare-red-hand": 1, "flare-red-parachute": 2}, ""),
            ("smoke", 2, {"smoke-orange-buoyant": 1}, "day"),
            ("rocket", 6, {"flare-red-parachute": 1}, "day"),
            ("fire", 2, dict.fromkeys(FIRE, 1), "")]


@functools.cache
def period_of(mark):
    """The first day of what a mark such as 2027-06 names, and the day after its last."""
    parts = [int(part) for part in mark.split(" ")[-1].rstrip("~").split("-")]
    first = date(*(parts + [1, 1])[:3])
    step = (relativedelta(years=1), relativedelta(months=1), relativedelta(days=1))
    return first, first + step[len(parts) - 1], len(parts) == 3


def last_of(mark):
    """The last good day of a mark: "before" ends it the day before it starts, and so does
    "use by" unless it names a day."""
    first, beyond, is_day = period_of(mark)
    early = mark.startswith("before ") or (mark.startswith("use by ") and not is_day)
    return (first if early else beyond) - timedelta(days=1)


def first_of(mark):
    return period_of(mark)[0]


@functools.cache
def after(day, months):
    return day + relativedelta(months=months)


def counts(row, use, day):
    """Whether the piece counts on this very day."""
    if row["state"] not in ("", "aboard", "stand-in"):
        return False
    if row["expires"] and day > last_of(row["expires"]):
        return False
    if row["kind"] in FLARES:
        return bool(row["expires"])
    served = first_of(row["served"]) if row["served"] and row["task"] in ("", "service") \
        else None
    if row["next"] and served and day > last_of(row["next"]):
        return False
    if row["kind"] == "lifejacket-auto":
        months = 12 if use == "commercial" else 20
        return served is not None and day <= after(served, months)
    if served:
        return day <= after(served, 12)
    return bool(row["made"]) and day <= after(first_of(row["made"]), 18)


def broken(rows, day):
    """The tags of jackets that do not work: what fires them has a mark that is past."""
    return {row["part_of"] for row in rows
            if row.get("part_of") and row["kind"] in ("gas-cylinder", "firing-head")
            and row["expires"] and day > last_of(row["expires"])}


def count(rows, use, persons, day):
    """Lines as (name, need, have, missing), and whether all is right."""
    out = broken(rows, day)
    rows = [row for row in rows if row["tag"] not in out]
    found = []
    for name, need, serves, group in need_and_serves(use, persons):
        have = sum(serves.get(row["kind"], 0) * int(row["quantity"] or 1) for row in rows
                   if counts(row, use, day))
        found.append((name, need, have, group))
    met = {group for name, need, have, group in found if group and have >= need}
    lines = {name: (need, have, 0 if group in met else max(0, need - have))
             for name, need, have, group in found}
    return lines, not any(missing for _, _, missing in lines.values())


class Fleet:
    """The fleet's book with the made-up sheet beside it."""

    def __init__(self, folder):
        _, self.book = demonstration(folder)
        (folder / "sheets").mkdir(exist_ok=True)
        (folder / "sheets/count.yaml").write_text(SHEET, encoding="utf-8")
        self.boats = {boat["vessel"]: boat for boat in self.book.ask("vessel")}
        for name in self.boats:
            self.book.must("vessel", name, "--sheet", "count")

    def muster(self, *words):
        return {boat["vessel"]: boat for boat in self.book.ask("muster", *words)["vessels"]}


def use_of(name, day):
    """Harrowgull goes into charter on 1 June 2027; all others are in it."""
    own = name == "Harrowgull" and day < date(2027, 6, 1)
    return "private" if own else "commercial"


PERSONS = {"Dunelark": 6, "Emberfin": 6, "Foxmere": 10, "Kestrelvane": 6, "Lowtide": 6}


def check_days(fleet, gear, differences):
    """Every day of two years; the answers seen from the first day must agree as well."""
    good = Counter()
    first_bad = {}
    for number in range(0, DAYS, EVERY):
        day = START + timedelta(days=number)
        answer = fleet.muster("--on", str(day))
        for name, boat in answer.items():
            lines, ok = count(gear[name], use_of(name, day), PERSONS.get(name, 8), day)
            found = {row["line"]: (row["need"], row["have"], row["short"])
                     for row in boat["lines"]}
            if boat["ok"] != ok or found != lines:
                differences.append(f"{name} on {day}: counted {lines}, becket says {found}")
            good[ok] += 1
            if not ok:
                first_bad.setdefault(name, day)
    for name, boat in fleet.muster("--from", TODAY, "--to",
                                   str(START + timedelta(days=DAYS - 1))).items():
        bad = first_bad.get(name)
        found = boat["first_short"] and date.fromisoformat(boat["first_short"])
        # where not every day is counted, the first one may lie between two of them
        if (found is None) != (bad is None) or bad and not 0 <= (bad - found).days < EVERY:
            differences.append(f"{name}: first short on {bad}, becket says "
                               f"{boat['first_short']}")
    return good


SPARES = [("lifejacket-auto", 1, "", "2026-11-01"), ("lifejacket-auto", 1, "", "2026-10-01"),
          ("lifejacket-auto", 2, "", "2026-11-10"), ("flare-red-parachute", 2, "2029-06", ""),
          ("flare-red-hand", 3, "2029-01", ""), ("extinguisher-powder", 1, "", "2026-11-02"),
          ("smoke-orange-buoyant", 2, "2028-01", ""), ("flare-red-hand", 2, "2024-01", "")]


def enter_spares(fleet):
    """A store at Port Marrin; its rows in the columns of the CSV file."""
    store = "Spares at Port Marrin"
    fleet.book.must("vessel", store, "--base", "Port Marrin", "--store", "yes", "--sheet", "count")
    rows = []
    for number, (kind, quantity, expires, served) in enumerate(SPARES):
        tag = f"SP-{number}"
        words = ["enter", kind, "--vessel", store, "--tag", tag, "--quantity", str(quantity),
                 "--made", "2024-01"]
        words += ["--expires", expires] if expires else []
        words += ["--served", served] if served else []
        fleet.book.must(*words)
        rows.append({"tag": tag, "kind": kind, "quantity": str(quantity), "state": "",
                     "expires": expires, "served": served, "task": "", "next": "",
                     "made": "2024-01"})
    return rows


def fewest(rows, spares, name, day):
    """The size of the smallest choice of pieces that makes her all right; None when none
    does."""
    choices = itertools.product(*(range(int(spare["quantity"]) + 1) for spare in spares))
    for choice in sorted(choices, key=sum):
        chosen = [spare | {"quantity": str(number)}
                  for spare, number in zip(spares, choice) if number]
        if count(rows + chosen, use_of(name, day), PERSONS.get(name, 8), day)[1]:
            return sum(choice)
    return None


def tags_of(fleet, name):
    return {item["tag"] for item in fleet.book.ask("list", "--vessel", name)}


def check_spares(fleet, gear, differences):
    spares = enter_spares(fleet)
    cured = 0
    for name, boat in fleet.boats.items():
        if boat["base"] != "Port Marrin":
            continue
        answer = fleet.muster("--vessel", name)[name]
        best = fewest(gear[name], spares, name, START)
        cure = answer["spares"]
        if answer["ok"]:
            if cure is not None:
                differences.append(f"{name} is not short, and becket says {cure}")
            continue
        if cure["cures"] != (best is not None) or (
                cure["cures"] and (not cure["fewest"] or best != sum(
                    move["quantity"] for move in cure["moves"]))):
            differences.append(f"{name}: {best} spares would do, becket says {cure}")
        if not cure["cures"]:
            continue
        cured += 1
        before = tags_of(fleet, name)
        for move in cure["moves"]:
            fleet.book.must(*shlex.split(move["command"])[1:])
        if not fleet.muster("--vessel", name)[name]["ok"]:
            differences.append(f"{name}: still short after moving {cure['moves']}")
        fleet.book.must("move", *sorted(tags_of(fleet, name) - before), "--spares",
                        "Port Marrin")
    return cured


def main():
    differences = []
    with scratch() as folder:
        fleet = Fleet(Path(folder))
        gear = {name: [] for name in fleet.boats}
        with open(ROOT / "data/demo/fleet.csv", newline="", encoding="utf-8") as rows:
            for row in csv.DictReader(rows):
                gear[row["vessel"]].append(row)
        good = check_days(fleet, gear, differences)
        cured = check_spares(fleet, gear, differences)
    # Days of both sorts and a cure must have been met, or it proves nothing.
    if min(good[True], good[False]) * EVERY < 300 or cured < 2:
        differences.append(f"too few of a sort: {dict(good)}, {cured} cured")
    check(f"{sum(good.values())} boat-days, {good[True]} all right, {cured} boats cured: as it "
          "is counted", not differences, "\n".join(differences[:20]))
    end()


main()
