"""The list as someone keeps it in a spreadsheet, with the simplest clock: what LibreOffice needs
for it.

    office_bench.py BECKET [BOATS]

The rows of fleets.py, of 500 boats when not said, with a day due in each: the marked day or twelve
months after the last service, whichever is first; and a count of those that are past. The file is
without values, so that opening it means reckoning all of it anew; headless, it is then written as
CSV. The count is held to one made here, row by row. Beside it stand the same file with nothing to
reckon, and `due --json`, which reads a book of the same gear and has all its rules. A benchmark,
not a test: nothing is asserted."""
import csv
import datetime
import os
import shutil
import sys
import tempfile
from pathlib import Path
from xml.sax.saxutils import escape

import fleets

HEAD = """<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"
 xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2" office:version="1.2"
 office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:body><office:spreadsheet><table:table table:name="gear">
"""
FOOT = "</table:table></office:spreadsheet></office:body></office:document>\n"
TODAY = datetime.date.fromisoformat(fleets.TODAY)


def words(text):
    return f'<table:table-cell office:value-type="string"><text:p>{escape(text)}</text:p></table:table-cell>'


def day(value):
    return (f'<table:table-cell office:value-type="date" office:date-value="{value}"/>' if value else
            "<table:table-cell/>")


def formula(text):
    return f'<table:table-cell table:formula="of:={escape(text, {chr(34): "&quot;"})}"/>'


def write(path, boats, reckoned=True):
    """The sheet, its first row the count; how many are past, counted here."""
    past = 0
    last = boats * fleets.ITEMS + 1
    count = f'COUNTIF([.F2:.F{last}];"<"&DATE({TODAY.year};{TODAY.month};{TODAY.day}))'
    with open(path, "w", encoding="utf-8") as file:
        file.write(HEAD)
        file.write(f"<table:table-row>{words('past')}{formula(count) if reckoned else words('')}</table:table-row>\n")
        for row, piece in enumerate(fleets.pieces(boats), 2):
            boat, tag, kind, marked, served = piece[0], piece[1], piece[2], piece[5], piece[6]
            marked, served = (month and datetime.date.fromisoformat(f"{month}-01") for month in (marked, served))
            due = min(filter(None, (marked, served.replace(year=served.year + 1))))
            past += due < TODAY
            cell = (formula(f'MIN(IF([.D{row}]="";99999;[.D{row}]);EDATE([.E{row}];12))') if reckoned else
                    day(due))
            file.write(f"<table:table-row>{words(boat)}{words(tag)}{words(kind)}{day(marked)}{day(served)}{cell}"
                       "</table:table-row>\n")
        file.write(FOOT)
    return past


def command(folder, sheet):
    return ["soffice", f"-env:UserInstallation=file://{folder}/office", "--headless", "--convert-to", "csv",
            "--outdir", folder, sheet]


def measured(measure, boats):
    """Seconds of the processor and megabytes of opening the sheet with all to reckon, and with
    nothing; None where LibreOffice is not installed. `measure` gives them for a command."""
    if shutil.which("soffice") is None:
        return None
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        found = []
        for reckoned in (False, True):  # the first start makes its own settings: not counted
            sheet = folder / f"gear-{reckoned}.fods"
            past = write(sheet, boats, reckoned)
            for _ in range(1 if reckoned else 2):
                used = measure(command(folder, sheet))
            found.append(used)
        with open(folder / "gear-True.csv", newline="", encoding="utf-8") as file:
            told = next(csv.reader(file))[1]
        if told != str(past):
            sys.exit(f"the sheet counts {told} past, and there are {past}")
        return found[1], found[0]


def main():
    import fleet_bench
    becket, boats = os.path.abspath(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 500
    office = measured(fleet_bench.once, boats)
    if office is None:
        print("skip LibreOffice: it is not installed")
        return
    with tempfile.TemporaryDirectory() as name:
        book = Path(name) / "fleet.db"
        fleets.by_sql(becket, book, boats)
        ours = fleet_bench.measured(fleet_bench.program(becket, book, "due", "--json"))
    for what, (seconds, megabytes) in (("LibreOffice, all to reckon", office[0]),
                                       ("LibreOffice, nothing to reckon", office[1]), ("due --json", ours)):
        print(f"{boats * fleets.ITEMS} pieces, {what}: {seconds:.2f} s, {megabytes:.0f} MB, "
              f"{seconds / ours[0]:.1f} times due --json")


if __name__ == "__main__":
    main()
