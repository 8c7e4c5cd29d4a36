#!/usr/bin/python3
"""An import that loads a part of the book comes to what one does that loads all of it: lists with
one doubt each, and random ones, are imported as they are, and with rows behind them that change
nothing, as many as all of the book is loaded for."""
import csv
import random
import re
import shlex
import sqlite3
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BUILD, Book, check, end, same, scaled, scratch  # noqa: E402

COLUMNS = ["vessel", "tag", "kind", "serial", "description", "quantity", "made", "expires", "served", "task",
           "state", "because"]
KNOWN = ["Quillfish", "Tern", "\u00c6rlig", *(f"Boat {number}" for number in range(22))]
NEW = ["Quilfish", "tern", "Aerlig", "Boat 1a", "Petrel"]
MEANWHILE = str(BUILD / "tests/support/becket_meanwhile")
KINDS = ["lifejacket-auto", "flare-red-hand", "tether", "extinguisher-powder"]
RIGHT = ["--names-are-right", "--serials-are-right", "--again", "--lots-are-right", "--services-are-right"]
PIECES, BALLAST = 75, 60  # what the rows behind a list are about; a quarter as many rows would do


def row_of(drawn, tagged, boat):
    row = dict.fromkeys(COLUMNS, "")
    row.update(vessel=boat, kind=drawn.choice(KINDS), made=drawn.choice(["", "2020-05"]),
               quantity=drawn.choice(["", 4]), description=drawn.choice(["", "Crew"]))
    if drawn.random() < tagged:
        row["tag"] = drawn.choice(["LJ-", "FL-", "TE-", "R\u00e4ft-"]) + str(drawn.randint(1, 40))
    if drawn.random() < 0.7:
        row["serial"] = f"{drawn.getrandbits(40):010X}"
    if drawn.random() < 0.3:
        row.update(served="2025-04", task=drawn.choice(["inspect", "renew", ""]))
    return row


def without_doubles(rows):
    """No tag twice, and none in two cases, which are asked about in no order."""
    found = {}
    for row in rows:
        found.setdefault(row["tag"].lower() or len(found), row)
    return list(found.values())


def ballast():
    return [{**dict.fromkeys(COLUMNS, ""), "vessel": "Weights", "tag": f"WEIGHT-{number}", "kind": "danbuoy-inflatable"}
            for number in range(BALLAST)]


def write(path, rows, columns):
    with path.open("w", newline="", encoding="utf-8") as file:
        lines = csv.DictWriter(file, columns, extrasaction="ignore")
        lines.writeheader()
        lines.writerows(rows)
    return str(path)


def make_book(folder, drawn):
    """A book of gear, some of it split, condemned, renewed; and the rows it was made of."""
    book = Book(folder / "book.db")
    for ending in ("", "-wal", "-shm"):
        Path(f"{book.path}{ending}").unlink(missing_ok=True)
    rows = without_doubles(row_of(drawn, 1, drawn.choice(KNOWN)) for _ in range(PIECES))
    book.must("vessel", "Tender")
    book.must("import", write(folder / "list.csv", rows + ballast(), COLUMNS), *RIGHT)
    for number, row in enumerate(drawn.sample(rows, 12)):
        if row["quantity"]:
            book.must("move", row["tag"], "--vessel", "Tender", "--quantity", 1)
        elif number < 6:
            book.must("withdraw", row["tag"], "--because", "condemned")
            book.must("amend", row["tag"], "--serial", drawn.choice([row["serial"], f"{drawn.getrandbits(40):010X}"]))
        else:
            book.must("record", "renew", row["tag"], "--on", "2026-02-03", "--new")
    return book, rows


def near(drawn, row, known):
    """Makes a row one that may be mistaken for gear of the book."""
    row["kind"] = known["kind"]
    serial, tag = known["serial"], known["tag"]
    row.update(drawn.choice([{"serial": serial}, {"serial": serial[:4] + serial[5:]}, {"tag": "x" + tag},
                             {"tag": tag.swapcase()}]))


def some_rows(drawn, known):
    """A short list of a boat or two: new gear, and what the book knows, told otherwise."""
    boats = drawn.sample(KNOWN + drawn.choice([[], NEW]), 2)
    rows = [row_of(drawn, drawn.choice([0, 0.7, 1]), drawn.choice(boats)) for _ in range(drawn.randint(1, 3))]
    if drawn.random() < 0.6:
        near(drawn, rows[0], drawn.choice(known))
    for row in drawn.sample(known, drawn.randint(0, 2)):
        rows.append(dict(row, **drawn.choice([{}, {"quantity": 9}, {"tag": ""}, {"vessel": boats[0]},
                                              {"serial": rows[0]["serial"]}, {"expires": "2029-01"}])))
    return without_doubles(rows)


def contents(book):
    """All gear with its records and movements, and the dates that are kept."""
    with sqlite3.connect(f"file:{book.path}?mode=ro", uri=True) as db:
        return [db.execute(f"SELECT * FROM {table}").fetchall()
                for table in ("item", "record", "movement", "reckoned", "vessel")]


def both(book, rows, columns, words):
    """What comes of a list as it is, and of the same with rows behind it."""
    found = []
    for behind in ([], ballast()):
        copy = book.copy("copy.db")
        done = copy.run("import", write(book.folder / "list.csv", rows + behind, columns), *words)
        # the rows behind the list are counted, too
        said = re.sub(r"\d+ as they were", "", done.stdout)
        found.append((done.returncode, said, done.stderr, contents(copy)))
    return found


def with_one_doubt(folder):
    """Lists of a boat that the book does not know, each with one thing that is like other gear."""
    book = Book(folder / "told.db")
    for name in ("Tern", "Skerry"):
        book.must("vessel", name)
    book.must("import", write(folder / "list.csv", ballast(), COLUMNS), *RIGHT)
    for words in ("epirb --tag EP-1 --serial E9000 --vessel Tern", "flare-red-hand --tag FL-1 --quantity 6 --serial B77 "
                  "--vessel Tern", "tether --tag TE-41 --vessel Tern", "tether --tag TE-2b --vessel Tern",
                  "plb --tag PL-1 --serial P5500 --vessel Tern"):
        book.must("enter", *words.split())
    book.must("move", "FL-1", "--vessel", "Skerry", "--quantity", 2)
    book.must("withdraw", "PL-1", "--because", "condemned")
    book.must("amend", "PL-1", "--serial", "P7711")
    for name, told, words in [
            ("the same number", {"kind": "epirb", "serial": "e-9000"}, "that of EP-1 on Tern already"),
            ("a number near", {"kind": "epirb", "serial": "E9001"}, "one character from"),
            ("a number condemned", {"kind": "epirb", "serial": "P5500"}, "was condemned"),
            ("a tag in capitals", {"tag": "te-41"}, 'there is "TE-41"'),
            ("a tag a letter apart", {"tag": "TE-2c"}, 'there is "TE-2b"'),
            ("a boat a letter apart", {"vessel": "Terns"}, 'there is "Tern"'),
            ("a lot raised", {"tag": "FL-1", "kind": "", "vessel": "", "quantity": 6}, "was split from it"),
            ("a number that pieces share", {"tag": "", "kind": "flare-red-hand", "serial": "B77", "vessel": "Skerry"},
             "pieces of one lot"),
            ("a fresh tag", {"tag": ""}, None), ("gear of its own", {}, None)]:
        row = {**dict.fromkeys(COLUMNS, ""), "vessel": "Dunlin", "tag": "OTHER-1", "kind": "tether", **told}
        columns = [column for column in COLUMNS if column in ("vessel", "tag", "kind") or row[column] != ""]
        found = both(book, [row], columns, [])
        same(f"{name}: a part and all of the book", found[1], found[0])
        refused = words is not None
        check(f"{name}: what comes of it", found[0][0] == (2 if refused else 0) and (words or "") in found[0][2], found[0])
    # the greatest number of a tether is 41
    check("the fresh tag follows the last", "TE-42 added" in both(
        book, [{**row, "tag": ""}], ["vessel", "tag", "kind"], [])[0][1])


def with_another_program(folder):
    """Before the part of the book that a list has to do with is looked through, or once it is
    made up, another program enters gear of the tag that the list brings, or of its serial number.
    What comes of it is what comes of the list after that."""
    book = Book(folder / "shared.db")
    for name in ("Tern", "Skerry"):
        book.must("vessel", name)
    book.must("import", write(folder / "list.csv", ballast(), COLUMNS), *RIGHT)
    row = {"vessel": "Tern", "tag": "EP-1", "kind": "epirb", "serial": "E9000"}
    listed = write(folder / "list.csv", [row], list(row))
    for name, entered, words, told in [
            ("its tag", "epirb --tag EP-1 --serial C5512 --vessel Skerry", RIGHT, "EP-1 changed: vessel Skerry -> Tern"),
            ("its number", "epirb --tag EP-7 --serial E9000 --vessel Skerry", [], "is that of EP-7 on Skerry already")]:
        after = book.copy("copy.db")
        after.must("enter", *entered.split())
        wanted = after.run("import", listed, *words)
        check(f"{name} is there: what the list comes to", told in wanted.stdout + wanted.stderr, wanted)
        for at in (1, 2):
            copy = book.copy("raced.db")
            meanwhile = shlex.join(copy.command("enter", *entered.split())) + " >&2"
            done = subprocess.run([MEANWHILE, *copy.command("import", listed, *words)[1:]], check=False,
                                  capture_output=True, encoding="utf-8",
                                  env={**copy.environment, "MEANWHILE": meanwhile, "MEANWHILE_AT": str(at)})
            same(f"{name}, entered before load {at}: what the list comes to",
                 [wanted.returncode, wanted.stdout, f"{entered.split()[2]} entered", contents(after)],
                 [done.returncode, done.stdout, done.stderr.split(":")[0], contents(copy)])


def main(folder):
    with_one_doubt(folder)
    with_another_program(folder)
    drawn = random.Random(23)
    counts = {0: 0, 2: 0}
    rounds = scaled(3)
    for round_ in range(rounds):
        book, known = make_book(folder, drawn)
        for each in range(10):
            columns = [name for name in COLUMNS if name in ("vessel", "tag", "kind") or drawn.random() < 0.8]
            # what is asked about one thing alone is not hidden by another
            unsaid = drawn.choice([*RIGHT, ""])
            found = both(book, some_rows(drawn, known), columns, [word for word in RIGHT if word != unsaid])
            counts[found[0][0]] = counts.get(found[0][0], 0) + 1
            same(f"list {round_}.{each}: a part and all of the book", found[1], found[0])
    # of the first ten drawn none is refused, and a shortened run has no more of them
    check("some lists are taken and some refused", set(counts) == {0, 2} and counts[0] > 1 and
          (counts[2] > 1 or rounds < 3), counts)


with scratch() as there:
    main(Path(there))
end()
