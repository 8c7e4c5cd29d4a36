"""A field of an item is its row, its column and its use: two are added to a copy of the tree, by a
row each and one migration, and followed through help, import, enter, amend, show, list, export,
journal, undo and a lot that is split. Nothing else of the copy is changed.

The rows are those that gear/fields.h asks for; what is expected of them is by hand."""
import csv
import io
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
import harness  # noqa: E402
from harness import ROOT, Book, check, end, same, scratch, skip_without  # noqa: E402

ROWS = r"""
	ITEM(COLOUR, colour, TEXT, {first}, "colour", FIELD_OPTION("colour", "WORDS", "its colour"), \
	    .shown = 105, .synonyms = "color") \
	ITEM(OPENED, opened, STAMP, {second}, "opened", FIELD_OPTION("opened", "DATE", "first opened"), \
	    .shown = 165, .label = "opened on", .synonyms = "dateopened") \
"""
COLUMNS = """-- What colour it is, and when its packing was first opened.
ALTER TABLE item ADD COLUMN colour TEXT NOT NULL DEFAULT ''; -- "" when not known
ALTER TABLE item ADD COLUMN opened INTEGER NOT NULL DEFAULT 0; -- yyyymmdd, 00 where not known
ALTER TABLE item ADD COLUMN opened_wording INTEGER NOT NULL DEFAULT 0; -- as made_wording
ALTER TABLE item ADD COLUMN opened_estimated INTEGER NOT NULL DEFAULT 0; -- 1 an estimate

PRAGMA user_version = {version};
"""


def copy_with_rows(tree):
    """The program's own files, with the rows and the migration, and without the tests."""
    for name in ("src", "data", "meson.build"):
        (shutil.copytree if (ROOT / name).is_dir() else shutil.copy)(ROOT / name, tree / name)
    (tree / "tests").mkdir()
    (tree / "tests/meson.build").write_text("")
    fields = tree / "src/gear/fields.h"
    text = fields.read_text()
    places = [int(n) for n in re.findall(r"(?:LINK|ITEM|RECORD)\(\w+, \w+, \w+, (\d+), \"", text)]
    rows = ROWS.format(first=max(places) + 1, second=max(places) + 2)
    before = "	ITEM(STATE, state"
    assert text.count(before) == 1
    fields.write_text(text.replace(before, rows.lstrip("\n") + before))
    build = tree / "src/book/meson.build"
    last = re.findall(r" +'migrations/\d{4}_\w+\.sql',\n", build.read_text())[-1]
    version = int(re.search(r"\d{4}", last).group()) + 1
    name = f"migrations/{version:04}_colour.sql"
    (tree / "src/book" / name).write_text(COLUMNS.format(version=version))
    build.write_text(build.read_text().replace(last, f"{last}    '{name}',\n"))


def built(tree):
    """The copy's program; where it can't be built the script ends with what was said."""
    compiler = {"CC": "ccache cc"} if shutil.which("ccache") else {}
    for words in (["meson", "setup", "build", "--buildtype=plain", "-Dwerror=true"],
                  ["ninja", "-C", "build", "-j2", "src/cli/becket"]):
        done = subprocess.run(words, cwd=tree, capture_output=True, text=True, check=False,
                              env={**os.environ, **compiler})
        if not check(f"the copy builds: {words[0]}", done.returncode == 0, done.stdout[-3000:]):
            end()
    return tree / "build/src/cli/becket"


def row_of(book, tag):
    """An item's row in the export."""
    rows = csv.DictReader(io.StringIO(book.must("export", "-")))
    return next(row for row in rows if row["tag"] == tag)


def shown(book, tag):
    """What show says of an item, by the words it says it under."""
    return " | ".join(" ".join(line.split()) for line in book.must("show", tag).splitlines())


def follow(book, folder):
    help_text = book.must("enter", "--help")
    check("enter lists the option", "--colour WORDS" in help_text and "its colour" in help_text)
    check("import names the column", "to_buy refit colour opened." in
          " ".join(book.must("import", "--help").split()))
    Path(folder / "list.csv").write_text(
        "vessel,tag,kind,color,Date opened\nMarten,LJ-1,lifejacket-auto,orange,2025-06\n")
    book.must("vessel", "Marten", "--base", "Northhaven")
    book.must("import", folder / "list.csv")
    book.must("enter", "lifejacket-auto", "--vessel", "Marten", "--tag", "LJ-2", "--colour", "red",
              "--opened", "2024-02-29", "--quantity", "3")
    item = {entry["tag"]: entry for entry in book.ask("list")}
    same("import took it, under another spelling", ("orange", "2025-06-01", "2025-06"),
         tuple(item["LJ-1"][key] for key in ("colour", "opened", "opened_as_written")))
    same("enter took it", ("red", "2024-02-29"),
         (item["LJ-2"]["colour"], item["LJ-2"]["opened"]))
    book.must("amend", "LJ-1", "--colour", "yellow", "--opened", "2025-07~")
    words = shown(book, "LJ-1")
    check("show tells it", "| colour yellow | opened on Jul 2025 (estimated)" in words, words)
    row = row_of(book, "LJ-1")
    same("export writes it", ("yellow", "2025-07~"), (row["colour"], row["opened"]))
    journal = " ".join(book.must("book", "journal", "LJ-1").split())
    check("the journal tells what it was and what it is",
          'colour from "orange" to "yellow"' in journal and
          'opened from "2025-06" to "2025-07~"' in journal, journal)
    future = book.run("amend", "LJ-2", "--opened", "2030-01")
    check("a day to come is remarked on", "opened" in future.stderr, future.stderr)
    book.must("book", "undo")
    same("undo takes it back", "2024-02-29", book.ask("show", "LJ-2")["opened"])
    book.must("move", "LJ-2", "--spares", "Northhaven", "--quantity", "1")
    pieces = [entry for entry in book.ask("list") if entry["opened"] == "2024-02-29"]
    same("a piece that is split off a lot has them", [("red", 1), ("red", 2)],
         sorted((entry["colour"], entry["quantity"]) for entry in pieces))
    book.must("amend", "LJ-2", "--opened", "")
    same("an empty value takes it away", None, book.ask("show", "LJ-2")["opened"])
    again = folder / "again.csv"
    book.must("export", again)
    said = book.must("import", again, "--dry-run")
    check("what was exported changes nothing when it is read again",
          "changed:" not in said and "added:" not in said, said)
    other = Book(folder / "other.db")
    other.must("import", again)
    same("a new book made of the export says the same", book.must("export", "-"),
         other.must("export", "-"))


def main():
    skip_without("a field added to a copy", "meson", "ninja", "cc")
    with scratch() as place:
        tree = Path(place) / "tree"
        tree.mkdir()
        copy_with_rows(tree)
        harness.BECKET = str(built(tree))
        folder = Path(place)
        follow(Book(folder / "a.db"), folder)
    end()


main()
