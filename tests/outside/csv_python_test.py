#!/usr/bin/python3
"""The inventory CSV against Python's csv module, which was written by others.

What Python writes in several dialects, our reader reads and our writer writes again; what
Python then reads from that must be the cells it wrote. Run with BUILD=<build directory>.
"""
import csv
import io
import os
import subprocess
import unittest

COLUMNS = (
    "vessel tag kind description serial quantity place made packed bought fitted expires "
    "served task next station certificate part_of price notes state paid "
    "make capacity rating landed_to landed_on hired_until because stands_for to_buy refit"
).split()

DRIVER = os.path.join(os.environ.get("BUILD", "build"), "tests/support/csv_driver")


def item(**cells):
    row = dict.fromkeys(COLUMNS, "")
    row.update(vessel="Quillfish", kind="gas-cylinder", quantity="1", state="aboard")
    row.update(cells)
    return row


ROWS = [
    item(tag="A-1", description='say "aboard"', notes="one,two;three\tfour"),
    item(tag="A-2", notes='first line\nsecond "line"\r\nthird\rfourth\n'),
    item(tag="A-3", description="  blanks around  ", place="\ttab first"),
    item(tag="A-4", notes="Grüße aus Åland, 救命浮環, e\u0301"),
    item(tag="A-5", notes='"', serial='""', place=","),
    item(
        tag="A-6", kind="liferaft-canister", quantity="12", made="2018", packed="2018-06",
        bought="2018-07-02", fitted="2018-07-14~", expires="before 2027-06",
        served="2024-11-18", task="service", next="2027-11-18", station="Loft, North",
        certificate="C-7", price="2150.00", paid="310.05", state="reserve",
        make="Quorl & Søn", capacity="12", landed_to="Loft, North", landed_on="2026-11-03",
    ),
    item(tag="A-7", kind="raft-contents", part_of="A-6", state="withdrawn", price="0.07",
         because="condemned"),
    item(tag="A-8", notes="=1+2", description="+44", serial="-1", place="@deck",
         rating="13A/113B", hired_until="2027-03-31", stands_for="A-6", to_buy="two, \"small\""),
    item(tag="A-10", made="2020-01", expires="2031-05", served="2026-05-02",
         task="renew", refit="yes"),
    # One reason to quote in each cell.
    item(tag="A-9", notes="hose;hook", description="to\tfro", serial="blank after ",
         place=" blank before", rating="1;2;3;4;5"),
]

EARLIER = dict.fromkeys(COLUMNS, "") | {
    "vessel": "Quillfish", "tag": "A-6", "kind": "liferaft-canister",
    "served": "2021-11", "task": "inspect", "certificate": "C-6",
}


def rewrite(data, order="iso"):
    return subprocess.run([DRIVER, order], input=data, capture_output=True, check=False)


def written(rows, columns=COLUMNS, **dialect):
    out = io.StringIO(newline="")
    writer = csv.writer(out, **dialect)
    writer.writerow(columns)
    for row in rows:
        writer.writerow([row[column] for column in columns])
    return out.getvalue()


class Cells(unittest.TestCase):
    maxDiff = None

    def read_back(self, data):
        result = rewrite(data)
        self.assertEqual(result.stderr.decode(), "")
        self.assertEqual(result.returncode, 0)
        text = io.StringIO(result.stdout.decode("utf-8"), newline="")
        reader = csv.DictReader(text, strict=True)
        self.assertEqual(reader.fieldnames, COLUMNS)
        return list(reader)

    def check(self, text, rows=ROWS):
        self.assertEqual(self.read_back(text.encode("utf-8")), rows)

    def test_default_dialect(self):
        self.check(written(ROWS))

    def test_bare_line_feeds(self):
        self.check(written(ROWS, lineterminator="\n"))

    def test_everything_quoted(self):
        self.check(written(ROWS, quoting=csv.QUOTE_ALL))

    def test_semicolons(self):
        self.check(written(ROWS, delimiter=";"))

    def test_tabs(self):
        self.check(written(ROWS, delimiter="\t", quoting=csv.QUOTE_ALL))

    def test_byte_order_mark(self):
        self.check("\ufeff" + written(ROWS))

    def test_columns_in_another_order(self):
        self.check(written(ROWS, columns=COLUMNS[::-1]))

    def test_empty_lines_between_rows(self):
        self.check(written(ROWS, lineterminator="\r\n\r\n"))

    def test_no_line_end_at_the_end(self):
        self.check(written(ROWS).removesuffix("\r\n"))

    def test_an_earlier_record_is_a_further_row(self):
        rows = ROWS[:6] + [EARLIER] + ROWS[6:]
        self.check(written(rows), rows)

    def test_an_earlier_record_at_the_end_comes_back_beside_its_item(self):
        expected = ROWS[:6] + [EARLIER] + ROWS[6:]
        self.check(written(ROWS + [EARLIER]), expected)

    def test_what_is_written_is_read_and_written_to_the_same_bytes(self):
        once = rewrite(written(ROWS, delimiter=";").encode()).stdout
        self.assertEqual(rewrite(once).stdout, once)

    def test_no_separator_of_another_reader_is_left_outside_quotes(self):
        text = rewrite(written(ROWS).encode()).stdout.decode("utf-8")
        outside = "".join(text.split('"')[::2])
        self.assertEqual([sign for sign in ";\t" if sign in outside], [])
        self.assertEqual([row for row in csv.reader(io.StringIO(outside, newline=""))
                          if any(cell != cell.strip() for cell in row)], [])

    def test_the_separator_is_guessed_right(self):
        text = rewrite(written(ROWS).encode()).stdout.decode("utf-8")
        self.assertEqual(csv.Sniffer().sniff(text, delimiters=",;\t").delimiter, ",")

    def test_every_byte_of_ascii_in_notes(self):
        notes = "".join(chr(c) for c in range(1, 128)) + "end"
        rows = [item(tag="A-1", notes=notes)]
        self.check(written(rows, quoting=csv.QUOTE_ALL), rows)

    def test_a_bad_date_is_refused_with_line_and_column(self):
        rows = ROWS[:2] + [item(tag="B-1", made="31/02/2021")]
        result = rewrite(written(rows).encode(), "day-first")
        self.assertEqual(result.returncode, 2)
        self.assertEqual(result.stdout, b"")
        # The row before has CR LF, CR and LF in it; the fourth row of the file starts in
        # line 1 (header) + 1 (A-1) + 5 (A-2: four line ends inside) + 1.
        self.assertTrue(
            result.stderr.decode().startswith('input: line 8, column made: "31/02/2021"'),
            result.stderr,
        )


if __name__ == "__main__":
    unittest.main(argv=["csv_python_test.py"])
