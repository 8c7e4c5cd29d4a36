#!/usr/bin/python3
"""Every figure of the shipped rule sheets, typed a second time from the same notes.

A slip of the keys in a sheet or in this table shows as a difference; so does a rule that is
in only one of the two. The sheets are read with PyYAML, which is not what the program uses.
`read`, `relayed` and so on is how far the source itself was seen.
"""
import os
import sys
import unittest
from pathlib import Path

import yaml

ROOT = Path(os.environ.get("ROOT", Path(__file__).resolve().parents[2]))
NONE = "common practice, no published source"
CP = "common practice"

RAFT = "liferaft-canister liferaft-valise"
JACKET = "lifejacket-auto lifejacket-manual"
PYRO = ("flare-red-hand flare-red-parachute flare-white-hand smoke-orange-hand "
        "smoke-orange-buoyant")
STORED = "extinguisher-powder extinguisher-foam extinguisher-water"
GAS = "extinguisher-co2 extinguisher-clean-agent"
BEACON = "epirb plb"
SEMI = "extinguisher-semiportable"
FLOAT = "buoyant-apparatus-inflatable"
AERIAL = "flare-red-aerial"
MOB = "danbuoy-inflatable recovery-module"

# kinds | use | task | clocks: anchors interval when | standing | source
# An interval is in months, or days with a d. "when" is first, again or always.
PRACTICE = {
    # Raft, private: first by 36 after packing, then 24, then 12 once ten years old.
    "raft-service-private": (f"{RAFT} {FLOAT}", "private", "service",
                             "packed,made 36 first; last 24 again", CP, NONE),
    "raft-service-private-aged": (f"{RAFT} {FLOAT}", "private", "service",
                                  "packed,made 12 first; last 12 again", CP, NONE),
    "raft-service-commercial": (f"{RAFT} {FLOAT}", "commercial", "service",
                                "packed,made 12 first; last 12 again", CP, NONE),
    "raft-after-firing": (f"{RAFT} {FLOAT}", "", "service", "event", CP, NONE),
    "raft-cylinder-test": (f"{RAFT} {FLOAT}", "", "test", "last,made,packed 60 always", CP, NONE),
    "raft-contents-renew": ("raft-contents", "", "renew", "marked", CP,
                            "MSC.1/Circ.1328 6.1.5"),
    "hydrostatic-release-renew": ("hydrostatic-release", "", "renew",
                                  "fitted 24 first; last 24 again", CP,
                                  "46 CFR 185.740(b)"),
    # Gear that had no kind: yearly looks of other vessels, premix every 3 years, and else
    # the date on it.
    "life-float-look": ("life-float", "", "inspect", "last,fitted,bought,made 12 always",
                        CP, "46 CFR 28.140 and 131.575"),
    "immersion-suit-look": ("immersion-suit", "", "inspect", "last,bought,made 12 always",
                            CP, "46 CFR 28.140"),
    "foam-premix-renew": ("foam-premix", "", "renew", "made,fitted 36 first; last 36 again",
                          CP, "46 CFR Table 176.810(b)(2)"),
    "line-thrower-marked": ("line-thrower", "", "renew", "marked", CP, NONE),
    "dated-gear-marked": ("electric-distress-light distress-light-battery dye-marker "
                          "thermal-aid fire-blanket defibrillator oxygen foghorn-gas "
                          "foghorn-canister radio-battery grab-bag gas-detector", "",
                          "renew", "marked", CP, NONE),
    # Inflatable lifejackets: 24 private, 12 commercial; looked over yearly; 10 years.
    "lifejacket-service-private": (JACKET, "private", "service",
                                   "bought,made 24 first; last 24 again", CP, NONE),
    "lifejacket-service-commercial": (JACKET, "commercial", "service",
                                      "bought,made 12 first; last 12 again", CP, NONE),
    "lifejacket-after-inflation": (JACKET, "", "service", "event", CP, NONE),
    "lifejacket-check": (JACKET, "", "inspect", "last,bought,made 12 always", CP, NONE),
    "lifejacket-weekly-look": (JACKET, "commercial", "test",
                               "last,bought,made 7d always", CP, NONE),
    "lifejacket-life": (JACKET, "", "renew", "made 120 always", CP, NONE),
    "cylinder-weigh": ("gas-cylinder", "", "weigh",
                       "last,fitted,bought,made 12 always", CP, NONE),
    # Firing heads: printed, or 36 (soluble) and 60 (hydrostatic): the shorter.
    "firing-head-marked": ("firing-head", "", "renew", "marked", CP, NONE),
    "firing-head-unmarked": ("firing-head", "", "renew", "made 36 always", CP, NONE),
    "lifejacket-light-marked": ("lifejacket-light", "", "renew", "marked", CP, NONE),
    "lifejacket-light-unmarked": ("lifejacket-light", "", "renew", "made 60 always", CP,
                                  NONE),
    "flare-marked": (f"{PYRO} {AERIAL}", "", "renew", "marked", CP, NONE),
    "flare-unmarked": (f"{PYRO} {AERIAL}", "", "renew", "made 36 always", CP, NONE),
    # Extinguishers: monthly look, 12 service, 60 extended (gas 120), scrap by 240.
    "extinguisher-look": (f"{STORED} {GAS} extinguisher-fixed {SEMI} extinguisher-disposable",
                          "", "inspect", "last,bought,made 1 always", CP, NONE),
    "extinguisher-service": (f"{STORED} {GAS} extinguisher-fixed {SEMI}", "", "service",
                             "bought,made 12 first; last 12 again", CP, NONE),
    "extinguisher-extended": (f"{STORED} extinguisher-fixed {SEMI}", "", "test",
                              "made 60 first; last 60 again", CP, NONE),
    "extinguisher-overhaul-gas": (GAS, "", "test", "made 120 first; last 120 again", CP,
                                  NONE),
    "extinguisher-life": (f"{STORED} {GAS} extinguisher-fixed {SEMI} extinguisher-disposable",
                          "", "renew", "made 240 always", CP, NONE),
    "extinguisher-disposable-marked": ("extinguisher-disposable", "", "renew", "marked",
                                       CP, NONE),
    "extinguisher-after-use": (f"{STORED} {GAS} extinguisher-fixed {SEMI}", "", "service",
                               "event", CP, NONE),
    "extinguisher-disposable-after-use": ("extinguisher-disposable", "", "renew",
                                          "event", CP, NONE),
    "beacon-self-test": (BEACON, "", "test", "last,fitted,bought,made 1 always", CP,
                         NONE),
    "beacon-battery": (f"{BEACON} ais-beacon sart", "", "renew", "marked", CP, NONE),
    "beacon-battery-alone": ("beacon-battery", "", "renew", "marked", CP, NONE),
    "beacon-after-use": (f"{BEACON} ais-beacon sart", "", "renew", "event", CP, NONE),
    "beacon-check-commercial": (BEACON, "commercial", "inspect",
                                "last,fitted,bought,made 12 always", CP, NONE),
    "beacon-register": (BEACON, "", "register", "bought,fitted,made 0 first", CP, NONE),
    "inflatable-mob-service-private": (MOB, "private", "service",
                                       "bought,made 24 first; last 24 again", CP, NONE),
    "inflatable-mob-service-commercial": (MOB, "commercial", "service",
                                          "bought,made 12 first; last 12 again", CP,
                                          NONE),
    "inflatable-mob-after-inflation": (MOB, "", "service", "event", CP, NONE),
    # Webbing: 10 years private, 5 commercial.
    "webbing-private": ("tether jackstay", "private", "renew", "made,bought 120 always",
                        CP, NONE),
    "webbing-commercial": ("tether jackstay", "commercial", "renew",
                           "made,bought 60 always", CP, NONE),
    "lifebuoy-light-cells": ("lifebuoy-light", "", "renew",
                             "last,fitted,bought 12 always", CP, NONE),
    "first-aid-look": ("first-aid-kit", "", "inspect", "last,bought,made 12 always", CP,
                       NONE),
    "medicine-marked": ("medicine", "", "renew", "marked", CP, NONE),
    "gas-hose": ("gas-hose", "", "renew", "made 60 always", CP, NONE),
    "gas-regulator": ("gas-regulator", "", "renew", "made 120 always", CP, NONE),
    "co-alarm-marked": ("co-alarm", "", "renew", "marked", CP, NONE),
    "co-alarm-unmarked": ("co-alarm", "", "renew", "made,bought 60 always", CP, NONE),
    "smoke-alarm-marked": ("smoke-alarm", "", "renew", "marked", CP, NONE),
    "smoke-alarm-unmarked": ("smoke-alarm", "", "renew", "made,bought 120 always", CP,
                             NONE),
}

US_RECREATIONAL = {
    "us-signal-marked": (f"flare-red-hand flare-red-parachute {AERIAL} smoke-orange-hand "
                         "smoke-orange-buoyant", "private", "renew", "marked", "read",
                         "33 CFR 175.125"),
    "us-parachute-flare-unmarked": ("flare-red-parachute", "private", "renew",
                                    "made 42 always month-end", "read",
                                    "46 CFR 160.024-5(b) and 160.036-5(b)"),
    "us-signal-unmarked": (f"flare-red-hand {AERIAL} smoke-orange-hand "
                           "smoke-orange-buoyant", "private", "renew",
                           "made 42 always month-end", "read",
                           "46 CFR 160.021-5(b), 160.022-5(c), 160.037-5(b), "
                           "160.057-5(c) and 160.066-10"),
    # Twelve years; a stamp of the year alone is out by 31 December of the twelfth.
    "us-extinguisher-disposable-12-years": ("extinguisher-disposable", "private", "renew",
                                            "made 144 always stamp-end", "relayed",
                                            "33 CFR 175.310 as amended by 86 FR 58560"),
    "us-extinguisher-service": (f"{STORED} {GAS}", "private", "service",
                                "bought,made 12 first; last 12 again", "relayed",
                                "Coast Guard Q&A"),
    "us-beacon-register": (BEACON, "", "register", "bought,fitted,made 0 first", "read",
                           "47 CFR 80.1061 and 95.2905"),
    "us-beacon-register-again": (BEACON, "", "register", "last 24 again", "relayed",
                                 "NOAA programme rule"),
    "us-co-alarm-marked": ("co-alarm", "", "renew", "marked", "relayed", "ABYC A-24"),
    "us-co-alarm-unmarked": ("co-alarm", "", "renew", "fitted,bought 60 always",
                             "relayed", "CPSC"),
    "us-smoke-alarm": ("smoke-alarm", "", "renew", "made 120 always", "relayed", "CPSC"),
}

PORTABLE = ("extinguisher-powder extinguisher-foam extinguisher-co2 "
            "extinguisher-clean-agent extinguisher-disposable")
SHORT = {"RAFT": RAFT, "JACKET": JACKET, "PYRO": PYRO, "STORED": STORED, "GAS": GAS,
         "BEACON": BEACON, "WEAR": JACKET + " lifejacket-foam", "PORTABLE": PORTABLE,
         "SMOKE": "smoke-orange-hand smoke-orange-buoyant"}
OLDER = "read, older edition or sibling section"

# What a boat must have something of, or be told whom to ask, and the kinds of it.
SUBJECTS = {
    "raft": RAFT.split(),
    "lifejackets": f"{JACKET} lifejacket-foam".split(),
    "beacons": f"{BEACON} ais-beacon sart".split(),
    "visual-signals": f"{PYRO} {AERIAL} electric-distress-light distress-flag".split(),
    "extinguishers": f"{STORED} {GAS} {SEMI} extinguisher-disposable extinguisher-fixed"
                     .split(),
    "lifebuoy": f"{MOB} lifebuoy throwable-cushion heaving-line".split(),
    "tethers": "tether harness jackstay".split(),
    "first-aid": ["first-aid-kit"],
    "sound-radio": "vhf-fixed vhf-portable foghorn-gas whistle bell".split(),
}

# What the table above has no column for.
AGE_FROM = {"raft-service-private-aged": 120}
LIFE = {"lifejacket-life", "extinguisher-life", "webbing-private", "webbing-commercial",
        "gas-hose", "gas-regulator"}


PARTS = ("rules", "carriage", "not-stated")


def read_sheet(name, part="rules"):
    """One of the lists of a sheet, by id."""
    text = (ROOT / "data/sheets" / f"{name}.yaml").read_text(encoding="utf-8")
    return {entry["id"]: entry for entry in yaml.safe_load(text).get(part, [])}


def clock_words(clock):
    """A clock as the tables above write it."""
    anchors = ",".join(clock["from"])
    if anchors in ("marked", "event"):
        words = [anchors, ",".join(clock.get("events", []))]
        return " ".join(filter(None, words + ["before" if clock.get("before") else ""]))
    interval = f"{clock['days']}d" if "days" in clock else str(clock.get("months"))
    interval = clock.get("interval", interval)
    words = [anchors, interval, times_words(clock)]
    words += [clock["through"]] if "through" in clock else []
    words += ["stamp-end"] if clock.get("stamp") == "end" else []
    return " ".join(words + (["before"] if clock.get("before") else []))


def times_words(clock):
    """When it holds: first, again, always, or "done N-M" by how often it was done."""
    if "done-from" not in clock and "done-until" not in clock:
        return clock.get("holds", "always")
    return f"done {clock.get('done-from', 0)}-{clock.get('done-until', '')}"


def rule_row(rule):
    return (sorted(rule["kinds"]), rule.get("when", {}).get("use", ""), rule["task"],
            sorted(clock_words(clock) for clock in rule["clocks"]), rule["standing"])


def more_words(rule):
    """What sheet_rows.txt says after the source."""
    when = rule.get("when", {})
    window = rule.get("window")
    restarts = window and not window.get("next", "").startswith("from-due")
    words = {
        f"age {when.get('age-from')}": "age-from" in when,
        "marked": when.get("marked") is True,
        "unmarked": when.get("marked") is False,
        "life": rule.get("lapse") == "life-expired",
        f"extension {rule.get('extension')}": "extension" in rule,
        "contents": rule.get("contents-bind") is True,
        f"age until {when.get('age-until')}": "age-until" in when,
        f"season {when.get('season-months-below')}": "season-months-below" in when,
        "above freezing": when.get("above-freezing") is True,
        "dry": when.get("dry-storage") is True,
        f"test valid {when.get('test-valid')}": "test-valid" in when,
        f"window {(window or {}).get('early', 0)} {(window or {}).get('late', 0)}"
        f"{' restarts' if restarts else ''}": window,
        "even late": (window or {}).get("next") == "from-due-even-late",
    }
    words = {word for word, holds in words.items() if holds}
    words |= {f"area {area}" for area in when.get("areas", [])}
    return words | {f"rating {rating}" for rating in when.get("ratings", [])}


def spell_out(words):
    """Kinds with the short words of sheet_rows.txt written out."""
    return sorted(" ".join(SHORT.get(word, word) for word in words.split()).split())


def row_of(cells):
    """The cells of a rule or of a carriage line, after its id."""
    cells[-1] = OLDER if cells[-1] == "OLDER" else cells[-1]
    if "=" not in cells[2]:
        return (spell_out(cells[0]), cells[1], cells[2], sorted(cells[3].split("; ")),
                cells[4])
    serves = sorted((spell_out(entry.split("=")[0]), entry.split("=")[1])
                    for entry in cells[2].split(", "))
    return (cells[0], cells[1], serves, cells[3])


def read_rows(carriage):
    """sheet_rows.txt: for each sheet its rules or lines, id -> (row, rest of it)."""
    sheets = {}
    path = Path(__file__).resolve().parent / "sheet_rows.txt"
    for line in path.read_text(encoding="ascii").splitlines():
        if not line or line.startswith("#"):
            continue
        if line.startswith("== "):
            rows = {}
            if line.endswith(" carriage") == carriage:
                rows = sheets.setdefault(line[3:].removesuffix(" carriage"), {})
        elif line.startswith("  "):
            rows[rule_id] = (row, line.strip().split("; "))
        else:
            cells = [cell.strip() for cell in line.split(": ", 1)[1].split("|")]
            rule_id, row = cells[0], row_of(cells[1:])
            assert rule_id not in rows, rule_id
    return sheets


def split_more(parts):
    starts = ("age ", "marked", "unmarked", "life", "extension ", "contents", "window ",
              "even late", "area ", "rating ", "season ", "above freezing", "dry", "test valid ")
    more = {part for part in parts if part.startswith(starts)}
    return [part for part in parts if part not in more], more


def centimetres(words, feet):
    """A limit of length as a book has it: 16 feet are 488 cm; over 26 feet, 26+, 793."""
    if not words:
        return None
    number = float(words.rstrip("+")) * (30.48 if feet else 100)
    return round(number) + words.count("+")


def need_words(need):
    words = [str(need["points"])] if "points" in need else []
    words += [f"{need['per-person']} each"] if "per-person" in need else []
    words += [f"{need['percent']}%"] if "percent" in need else []
    words += [f"plus {need['plus']}"] if "plus" in need else []
    return " ".join(words + (["largest lost"] if need.get("without-largest") else []))


def worth_words(entry):
    points = "cap" if entry["points"] == "capacity" else str(entry["points"])
    points += f"@{entry['rating']}" if "rating" in entry else ""
    return points + (f"<{entry['at-most']}" if "at-most" in entry else "")


def line_row(line):
    return (line.get("when", {}).get("use", ""), need_words(line["need"]),
            sorted((sorted(entry["kinds"]), worth_words(entry))
                   for entry in line["serves"]), line["standing"])


def line_rest(line):
    """What a row says after its source, the lengths in centimetres."""
    when = line.get("when", {})
    lengths = [when.get("length-from"), when.get("length-below")]
    rest = {f"area {area}" for area in when.get("areas", [])}
    rest |= {f"not area {area}" for area in when.get("areas-except", [])}
    rest |= {f"place {place}" for place in line.get("places", [])}
    rest |= {f"{key} {line[name]}" for key, name in (("group", "any-of"), ("way", "way"))
             if name in line}
    if "persons-from" in when or "persons-until" in when:
        rest.add(f"persons {when.get('persons-from', '')}-{when.get('persons-until', '')}")
    if lengths != [None, None]:
        rest.add(tuple(length and round(length * 100) for length in lengths))
    known = {"use", "areas", "areas-except", "persons-from", "persons-until",
             "length-from", "length-below"}
    assert set(when) <= known, when
    return rest


def rest_of(parts):
    starts = ("area ", "not area ", "feet ", "metres ", "persons ", "place ", "group ",
              "way ")
    rest = set()
    for part in parts:
        if part.startswith(("feet ", "metres ")):
            limits = part.split()[1].replace("+-", "+~").replace("-", "~", 1).split("~")
            limits = [limit for limit in limits if limit or len(limits) == 2]
            rest.add(tuple(centimetres(limit, part.startswith("feet"))
                           for limit in limits))
        elif part.startswith(starts):
            rest.add(part)
    return [part for part in parts if not part.startswith(starts)], rest


class Figures(unittest.TestCase):
    maxDiff = None

    def compare(self, name, table):
        rules = read_sheet(name)
        self.assertEqual(sorted(rules), sorted(table))
        for rule_id, (kinds, use, task, clocks, standing, source) in table.items():
            with self.subTest(rule=rule_id):
                rule = rules[rule_id]
                found = [words.split(" ")[0] if words.startswith("event ") else words
                         for words in rule_row(rule)[3]]
                self.assertEqual((*rule_row(rule)[:3], found, rule["standing"]),
                                 (sorted(kinds.split()), use, task,
                                  sorted(clocks.split("; ")), standing))
                self.assertIn(source, rule["source"])
                self.assertEqual(rule.get("when", {}).get("age-from"),
                                 AGE_FROM.get(rule_id))
                self.assertEqual(rule.get("lapse") == "life-expired", rule_id in LIFE)
                self.check_marked(rule_id, rule)

    def check_marked(self, rule_id, rule):
        """An unmarked default never holds beside a mark, nor the other way round."""
        marked = rule.get("when", {}).get("marked")
        if rule_id.endswith("-unmarked"):
            self.assertIs(marked, False)
        elif marked is not None:
            self.assertIs(marked, True)

    def test_common_practice(self):
        self.compare("practice", PRACTICE)

    def test_united_states_recreational(self):
        self.compare("us-recreational", US_RECREATIONAL)

    def test_sheets_of_single_flags_and_rules(self):
        for name, rows in read_rows(False).items():
            rules = read_sheet(name)
            self.assertEqual(sorted(rules), sorted(rows), name)
            for rule_id, (row, parts) in rows.items():
                with self.subTest(sheet=name, rule=rule_id):
                    rule = rules[rule_id]
                    sources, more = split_more(parts)
                    self.assertEqual(rule_row(rule), row)
                    grades = [part for part in sources if part.startswith("grade ")]
                    sources = [part for part in sources if part not in grades]
                    self.assertEqual(more_words(rule), more)
                    if grades:
                        self.assertEqual([f"grade {rule['grade']}"], grades)
                    for source in sources:
                        self.assertIn(source, rule["source"])
                    self.check_marked(rule_id, rule)

    def test_every_sheet_is_typed_twice_and_every_id_is_its_own(self):
        names = {path.stem for path in (ROOT / "data/sheets").glob("*.yaml")}
        self.assertEqual(names, {"practice", "us-recreational", *read_rows(False)})
        ids = [rule_id for name in names for part in PARTS
               for rule_id in read_sheet(name, part)]
        self.assertEqual(len(ids), len(set(ids)))

    def test_what_must_be_carried(self):
        rows = read_rows(True)
        names = {path.stem for path in (ROOT / "data/sheets").glob("*.yaml")}
        self.assertEqual(set(rows), {name for name in names
                                     if read_sheet(name, "carriage")})
        for name, lines in rows.items():
            found = read_sheet(name, "carriage")
            self.assertEqual(sorted(found), sorted(lines), name)
            for line_id, (row, parts) in lines.items():
                with self.subTest(sheet=name, line=line_id):
                    sources, rest = rest_of(parts)
                    self.assertEqual(line_row(found[line_id]), row)
                    self.assertEqual(line_rest(found[line_id]), rest)
                    for source in sources:
                        self.assertIn(source, found[line_id]["source"])

    def test_whom_to_ask_is_said_of_every_subject_not_stated(self):
        for path in sorted((ROOT / "data/sheets").glob("*.yaml")):
            for entry in read_sheet(path.stem, "not-stated").values():
                with self.subTest(sheet=path.stem, subject=entry["id"]):
                    self.assertTrue(entry["ask"] and entry["subject"])
                    self.assertTrue("kinds" in entry or entry.get("carriage")
                                    or entry.get("about"))

    def test_every_sheet_speaks_of_every_subject_or_says_whom_to_ask(self):
        for path in sorted((ROOT / "data/sheets").glob("*.yaml")):
            spoken = {subject for entry in read_sheet(path.stem, "not-stated").values()
                      if set(entry.get("when", {})) <= {"use"}
                      for subject in entry.get("about", [])}
            spoken |= {subject for line in read_sheet(path.stem, "carriage").values()
                       if set(line.get("when", {})) <= {"use"}
                       for subject, kinds in SUBJECTS.items()
                       for entry in line["serves"] if set(kinds) & set(entry["kinds"])}
            self.assertEqual(spoken, set(SUBJECTS), path.stem)

    def test_common_practice_speaks_of_every_kind(self):
        text = (ROOT / "data/kinds.yaml").read_text(encoding="utf-8")
        kinds = {kind["id"] for kind in yaml.safe_load(text)["kinds"]}
        spoken = {kind for part in ("rules", "not-stated")
                  for entry in read_sheet("practice", part).values()
                  for kind in entry.get("kinds", [])}
        self.assertEqual(spoken, kinds)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
