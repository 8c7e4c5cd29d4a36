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
import re
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, end, scratch  # noqa: E402

VESSELS = ["<script>alert(1)</script>", "../../Up \"and\" 'away'", "Ωμέγα 救命 🛟", "a/b", "a_b",
           "..", "&amp;"]
SERIALS = ["<b>1</b>", "Σ-2", "\"3\" & '4'", "救-5"]


def becket(folder, *words, status=(0,)):
    return Book(folder / "b.db").must(*words, status=status)


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
    missing = [serial for serial in SERIALS if f"{serial}{number}" not in words]
    missing += [piece for piece in range(len(SERIALS))
                if f"certificate C&{number}<{piece}>" not in words]
    check(f"{path.name} has every serial and certificate", not missing, str(missing))
    check(f"{path.name} shows markup as the text it is", f"<i>{name}</i>" in words)
    tags = {element.tag for element in page.iter()}
    check(f"{path.name} runs and fetches nothing",
          not tags & {"script", "img", "link", "iframe", "object", "i", "b"}, str(tags))
    check(f"{path.name} has a style of its own",
          "url(" not in text and "@import" not in text and " on" not in " ".join(
          key for element in page.iter() for key in element.keys()))
    check(f"{path.name} carries the caution", "Advice only." in words and "surveyor" in words)
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
    check("the CSV says what the JSON says", found == expected, str(found[:2]))


def main():
    with scratch() as outer:
        folder = Path(outer) / "home"
        folder.mkdir()
        fill(folder)
        becket(folder, "muster", "--survey", "out", status=(1,))
        names = sorted(check_page(path) for path in (folder / "out").iterdir())
        check("every vessel has a page of her own", names == sorted(VESSELS), str(names))
        outside = {path.name for path in Path(outer).iterdir()} | {
            path.name for path in folder.iterdir() if not path.name.startswith("b.db")}
        check("nothing was written elsewhere", outside == {"home", "out"}, str(outside))
        check_csv(folder)
        # One file can't be put in its place: none is.
        blocked = folder / "blocked"
        blocked.mkdir()
        last = sorted(path.name for path in (folder / "out").iterdir())[-1]
        (blocked / last).mkdir()
        becket(folder, "muster", "--survey", "blocked", "--over", status=(3,))
        left = [path.name for path in blocked.iterdir()]
        check("where one can't be written, none is", left == [last], str(left))
    end()


main()
