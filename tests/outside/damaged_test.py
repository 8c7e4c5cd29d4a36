#!/usr/bin/python3
"""Books that another program or the disk has damaged: each question says so, or answers; none
crashes or answers twice about a boat.

    damaged_test.py BECKET
"""
import csv
import json
import sqlite3
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, end, same, scratch  # noqa: E402
from pages import Pages, send_parts, tree  # noqa: E402

QUESTIONS = ["export -", "due", "winter", "years 3", "now", "muster --json", "remind --json"]


def fleet(folder, boats, each):
    """A book with boats of ten bases, and so many jackets on each; a service is on record of every
    one."""
    rows = [{"vessel": f"Boat {boat:03}", "tag": f"T-{boat * each + number + 1}", "kind": "lifejacket-auto",
             "made": "2024-05", "served": "2026-05-04", "task": "service"}
            for boat in range(boats) for number in range(each)]
    with (folder / "list.csv").open("w", newline="", encoding="utf-8") as file:
        lines = csv.DictWriter(file, rows[0])
        lines.writeheader()
        lines.writerows(rows)
    book = Book(folder / "book.db", "2026-11-25")
    book.must("import", str(folder / "list.csv"))
    return book


def sql(book, *statements):
    with sqlite3.connect(book.path) as connection:
        for statement in statements:
            connection.execute(statement)
        connection.commit()
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    connection.close()


def children(page, size):
    """The pages below an interior page of an index (SQLite file format, section 1.6)."""
    count = int.from_bytes(page[3:5], "big")
    cells = [int.from_bytes(page[12 + 2 * i:14 + 2 * i], "big") for i in range(count)]
    return [int.from_bytes(page[at:at + 4], "big") for at in cells] + [int.from_bytes(page[8:12], "big")]


def index_out_of_order(folder):
    """A record's entry in the index by gear says 256 where it said 258."""
    book = fleet(folder, 10, 40)
    with sqlite3.connect(book.path) as connection:
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        root = connection.execute("SELECT rootpage FROM sqlite_schema "
                                  "WHERE name = 'sqlite_autoindex_record_1'").fetchone()[0]
        size = connection.execute("PRAGMA page_size").fetchone()[0]
        day = connection.execute("SELECT on_day FROM record WHERE item_id = 258").fetchone()[0]
    connection.close()
    found = bytearray(book.path.read_bytes())
    top = found[(root - 1) * size:root * size]
    entry = (258).to_bytes(2, "big") + day.to_bytes(4, "big")
    places = [at for page in children(top, size)
              for at in [found.find(entry, (page - 1) * size, page * size)] if at >= 0]
    check("the entry of the 258th piece stands in the index", places, f"{places}")
    for at in places:  # one may be a page's old bytes
        found[at + 1] = 0
    book.path.write_bytes(found)
    told = book.run("export", "-")
    same("gear whose records do not stand together is not told of",
         [3, True, True], [told.returncode, "book check" in told.stderr, told.stdout == ""])
    for question in QUESTIONS:
        check(f"{question}: no crash on an index out of order",
              0 <= book.run(*question.split(), timeout=60).returncode <= 3)
    same("book check tells it", 1, book.run("book", "check").returncode)


def name_with_a_zero_byte(folder):
    """The name of one of 90 boats has a zero byte, so that it can't be asked for."""
    book = fleet(folder, 90, 2)
    sql(book, "UPDATE vessel SET base = 'Base ' || (id % 9)")
    sound = json.loads(book.run("muster", "--json").stdout)
    check("a sound book has each boat once", len(sound["vessels"]) == 90, f"{len(sound['vessels'])}")
    sql(book, "UPDATE vessel SET name = CAST(x'426F6174203000303030' AS TEXT) WHERE name = 'Boat 003'")
    for question in QUESTIONS:
        done = book.run(*question.split(), timeout=60)
        check(f"{question}: no crash on a name that can't be", 0 <= done.returncode <= 3)
    told = book.run("muster", "--json")
    same("the muster says that a name is damaged, and nothing else",
         [3, True, ""], [told.returncode, "name of a vessel is damaged" in told.stderr, told.stdout])


def part_of_itself(folder):
    """A piece is part of itself: its whole is never there, and it counts for nothing."""
    book = fleet(folder, 2, 2)
    sql(book, "UPDATE item SET parent_id = id WHERE tag = 'T-1'")
    for question in QUESTIONS:
        check(f"{question}: ends where a piece is part of itself",
              0 <= book.run(*question.split(), timeout=60).returncode <= 3)


def form_to(page, path):
    return next(form for form in page.all("form") if form.attributes.get("action") == path)


def lines_cut(folder):
    """The lines of an import are cut behind nine bytes: the page says so where it shows the
    journal, and does nothing that hangs on it."""
    book = fleet(folder, 10, 120)
    book.must("enter", "lifejacket-auto", "--tag", "LR-1", "--vessel", "Boat 001")
    sound = book.path.with_name("sound.db")
    book.must("book", "backup", str(sound))
    number = book.ask("book", "journal")[0]["number"]
    sql(book, "DROP TRIGGER journal_page_no_change",
        "UPDATE journal_page SET lines = substr(lines, 1, 9) WHERE position = 0")
    pages = Pages(book)
    for path in ("/safe", "/locker/LR-1"):
        cautions = [p.text() for p in pages.get(path).all("p", class_="caution")]
        check(f"{path} says that the journal is damaged",
              any("journal's lines are damaged" in words for words in cautions), cautions)
    for path in (f"/safe/{number}", "/done/LR-1", "/reminders/choices"):
        answer, body = pages.ask("GET", path)
        check(f"{path} is refused: it hangs on the journal", answer.status == 503 and
              "journal's lines are damaged" in tree(body.decode()).text(), f"{answer.status}")
    answer, _ = pages.ask("GET", f"/safe/{number + 1}")
    same("what is whole can be taken back", 200, answer.status)
    form = form_to(pages.get("/safe"), "/restore")
    for path, expected in ((book.path, 400), (sound, 200)):
        status, page = send_parts(
            pages, form, ("copy", "copy.db", "application/octet-stream", path.read_bytes()), act="look")
        same(f"{path.name} as a copy to be put back", expected, status)
    check("the book here is told to be damaged beside a sound copy",
          "The book as it is here can't be read" in page.text(), page.text())
    pages.close()
    told = book.run("history", "T-1..T-3")
    same("a range tells once of what may be missing", (1, 1),
         (told.returncode, told.stderr.count("lines are damaged")))
    told = book.run("history", "NONESUCH")
    check("of what is not found it says that not all can be read", told.returncode == 2 and
          "in the book, as far as its damaged journal can be read, has or had" in told.stderr,
          told.stderr)


for step in (index_out_of_order, name_with_a_zero_byte, part_of_itself, lines_cut):
    with scratch() as place:
        step(Path(place))
end()
