"""A list that is not clear, imported at a terminal: each thing is asked about once for the whole
list, what the rows come to is shown, and nothing is written before a yes. What was answered about
headers and words is kept with the book, through undo, backup and restore. On a pseudo-terminal;
what the answers must come to is worked out by hand beside the list."""
import csv
import io
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, end, same, scratch  # noqa: E402
from talk import Talk  # noqa: E402

# Two flares of unknown words; a date that can only be day first, so that 04/05 is 4 May; 03/27 and
# 04/27 are months; 1.250 is 1250 where a comma parts decimals; a row without a boat; a total.
LIST = """Boat;Wot;Wo es liegt;Anzahl?;Made;Useby;Last service;Cost
Quillfish;Pyro;port locker;2;04/05/2021;03/27;;1.250
Quillfish;Pyro;port locker;1;28/11/2021;04/27;;
;Doodad;chart table;1;05/06/2022;;03/04/2024;45
Total;;;4;;;;
"""
ANSWERS = [("Column \"Wot\"", "kind"), ("Column \"Wo es liegt\"", "Place"),
           ("could be either", "d"), ("two digits", "y"), ("parts the decimals", "c"),
           ("\"Pyro\" (2 rows", "flare red hand"), ("\"Doodad\"", "other-gear"),
           ("no kind of thing (line 5", "l"), ("boat called", "Quillfish"),
           ("ask for no service", "y"), ("be written?", "y")]
# By hand, as the README of the columns has it: FL-1 and FL-2 are the next free tags of their kind.
TRUTH = [
    {"tag": "FL-1", "kind": "flare-red-hand", "vessel": "Quillfish", "quantity": "2",
     "place": "port locker", "made": "2021-05-04", "expires": "use by 2027-03", "price": "1250.00"},
    {"tag": "FL-2", "kind": "flare-red-hand", "vessel": "Quillfish", "quantity": "1",
     "place": "port locker", "made": "2021-11-28", "expires": "use by 2027-04", "price": ""},
    {"tag": "OG-1", "kind": "other-gear", "vessel": "Quillfish", "quantity": "1",
     "place": "chart table", "made": "2022-06-05", "served": "2024-04-03", "price": "45.00"},
]


def held(book):
    """The rows of the book, in the columns of the truth."""
    rows = csv.DictReader(io.StringIO(book.must("export", "-"), newline=""))
    return [{column: row[column] for column in truth}
            for truth, row in zip(TRUTH, rows, strict=True)]


def first_time(book, path):
    for stop in range(len(ANSWERS)):
        talk = Talk(book, ANSWERS[:stop] + [(ANSWERS[stop][0], "stop" if stop < 9 else "n")],
                    "import", path)
        check(f"stopped at question {stop + 1}, {ANSWERS[stop][0]}: nothing is written",
              talk.status == 2 and not book.path.exists() and talk.left == [], talk.shown)
    talk = Talk(book, ANSWERS, "import", path)
    same("with all answers it is done", (0, []), (talk.status, talk.left))
    same("the rows are what the answers make of them", TRUTH, held(book))
    for words in ("made 4 May 2021, expires use by Mar 2027, price EUR 1250.00",
                  "new record of service 3 Apr 2024", "3 to be added"):
        check(f"before it is asked, it shows {words!r}",
              words in talk.shown.split("be written?")[0], talk.shown)
    check("examples stand beside a header", 'in it: "Pyro", "Doodad"' in talk.shown, talk.shown)
    check("the list's own date says which order is likely",
          '"28/11/2021" in this list can only be day first' in talk.shown, talk.shown)


def next_time(book, path):
    """Headers and words are known; how dates and prices are written is asked again."""
    known = ("Column", "Pyro", "Doodad")
    answers = [one for one in ANSWERS if not any(word in one[0] for word in known)]
    book.must("book", "undo")
    for name, of in (("after undo", book), ("after backup and restore", None)):
        if of is None:
            book.must("book", "backup", book.folder / "copy.becket")
            of = Book(book.folder / "other" / "book.db")
            of.path.parent.mkdir()
            of.environment = book.environment
            of.must("book", "restore", book.folder / "copy.becket")
        talk = Talk(of, answers, "import", path)
        same(f"{name} the answers are kept", (0, []), (talk.status, talk.left))
        same(f"{name} the rows are the same", TRUTH, held(of))
        check(f"{name} it says so", "as answered for an earlier list" in talk.shown, talk.shown)
        if of is book:
            book.must("book", "undo")
    talk = Talk(book, [], "import", path, "--ask-again")
    check("--ask-again asks anew", 'Column "Wot"' in talk.shown, talk.shown)
    plain = book.run("import", path, "--dates", "day-first", "--two-digit-years", "--decimals",
                     "comma", "--vessel", "Quillfish", "--leave-out", "5", "--services-are-right",
                     "--dry-run")
    check("without a terminal they hold, too", plain.returncode == 0
          and 'column "Wot" taken as kind, as answered' in plain.stderr, plain.stderr)


def mended_later(book, path):
    """A list with a fault that no answer cures: the answers can be kept until it is mended."""
    book.must("vessel", "Quillfish")
    path.write_text("Boat,Kit,Made\nQuillfish,plb,31/02/2022\n", encoding="utf-8")
    talk = Talk(book, [('Column "Kit"', "kind"), ("has to be mended", "y")], "import", path)
    check("a date that is none is told, and the answers are kept",
          talk.status == 2 and "31/02/2022" in talk.shown and talk.left == [], talk.shown)
    path.write_text("Boat,Kit,Made\nQuillfish,plb,2022-02\n", encoding="utf-8")
    talk = Talk(book, [("be written?", "y")], "import", path)
    same("the mended list is taken without the question", (0, []), (talk.status, talk.left))


def another_currency(book, path):
    """A column of prices in another currency is asked about once, and may be kept as words."""
    path.write_text("Boat,Kit,Price\nPetrel,tether,£45.00\nPetrel,plb,£249.00\n", encoding="utf-8")
    talk = Talk(book, [('Column "Price" has prices in GBP, and the book\'s are in EUR', "notes"),
                       ('Column "Kit"', "kind"), ("be written?", "y")], "import", path)
    same("prices in another currency are asked about", (0, []), (talk.status, talk.left))
    same("and kept as words", ["£45.00", "£249.00"],
         [row["notes"] for row in sorted(book.ask("list"), key=lambda row: row["kind"], reverse=True)])


def hostile(book, path):
    path.write_text("Boat,K\x1b[31mit,Made\nQuillfish,plb,2022\n", encoding="utf-8")
    talk = Talk(book, [], "import", path)
    check("what the list holds can't move the terminal", "\x1b[31m" not in talk.shown
          and "K?[31mit" in talk.shown, repr(talk.shown))


def main():
    with scratch() as folder:
        path = Path(folder) / "list.csv"
        path.write_text(LIST, encoding="utf-8")
        book = Book(Path(folder) / "book.db")
        refused = book.run("import", path)
        check("without a terminal all is told at once, each with its option",
              refused.returncode == 2 and all(word in refused.stderr for word in
                  ("--map", "is no column")) and not book.path.exists(), refused.stderr)
        first_time(book, path)
        next_time(book, path)
        mended_later(Book(Path(folder) / "mended.db"), path)
        another_currency(Book(Path(folder) / "pounds.db"), path)
        hostile(Book(Path(folder) / "hostile.db"), path)
    end()


main()
