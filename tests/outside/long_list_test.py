#!/usr/bin/python3
"""A list that is longer than what is held of it at once: what its first rows say of its last ones,
and the last ones of the first. Expected values by hand, from what the rows say."""
import csv
import io
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, end, same, scratch  # noqa: E402

ROWS = 3000
COLUMNS = ["vessel", "tag", "kind", "serial", "made", "served", "task", "part_of", "notes"]
NOTES = "as it was found in the locker, wrapped"


def row(number, **values):
    known = {"vessel": "Quillfish", "tag": f"T-{number}", "kind": "lifejacket-auto",
             "serial": f"{number * 7919 % 1000003:06d}{number}", "made": "2019-03",
             "served": f"2025-{1 + number % 12:02d}", "task": "service", "notes": NOTES}
    return {**known, **values}


def write(path, rows):
    with path.open("w", newline="", encoding="utf-8") as file:
        lines = csv.DictWriter(file, COLUMNS)
        lines.writeheader()
        lines.writerows(rows)
    return str(path)


def held(book):
    return list(csv.DictReader(io.StringIO(book.must("export", "-"), newline="")))


def main(folder):
    rows = [row(number) for number in range(ROWS)]
    # the whole comes last, and its part first; a renewal, whose own marks stay; a further record
    rows[0]["part_of"] = f"T-{ROWS - 1}"
    rows[7].update(served="2025-05-02", task="renew", made="2025-04", serial="NEW-7")
    rows.append(row(3, served="2020-01", serial="", made="", notes=""))
    path = write(folder / "list.csv", rows)
    book = Book(folder / "book.db")
    told = book.must("import", path, "--serials-are-right").splitlines()
    same("all rows are told, and how many",
         [ROWS + 2, f"{ROWS} added, 0 changed, 0 as they were, {ROWS + 1} new records"],
         [len(told), told[-1]])
    found = held(book)
    of = {}
    for line in found:
        of.setdefault(line["tag"], line)
    same("each is there", sorted(f"T-{number}" for number in range(ROWS)), sorted(of))
    same("a part finds the whole that comes after it", f"T-{ROWS - 1}", of["T-0"]["part_of"])
    same("what was renewed keeps its own marks", ["2025-04", "NEW-7"],
         [of["T-7"]["made"], of["T-7"]["serial"]])
    same("a further record is of the first row's thing", ["2020-01", "2025-04"],
         sorted(line["served"] for line in found if line["tag"] == "T-3"))
    same("the book is whole", 0, book.run("book", "check").returncode)
    again = book.must("import", path, "--serials-are-right").splitlines()
    same("once more changes nothing", f"0 added, 0 changed, {ROWS} as they were, 0 new records",
         again[-1])

    rows[ROWS - 1]["part_of"] = "T-0"
    refused = Book(folder / "none.db")
    done = refused.run("import", write(folder / "loop.csv", rows),
                       "--serials-are-right")
    same("parts of one another are refused across the list", [True, True],
         [done.returncode != 0, "makes a loop" in done.stderr])
    same("and nothing of it is kept", False, refused.path.exists())

    for each in rows:
        each.update(tag="", part_of="")
    untagged = Book(folder / "untagged.db")
    untagged.must("import", write(folder / "untagged.csv", rows[:ROWS]),
                  "--serials-are-right")
    same("rows without tags get the next ones in their order",
         [f"LJ-{number + 1}" for number in range(ROWS)],
         sorted((line["tag"] for line in held(untagged)), key=lambda tag: int(tag[3:])))
    lines = len(untagged.ask("book", "journal")[0]["lines"])
    told = untagged.must("book", "undo").splitlines()
    same("what is taken back is told by its first twelve lines, and all are counted",
         [True, f"and {lines - 12} more; --number 2 shows them all"],
         [lines > 2 * ROWS, told[-1].strip()])
    same("and nothing of it is left", [], held(untagged))


def turned_round(folder):
    """What is part of what is turned round by a list whose first rows and last rows say it
    together."""
    raft = {"vessel": "Quillfish", "kind": "liferaft-canister"}
    release = {"vessel": "Quillfish", "kind": "hydrostatic-release"}
    a, b, n = ({**raft, "tag": "A-1"}, {**release, "tag": "B-1"}, {**raft, "tag": "N-1"})
    between = [row(number, served="", task="") for number in range(ROWS)]
    # the first, a middle and the last row; what is part of what then, None where it is refused
    cases = {
        "two": ([{**a, "part_of": "B-1"}, b], {"A-1": "B-1", "B-1": ""}),
        "three": ([{**a, "part_of": "B-1"}, {**b, "part_of": "N-1"}, n],
                  {"A-1": "B-1", "B-1": "N-1", "N-1": ""}),
        "a loop": ([{**a, "part_of": "B-1"}, {**b, "part_of": "A-1"}], None)}
    for name, (rows, parts) in cases.items():
        book = Book(folder / f"{name}.db")
        book.must("import", write(folder / "two.csv", [a, {**b, "part_of": "A-1"}]))
        middle = [*between[:ROWS // 2], *rows[1:-1], *between[ROWS // 2:]]
        done = book.run("import", write(folder / "turned.csv", [rows[0], *middle, rows[-1]]),
                        "--serials-are-right")
        found = {line["tag"]: line["part_of"] for line in held(book) if line["tag"][0] in "ABN"}
        same(f"parts turned round across the list, {name}",
             [parts is not None, parts or {"A-1": "", "B-1": "A-1"}], [done.returncode == 0, found])
        same(f"the book is whole, {name}", 0, book.run("book", "check").returncode)


with scratch() as place:
    main(Path(place))
    turned_round(Path(place))
end()
