"""Books drawn at random for the second reckoning: sheets of one's own beside the built-in ones,
boats that change their use, and gear with every sort of date, record, event and paper."""
import datetime

from second_reckoning import day_of, iso, months_on, period

RAFTS = ["liferaft-valise", "liferaft-canister"]
JACKETS = ["lifejacket-auto", "lifejacket-manual"]
OWN_KINDS = RAFTS + JACKETS + [
    "raft-contents", "gas-cylinder", "flare-red-hand", "extinguisher-powder", "epirb",
    "hydrostatic-release", "first-aid-kit", "danbuoy-inflatable",
]
KINDS = OWN_KINDS + [
    "firing-head", "lifejacket-light", "lifejacket-foam", "flare-red-parachute", "smoke-orange-hand",
    "extinguisher-co2", "extinguisher-foam", "extinguisher-disposable", "extinguisher-fixed", "plb",
    "ais-beacon", "sart", "beacon-battery", "lifebuoy", "lifebuoy-light", "recovery-module", "tether",
    "jackstay", "medicine", "gas-hose", "gas-regulator", "gas-detector", "co-alarm", "smoke-alarm",
    "flare-white-hand", "electric-distress-light", "other-gear",
]
PARTS = {
    "liferaft-valise": ["raft-contents", "flare-red-hand", "gas-cylinder", "medicine"],
    "liferaft-canister": ["raft-contents", "flare-red-hand", "gas-cylinder", "hydrostatic-release"],
    "lifejacket-auto": ["gas-cylinder", "firing-head", "lifejacket-light"],
    "lifejacket-manual": ["gas-cylinder", "lifejacket-light"],
    "epirb": ["beacon-battery", "hydrostatic-release"],
}
TASKS = ["service", "inspect", "weigh", "test", "renew", "register"]
EVENTS = ["fired", "inflated", "activated", "used"]
AREAS = ["category-2", "queensland", "new-south-wales", "6-to-60-nm", "zone-1", "up-to-3-nm", "south-australia"]
BUILT_IN = [
    "australia", "canada-private", "france-private", "germany-private", "italy-private",
    "offshore-racing", "practice", "solas-convention", "spain-recreational", "uk-private",
    "uk-small-commercial", "us-recreational", "us-small-passenger", "us-uninspected-passenger",
]
RATINGS = ["SOLAS A", "solas-b", "ISO 9650", "ORC", "150 N"]
MONTHS = [6, 12, 12, 12, 18, 24, 24, 36, 60, 120]


def maybe(draw, chance):
    return draw.random() < chance


# --- Sheets of one's own -------------------------------------------------------------------------


def draw_when(draw):
    when = {}
    if maybe(draw, 0.35):
        when["use"] = draw.choice(["private", "commercial"])
    if maybe(draw, 0.2):
        when["age-from"] = draw.choice([24, 60, 120])
    if maybe(draw, 0.12):
        when["age-until"] = draw.choice([36, 60, 180]) + when.get("age-from", 0)
    if maybe(draw, 0.1):
        when["marked"] = maybe(draw, 0.5)
    if maybe(draw, 0.06):
        when[draw.choice(["length-from", "length-below"])] = draw.choice([9, 12])
    if maybe(draw, 0.06):
        when[draw.choice(["persons-from", "persons-until"])] = draw.choice([6, 12])
    if maybe(draw, 0.06):
        when[draw.choice(["built-from", "built-until"])] = 2005
    if maybe(draw, 0.06):
        when[draw.choice(["made-from", "made-until"])] = draw.choice(["2018-01-01", "2020-06-15"])
    if maybe(draw, 0.06):
        when[draw.choice(["areas", "areas-except"])] = ["category-2", "zone-1"]
    if maybe(draw, 0.05):
        when["ratings"] = draw.sample(["SOLAS A", "SOLAS B", "ORC"], 2)
    if maybe(draw, 0.04):
        when["season-months-below"] = 7
    if maybe(draw, 0.03):
        when["dry-storage"] = maybe(draw, 0.5)
    return when


def with_shape(draw, clock):
    if maybe(draw, 0.12):
        clock["through"] = draw.choice(["month-end", "year-end"])
    elif maybe(draw, 0.06):
        clock["before"] = True
    if maybe(draw, 0.12) and clock["from"] != ["last"]:
        clock["stamp"] = "end"
    return clock


def anchors(draw):
    return draw.sample(["made", "packed", "bought", "fitted"], draw.randint(1, 3))


def interval(draw):
    if maybe(draw, 0.06):
        return {"days": draw.choice([7, 30, 90])}
    return {"months": draw.choice(MONTHS)}


def draw_clocks(draw, task):
    sort = draw.random()
    if task == "renew" and sort < 0.35:
        clock = {"from": ["marked"]}
        if maybe(draw, 0.3):
            clock["through"] = draw.choice(["month-end", "year-end"])
        elif maybe(draw, 0.2):
            clock["before"] = True
        return [clock]
    if sort < 0.45:
        return [{"from": ["event"], **({"events": draw.sample(EVENTS, 2)} if maybe(draw, 0.7) else {})}]
    if sort < 0.5:
        return [{"from": ["certificate"]}]
    if sort < 0.62:
        clock = {"from": ["last", *anchors(draw)], **interval(draw)}
        if maybe(draw, 0.15):
            clock = {"from": clock["from"], "interval": "maker"}
        return [with_shape(draw, clock)]
    if sort < 0.7:
        times = draw.randint(1, 2)
        return [
            {"from": anchors(draw), **interval(draw), "done-until": times},
            {"from": ["last"], **interval(draw), "done-from": times + 1},
        ]
    if sort < 0.75:
        return [with_shape(draw, {"from": anchors(draw), **interval(draw)})]
    first = with_shape(draw, {"from": anchors(draw), **interval(draw), "holds": "first"})
    again = with_shape(draw, {"from": ["last"], **interval(draw), "holds": "again"})
    if maybe(draw, 0.15):
        return [first, {"from": anchors(draw), "months": 24, "holds": "first"}, again]
    return [first, again]


def draw_rule(draw, number, name, earlier):
    task = draw.choice(["service"] * 4 + ["renew"] * 3 + ["test"] * 2 + TASKS)
    kinds = draw.sample(OWN_KINDS, draw.randint(1, 3))
    if maybe(draw, 0.5):
        kinds = sorted({*kinds, *draw.choice([RAFTS, JACKETS])})
    rule = {"id": f"{name}-{number}", "kinds": kinds}
    when = draw_when(draw)
    if when:
        rule["when"] = when
    rule["task"] = task
    if maybe(draw, 0.25):
        rule["counts"] = draw.sample([other for other in TASKS if other not in (task, "renew")], 1)
    rule["doer"] = draw.choice(["owner", "station", "authority"])
    rule["grade"] = draw.choice(["law", "maker", "practice", "practice"])
    if maybe(draw, 0.12):
        rule["lapse"] = "life-expired"
    rule["clocks"] = draw_clocks(draw, task)
    counted = any("last" in clock["from"] for clock in rule["clocks"])
    if counted and maybe(draw, 0.4):
        modes = ["from-due", "from-due", "from-due", "from-done"]
        rule["window"] = {"early": draw.randint(1, 3), "late": draw.randint(1, 2), "next": draw.choice(modes)}
    timed = any("months" in clock or "days" in clock for clock in rule["clocks"])
    if task in ("service", "test") and timed and maybe(draw, 0.3):
        rule["contents-bind"] = True
    if counted and maybe(draw, 0.3):
        rule["extension"] = draw.choice([1, 3, 5])
    if earlier and when and maybe(draw, 0.2):
        rule["instead-of"] = [draw.choice(earlier)]
    return {**rule, "what": "as told", "source": "an invented notice", "standing": "read"}


def draw_sheet(draw, name):
    rules = []
    for number in range(draw.randint(4, 12)):
        rules.append(draw_rule(draw, number, name, [rule["id"] for rule in rules]))
        window = rules[-1].get("window")
        if window and maybe(draw, 0.2):
            window["next"] = "from-due-even-late"
    sheet = {"sheet": name, "title": "Own", "for": "tests", "compiled": "2026-11-25"}
    if maybe(draw, 0.2):
        sheet["extends"] = draw.choice(["practice", "uk-private"])
    return {**sheet, "rules": rules}


# --- Boats ---------------------------------------------------------------------------------------


def changing(draw, today, values, chance, first=True):
    """What holds since ever, and what holds from some later days on."""
    facts = [[None, draw.choice(values)]] if first else []
    while maybe(draw, chance):
        facts.append([iso(today + draw.randint(-1200, 1500)), draw.choice(values)])
    days = [since for since, _ in facts]
    return [fact for place, fact in enumerate(facts) if fact[0] not in days[:place]]


def draw_sheets(draw, own):
    """The sheets a boat follows: none beside the one it extends."""
    sheets = draw.sample(BUILT_IN, draw.choice([0, 1, 1, 2, 3]))
    sheets += draw.sample(sorted(own), draw.choice([0, 1, 1, 2]))
    taken_over = [own[name].get("extends") for name in sheets if name in own]
    if len(set(taken_over) - {None}) < len([base for base in taken_over if base]):
        return sheets[-1:]
    return [name for name in sheets if name not in taken_over] or ["practice"]


def draw_vessel(draw, name, today, own):
    vessel = {
        "name": name,
        "sheets": [[None, draw_sheets(draw, own)]],
        "use": changing(draw, today, ["private", "commercial"], 0.4),
        "area": changing(draw, today, AREAS, 0.15, maybe(draw, 0.8)),
        "persons": changing(draw, today, [2, 6, 8, 14], 0.15, maybe(draw, 0.8)),
    }
    if maybe(draw, 0.8):
        vessel["length"] = draw.choice([5.5, 8.2, 10.45, 12, 25])
    if maybe(draw, 0.7):
        vessel["built"] = draw.choice([1988, 2004, 2005, 2019])
    if maybe(draw, 0.5):
        vessel["season-months"] = [[None, draw.choice([5, 7, 12])]]
        vessel["above-freezing"] = [[None, maybe(draw, 0.7)]]
        vessel["dry-storage"] = [[None, maybe(draw, 0.7)]]
    return vessel


# --- Gear ----------------------------------------------------------------------------------------


def stamp(draw, day):
    text = iso(day)
    sort = draw.random()
    if sort < 0.2:
        text = text[:7]
    elif sort < 0.3:
        text = text[:4]
    return text + ("~" if maybe(draw, 0.05) else "")


def draw_mark(draw, near):
    text = iso(near + draw.randint(-900, 1800))
    text = text[: draw.choice([10, 7, 7, 4])]
    return [text, draw.choice(["", "", "EXP", "before", "use by"])]


def draw_dates(draw, begun, today):
    """Dates in their order, some of them not known; none begins after today."""
    dates, day = {}, begun
    for name in ("made", "packed", "bought", "fitted"):
        if maybe(draw, 0.6 if name == "made" else 0.4):
            dates[name] = stamp(draw, day)
        day = min(today, day + draw.choice([0, 0, 20, 200, 500]))
    return dates, day


def draw_records(draw, begun, today):
    """Records about the same time each year, or at any time; no task twice on a day."""
    records, taken = [], set()
    day = begun
    main = draw.choice(["service", "service", "test", "inspect"])
    yearly = maybe(draw, 0.5)
    for _ in range(draw.choice([0, 0, 1, 1, 2, 3, 4, 6])):
        if yearly:
            day = months_on(day, draw.choice([12, 12, 12, 24])) + draw.randint(-75, 45)
        else:
            day += draw.randint(1, 900)
        if day > today:
            break
        tasks = [main] if maybe(draw, 0.8) else draw.sample([t for t in TASKS if t != "renew"], 2)
        for task in tasks:
            if (task, day) not in taken:
                taken.add((task, day))
                record = {"task": task, "day": iso(day)}
                if maybe(draw, 0.3):
                    record["next"] = iso(day + draw.randint(60, 1500))
                records.append(record)
    draw.shuffle(records)
    return records


def draw_alike(draw, today):
    """What happens in this book, each to several pieces alike and entered in this order: events and
    renewals, and makers' intervals."""
    acts, makers = [], []
    for turn in range(30):
        day = today - int(draw.random() ** 2 * 5000)
        act = {"turn": turn, "what": draw.choice([*EVENTS, "renew", "renew", "renew"]), "day": iso(day)}
        if act["what"] == "renew" and maybe(draw, 0.35):
            act.update(refit=True, expires=draw_mark(draw, day + 700))
        elif act["what"] == "renew":
            if maybe(draw, 0.6):
                act["made"] = stamp(draw, day - draw.choice([0, 40, 400]))
            if maybe(draw, 0.2):
                act["packed"] = stamp(draw, day)
            if maybe(draw, 0.6):
                act["expires"] = draw_mark(draw, day + 700)
        acts.append(act)
    for turn in range(12):
        paper = {
            "task": draw.choice(["service", "service", "test", "inspect", "renew"]),
            "months": draw.choice(MONTHS),
            "first": draw.choice([None, None, 24, 48]),
            "since": draw.choice([[], ["made"], ["packed"], ["bought"], ["fitted"], ["last"]]),
            "on": iso(today - int(draw.random() ** 2 * 3000)),
        }
        makers.append(paper)
    return acts, makers


def draw_acts(draw, begun, acts):
    """Some of what happened: no two events and no two renewals on one day."""
    taken, days = [], set()
    for act in draw.sample(acts, draw.choice([0, 0, 0, 1, 1, 2, 3])):
        key = (act["what"] == "renew", act["day"])
        if key not in days and day_of(act["day"]) >= begun:
            days.add(key)
            taken.append(act)
    return sorted(taken, key=lambda act: act["turn"])


def draw_extension(draw, begun, today):
    given = draw.randint(max(begun, today - 700), today)
    return {
        "task": draw.choice(["service", "service", "test", "renew", "inspect"]),
        "until": iso(given + draw.randint(20, 500)),
        "given": iso(given),
    }


def draw_item(draw, tag, kind, vessel, today, alike):
    begun = today - draw.randint(100, 6000)
    dates, day = draw_dates(draw, begun, today)
    item = {"tag": tag, "kind": kind, "vessel": vessel, **dates}
    if maybe(draw, 0.35):
        item["expires"] = draw_mark(draw, today)
    if maybe(draw, 0.6):
        item["rating"] = draw.choice(RATINGS)
    latest = max([day] + [period(date)[1] for date in dates.values()])
    item["records"] = draw_records(draw, min(latest, today), today)
    acts, makers = alike
    item["acts"] = draw_acts(draw, min(latest, today), acts)
    item["extensions"] = [draw_extension(draw, begun, today)] if maybe(draw, 0.06) else []
    papers = [paper for paper in makers if day_of(paper["on"]) >= begun]
    item["makers"] = [draw.choice(papers)] if papers and maybe(draw, 0.15) else []
    return item


def draw_book(draw, size):
    """A book of about so many items."""
    today = draw.randint(day_of("2023-01-01"), day_of("2028-12-31"))
    own = {name: draw_sheet(draw, name) for name in ("own-0", "own-1", "own-2")}
    book = {
        "today": iso(today),
        "sheets": own,
        "vessels": [],
        "items": [],
    }
    alike = draw_alike(draw, today)
    while len(book["items"]) < size:
        name = f"Boat {len(book['vessels'])}"
        book["vessels"].append(draw_vessel(draw, name, today, own))
        draw_gear(draw, book, name, today, alike)
    return book


def draw_gear(draw, book, vessel, today, alike):
    for _ in range(30):
        kind = draw.choice(draw.choice([OWN_KINDS, KINDS]))
        tag = f"T-{len(book['items'])}"
        book["items"].append(draw_item(draw, tag, kind, vessel, today, alike))
        for part in PARTS.get(kind, []):
            if maybe(draw, 0.3):
                own = f"T-{len(book['items'])}"
                item = draw_item(draw, own, part, vessel, today, alike)
                book["items"].append({**item, "part_of": tag})


def draw_days(draw, today, number):
    """The book's own day, days to come, and one gone by."""
    day = day_of(today)
    days = [day] + [day + draw.randint(1, 3000) for _ in range(number)] + [day - draw.randint(1, 900)]
    return [iso(day) for day in days]
