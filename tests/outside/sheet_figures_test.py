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
MOB = "danbuoy-inflatable recovery-module"

# kinds | use | task | clocks: anchors interval when | standing | source
# An interval is in months, or days with a d. "when" is first, again or always.
PRACTICE = {
    # Raft, private: first by 36 after packing, then 24, then 12 once ten years old.
    "raft-service-private": (RAFT, "private", "service",
                             "packed,made 36 first; last 24 again", CP, NONE),
    "raft-service-private-aged": (RAFT, "private", "service",
                                  "packed,made 12 first; last 12 again", CP, NONE),
    "raft-service-commercial": (RAFT, "commercial", "service",
                                "packed,made 12 first; last 12 again", CP, NONE),
    "raft-after-firing": (RAFT, "", "service", "event", CP, NONE),
    "raft-cylinder-test": (RAFT, "", "test", "last,made,packed 60 always", CP, NONE),
    "raft-contents-renew": ("raft-contents", "", "renew", "marked", CP,
                            "MSC.1/Circ.1328 6.1.5"),
    "hydrostatic-release-renew": ("hydrostatic-release", "", "renew",
                                  "fitted 24 first; last 24 again", CP, NONE),
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
    "flare-marked": (PYRO, "", "renew", "marked", CP, NONE),
    "flare-unmarked": (PYRO, "", "renew", "made 36 always", CP, NONE),
    # Extinguishers: monthly look, 12 service, 60 extended (gas 120), scrap by 240.
    "extinguisher-look": (f"{STORED} {GAS} extinguisher-fixed extinguisher-disposable",
                          "", "inspect", "last,bought,made 1 always", CP, NONE),
    "extinguisher-service": (f"{STORED} {GAS} extinguisher-fixed", "", "service",
                             "bought,made 12 first; last 12 again", CP, NONE),
    "extinguisher-extended": (f"{STORED} extinguisher-fixed", "", "test",
                              "made 60 first; last 60 again", CP, NONE),
    "extinguisher-overhaul-gas": (GAS, "", "test", "made 120 first; last 120 again", CP,
                                  NONE),
    "extinguisher-life": (f"{STORED} {GAS} extinguisher-fixed extinguisher-disposable",
                          "", "renew", "made 240 always", CP, NONE),
    "extinguisher-disposable-marked": ("extinguisher-disposable", "", "renew", "marked",
                                       CP, NONE),
    "extinguisher-after-use": (f"{STORED} {GAS} extinguisher-fixed", "", "service",
                               "event", CP, NONE),
    "extinguisher-disposable-after-use": ("extinguisher-disposable", "", "renew",
                                          "event", CP, NONE),
    "beacon-self-test": (BEACON, "", "test", "last,fitted,bought,made 1 always", CP,
                         NONE),
    "beacon-battery": (f"{BEACON} ais-beacon sart beacon-battery", "", "renew", "marked",
                       CP, NONE),
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
    "us-signal-marked": ("flare-red-hand flare-red-parachute smoke-orange-hand "
                         "smoke-orange-buoyant", "private", "renew", "marked", "read",
                         "33 CFR 175.125"),
    "us-parachute-flare-unmarked": ("flare-red-parachute", "private", "renew",
                                    "made 42 always month-end", "read",
                                    "46 CFR 160.024-5(b) and 160.036-5(b)"),
    # Twelve years; no year-end, which is the kinder of the two readings.
    "us-extinguisher-disposable-12-years": ("extinguisher-disposable", "private", "renew",
                                            "made 144 always", "relayed",
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

# Carriage: need | feet from, and below | kinds and points | standing | source. The last
# line of extinguishers takes in 65 feet itself.
US_CARRIAGE = {
    "us-wearable": ({"per-person": 1}, None, None,
                    {"lifejacket-auto lifejacket-manual lifejacket-foam": 1}, "read",
                    "33 CFR 175.15(a)"),
    "us-throwable": ({"points": 1}, 16, None, {"lifebuoy": 1}, "read",
                     "33 CFR 175.15(b)"),
    "us-day-signals": ({"points": 3}, 16, None,
                       {"flare-red-hand flare-red-parachute smoke-orange-hand "
                        "smoke-orange-buoyant": 1, "distress-flag": 3}, "memory",
                       "33 CFR 175.110 and 175.130"),
    "us-night-signals": ({"points": 3}, 16, None,
                         {"flare-red-hand flare-red-parachute": 1,
                          "electric-distress-light": 3}, "memory",
                         "33 CFR 175.110 and 175.130"),
    "us-extinguishers-under-26": ({"points": 1}, None, 26, {PORTABLE: 1}, "read",
                                  "33 CFR 175.320(a)(1)"),
    "us-extinguishers-26": ({"points": 2}, 26, 40, {PORTABLE: 1}, "read",
                            "33 CFR 175.320(a)(1)"),
    "us-extinguishers-40": ({"points": 3}, 40, 65, {PORTABLE: 1}, "read",
                            "33 CFR 175.320(a)(1)"),
}

# What the table above has no column for.
AGE_FROM = {"raft-service-private-aged": 120}
LIFE = {"lifejacket-life", "extinguisher-life", "webbing-private", "webbing-commercial",
        "gas-hose", "gas-regulator"}


def read_sheet(name):
    text = (ROOT / "data/sheets" / f"{name}.yaml").read_text(encoding="utf-8")
    return {rule["id"]: rule for rule in yaml.safe_load(text)["rules"]}


def metres(feet, more=0.0):
    """Feet as a book has them, in metres to the centimetre."""
    return None if feet is None else round(round(feet * 0.3048, 2) + more, 2)


def clock_words(clock):
    """A clock as the tables above write it."""
    anchors = ",".join(clock["from"])
    if anchors in ("marked", "event"):
        words = [anchors, ",".join(clock.get("events", []))]
        return " ".join(filter(None, words + ["before" if clock.get("before") else ""]))
    interval = f"{clock['days']}d" if "days" in clock else str(clock["months"])
    words = [anchors, interval, times_words(clock)]
    words += [clock["through"]] if "through" in clock else []
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
    if window and window.get("next") != "from-due":
        window = {"early": "restarts"}
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
        f"window {(window or {}).get('early', 0)} {(window or {}).get('late', 0)}": window,
    }
    words = {word for word, holds in words.items() if holds}
    words |= {f"area {area}" for area in when.get("areas", [])}
    return words | {f"rating {rating}" for rating in when.get("ratings", [])}


def read_rows():
    """sheet_rows.txt: for each sheet its rules, id -> (row, sources, more words)."""
    short = {"RAFT": RAFT, "JACKET": JACKET, "PYRO": PYRO, "STORED": STORED, "GAS": GAS,
             "BEACON": BEACON}
    older = "read, older edition or sibling section"
    sheets = {}
    path = Path(__file__).resolve().parent / "sheet_rows.txt"
    for line in path.read_text(encoding="ascii").splitlines():
        if not line or line.startswith("#"):
            continue
        if line.startswith("== "):
            rows = sheets.setdefault(line[3:], {})
        elif line.startswith("  "):
            rows[rule_id] = (row, *split_more(line))
        else:
            cells = [cell.strip() for cell in line.split(": ", 1)[1].split("|")]
            rule_id, kinds, use, task, clocks, standing = cells
            assert rule_id not in rows, rule_id
            names = " ".join(short.get(word, word) for word in kinds.split())
            row = (sorted(names.split()), use, task, sorted(clocks.split("; ")),
                   older if standing == "OLDER" else standing)
    return sheets


def split_more(line):
    starts = ("age ", "marked", "unmarked", "life", "extension ", "contents", "window ",
              "area ", "rating ", "season ", "above freezing", "dry", "test valid ")
    parts = line.strip().split("; ")
    more = {part for part in parts if part.startswith(starts)}
    return [part for part in parts if part not in more], more


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
        for name, rows in read_rows().items():
            rules = read_sheet(name)
            self.assertEqual(sorted(rules), sorted(rows), name)
            for rule_id, (row, sources, more) in rows.items():
                with self.subTest(sheet=name, rule=rule_id):
                    rule = rules[rule_id]
                    self.assertEqual(rule_row(rule), row)
                    self.assertEqual(more_words(rule), more)
                    for source in sources:
                        self.assertIn(source, rule["source"])
                    self.check_marked(rule_id, rule)

    def test_every_sheet_is_typed_twice_and_every_id_is_its_own(self):
        names = {path.stem for path in (ROOT / "data/sheets").glob("*.yaml")}
        self.assertEqual(names, {"practice", "us-recreational", *read_rows()})
        ids = [rule_id for name in names for rule_id in read_sheet(name)]
        self.assertEqual(len(ids), len(set(ids)))

    def test_united_states_carriage(self):
        text = (ROOT / "data/sheets/us-recreational.yaml").read_text(encoding="utf-8")
        lines = {line["id"]: line for line in yaml.safe_load(text)["carriage"]}
        self.assertEqual(sorted(lines), sorted(US_CARRIAGE))
        for name, (need, least, below, serves, standing, source) in US_CARRIAGE.items():
            with self.subTest(line=name):
                line = lines[name]
                self.assertEqual(line["need"], need)
                self.assertEqual(line["when"]["use"], "private")
                self.assertEqual(line["when"].get("length-from"), metres(least))
                inclusive = 0.01 if below == 65 else 0
                self.assertEqual(line["when"].get("length-below"),
                                 metres(below, inclusive))
                self.assertEqual({" ".join(entry["kinds"]): entry["points"]
                                  for entry in line["serves"]}, serves)
                self.assertEqual(line["standing"], standing)
                self.assertIn(source, line["source"])


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
