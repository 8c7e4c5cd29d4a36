#!/usr/bin/python3
"""Spreadsheet files as LibreOffice writes them, and as nobody should: lists/titled.fods and the
demonstration's own CSV, saved by LibreOffice as .xlsx and .ods, become the rows that were
typed; damaged and swollen archives are refused with words and change nothing."""
import random
import subprocess
import sys
import zipfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import ROOT, Book, check, end, same, scaled, scratch, skip_without  # noqa: E402

skip_without("spreadsheet files by LibreOffice", "soffice")

# titled.fods: a title, then column names in row 4. The raft's year is a date shown as a year,
# its service one shown to the day, the flares' expiry one shown as month and year by the
# column's style; their number is the result of a formula; the raft's remark has two blanks, two
# paragraphs, and a note pinned to another cell of its row, which is no part of the list.
TITLED = """\
vessel,tag,kind,description,quantity,made,expires,served,price,notes
Quillfish,FL-1,flare-red-hand,Red hand flares,4,,2027-06,,,
Quillfish,LR-1,liferaft-canister,"Liferaft, canister",1,2019,,2025-11-03,1450.50,"4  persons
on the coachroof"
"""


def saved_as(source, ending, folder):
    """The list as LibreOffice saves it."""
    subprocess.run(["soffice", f"-env:UserInstallation=file://{folder}/office", "--headless",
                    "--convert-to", ending, "--outdir", str(folder), str(source)],
                   check=True, capture_output=True, env={"HOME": str(folder), "PATH": "/usr/bin:/bin"})
    return folder / f"{source.stem}.{ending}"


def export(book, columns=None):
    """What the book holds: whole, or of some columns, the lines' ends made plain."""
    import csv
    import io
    text = book.must("export", "-")
    if columns is None:
        return text
    out = io.StringIO()
    rows = csv.DictReader(io.StringIO(text, newline=""))
    writer = csv.DictWriter(out, columns, extrasaction="ignore", lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()


def check_titled(folder, ending):
    book = Book(folder / f"titled-{ending}.db")
    path = saved_as(ROOT / "tests/outside/lists/titled.fods", ending, folder)
    book.must("import", path, "--vessel", "Quillfish")
    same(f"a titled list saved as .{ending} becomes the rows that were typed", TITLED,
         export(book, TITLED.split("\n", 1)[0].split(",")))


def check_demo(folder, ending):
    """Every cell of the demonstration's list, by way of the spreadsheet, is as in the CSV."""
    plain, other = Book(folder / f"plain-{ending}.db"), Book(folder / f"demo-{ending}.db")
    source = ROOT / "data/demo/owner.csv"
    plain.must("import", source)
    other.must("import", saved_as(source, ending, folder))
    same(f"the demonstration's list saved as .{ending} is the same list", export(plain),
         export(other))
    return folder / f"owner.{ending}"


def refused(book, path, *words):
    """True when it was refused as bad input, with words, and no book was begun."""
    done = book.run("import", path, "--vessel", "Q", *words, timeout=60)
    return done.returncode == 2 and done.stderr.startswith("becket: ") \
        and not book.path.exists()


def check_damaged(folder, path):
    whole = path.read_bytes()
    draw = random.Random(20261128)
    book = Book(folder / "damaged.db")
    wrong = []
    for i in range(scaled(40)):
        bytes_ = bytearray(whole[:draw.randrange(30, len(whole))] if i % 2 else whole)
        for _ in range(0 if i % 2 else 40):
            bytes_[draw.randrange(len(bytes_))] ^= 1 << draw.randrange(8)
        damaged = folder / f"damaged{path.suffix}"
        damaged.write_bytes(bytes_)
        done = book.run("import", damaged, "--dry-run", timeout=60)
        # A flip may well hit what nobody reads: then the list is whole.
        if done.returncode not in (0, 2):
            wrong.append((i, done.returncode, done.stderr))
    check(f"damaged {path.suffix} files are read or refused, and no more", not wrong, wrong[:3])


def check_swollen(folder):
    """A few kilobytes that unpack to 300 MiB."""
    path = folder / "swollen.ods"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as swollen:
        swollen.writestr("content.xml", b"<d>" + b" " * (300 << 20) + b"</d>")
    check("an archive that swells beyond 256 MiB is refused",
          refused(Book(folder / "swollen.db"), path))


def check_repeated(folder):
    """A cell that says it stands a million times over, in a million rows."""
    path = folder / "repeated.ods"
    cell = "<t:table-cell t:number-columns-repeated='1000000'><x:p>1</x:p></t:table-cell>"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as repeated:
        repeated.writestr("content.xml", "<d xmlns:t='t' xmlns:x='x'><t:table t:name='A'>"
                          f"<t:table-row t:number-rows-repeated='1000000'>{cell}"
                          "</t:table-row></t:table></d>")
    check("a cell that is repeated a million times is refused",
          refused(Book(folder / "repeated.db"), path))


with scratch() as name:
    for kind in ("xlsx", "ods"):
        check_titled(Path(name), kind)
        check_damaged(Path(name), check_demo(Path(name), kind))
    check_swollen(Path(name))
    check_repeated(Path(name))
end()
