"""A second muster: what is aboard and in date counted against what must be carried, made from the
project's description of it and from data/README.md, as second_reckoning.py is, and never adjusted
to the program.

What is open there, and how it is settled here
----------------------------------------------
1. A piece counts on day t when it is aboard or standing in, nothing of it is of unknown date on t,
   and no clock of grade law or maker that is in force on t has lapsed. Routines are left out: a
   vessel that keeps them in the book is not drawn. "Counted: aboard, date known, not lapsed on that
   day at grade law or maker" are three things that must all hold, and "lapsed common practice is a
   remark": a lapse of that grade tells no date. So where a rule asks for a day that is not known (a
   condition of it can't be told, or "its task is date unknown until the maker's interval is
   entered"), the piece is out, though `due` says that it is overdue by practice. (Read again after
   the first run: the state that `due` tells had been taken for it.)
2. A working part (a pair in the kinds catalogue) takes its parent out when it is lapsed in that
   sense; when a task of it is of unknown date for which a rule of grade law or maker is in force;
   or when it is ashore, or gone with no other part of its kind aboard in that parent.
3. A lot is so many pieces: each gives the points, and a lapsed lot gives none. `at-most` caps what
   all pieces by one entry give together.
4. A stand-in is there up to the last day of its hire, that day too.
5. Of lines that are alternatives those whose conditions do not hold are no way of doing it.
"""
import math
import re

from second_reckoning import GRADES, Seen, all_of, plain, vessel_condition

BINDING = GRADES["maker"]


class Piece:
    """An item as the muster sees it: how many, where it stands, its place and its capacity."""

    def __init__(self, item, quantity=1, state="aboard", place="", capacity=None, part_of=None,
                 until=None):
        self.item, self.quantity, self.state = item, quantity, state
        self.place, self.capacity, self.part_of = place, capacity, part_of
        self.until = until  # the last day of its hire


def tasks(seen):
    """(task, routine) of all that has a clock or is asked for."""
    return {(c.task, c.routine) for c in seen.clocks} | {a[:2] for a in seen.asking}


def untold(seen, task, routine):
    """Whether the task is asked for and no clock of its own surely in force starts, lapsed or
    not."""
    own = [c for c in seen.clocks if (c.task, c.routine) == (task, routine)]
    here = [c for c in own if c.stands_in and c.in_force(seen.n)]
    asked = [a for a in seen.asking if a[:2] == (task, routine) and a[2](seen.n)]
    waits = seen.waits_for_maker(task, routine, here) and not any(c.rule == "certificate" for c in here)
    return waits or (bool(asked or here) and not any(c.sure(seen.n) for c in here))


def in_date(seen):
    """Whether nothing of it is lapsed at law or maker, and everything of known date."""
    t = seen.n
    for clock in seen.clocks:
        if clock.routine or GRADES[clock.grade] < BINDING or not clock.in_force(t):
            continue
        own = [c for c in seen.clocks if c.task == clock.task and c.stands_in and c.in_force(t)]
        if t > clock.good and own:
            return False
    return not any(untold(seen, task, routine) for task, routine in tasks(seen) if not routine)


def works(seen):
    """Whether a part does its work: not lapsed at law or maker, and dated where such a rule
    asks."""
    t = seen.n
    if any(
        GRADES[c.grade] >= BINDING and not c.routine and c.in_force(t) and t > c.good for c in seen.clocks
    ):
        return False
    for task, routine in tasks(seen):
        asked = any(
            rule["task"] == task and GRADES[rule["grade"]] >= BINDING and seen.in_force(name, rule, t)
            for name, rule in seen.rules
        )
        if not routine and asked and untold(seen, task, routine):
            return False
    return True


class Muster:
    """The pieces of a fleet, mustered on any day."""

    def __init__(self, shelf, pieces, pairs):
        self.shelf, self.pieces, self.pairs = shelf, pieces, pairs
        self.seen_memo = {}

    def seen(self, piece, t):
        key = (piece.item.tag, t)
        if key not in self.seen_memo:
            self.seen_memo[key] = Seen(piece.item, t, self.shelf)
        return self.seen_memo[key]

    def working_parts(self, piece):
        return [
            part
            for part in self.pieces
            if part.part_of == piece.item.tag and (piece.item.kind, part.item.kind) in self.pairs
        ]

    def whole(self, piece, t):
        parts = self.working_parts(piece)
        for part in parts:
            if part.state == "withdrawn":
                others = [p for p in parts if p.item.kind == part.item.kind and p.state == "aboard"]
                if not others:
                    return False
            elif part.state == "landed" or not works(self.seen(part, t)):
                return False
        return True

    def counts(self, piece, t):
        return (
            piece.state in ("aboard", "stand-in")
            and (piece.until is None or t <= piece.until)
            and in_date(self.seen(piece, t))
            and self.whole(piece, t)
        )

    def lines(self, vessel, t):
        """The carriage lines that hold for a vessel on t."""
        for name in vessel.on("sheets", t) or ["practice"]:
            for line in self.shelf.sheet(name)["lines"].values():
                held = [vessel_condition(k, w, vessel, t) for k, w in line.get("when", {}).items()]
                if all_of(held) is True:
                    yield line

    def have(self, line, pieces):
        """(points, of the largest piece)."""
        total, largest = {}, 0
        for piece in pieces:
            place, points = best_entry(line, piece)
            if points:
                total[place] = total.get(place, 0) + points * piece.quantity
                largest = max(largest, points)
        for place, entry in enumerate(line["serves"]):
            if "at-most" in entry and place in total:
                total[place] = min(total[place], entry["at-most"])
        points = sum(total.values())
        return points - largest if line["need"].get("without-largest") else points

    def line(self, line, vessel, t):
        """(need, have, counted tags) of one line."""
        aboard = [p for p in self.pieces if p.item.vessel is vessel and self.serves(line, p)]
        counted = [p for p in aboard if self.counts(p, t)]
        persons = vessel.on("persons", t)
        return need(line["need"], persons), self.have(line, counted), {p.item.tag for p in counted}

    @staticmethod
    def serves(line, piece):
        return best_entry(line, piece)[1] > 0

    def vessel(self, vessel, t):
        """({line: (need, have, counted)}, whether she has all she must)."""
        lines = list(self.lines(vessel, t))
        found = {line["id"]: self.line(line, vessel, t) for line in lines}
        fine = {line["id"]: found[line["id"]][1] >= found[line["id"]][0] for line in lines}
        groups = {}
        for line in lines:
            group = line.get("any-of", "line " + line["id"])
            way = line.get("way", "line " + line["id"])
            groups.setdefault(group, {}).setdefault(way, []).append(fine[line["id"]])
        return found, all(any(all(way) for way in ways.values()) for ways in groups.values())


def need(wanted, persons):
    """How many points a line needs."""
    if "points" in wanted:
        return wanted["points"] + wanted.get("plus", 0)
    base = persons * wanted.get("per-person", 0)
    share = base if "per-person" in wanted else persons
    return base + math.ceil(share * wanted.get("percent", 0) / 100) + wanted.get("plus", 0)


def marks(rating):
    """The marks of a rating: [(letters, number or None)]."""
    found = []
    for mark in plain(rating).split("/"):
        number = re.search(r"\d+(\.\d+)?", mark)
        letters = re.sub(r"\d+(\.\d+)?", "", mark)
        found.append((letters, float(number.group()) if number else None))
    return found


def rated(wanted, rating):
    """Whether a rating is the one wanted or a higher one."""
    if not rating:
        return False
    for letters, number in marks(wanted):
        fits = [n for own, n in marks(rating) if own == letters]
        if number is None and None in fits:
            continue
        if not letters and number in fits:
            continue
        if letters and number is not None and any(n is not None and n >= number for n in fits):
            continue
        return False
    return True


def entry_points(line, entry, piece):
    if piece.item.kind not in entry["kinds"]:
        return 0
    if "rating" in entry and not rated(entry["rating"], piece.item.rating):
        return 0
    if line.get("places") and not set(line["places"]) & set(piece.place.lower().split()):
        return 0
    if "capacity-from" in entry and (piece.capacity or 0) < entry["capacity-from"]:
        return 0
    return (piece.capacity or 0) if entry["points"] == "capacity" else entry["points"]


def best_entry(line, piece):
    """(which entry a piece counts by, its points): the entry that gives most."""
    points = [entry_points(line, entry, piece) for entry in line["serves"]]
    return points.index(max(points)), max(points)
