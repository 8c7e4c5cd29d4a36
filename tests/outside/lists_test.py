#!/usr/bin/python3
"""Twenty lists as different hands keep them, in tests/golden/lists: with the truth of each row
beside it, NAME.truth, written by hand from what the list says, and in NAME.cures the options that
cure what is asked about. Columns that a truth does not have are as of a new thing; a list whose
truth names no vessel is read with --vessel.

Each is imported without options, where every row must be right or asked about, and with its
cures, where every row must be right. A row that is taken and is no gear is wrong. The texts are
read as they are; with --spreadsheets the .fods ones, saved as .xlsx and as .ods by LibreOffice."""
import csv
import io
import re
import shlex
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import ROOT, Book, check, end, scratch, skip_without  # noqa: E402

LISTS = ROOT / "tests/golden/lists"
RECORD = ("served", "task", "next", "station", "certificate", "paid")
FREE = ("tag", "description")  # the program's own choice where the list does not say


def truth_of(path):
    """What each row says, by the line it starts in."""
    with path.with_suffix(".truth").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    return {int(row.pop("line")): row for row in rows}


def expected(truth, column):
    """A column's value; None where any will do."""
    if column in truth:
        return truth[column] or ("1" if column == "quantity" else "")
    if column == "task":
        return "service" if truth.get("served") else ""
    return {"vessel": "Quillfish", "quantity": "1", "state": "aboard"}.get(
        column, None if column in FREE else "")


def wrong_in(truth, rows):
    """The columns in which what the book holds of a thing, one row a record, is not the truth."""
    record = next((r for r in rows if r["served"] == truth.get("served", "")), {})
    found = {c: (record if c in RECORD else rows[0]).get(c, "") for c in rows[0]}
    return [f"{c}: {found[c]!r}, and not {want!r}" for c in found
            if (want := expected(truth, c)) is not None and want != found[c]]


class Reading:
    """One list, imported into books of its own."""

    def __init__(self, path, truth, cures, folder):
        self.path, self.truth, self.cures, self.folder = path, truth, cures, folder
        self.options = [] if "vessel" in next(iter(truth.values())) else ["--vessel", "Quillfish"]
        self.books = 0

    def take(self, *options):
        """The finished import into a new book, the book, and the lines that are complained of."""
        self.books += 1
        book = Book(self.folder / f"{self.path.name}-{self.books}.db")
        told = self.folder / "complaints"
        told.unlink(missing_ok=True)
        done = book.run("import", self.path, *self.options, *options, "--complaints", told)
        words = told.read_text() if told.exists() else ""
        words += "".join(line + "\n" for line in done.stderr.splitlines() if "note:" not in line)
        lines = {int(line) for line in re.findall(r"(?:^|: )line (\d+)[,:]", words, re.M)}
        return done, book, lines

    def check_rows(self, done, book, asked):
        """How many rows are right, and what is wrong."""
        held = {}
        for row in csv.DictReader(io.StringIO(book.must("export", "-"), newline="")):
            held.setdefault(row["tag"], []).append(row)
        taken = dict(re.findall(r"^line (\d+): (\S+) ", done.stdout, re.M))
        wrong = [f"line {line} is no gear, and taken as {tag}" for line, tag in taken.items()
                 if int(line) not in self.truth]
        right = 0
        for line, truth in self.truth.items():
            if line in asked:
                continue
            faults = wrong_in(truth, held[taken[str(line)]]) if str(line) in taken else ["lost"]
            right += not faults
            wrong += [f"line {line}: {', '.join(faults)}"] if faults else []
        return right, wrong

    def without_options(self):
        """Rows right, rows asked about, what is wrong. A question about the whole list asks
        about each of its rows; the others are read when the rows asked about are left out."""
        asked = set()
        while True:
            done, book, lines = self.take(*(f"--leave-out={line}" for line in sorted(asked)))
            if done.returncode == 0:
                break
            names = re.search(r"line (\d+): the column names", done.stderr)
            more = {n for n in lines if n > (int(names[1]) if names else 1)} - asked
            if not more or more | asked >= set(self.truth):
                return 0, len(self.truth), []
            asked |= more
        right, wrong = self.check_rows(done, book, asked)
        return right, len(asked & set(self.truth)), wrong

    def with_cures(self):
        done, book, _ = self.take(*self.cures)
        return self.check_rows(done, book, set()) if done.returncode == 0 else (0, [done.stderr])


def saved_as(ending, sources, folder):
    """The lists as LibreOffice saves them."""
    subprocess.run(["soffice", f"-env:UserInstallation=file://{folder}/office", "--headless",
                    "--convert-to", ending, "--outdir", str(folder), *map(str, sources)],
                   check=True, capture_output=True, env={"HOME": str(folder), "PATH": "/usr/bin:/bin"})
    return [(folder / f"{source.stem}.{ending}", source) for source in sources]


def lists(spreadsheets, folder):
    """Each file to be read, with the one that its truth stands beside."""
    sources = sorted(p for p in LISTS.iterdir() if p.suffix not in (".truth", ".cures"))
    if not spreadsheets:
        return [(path, path) for path in sources if path.suffix != ".fods"]
    skip_without("lists as LibreOffice saves them", "soffice")
    sheets = [path for path in sources if path.suffix == ".fods"]
    return saved_as("xlsx", sheets, folder) + saved_as("ods", sheets, folder)


with scratch() as name:
    table = []
    for path, source in lists("--spreadsheets" in sys.argv, Path(name)):
        cures = source.with_suffix(".cures")
        reading = Reading(path, truth_of(source), shlex.split(
            cures.read_text(encoding="utf-8")) if cures.exists() else [], Path(name))
        right, asked, wrong = reading.without_options()
        cured, still = reading.with_cures()
        rows = len(reading.truth)
        table.append((path.name, rows, right, asked, len(wrong), cured))
        check(f"{path.name}: every row is right or asked about",
              not wrong and right + asked == rows, "\n".join(wrong))
        check(f"{path.name}: with its cures every row is right",
              not still and cured == rows, "\n".join(still))
    head = ("list", "rows", "right", "asked", "wrong", "right with cures")
    total = ("all", *(sum(column) for column in list(zip(*table))[1:]))
    for row in (head, *table, total):
        print("{:<26} {:>5} {:>6} {:>6} {:>6} {:>17}".format(*row))
end()
