"""The program's muster beside a second one (second_muster.py), over fleets drawn at random: lots
that were split, boats that left, working parts that are lapsed, ashore or gone, hired stand-ins,
extras in reserve, boats that change their use and follow several sheets.

    python3 tests/outside/second_fleet_test.py build/plain/src/cli/becket

TESTS_SCALE=16 counts over 16,000 vessel-days. Not drawn, for the second muster leaves it out:
routines that a boat keeps in the book, lines that can't be told, a pyrotechnic without a mark.

The first differences of a fleet are told, to be settled by reading the description.
"""
import copy
import json
import random
import re
import sys
from pathlib import Path

import yaml

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BECKET, ROOT, check, end, scaled, scratch  # noqa: E402
from second_book import Refused, Written, stories, without  # noqa: E402
from second_draw import AREAS, PARTS, changing, draw_alike, draw_item, draw_sheet, draw_sheets, maybe  # noqa: E402
from second_muster import Muster, Piece  # noqa: E402
from second_reckoning import Seen, Shelf, day_of, iso  # noqa: E402

SHEETS = ROOT / "data" / "sheets"
FLEETS, BOATS, DAYS = 5, 25, 9
PYROTECHNICS = ("flare-red-hand", "flare-red-parachute", "smoke-orange-hand", "flare-white-hand")
KINDS = [
    "liferaft-valise", "lifejacket-auto", "lifejacket-manual", "epirb", "flare-red-hand",
    "flare-red-parachute", "smoke-orange-hand", "extinguisher-powder", "lifebuoy", "tether",
    "first-aid-kit", "liferaft-canister", "plb", "danbuoy-inflatable",
]
RATINGS = ["5-B", "20-B", "13A/113B", "SOLAS A", "ISO 9650", "150 N"]


# --- Drawing
# ---------------------------------------------------------------------------------------


def draw_line(draw, sheet, number):
    """A carriage line of one's own; some have a limit, a place, alternatives or go by persons."""
    kinds = draw.sample(KINDS, draw.choice([1, 2, 3]))
    need = draw.choice([{"points": draw.randint(1, 6)}, {"per-person": 1}, {"per-person": 1, "percent": 10},
                        {"per-person": 1, "plus": 2}])
    serves = []
    for kind in kinds:
        entry = {"kinds": [kind], "points": draw.choice([1, 1, 2, 3])}
        if kind in PARTS and kind.startswith("liferaft") and maybe(draw, 0.6):
            entry["points"] = "capacity"
        elif maybe(draw, 0.2):
            entry["at-most"] = draw.randint(entry["points"], 4)
        serves.append(entry)
    line = {"id": f"{sheet}-{number}", "title": "Own", "need": need, "serves": serves}
    if maybe(draw, 0.15):
        line["need"] = {**need, "without-largest": True}
    if maybe(draw, 0.3):
        line["when"] = {"use": draw.choice(["private", "commercial"])}
    if maybe(draw, 0.3):
        line["any-of"] = sheet + draw.choice(["-one", "-two"])
    return {**line, "source": "an invented notice", "standing": "read"}


def draw_vessel(draw, name, today, own):
    """All that a line may ask for is known of her."""
    return {
        "name": name,
        "sheets": [[None, ["easy"] if maybe(draw, 0.5) else draw_sheets(draw, own)]],
        "use": changing(draw, today, ["private", "commercial"], 0.5),
        "area": changing(draw, today, AREAS, 0.15),
        "persons": changing(draw, today, [2, 6, 8, 14], 0.3),
        "length": draw.choice([5.5, 8.2, 10.45, 12, 25]),
        "built": draw.choice([1988, 2004, 2005, 2019]),
    }


def draw_piece(draw, tag, kind, vessel, today, alike):
    item = draw_item(draw, tag, kind, vessel, today, alike)
    item["rating"] = draw.choice(RATINGS)
    item["capacity"] = draw.choice([4, 6, 8])
    item["place"] = draw.choice(["saloon", "cockpit", "engine room"])
    item["quantity"] = 1
    item["state"] = draw.choices(["aboard", "reserve", "landed", "stand-in"], [84, 5, 4, 7])[0]
    if item["state"] == "stand-in" and maybe(draw, 0.7):
        item["hired_until"] = iso(today + draw.randint(-100, 900))
    if kind in PYROTECHNICS and not item.get("expires"):
        item["expires"] = [iso(today + draw.randint(-300, 1500))[:7], ""]
    if kind in PYROTECHNICS:
        item["acts"] = []
    return item


def draw_gear(draw, book, vessel, today, alike):
    for _ in range(draw.randint(6, 12)):
        kind, tag = draw.choice(KINDS), f"T-{len(book['items'])}"
        item = draw_piece(draw, tag, kind, vessel, today, alike)
        book["items"].append(item)
        parts = [part for part in PARTS.get(kind, []) if maybe(draw, 0.4)]
        if not parts and maybe(draw, 0.5):
            item["quantity"] = draw.randint(2, 7)
        for part in parts if item["state"] == "aboard" else []:
            own = draw_piece(draw, f"T-{len(book['items'])}", part, vessel, today, alike)
            own.update(part_of=tag, hired_until=None)
            own["state"] = draw.choices(["aboard", "landed", "withdrawn"], [80, 8, 12])[0]
            book["items"].append(own)


def routines(vessel, kind, shelf):
    """The tasks that some sheet of a boat's has as a routine for a kind."""
    sheets = vessel["sheets"][0][1]
    rules = [rule for name in sheets for rule in shelf.sheet(name)["rules"].values()]
    return {rule["task"] for rule in rules if kind in rule["kinds"] and Seen.routine(rule)}


def forget_routines(book, shelf):
    """No boat drawn keeps a routine in the book: what is recorded of one is not drawn."""
    vessels = {vessel["name"]: vessel for vessel in book["vessels"]}
    for item in book["items"]:
        kept = routines(vessels[item["vessel"]], item["kind"], shelf)
        for name in ("records", "makers", "extensions"):
            item[name] = [what for what in item[name] if what["task"] not in kept]
        item["acts"] = [act for act in item["acts"] if act["what"] not in kept]
        item["makers"] = [paper for paper in item["makers"] if paper["months"] >= 12]


def recorded(item):
    return {record["task"] for record in item["records"]} | {act["what"] for act in item["acts"]}


def draw_fleet(draw):
    today = draw.randint(day_of("2024-01-01"), day_of("2028-12-31"))
    own = {}
    for name in ("own-0", "own-1", "own-2"):
        lines = [draw_line(draw, name, number) for number in range(draw.randint(4, 8))]
        own[name] = {**draw_sheet(draw, name), "carriage": lines}
    easy = {**draw_sheet(draw, "easy"), "carriage": [draw_line(draw, "easy", n) for n in range(2)]}
    for line in easy["carriage"]:
        line["need"] = {"points": 1}
    own["easy"] = {name: what for name, what in easy.items() if name != "extends"}
    book = {"today": iso(today), "sheets": own, "vessels": [], "items": []}
    alike = draw_alike(draw, today)
    for number in range(BOATS):
        name = f"Boat {number}"
        book["vessels"].append(draw_vessel(draw, name, today, own))
        draw_gear(draw, book, name, today, alike)
    return book


# --- Writing
# ---------------------------------------------------------------------------------------


class Fleet(Written):
    """A drawn book written by the program, with lots split and boats that left after that."""

    def row(self, item, turn):
        row = super().row(item, turn)
        if row and turn == 0:
            row.update({name: item[name] for name in ("quantity", "place", "capacity", "state")})
            row["hired_until"] = item.get("hired_until") or ""
        return row

    def split(self, draw, book, shelf):
        """Moves a part of some lots to another boat, not to one where it would begin a routine; the
        book is told the same."""
        for lot in [item for item in book["items"] if item["quantity"] > 1]:
            vessel = draw.choice(book["vessels"])
            to = vessel["name"]
            begins = routines(vessel, lot["kind"], shelf) & recorded(lot)
            if to == lot["vessel"] or begins or not maybe(draw, 0.4):
                continue
            piece = copy.deepcopy(lot)
            piece.update(vessel=to, quantity=draw.randint(1, lot["quantity"] - 1))
            said = self.run("move", lot["tag"], "--quantity", str(piece["quantity"]), "--vessel", to)
            piece["tag"] = re.search(r"(?:is|are) (\S+) now", said).group(1)
            lot["quantity"] -= piece["quantity"]
            # where aboard a thing was kept is forgotten, as the help of `move` says
            piece["place"] = ""
            book["items"].append(piece)

    def leave(self, draw, book):
        """What was hired is given back first, so that no boat leaves with a stand-in aboard."""
        hiring = {item["vessel"] for item in book["items"] if item["state"] == "stand-in"}
        for vessel in book["vessels"]:
            if vessel["name"] not in hiring and maybe(draw, 0.15):
                day = iso(day_of(book["today"]) + draw.randint(-200, 900))
                vessel["left"] = day
                self.run("vessel", vessel["name"], "--left", day, "--because", "sold", "--gear", "with-her")

    def muster(self, day):
        answer = json.loads(self.run("muster", "--on", day, "--json", fine=(0, 1)))
        return {boat["vessel"]: boat for boat in answer["vessels"]}


# --- Comparing
# -------------------------------------------------------------------------------------


def pairs():
    with open(ROOT / "data" / "kinds.yaml", encoding="utf-8") as file:
        kinds = yaml.safe_load(file)["kinds"]
    return {(kind["id"], part) for kind in kinds for part in kind.get("working-parts", [])}


def second(book, shelf):
    items = stories(book)
    pieces = [
        Piece(items[told["tag"]], told["quantity"], told["state"], told["place"], told["capacity"],
              told.get("part_of"), day_of(told["hired_until"]) if told.get("hired_until") else None)
        for told in book["items"]
    ]
    vessels = {item.vessel.name: item.vessel for item in items.values()}
    return Muster(shelf, pieces, pairs()), vessels


def compare_boat(muster, vessel, t, boat):
    """The lines that differ, as (line, the program's, the second muster's)."""
    found, ok = muster.vessel(vessel, t)
    said = {row["line"]: (row["need"], row["have"], set(row["counted"])) for row in boat["lines"]}
    wrong = [(line, said.get(line), found.get(line)) for line in sorted(set(said) | set(found))
             if said.get(line) != found.get(line)]
    if found and ok != boat["ok"]:
        wrong.append(("all right", boat["ok"], ok))
    return wrong


def differences(draw, folder):
    """(vessel-days, of them all right, what differs)."""
    book = draw_fleet(draw)
    shelf = Shelf(Path(folder) / "sheets", SHEETS)
    Path(folder, "sheets").mkdir()
    for name, sheet in book["sheets"].items():
        Path(folder, "sheets", name + ".yaml").write_text(yaml.safe_dump(sheet), encoding="utf-8")
    forget_routines(book, shelf)
    fleet = Fleet(BECKET, folder, book)
    book = without(book, fleet.refused)
    fleet.split(draw, book, shelf)
    fleet.leave(draw, book)
    left = {vessel["name"]: vessel.get("left") for vessel in book["vessels"]}
    muster, vessels = second(book, Shelf(Path(folder) / "sheets", SHEETS))
    count, fine, wrong = 0, 0, []
    for t in [day_of(book["today"]) + draw.randint(0, 1500) for _ in range(DAYS)]:
        said = fleet.muster(iso(t))
        for name, vessel in vessels.items():
            here = left[name] is None or t < day_of(left[name])
            if here != (name in said):
                wrong.append((iso(t), name, "left", left[name]))
            elif here:
                count, fine = count + 1, fine + said[name]["ok"]
                wrong += [(iso(t), name, *one) for one in compare_boat(muster, vessel, t, said[name])]
    return count, fine, wrong


def main():
    count = fine = 0
    for seed in range(scaled(FLEETS)):
        with scratch() as folder:
            try:
                days, right, wrong = differences(random.Random(seed), folder)
            except Refused as refusal:
                days, right, wrong = 0, 0, [("refused", str(refusal))]
        count, fine = count + days, fine + right
        check(f"fleet {seed}: {days} vessel-days, {right} all right", not wrong,
              f"{len(wrong)} differ: day, boat, line, the program's, the second muster's\n"
              + "\n".join(map(str, wrong[:8])))
    check(f"{count} vessel-days, {fine} of them all right", count > 0 and fine > 0, "nothing was compared")
    end()


if __name__ == "__main__":
    main()
