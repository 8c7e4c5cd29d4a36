"""The first year of somebody new to it, typed at a terminal: a list as it was kept is imported, the
winter planned, a date explained, reminders written, gear landed and brought back with one jacket
shorter and one condemned, ten new ones bought, the boat chartered from June, a mistake taken back,
and all of it moved to another machine. What must come out is worked out by hand beside each step.
How many commands were typed and questions answered is printed in the end."""
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, end, same, scratch  # noqa: E402
from talk import Talk  # noqa: E402

LIST = """Safety gear of our boat, autumn 2026;;;;;;;
;;;;;;;
What;Qty;Where;Made;Use by;Serviced;Serial;Paid
Life raft (valise);1;cockpit locker;04/05/2021;;20/05/2026;R-77;1.450
Auto lifejacket;1;saloon;03/2022;;12/04/2026;J-101;
Auto lifejacket;1;saloon;03/2022;;12/04/2026;J-205;
Pyro red;4;grab bag;;06/27;;;
EPIRB;1;chart table;28/11/2022;11/28;;E-5;
Total;8;;;;;;1.450
"""


class Year:
    """A book, and all that is typed about it."""

    def __init__(self, book):
        self.book, self.commands, self.answers = book, 0, 0

    def type(self, day, *words, answers=(), status=0):
        """What the terminal shows of a command."""
        talk = Talk(self.book, answers, *map(str, words), today=day)
        self.commands += 1
        self.answers += talk.asked
        same(f"{day}: becket {' '.join(map(str, words))}", (status, []), (talk.status, talk.left))
        if talk.status != status:
            print(talk.shown)
        return talk.shown

    def due(self, day, tag, task):
        """The day on which a task is due, and how it stands."""
        found = [(row["due"], row["state"]) for row in self.book.ask("due", "--all", today=day)
                 if (row["tag"], row["task"]) == (tag, task)]
        return found[0] if found else None


def begin(year, folder):
    path = folder / "gear.csv"
    path.write_text(LIST, encoding="utf-8")
    year.type("2026-10-20", "import", path, answers=[
        ("boat called", "Wagtail"), ("could be either", "d"), ("two digits", "y"),
        ("parts the decimals", "c"), ("\"Pyro red\"", "flare-red-hand"), ("seems to be a heading", "none"),
        ("be written?", "y")])
    rows = {item["tag"]: item for item in year.book.ask("list")}
    same("five things came in", {"LR-1", "LJ-1", "LJ-2", "FL-1", "EP-1"}, set(rows))
    # as typed there: 4 May 2021; four flares; a mark "use by June" is good to the end of May
    # (stamp.h)
    same("the raft was made on 4 May 2021", "2021-05-04", rows["LR-1"]["made"])
    same("there are four flares", 4, rows["FL-1"]["quantity"])
    same("flares used by June are renewed by the end of May", ("2027-05-31", "in-date"),
         year.due("2026-10-20", "FL-1", "renew"))
    # practice.yaml, lifejacket-service-private: 24 months from 12 April 2026
    same("a jacket serviced on 12 April is due two years later", ("2028-04-12", "in-date"),
         year.due("2026-10-20", "LJ-1", "service"))


def winter(year, folder):
    year.type("2026-10-20", "station", "Marrin Loft", "--kinds", "liferaft-valise,lifejacket-auto",
              "--turn-round", "21", "--trip", "25")
    shown = year.type("2026-11-05", "winter")
    check("the winter hands in at the loft", "Marrin Loft" in shown and "LJ-1" in shown, shown)
    shown = year.type("2026-11-05", "why", "lj-1")
    check("why speaks of 12 April 2026 and 2028", "12 Apr 2026" in shown and "12 Apr 2028" in shown, shown)
    calendar = folder / "boat.ics"
    year.type("2026-11-05", "calendar", calendar)
    check("reminders are written", "BEGIN:VEVENT" in calendar.read_text())


def ashore(year):
    year.type("2026-12-01", "land", "lj-1..lj-2", "--to", "marrin loft", "--on", "2026-12-01")
    year.type("2027-01-10", "return", "--ask", answers=[
        ("passed, passed-shorter, condemned", ["passed-shorter", "condemned"]),
        ("Done", ["service"]), ("Next date", ["2027-10-10"]), ("Certificate", ["C-1", ""]),
        ("Price", ["45", ""]), ("Go on?", ["y"])])
    # the paper says 10 October 2027, earlier than practice's 10 January 2029: the paper binds
    same("the shorter paper binds", ("2027-10-10", "in-date"), year.due("2027-01-11", "LJ-1", "service"))
    same("the condemned one is gone", None, year.due("2027-01-11", "LJ-2", "service"))


def spring(year):
    year.type("2027-03-20", "enter", "lifejacket-auto", "--tag", "LJ-11..LJ-20", "--serials",
              "K-1011..K-1020", "--made", "2027-02", "--bought", "2027-03-20", "--price", "89,50")
    rows = [item for item in year.book.ask("list") if item["kind"] == "lifejacket-auto"]
    same("eleven jackets are aboard", 11, len(rows))
    same("89,50 is 89.50", {8950}, {item["price"] for item in rows if item["tag"] != "LJ-1"})
    year.type("2027-05-01", "vessel", "wagtail", "--use", "commercial", "--from", "2027-06-01")
    # practice.yaml, raft-service-private: 24 months after a service, and raft-service-commercial:
    # 12. A raft of 20 May 2026 is lapsed from the day she goes commercial, so 31 May is its last
    # good day
    same("chartered from June the raft is good to 31 May", ("2027-05-31", "in-date"),
         year.due("2027-05-02", "LR-1", "service"))


def mistake(year):
    before = year.book.ask("list")
    year.type("2027-05-03", "withdraw", "ep-1", "--because", "lost")
    check("the EPIRB is out", "EP-1" not in [item["tag"] for item in year.book.ask("list")])
    year.type("2027-05-03", "book", "undo")
    same("the mistake is taken back", before, year.book.ask("list"))


def move(year, folder):
    year.type("2027-05-04", "book", "backup", folder / "wagtail.becket")
    other = Year(Book(folder / "other/book.db"))
    other.book.path.parent.mkdir()
    other.type("2027-05-04", "book", "restore", folder / "wagtail.becket")
    same("on the other machine all is due as here", year.book.ask("due", "--all", today="2027-05-04"),
         other.book.ask("due", "--all", today="2027-05-04"))
    year.commands += other.commands
    year.answers += other.answers


def main():
    with scratch() as name:
        folder = Path(name)
        year = Year(Book(folder / "book.db"))
        begin(year, folder)
        winter(year, folder)
        ashore(year)
        spring(year)
        mistake(year)
        move(year, folder)
        print(f"{year.commands} commands were typed, and {year.answers} questions answered")
        check("a year takes no more than 20 commands and 25 answers",
              year.commands <= 20 and year.answers <= 25)
    end()


main()
