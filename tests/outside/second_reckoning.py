"""A second reckoning of due days: slow, obvious, and not made from the program's sources.

It was written from the project's description of what every date means and from data/README.md
(what a sheet's keys say), before it was ever run beside the program, and is not adjusted to the
program's answers. Where the two differ, the description is read again.

The rules in prose
------------------
Days are whole numbers. Months added keep the day of the month and clamp to the last.

*Seen on day n* only what is dated on or before n has happened: records, events, renewals,
extensions given, maker's intervals entered.

*The thing in place* on n is the item's first thing, or what its last renewal on or before n put
there. Only records, events, papers and extensions of the thing in place count. A renewal that is a
refit puts nothing there: it is a renewal of what is in the thing, whose mark is the new one's, and
the thing's own dates and records go on.

*A rule is in force on day t* when its sheet is followed, its conditions hold and no rule with
instead-of takes its place. A rule with a condition that cannot be told is in force too, and takes
no other's place: of the two the stricter one holds.

*An interval clock* runs from the first known of its anchors. It is good through
anchor + interval, shaped by `through` and `before`. `last` is the last record of the rule's task
or of one that counts as it; under a window that keeps the anniversary, the day that was kept.

*Lapsed on t*: some clock in force on t has its last good day before t. The due day seen from n is
the day before the first lapsed day after n; if n is lapsed, the day before the current lapse
began. Spans that touch are one. Two sets of days are kept: `due` reads a window's middle, D, and
the state and the last good day read its end.

How it is settled where two readings were met --------------------------------------------- Each was
read again on 2026-11-28 beside the description alone. [W] stands by its words; [D] is decided where
it is silent, then as now, for the reading under which the item is sooner out of date or, where both
are out of date, for the earlier day. Three have another reason, told there: 4 has no side that is
always sooner; in 7 an extension, and in 20 a late survey, would else come to nothing.

 1. Date unknown: something asks for the task on n, and none of the clocks in force on n can start
    [W]. A clock that starts only after a first record (`again`) where nothing was ever recorded and
    no other clock is there asks too [D]. One that no longer holds (`first`, once done) asks nothing
    [W].
 2. Events after n do not count on n [W]; nor do records, renewals and papers, also when n is asked
    about later [D].
 3. A renewal is the fitting of the new thing: `fitted` is its day. `made`, `packed` and the mark
    are those given with it, and `bought` is not known [D]. What was recorded on the day of the
    renewal or after it is of the new thing: its first paper may well be of that day [D]. Of two
    renewals, and of a renewal and an event, the order of entry decides [W for events].
 4. Records of one day that count for a rule are one doing: counted once, and they cannot be both
    inside its window and, after the anniversary moved, outside it [D].
 5. A rule of grade practice that reads the mark gives the mark's own day or an earlier one
    (`before`), of grade maker. A rule of grade law or maker stands in the place of the bare label,
    on the days it surely is in force [W]. Several clocks that read the mark: the earliest wins [W].
 6. `before` on a mark of a month or a year: strictly before that month or year. A mark worded
    "before" is not shortened twice [W]. "use by" with a month or year is read as "before" [D].
 7. A certificate ends with a later record of its task, or of a task which a rule in force on t for
    that task counts as it [W]; not with one of the same day, nor by a rule that can't be told, nor
    by a routine, which is kept apart [D]. An extension moves its last good day as it does an
    interval's: the paper of an authority would otherwise have no effect where a station's paper
    states a next date [D].
 8. An extension ends for a rule with a later record that counts for that rule. It moves interval
    clocks, the maker's too; no mark, event, contents or age limit [W]. The state and the last good
    day read it; `due` stays the rule's own day, as with a window [W of D; D of the maker's].
 9. Contents: the days on which each part directly inside is to be renewed; beside a day not known
    they stand in for nothing [W]. Such a day is the part's due day as seen from n, not that of a
    rule which does not hold yet [W]. Their grade is the higher of the rule's and the part's
    clock's; once one has lapsed the whole is out by it, since that much is known [D].
10. The maker's interval takes the place of the interval clocks of practice rules, on every day gone
    by or to come, in force or not; what such a rule says of events, marks and contents stays [W]. A
    routine takes the place of routines and another of others [D].
11. The age of a coarsely stamped thing is counted from the stamp's first day [W]; whether it was
    made before or after a day that falls inside the stamp cannot be told. A limit "until" a day or
    year has that day or year in it, "from" likewise [D].
12. Which clock binds: the earliest wins, by its own day (by the end of its window once that has
    passed), of those lapsed on n, or else on the first lapsed day [W]. On one day the highest
    grade, then the graver state [D].
13. A routine has intervals only under 12 months, the maker's with its first figure too; its
    obligation is apart from the others of its task [W]. `months: 0` is no interval that comes round
    [D].
14. After an event the item is out, whatever rule reads it [W]. Where no rule surely in force does,
    a service is the task that ends it: nobody knows that another task alone would do [D]. An event
    is of grade maker at least: what is out counts in no muster [D].
15. `test-valid`: the next day on the paper of the item's last test, or, where it has none, that of
    every gas cylinder inside, is not before the last service plus so many months [D].
16. A rule with a condition that cannot be told is asked about and takes no other's place. Its
    clocks count beside others, but where nothing surely in force on n has a clock that can start,
    the date is unknown until one of its own has lapsed [W: in doubt not in date].
17. A certificate is no routine, whatever rules there are for its task: it is never hidden among the
    habits [D].
18. A rule that leaves its interval to the maker is what the maker's interval is read by: there it
    has the rule's window and the higher of the two grades, and is no clock beside it. Until it is
    entered the task of that rule, routine or not, is of unknown date whatever other rules say, but
    for the next day on its own paper, and for what has lapsed by another clock in force: that is
    known [W]. So it is where it is entered and what it counts from is not known [D].
19. What counts as the task of a maker's interval is what every rule in force on n for that task
    counts as it; where there is none, only the task itself [D].
20. Kept even late (`from-due-even-late`) and done after whole intervals were missed, the
    anniversary is the one that falls in the interval the work was done in: to keep one missed years
    ago would leave work done today overdue [D; later than the letter, which keeps D however old it
    is].
21. A maker's renewal by age counts from that date of the thing in place: its first figure until it
    was renewed, then its interval [W]. Where the paper does not say from when, both hold: the first
    figure from the age of the thing in place, the interval from the last renewal [D].
"""
import calendar
import datetime
import functools
import os
from dataclasses import dataclass, field

import yaml

GRADES = {"practice": 0, "maker": 1, "law": 2}
GRAVE = {"overdue": 0, "expired": 1, "life-expired": 2}
UNKNOWN = None


# --- Days, stamps and months ---------------------------------------------------------------------


def day_of(text):
    return datetime.date.fromisoformat(text).toordinal()


def iso(day):
    return None if day is None else datetime.date.fromordinal(day).isoformat()


@functools.lru_cache(maxsize=None)
def months_on(day, months):
    """The same day of the month so many months on, or the last one of that month."""
    date = datetime.date.fromordinal(day)
    month = date.year * 12 + date.month - 1 + months
    year, month = month // 12, month % 12 + 1
    last = calendar.monthrange(year, month)[1]
    return datetime.date(year, month, min(date.day, last)).toordinal()


@functools.lru_cache(maxsize=None)
def period(stamp):
    """First and last day of a stamp such as 2021-04-30, 2021-04 or 2021~."""
    parts = [int(part) for part in stamp.rstrip("~").split("-")]
    if len(parts) == 3:
        day = datetime.date(*parts).toordinal()
        return day, day
    first = datetime.date(parts[0], parts[1] if len(parts) == 2 else 1, 1).toordinal()
    return first, months_on(first, 1 if len(parts) == 2 else 12) - 1


@dataclass
class Mark:
    """A printed expiry: a stamp and how it is worded ("", "before", "use by")."""

    stamp: str
    wording: str = ""

    def last_good(self):
        first, last = period(self.stamp)
        if self.wording == "before" or (self.wording == "use by" and first != last):
            return first - 1
        return last

    def strictly_before(self):
        first, last = period(self.stamp)
        if self.wording == "use by" and first == last:
            return first - 1
        return min(self.last_good(), first - 1)


def month_end(day):
    date = datetime.date.fromordinal(day)
    return date.replace(day=calendar.monthrange(date.year, date.month)[1]).toordinal()


def shaped(day, clock):
    """The last good day as `through` and `before` of the clock make it."""
    if clock.get("through") == "month-end":
        day = month_end(day)
    if clock.get("through") == "year-end":
        day = datetime.date(datetime.date.fromordinal(day).year, 12, 31).toordinal()
    return day - 1 if clock.get("before") else day


# --- What a book holds ---------------------------------------------------------------------------


@dataclass
class Record:
    task: str
    day: int
    next: int = None
    order: int = 0  # of entry
    thing: dict = None  # a renewal: the new thing's made, packed, expires; a refit: the mark
    refit: bool = False


@dataclass
class Event:
    what: str
    day: int
    order: int = 0


@dataclass
class Extension:
    task: str
    until: int
    given: int


@dataclass
class Maker:
    """The maker's interval for one piece, from a paper."""

    task: str
    months: int
    first: int = None  # months to the first one, where that is another figure
    since: list = field(default_factory=list)  # what the first one counts from; made, if not told
    on: int = 0


@dataclass
class Item:
    tag: str
    kind: str
    vessel: "Vessel"
    dates: dict  # made packed bought fitted: stamps; expires: a Mark
    records: list = field(default_factory=list)
    events: list = field(default_factory=list)
    extensions: list = field(default_factory=list)
    makers: list = field(default_factory=list)
    parts: list = field(default_factory=list)
    rating: str = None


@dataclass
class Vessel:
    name: str
    facts: dict  # of use, area, persons, sheets, season...: [(from day or 0, value)]
    length: float = None
    built: int = None

    def on(self, name, day):
        value = "private" if name == "use" else UNKNOWN
        for start, what in sorted(self.facts.get(name, []), key=lambda fact: fact[0]):
            if start <= day:
                value = what
        return value


# --- Sheets --------------------------------------------------------------------------------------


class Shelf:
    """The sheets of some folders, the first folder's before the next one's."""

    def __init__(self, *folders):
        self.folders = folders
        self.read = {}

    def sheet(self, name, skip=0):
        """A sheet's entries with those of the sheet it extends."""
        key = (name, skip)
        if key not in self.read:
            paths = [os.path.join(folder, name + ".yaml") for folder in self.folders]
            paths = [path for path in paths if os.path.exists(path)][skip:]
            with open(paths[0], encoding="utf-8") as file:
                sheet = yaml.safe_load(file)
            self.read[key] = self.extended(sheet, name)
        return self.read[key]

    def extended(self, sheet, name):
        rules = {rule["id"]: rule for rule in sheet.get("rules", [])}
        lines = {line["id"]: line for line in sheet.get("carriage", [])}
        if "extends" in sheet:
            base = self.sheet(sheet["extends"], 1 if sheet["extends"] == name else 0)
            struck = set(sheet.get("strikes", []))
            rules = {**{k: v for k, v in base["rules"].items() if k not in struck}, **rules}
            lines = {**{k: v for k, v in base["lines"].items() if k not in struck}, **lines}
        return {"name": name, "rules": rules, "lines": lines}


def plain(rating):
    return "".join(c for c in rating.upper() if c not in " -")


def all_of(truths):
    """True, False, or None where it cannot be told."""
    truths = list(truths)
    if False in truths:
        return False
    return UNKNOWN if UNKNOWN in truths else True


def about(value, test):
    return UNKNOWN if value is UNKNOWN else test(value)


def vessel_condition(key, want, vessel, t):
    """Whether one condition about the vessel holds on day t."""
    if key == "use":
        return vessel.on("use", t) == want
    if key == "areas":
        return about(vessel.on("area", t), lambda area: area in want)
    if key == "areas-except":
        return about(vessel.on("area", t), lambda area: area not in want)
    if key == "length-from":
        return about(vessel.length, lambda metres: metres >= want)
    if key == "length-below":
        return about(vessel.length, lambda metres: metres < want)
    if key == "persons-from":
        return about(vessel.on("persons", t), lambda persons: persons >= want)
    if key == "persons-until":
        return about(vessel.on("persons", t), lambda persons: persons <= want)
    if key == "built-from":
        return about(vessel.built, lambda year: year >= want)
    if key == "built-until":
        return about(vessel.built, lambda year: year <= want)
    if key == "season-months-below":
        return about(vessel.on("season-months", t), lambda months: months < want)
    if key in ("above-freezing", "dry-storage"):
        return about(vessel.on(key, t), lambda yes: yes == want)
    raise KeyError(key)


# --- One item, seen on one day -------------------------------------------------------------------


@dataclass
class Clock:
    task: str
    routine: bool
    due: int  # D
    good: int  # the last good day: D, or the end of the window
    grade: str
    lapse: str
    in_force: object  # a function of the day
    rule: str
    stands_in: bool = True  # False for contents: they never stand in for a day not known
    sure: object = lambda t: True  # whether it surely holds on a day, nothing of it being asked
    not_before: tuple = (0, 0)  # of contents: the part's due day and last good day, as seen


@dataclass
class Answer:
    due: int
    state: str
    grade: str
    good_through: int
    rule: str


class Seen:
    """One item as it is seen on day n."""

    def __init__(self, item, n, shelf):
        self.item, self.n, self.shelf, self.vessel = item, n, shelf, item.vessel
        self.take_thing()
        self.gather_rules()
        self.memo = {}
        self.clocks, self.asking = [], []
        self.reckon()

    def take_thing(self):
        """What is in place on n, and what is on record of it."""
        renewals = [r for r in self.item.records if r.task == "renew" and not r.refit and r.day <= self.n]
        renewal = max(renewals, key=lambda r: (r.day, r.order), default=None)
        since = (renewal.day, renewal.order) if renewal else (0, 0)
        self.thing = self.item.dates
        if renewal:
            self.thing = {**(renewal.thing or {}), "fitted": iso(renewal.day)}

        def of_it(what):
            """A renewal or an event by the order of entry, any other record by its day alone."""
            by_day = isinstance(what, Record) and what.task != "renew"
            return since[0] <= what.day <= self.n and (by_day or (what.day, what.order) >= since)

        self.records = sorted((r for r in self.item.records if of_it(r)), key=lambda r: (r.day, r.order))
        self.events = sorted((e for e in self.item.events if of_it(e)), key=lambda e: (e.day, e.order))
        self.extensions = [e for e in self.item.extensions if since[0] <= e.given <= self.n]
        self.makers = [m for m in self.item.makers if since[0] <= m.on <= self.n]
        refits = [r for r in self.records if r.refit]
        if refits:
            self.thing = {**self.thing, "expires": refits[-1].thing["expires"]}
        self.age_from = self.first_day("made") or self.first_day("packed")

    def first_day(self, anchor, end=False):
        if anchor == "earliest":
            days = [self.first_day(name) for name in ("made", "packed", "bought", "fitted")]
            return min((day for day in days if day is not None), default=None)
        stamp = self.thing.get(anchor)
        return period(stamp)[1 if end else 0] if stamp else None

    def gather_rules(self):
        """The rules for its kind in every sheet that is ever followed."""
        names = {n for _, sheets in self.vessel.facts.get("sheets", [(0, ["practice"])]) for n in sheets}
        self.rules = []
        for name in sorted(names):
            for rule in self.shelf.sheet(name)["rules"].values():
                if self.item.kind in rule["kinds"]:
                    self.rules.append((name, rule))

    # Which rules are in force

    def condition(self, key, want, t):
        if key == "age-from":
            return about(self.age_from, lambda day: t >= months_on(day, want))
        if key == "age-until":
            return about(self.age_from, lambda day: t < months_on(day, want))
        if key == "marked":
            return bool(self.thing.get("expires")) == want
        if key in ("made-from", "made-until"):
            return self.made_condition(key, want)
        if key == "ratings":
            return about(self.item.rating, lambda rating: plain(rating) in [plain(w) for w in want])
        if key == "test-valid":
            return self.test_valid(want)
        return vessel_condition(key, want, self.vessel, t)

    def made_condition(self, key, want):
        if not self.thing.get("made"):
            return UNKNOWN
        day = want.toordinal() if isinstance(want, datetime.date) else day_of(want)
        sides = {(x >= day) if key == "made-from" else (x <= day) for x in period(self.thing["made"])}
        return sides.pop() if len(sides) == 1 else UNKNOWN

    def test_valid(self, months):
        served = [r.day for r in self.records if r.task == "service"]
        papers = [[r for r in self.records if r.task == "test"]]
        if not papers[0]:
            inside = [Seen(p, self.n, self.shelf) for p in self.item.parts if p.kind == "gas-cylinder"]
            papers = [[r for r in seen.records if r.task == "test"] for seen in inside]
        if not served or not papers or not all(p and p[-1].next for p in papers):
            return UNKNOWN
        return all(p[-1].next >= months_on(served[-1], months) for p in papers)

    def conditions(self, rule, t):
        return all_of(self.condition(k, w, t) for k, w in rule.get("when", {}).items())

    def in_force(self, name, rule, t):
        key = (name, rule["id"], t)
        if key not in self.memo:
            self.memo[key] = self.is_in_force(name, rule, t)
        return self.memo[key]

    def is_in_force(self, name, rule, t):
        if name not in (self.vessel.on("sheets", t) or ["practice"]):
            return False
        holds = self.conditions(rule, t)
        if holds is False:
            return False
        return not any(
            rule["id"] in other.get("instead-of", []) and self.conditions(other, t) is True
            for where, other in self.rules
            if where == name
        )

    # Records, the anniversary, intervals

    def records_for(self, rule):
        """A refit is a renewal and no other task, and none of a thing whose age a rule limits."""
        tasks = {rule["task"], *rule.get("counts", [])}
        refits = rule["task"] == "renew" and self.lapse(rule) != "life-expired"
        return [r for r in self.records if (refits if r.refit else r.task in tasks)]

    @staticmethod
    def holds(clock, done):
        """Whether a clock holds after so many doings: True, False, or "later"."""
        low = clock.get("done-from", 1 if clock.get("holds") == "again" else 0)
        high = clock.get("done-until", 0 if clock.get("holds") == "first" else 10**9)
        return "later" if done < low else done <= high

    def maker_of(self, task):
        """The maker's interval entered last for the thing in place."""
        return max((m for m in self.makers if m.task == task), key=lambda m: m.on, default=None)

    def spelled(self, rule, clock, done):
        """A clock with the maker's interval put in where the rule leaves it to the maker."""
        if clock.get("interval") != "maker":
            return clock
        maker = self.maker_of(rule["task"])
        if not maker:
            return {**clock, "from": [], "months": 0}
        first = done == 0
        return {
            **clock,
            "months": (first and maker.first) or maker.months,
            "from": (first and maker.since) or clock["from"],
        }

    def clock_day(self, clock, last):
        """The last good day of an interval clock, or None where it cannot start."""
        for anchor in clock["from"]:
            start = last if anchor == "last" else self.first_day(anchor, clock.get("stamp") == "end")
            if start is not None:
                months = clock.get("months")
                due = months_on(start, months) if months is not None else start + clock["days"]
                return shaped(due, clock)
        return None

    @staticmethod
    def intervals(rule):
        return [c for c in rule["clocks"] if c["from"] not in (["marked"], ["event"], ["certificate"])]

    def rule_day(self, rule, last, done):
        """A rule's own day after so many doings, the last of them counted from `last`."""
        held = [self.spelled(rule, c, done) for c in self.intervals(rule) if self.holds(c, done) is True]
        days = [self.clock_day(clock, last) for clock in held]
        return min((day for day in days if day is not None), default=None)

    def last_of(self, name, rule):
        """What a rule's `last` counts from, and how often the task was done."""
        days = sorted({record.day for record in self.records_for(rule)})
        window = rule.get("window", {})
        last = None
        for done, day in enumerate(days):
            kept = None
            if window.get("next", "from-done") != "from-done" and self.in_force(name, rule, day):
                kept = self.rule_day(rule, last, done)
            if kept is None or not self.keeps(window, kept, day):
                last = day
                continue
            last, after = kept, self.rule_day(rule, kept, done + 1)
            while after is not None and last < after <= day:
                last, after = after, self.rule_day(rule, after, done + 1)
        return last, len(days)

    @staticmethod
    def keeps(window, due, day):
        if day < months_on(due, -window.get("early", 0)):
            return False
        return window["next"] == "from-due-even-late" or day <= months_on(due, window.get("late", 0))

    @staticmethod
    def routine(rule):
        intervals = [c for c in rule["clocks"] if "months" in c or "days" in c]
        return bool(intervals) and all(
            0 < c["months"] < 12 if "months" in c else c["days"] < 360 for c in intervals
        )

    @staticmethod
    def lapse(rule):
        return rule.get("lapse", "expired" if rule["task"] == "renew" else "overdue")

    # The clocks

    def reckon(self):
        for name, rule in self.rules:
            known = self.event_clock(name, rule)
            known |= self.mark_clocks(name, rule)
            known |= self.certificate_rule(name, rule)
            known |= self.interval_clocks(name, rule)
            if not known and self.asks(rule):
                self.asking.append((rule["task"], self.routine(rule), self.force(name, rule)))
            self.contents_clocks(name, rule)
        self.label()
        self.unread_events()
        self.certificates()
        self.makers_clocks()

    def force(self, name, rule):
        return lambda t: self.in_force(name, rule, t)

    def add(self, name, rule, due, good, grade, stands_in=True):
        self.clocks.append(
            Clock(
                rule["task"], self.routine(rule), due, good, grade, self.lapse(rule),
                self.force(name, rule), rule["id"], stands_in,
                lambda t: self.conditions(rule, t) is True,
            )
        )
        return True

    def displaced(self, rule):
        """The maker's interval takes the place of what is only practised."""
        return (
            rule["grade"] == "practice"
            and not self.left_to_maker(rule)
            and self.maker_of(rule["task"]) is not None
            and self.routine(self.makers_rule(self.maker_of(rule["task"]))) == self.routine(rule)
        )

    @staticmethod
    def left_to_maker(rule):
        return any(clock.get("interval") == "maker" for clock in rule["clocks"])

    def interval_clocks(self, name, rule):
        if self.displaced(rule):
            return False
        last, done = self.last_of(name, rule)
        late = rule.get("window", {}).get("late", 0)
        known = False
        for clock in self.intervals(rule):
            told = self.spelled(rule, clock, done)
            day = self.clock_day(told, last) if self.holds(clock, done) is True else None
            if day is not None:
                more = self.extended(rule, day)
                grade = rule["grade"]
                if told is not clock:
                    grade = max("maker", grade, key=GRADES.get)
                known = self.add(name, rule, day, max(more, months_on(day, late)), grade)
        return known

    def extended(self, rule, day):
        """The day an authority's paper moves an interval clock to."""
        if self.lapse(rule) == "life-expired":
            return day
        until = day
        for extension in self.extensions:
            over = any(record.day > extension.given for record in self.records_for(rule))
            if extension.task == rule["task"] and not over:
                most = extension.until
                if rule.get("extension"):
                    most = min(most, months_on(day, rule["extension"]))
                until = max(until, most)
        return until

    def asks(self, rule):
        """Whether a rule without a known clock wants one."""
        done = self.last_of("", {**rule, "window": {}})[1]
        intervals = [] if self.displaced(rule) else self.intervals(rule)
        wants = [c for c in intervals if self.holds(c, done) is not False]
        papers = [c for c in rule["clocks"] if c["from"] in (["marked"], ["certificate"])]
        return bool(wants or papers)

    def event_clock(self, name, rule):
        known = False
        for clock in rule["clocks"]:
            if clock["from"] != ["event"]:
                continue
            for event in self.events:
                cleared = any((r.day, r.order) > (event.day, event.order) for r in self.records_for(rule))
                if event.what in clock.get("events", [event.what]) and not cleared:
                    grade = max("maker", rule["grade"], key=GRADES.get)
                    known = self.add(name, rule, event.day - 1, event.day - 1, grade)
                    break
        return known

    def unread_events(self):
        """The first event that no service followed, for the days on which no rule reads it."""
        for event in self.events:
            readers = [
                (name, rule)
                for name, rule in self.rules
                for clock in rule["clocks"]
                if clock["from"] == ["event"] and event.what in clock.get("events", [event.what])
            ]
            cleared = any(
                r.task == "service" and (r.day, r.order) > (event.day, event.order) for r in self.records
            )
            if not cleared:
                self.clocks.append(
                    Clock(
                        "service", False, event.day - 1, event.day - 1, "maker", "overdue",
                        lambda t, readers=readers: not any(
                            self.in_force(name, rule, t) and self.conditions(rule, t) is True
                            for name, rule in readers
                        ),
                        "event",
                    )
                )

    def mark_clocks(self, name, rule):
        mark = self.thing.get("expires")
        known = False
        for clock in rule["clocks"]:
            if clock["from"] == ["marked"] and mark:
                day = shaped(mark.last_good(), {"through": clock.get("through")})
                if clock.get("before"):
                    day = mark.strictly_before()
                if rule["grade"] == "practice":
                    day = min(day, mark.last_good())
                grade = max("maker", rule["grade"], key=GRADES.get)
                known = self.add(name, rule, day, day, grade)
        return known

    def label(self):
        mark = self.thing.get("expires")
        if not mark:
            return
        readers = [
            (name, rule)
            for name, rule in self.rules
            if rule["task"] == "renew"
            and rule["grade"] != "practice"
            and any(clock["from"] == ["marked"] for clock in rule["clocks"])
        ]
        day = mark.last_good()
        self.clocks.append(
            Clock(
                "renew", False, day, day, "maker", "expired",
                lambda t: not any(
                    self.in_force(name, rule, t) and self.conditions(rule, t) is True
                    for name, rule in readers
                ),
                "label",
            )
        )

    def paper_stands(self, record, t):
        """Whether the next day a record states still counts on t."""
        tasks = {record.task}
        for name, rule in self.rules:
            ends = rule["task"] == record.task and not self.routine(rule)
            if ends and self.in_force(name, rule, t) and self.conditions(rule, t) is True:
                tasks |= set(rule.get("counts", []))
        return not any(
            r.day > record.day and (r.task == record.task or (r.task in tasks and not r.refit))
            for r in self.records
        )

    def paper_rule(self, record):
        """The task of a record's paper, and what the rules in force on n count as it."""
        counts = set()
        for name, rule in self.rules:
            if rule["task"] == record.task and self.in_force(name, rule, self.n):
                counts |= set(rule.get("counts", []))
        return {"task": record.task, "counts": sorted(counts), "lapse": "overdue"}

    def certificates(self):
        for record in self.records:
            if record.next is not None:
                self.clocks.append(
                    Clock(
                        record.task, False, record.next, self.extended(self.paper_rule(record), record.next),
                        "maker",
                        "expired" if record.task == "renew" else "overdue",
                        lambda t, record=record: self.paper_stands(record, t), "certificate",
                    )
                )

    def certificate_rule(self, name, rule):
        known = False
        for clock in rule["clocks"]:
            if clock["from"] == ["certificate"]:
                for record in self.records:
                    if record.task == rule["task"] and record.next is not None:
                        day = shaped(record.next, clock)
                        grade = max("maker", rule["grade"], key=GRADES.get)
                        known |= self.paper_stands(record, self.n)
                        self.add(name, rule, day, self.extended(rule, day), grade)
                        self.clocks[-1].in_force = (
                            lambda t, record=record: self.in_force(name, rule, t) and self.paper_stands(record, t)
                        )
        return known

    def contents_clocks(self, name, rule):
        if not rule.get("contents-bind"):
            return
        for part in self.item.parts:
            inside = Seen(part, self.n, self.shelf)
            for clock in inside.clocks:
                if clock.task == "renew":
                    seen = inside.answer("renew", clock.routine)
                    grade = max(rule["grade"], clock.grade, key=GRADES.get)
                    self.add(name, rule, clock.due, clock.good, grade, stands_in=False)
                    self.clocks[-1].not_before = (seen and seen.due or 0, seen and seen.good_through or 0)
                    self.clocks[-1].in_force = (
                        lambda t, clock=clock: self.in_force(name, rule, t) and clock.in_force(t)
                    )

    @staticmethod
    def makers_rule(maker):
        """The maker's interval as a rule. A renewal by age goes on counting from its date."""
        since = maker.since or ["made", "earliest"]
        renew = maker.task == "renew"
        by_age = renew and maker.since and maker.since != ["last"]
        first = {"from": since, "months": maker.first or maker.months}
        if not renew or maker.since:
            first["holds"] = "first"
        again = {"from": since if by_age else ["last"], "months": maker.months, "holds": "again"}
        return {"id": "maker", "task": maker.task, "grade": "maker", "clocks": [first, again]}

    def makers_clocks(self):
        for maker in {m.task: self.maker_of(m.task) for m in self.makers}.values():
            readers = [
                (name, other)
                for name, other in self.rules
                if other["task"] == maker.task and self.left_to_maker(other)
            ]

            def alone(t, readers=readers):
                return not any(self.in_force(*reader, t) for reader in readers)

            rule = self.makers_rule(maker)
            told = [
                set(other.get("counts", []))
                for name, other in self.rules
                if other["task"] == maker.task and self.in_force(name, other, self.n)
            ]
            rule["counts"] = sorted(set.intersection(*told)) if told else []
            last, done = self.last_of("", rule)
            day = self.rule_day(rule, last, done)
            if day is None:
                self.asking.append((maker.task, self.routine(rule), alone))
                continue
            more = self.extended(rule, day)
            self.clocks.append(
                Clock(
                    maker.task, self.routine(rule), day, more, "maker", self.lapse(rule), alone, "maker",
                )
            )

    # The answers

    def turning_days(self, clocks):
        """Every day on which something may begin to hold, to end or to lapse."""
        days = {clock.due + 1 for clock in clocks} | {clock.good + 1 for clock in clocks}
        for facts in self.vessel.facts.values():
            days |= {start for start, _ in facts}
        for part in self.item.parts:
            days |= self.ages(Seen(part, self.n, self.shelf))
        return sorted(days | self.ages(self))

    @staticmethod
    def ages(seen):
        if seen.age_from is None:
            return set()
        return {
            months_on(seen.age_from, rule["when"][key])
            for _, rule in seen.rules
            for key in ("age-from", "age-until")
            if key in rule.get("when", {})
        }

    def edge(self, clocks, end):
        """The due day seen from n (None: never), and the clocks that make it. `end` says which day
        of a clock is read."""

        def lapsed(t):
            held = [clock for clock in clocks if clock.in_force(t)]
            return [clock for clock in held if t > end(clock)]

        turns = self.turning_days(clocks)
        if lapsed(self.n):
            began = self.n
            for day in [turn for turn in reversed(turns) if turn <= self.n]:
                began = day
                if not lapsed(day - 1):
                    break
            return began - 1, lapsed(self.n), True
        for day in [turn for turn in turns if turn > self.n]:
            if lapsed(day):
                return day - 1, lapsed(day), False
        return None, [], False

    def answer(self, task, routine):
        clocks = [c for c in self.clocks if (c.task, c.routine) == (task, routine)]
        here = [clock for clock in clocks if clock.stands_in and clock.in_force(self.n)]
        known = any(clock.sure(self.n) for clock in here)
        asked = [a for a in self.asking if a[:2] == (task, routine) and a[2](self.n)]
        waits = self.waits_for_maker(task, routine, here) and not any(c.rule == "certificate" for c in here)
        due, binding, _ = self.edge(clocks, lambda clock: clock.due)
        good, gone, lapsed = self.edge(clocks, lambda clock: clock.good)
        if (waits or ((asked or here) and not known)) and not lapsed:
            return Answer(None, "date-unknown", None, None, None)
        if due is None:
            return None
        if lapsed:
            binding = gone

        def own(clock):
            """A clock's own day; a part's is no sooner than the part itself is out of date."""
            return max(clock.good, clock.not_before[1]) if lapsed else max(clock.due, clock.not_before[0])

        binds = min(binding, key=lambda c: (own(c), -GRADES[c.grade], -GRAVE[c.lapse]))
        return Answer(due, binds.lapse if lapsed else "in-date", binds.grade, good, binds.rule)

    def waits_for_maker(self, task, routine, here):
        """Whether a rule in force on n leaves to the maker what was not entered, or cannot
        start."""
        return any(
            (rule["task"], self.routine(rule)) == (task, routine)
            and self.left_to_maker(rule)
            and self.in_force(name, rule, self.n)
            and (
                self.maker_of(task) is None
                or not any(clock.rule == rule["id"] for clock in here)
            )
            for name, rule in self.rules
        )

    def answers(self):
        """{(task, routine): Answer} of what is due or asked for."""
        keys = {(c.task, c.routine) for c in self.clocks} | {a[:2] for a in self.asking}
        found = {key: self.answer(*key) for key in keys}
        return {key: answer for key, answer in found.items() if answer}
