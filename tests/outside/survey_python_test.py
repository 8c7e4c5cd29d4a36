#!/usr/bin/env python3
"""Survey files and the muster's CSV seen from outside: Python's XML parser and its CSV reader.

    survey_python_test.py BECKET

The vessel and her gear have names that a careless page would take for markup, and letters of
many scripts. What went into the book must stand in the page as text, with nothing that runs
or is fetched, in a file that stays in its folder.
"""
import csv
import io
import json
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree
from pathlib import Path

BECKET = os.path.abspath(os.environ.get("BECKET") or sys.argv[1])
VESSELS = ["<script>alert(1)</script>", "../../Up \"and\" 'away'", "Ωμέγα 救命 🛟", "a/b", "a_b",
           "..", "&amp;"]
SERIALS = ["<b>1</b>", "Σ-2", "\"3\" & '4'", "救-5"]
bad = 0


def say(good, name, why=""):
    global bad
    bad += not good
    print(("ok " if good else "not ok ") + "survey: " + name + ("" if good else f": {why}"))


def becket(folder, *words, status=(0,)):
    done = subprocess.run(
        [BECKET, "--book", f"{folder}/b.db", "--today", "2026-11-25", *words], cwd=folder,
        capture_output=True, check=False, timeout=120)
    if done.returncode not in status:
        say(False, " ".join(words[:3]), done.stderr.decode("utf-8", "replace"))
    return done.stdout.decode("utf-8")


def fill(folder):
    for number, vessel in enumerate(VESSELS):
        becket(folder, "vessel", vessel, "--sheet", "us-recreational", "--sheet", "practice",
               "--length", "9", "--persons", "2", "--base", "Holm <Quay>")
        for piece, serial in enumerate(SERIALS):
            becket(folder, "enter", "lifejacket-auto", "--vessel", vessel,
                   "--tag", f"LJ-{number}-{piece}", "--serial", f"{serial}{number}",
                   "--description", f"<i>{vessel}</i>", "--made", "2024-05", "--served",
                   "2026-10-01", "--certificate", f"C&{number}<{piece}>",
                   "--serials-are-right")


def check_page(path):
    """Whose page it is, by its heading; what is wrong with it is said."""
    text = path.read_text(encoding="utf-8")
    page = ElementTree.fromstring(re.sub(r"^<!DOCTYPE html>\s*", "", text))
    words = " ".join(page.itertext())
    name = page.find(".//h1").text.removeprefix("Safety gear of ")
    number = VESSELS.index(name)
    missing = [serial for serial in SERIALS if f"serial {serial}{number}" not in words]
    missing += [piece for piece in range(len(SERIALS))
                if f"certificate C&{number}<{piece}>" not in words]
    say(not missing, f"{path.name} has every serial and certificate", str(missing))
    say(f"<i>{name}</i>" in words, f"{path.name} shows markup as the text it is")
    tags = {element.tag for element in page.iter()}
    say(not tags & {"script", "img", "link", "iframe", "object", "i", "b"},
        f"{path.name} runs and fetches nothing", str(tags))
    say("url(" not in text and "@import" not in text and " on" not in " ".join(
        key for element in page.iter() for key in element.keys()),
        f"{path.name} has a style of its own")
    say("Advice only." in words and "surveyor" in words, f"{path.name} carries the caution")
    return name


def check_csv(folder):
    """The CSV says what the JSON says."""
    rows = list(csv.DictReader(io.StringIO(
        becket(folder, "muster", "--csv", status=(0, 1)), newline="")))
    answer = json.loads(becket(folder, "muster", "--json", status=(0, 1)))
    expected = [(boat["vessel"], line["line"], str(line["need"]), str(line["have"]),
                 " ".join(line["counted"])) for boat in answer["vessels"]
                for line in boat["lines"]]
    found = [(row["vessel"], row["line"], row["need"], row["have"], row["counted"])
             for row in rows]
    say(found == expected, "the CSV says what the JSON says", str(found[:2]))


def main():
    with tempfile.TemporaryDirectory(prefix="becket-survey-") as scratch:
        folder = Path(scratch) / "home"
        folder.mkdir()
        fill(folder)
        becket(folder, "muster", "--survey", "out", status=(1,))
        names = sorted(check_page(path) for path in (folder / "out").iterdir())
        say(names == sorted(VESSELS), "every vessel has a page of her own", str(names))
        outside = {path.name for path in Path(scratch).iterdir()} | {
            path.name for path in folder.iterdir() if not path.name.startswith("b.db")}
        say(outside == {"home", "out"}, "nothing was written elsewhere", str(outside))
        check_csv(folder)
        # One file can't be put in its place: none is.
        blocked = folder / "blocked"
        blocked.mkdir()
        last = sorted(path.name for path in (folder / "out").iterdir())[-1]
        (blocked / last).mkdir()
        becket(folder, "muster", "--survey", "blocked", "--over", status=(3,))
        left = [path.name for path in blocked.iterdir()]
        say(left == [last], "where one can't be written, none is", str(left))
    return 1 if bad else 0


sys.exit(main())
