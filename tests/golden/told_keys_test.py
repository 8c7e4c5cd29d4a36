#!/usr/bin/env python3
"""What help tells of the answers in JSON, held to the answers themselves.

    told_keys_test.py BECKET

Every command that takes --json tells the keys of its answers; each object of an answer of the
demonstration, given some life first, has the keys of one sort that its command tells of, in their
order, and each sort told of is met. The answers are read by Python's own json.
"""
import json
import re
import shutil
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import ROOT, check, demonstration, end, same, scratch, skip  # noqa: E402

LOFT, QUAY = "Varne Sound Raft Loft", "Holm Quay Safety Service"

# What happens to the owner's gear first, so that there is something of every sort.
LIFE = [
    ["land", "LR-1", "--station", LOFT, "--on", "2026-11-20"],
    ["record", "fired", "LJ-2", "--on", "2026-11-01"],
    ["extend", "EB-1", "--task", "test", "--until", "2027-03-01", "--paper", "X-1"],
    ["interval", "LJ-1", "--task", "service", "--every", "18", "--paper", "manual"],
    ["land", "LJ-1", "--station", QUAY, "--on", "2026-11-01"],
    ["return", "LJ-1", "--on", "2026-11-20", "--task", "service", "--result", "passed-shorter",
     "--next", "2027-05-01", "--certificate", "C-77", "--price", "55"],
    ["attach", "LJ-1", "label.txt", "--to-record", "C-77"],
    ["amend", "FL-7", "--to-buy", "three white ones"],
    ["withdraw", "LJ-2-FH", "--because", "lost"],
    ["amend", "LJ-4", "--serial", "N-4"],
    ["vessel", "Quillfish", "--not", "2027-02-01..2027-02-14", "--winter",
     "2027=2027-10-15..2028-03-01", "--use", "commercial", "--from", "2028-06-01"],
    ["station", QUAY, "--closed", "2026-12-01..2027-03-31", "--turn-round-in", "02..04=28",
     "--makes", "lifejacket-auto=Some Maker"],
    ["people", "add", "Ada Quill", "--right", "manage", "--password-file", "password"],
    ["calendar", "given.ics", "--to-dos"],
]

# And to the fleet's: spares ashore, and a sheet that has no figure for all.
FLEET_LIFE = [
    ["booking", "Amberjay", "--from", "2027-05-01", "--to", "2027-05-08"],
    ["move", "AJ-LJ-1..AJ-LJ-3", "AJ-LR-1", "--spares", "Port Marrin"],
    ["move", "IQ-LJ-1..IQ-LJ-3", "--spares", "Cape Lorne"],
    ["vessel", "Lowtide", "--sheet", "us-small-passenger"],
]

# What is asked, of the owner's book, of the same before all that, and of the fleet's.
ASKED = {
    "ashore": [["owner"], ["owner", "--came-back", "--all"]],
    "book": [["owner", "journal"], ["owner", "check"], ["owner", "upgrade"]],
    "booking": [["fleet", "--all"]],
    "calendar": [["owner", "read", "given.ics"]],
    "due": [["owner"], ["owner", "--if", "use=commercial", "--vessel", "Quillfish"]],
    "history": [["owner", "N-4"], ["owner", "LJ-1"], ["owner", "LJ-2"]],
    "list": [["owner"]],
    "muster": [["fleet"], ["fleet", "--bookings"], ["owner"]],
    "now": [["owner"]],
    "papers": [["owner"]],
    "people": [["owner"]],
    "remind": [["owner"]],
    "rota": [["fleet"]],
    "sheet": [["owner", "list"], ["owner", "check", ROOT / "data/examples/club.yaml",
                                  "faulty.yaml"],
              ["owner", "show", "uk-small-commercial"], ["owner", "show", "practice"],
              ["owner", "compare", "practice", "uk-private"],
              ["owner", "compare", "practice", "uk-private", "--vessel", "Quillfish"]],
    "shore-papers": [["owner"]],
    "show": [["owner", "LJ-1"], ["owner", "LJ-2"], ["owner", "EB-1"], ["owner", "LR-1"]],
    "spent": [["owner"]],
    "station": [["owner"]],
    "vessel": [["owner"]],
    "where": [["owner", "LJ"]],
    "why": [["owner", "LJ-1"], ["owner", "EB-1"], ["owner", "LJ-2"], ["owner", "LB-1"],
            ["fleet", "--line", "pm-jackets", "--vessel", "Foxmere"]],
    "winter": [["owner"], ["fresh"], ["fleet"]],
    "years": [["owner", "5"], ["fleet", "3"], ["owner", "3", "--renew-now", "LJ-1", "--compare"]],
}

# Sorts that are not met here, and why.
ELSEWHERE = {
    "book": ({"a finding", "a moved date", "what it was and is"},
             "they need a book that can't be, or is older; outside/ has some"),
    "calendar": ({"the answer", "a reminder"}, "they need a server; tests/clients has one"),
    "years": ({"a lapse"}, "nothing of the demonstration's lapses for want of a way"),
}

# Sorts whose keys are there only where there is something under them.
IN_PART = {"a condition", "what happened"}


def told(words):
    """The sorts of objects that a help text tells of: (what, keys) in the order told."""
    plain = " ".join(words.split())
    sorts = []
    for sentence in re.finditer(
            r"(?:With (?:[a-z -]+ )?--json|In it) (\S.*?) has ((?:\w+(?: \([^)]*\))?(?:, )?)+)\.",
            plain):
        keys = re.findall(r"(\w+)(?: \([^)]*\))?(?:, |$)", sentence[2])
        sorts.append((sentence[1], keys))
    return sorts


def objects(value):
    """Every object in a value of JSON."""
    if isinstance(value, dict):
        yield value
        value = list(value.values())
    for inner in value if isinstance(value, list) else []:
        yield from objects(inner)


def fits(found, what, keys):
    if what in IN_PART:
        return found == [key for key in keys if key in found]
    return found == keys


def live(owner, fleet):
    (owner.folder / "label.txt").write_text("a label\n", encoding="utf-8")
    secret = owner.folder / "password"
    secret.write_text("an invented password\n", encoding="utf-8")
    secret.chmod(0o600)
    (owner.folder / "faulty.yaml").write_text("sheet: faulty\n", encoding="utf-8")
    for words in LIFE:
        owner.must(*words)
    given = owner.folder / "given.ics"
    ticked = "STATUS:COMPLETED\r\nCOMPLETED:20261120T101500Z"
    given.write_bytes(given.read_bytes().replace(b"STATUS:NEEDS-ACTION", ticked.encode()))
    for words in FLEET_LIFE:
        fleet.must(*words)


def main():
    with scratch() as folder:
        books = dict(zip(("owner", "fleet"), demonstration(folder)))
        books["fresh"] = books["owner"].copy("fresh.db")
        live(books["owner"], books["fleet"])
        overview = books["owner"].must("help")
        names = re.findall(r"^  ([a-z-]+)(?: |$)", overview.split("topics of")[0], re.M)
        helps = {name: books["owner"].must("help", name) for name in names}
        takes = {name for name in names if "\n  --json " in helps[name]}
        same("every command that takes --json is asked", sorted(takes), sorted(ASKED))
        for name, asked in sorted(ASKED.items()):
            sorts = told(helps[name])
            met, strange = set(), set()
            for book, *words in asked:
                for value in objects(books[book].ask(name, *words)):
                    fit = {what for what, keys in sorts if fits(list(value), what, keys)}
                    met |= fit
                    strange |= set() if fit else {tuple(value)}
            check(f"{name}: each object has keys that help tells", sorts and not strange,
                  "\n".join(map(str, strange)) or "none told")
            without, why = ELSEWHERE.get(name, (set(), ""))
            for what in sorted(without - met):
                skip(f"{name}: {what}", why)
            missed = {what for what, _ in sorts} - met - without
            check(f"{name}: each sort told is met", not missed, sorted(missed))
    end()


main()
