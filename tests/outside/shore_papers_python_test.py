#!/usr/bin/env python3
"""The papers that go ashore, seen from outside: what is on them is what `becket winter` says,
each thing once; the pages are well-formed for Python's XML parser, fetch nothing and run
nothing whatever the book holds; and each sheet that a browser prints has the caution."""
import json
import re
import shutil
import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, demonstration, end, scratch, skip  # noqa: E402

PAGES = ("tags.html", "dockets.html", "return-list.html")
CAUTION = "Advice only. The label on the gear"
HOSTILE = ["<script>alert(1)</script>", "\"quoted\" & 'so'", "Blåskjell Ærfugl", "Σωσίβιο",
           "救命いかだ", "🛟 raft", "x" * 300, "</style><b>"]


def becket(folder, book, *words):
    return Book(folder / book).must(*words)


def planned(folder, book):
    """(station, day, tag, task) of each hand-in that the winter's list has."""
    return Counter((trip["station"], trip["hand_in"], line["tag"], line["task"])
                   for vessel in json.loads(becket(folder, book, "winter", "--json"))
                   for trip in vessel["hand_in"] for line in trip["items"])


def check_plan(folder, book):
    dockets = json.loads(becket(folder, book, "shore-papers", "--json"))
    found = Counter((docket["station"], docket["hand_in"], task["tag"], task["task"])
                    for docket in dockets for piece in docket["pieces"]
                    for task in piece["tasks"])
    wanted = planned(folder, book)
    check(f"{book}: the dockets hold what the winter's list has", found == wanted and found,
          list(((found - wanted) + (wanted - found)).items())[:3])
    keys = [(docket["station"], docket["hand_in"]) for docket in dockets]
    check(f"{book}: one docket a station and day", len(keys) == len(set(keys)), keys)
    return dockets


def words_of(element):
    return " ".join("".join(element.itertext()).replace("\xa0", " ").split())


def of_class(page, name):
    return [element for element in page.iter() if element.get("class") == name]


def check_pages(folder, book, dockets):
    out = f"out-{book}"
    becket(folder, book, "shore-papers", out)
    pages = {name: ElementTree.parse(folder / out / name).getroot() for name in PAGES}
    pieces = [piece for docket in dockets if not docket["landed"] for piece in docket["pieces"]]
    ashore = {piece["tag"] for docket in dockets if docket["landed"]
              for piece in docket["pieces"]}
    check(f"{book}: a tag for each piece, in the dockets' order",
          [words_of(tag.find("*[@class='tag']")) for tag in of_class(pages["tags.html"], "tie")]
          == [" ".join(piece["tag"].split()) for piece in pieces])
    rows = [words_of(cell) for cell in of_class(pages["dockets.html"], "tag")]
    check(f"{book}: a row for each piece",
          rows == [" ".join(piece["tag"].split()) for piece in pieces])
    back = Counter(words_of(cell) for cell in of_class(pages["return-list.html"], "tag"))
    parts = {task["tag"] for piece in pieces for task in piece["tasks"]}
    check(f"{book}: the return list has every piece, every part and what is ashore",
          set(back) == {" ".join(tag.split()) for tag in
                        parts | ashore | {piece["tag"] for piece in pieces}})
    for name, page in pages.items():
        elements = {element.tag for element in page.iter()}
        loose = elements & {"script", "img", "link", "iframe", "object", "b", "i"}
        fetched = re.findall(r"(?:url\(|@import|(?:src|href)=)", (folder / out / name).read_text())
        handlers = [key for element in page.iter() for key in element.attrib
                    if key.startswith("on")]
        check(f"{book}: {name} only shows what it holds",
              not loose and not fetched and not handlers,
              f"{loose} {fetched} {handlers}")
        text = (folder / out / name.replace(".html", ".txt")).read_text()
        check(f"{book}: {name} as text fits 80 columns",
              all(len(line) <= 80 or ord(max(line)) > 127 for line in text.split("\n")))
        check(f"{book}: {name} has the caution", CAUTION in text and CAUTION in words_of(page))


def make_hostile(folder):
    book = "hostile.db"
    becket(folder, book, "vessel", HOSTILE[0], "--base", HOSTILE[1])
    becket(folder, book, "station", HOSTILE[1])
    for number, words in enumerate(HOSTILE):
        becket(folder, book, "enter", "liferaft-canister", "--vessel", HOSTILE[0],
               "--tag", f"{words[:40]} {number}", "--serial", words, "--description", words,
               "--place", words, "--made", "2020-03")
    return book


def check_print(folder):
    """Prints the fleet's papers through a browser and reads each sheet."""
    for tool in ("chromium", "pdftotext"):
        if shutil.which(tool) is None:
            skip("shore papers in print", f"{tool} is not installed")
            return
    for name in PAGES:
        pdf = folder / (name + ".pdf")
        subprocess.run(["chromium", "--headless", "--no-sandbox", "--disable-gpu",
                        "--no-pdf-header-footer", f"--user-data-dir={folder}/browser",
                        f"--print-to-pdf={pdf}", f"file://{folder}/out-fleet.db/{name}"],
                       capture_output=True, check=False, timeout=120)
        text = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], capture_output=True,
                              text=True, check=False).stdout
        sheets = text.split("\f")[:-1]
        without = [number for number, sheet in enumerate(sheets, 1)
                   if CAUTION not in " ".join(sheet.split())]
        check(f"every printed sheet of {name} has the caution", len(sheets) > 3 and not without,
              f"of {len(sheets)} sheets, these have not: {without}")


def main():
    with scratch() as name:
        folder = Path(name)
        demonstration(folder)
        for book in ("owner.db", "fleet.db", make_hostile(folder)):
            check_pages(folder, book, check_plan(folder, book))
        check_print(folder)
    end()


main()
