#!/usr/bin/env python3
"""A scripted year of the demonstration's fleet: each step's `due`, `winter` and `show` are held
against what was derived by hand in demo/year.md, and each step is undone and done again.

    year_test.py BECKET

Every expected value is typed from that page. Each difference is one sentence on standard
error; exit 1 when there is any.
"""
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, demonstration, end, same, scratch  # noqa: E402

DEPOT = "Marrin Safety Depot"
RAFTS = "Marrin Raft Station"
JACKETS = [f"AJ-LJ-{n}" for n in range(1, 9)]

BAG = """tag,result,done,next,certificate,price,renewed,keep,note
AJ-LJ-1,passed,2026-12-07,,MS-26-901,45.00,,,
AJ-LJ-2,passed,2026-12-07,,MS-26-902,45.00,,,
AJ-LJ-3,condemned,2026-12-07,,,12.00,,,seam gone
AJ-LJ-4,passed,2026-12-07,,MS-26-904,45.00,,,
AJ-LJ-5,passed-shorter,2026-12-07,2027-06-30,MS-26-905,45.00,,,bladder worn
AJ-LJ-6,passed,2026-12-07,,MS-26-906,64.50,AJ-LJ-6-FH=2029-06,,
AJ-LJ-7,condemned,2026-12-07,,,12.00,,,
AJ-LJ-8,condemned,2026-12-07,,,12.00,,AJ-LJ-8-LT,
"""

class Fleet(Book):
    """The fleet's book, asked and changed on a day of the year."""

    def export(self):
        return self.must("export", "-")

    def due(self, tag, task):
        rows = [row for row in self.ask("due") if row["tag"] == tag and row["task"] == task]
        return rows[0] if len(rows) == 1 else None

    def winter(self, vessel):
        return self.ask("winter", "--vessel", vessel)[0]

    def step(self, name, *words):
        """Does something, takes it back, and does it again: the same both times."""
        before = self.export(), self.ask("due")
        first = self.run(*words)
        same(f"{name}: {first.stderr.strip() or 'its status'}", 0, first.returncode)
        after = self.export(), self.ask("due")
        check(f"{name} changes something", before != after)
        self.must("book", "undo")
        same(f"{name}, taken back", before, (self.export(), self.ask("due")))
        self.must(*words)
        same(f"{name}, done again", after, (self.export(), self.ask("due")))
        return first


def check_due(book, step, rows):
    """(tag, task, due, state, winter) lines; a due of None: no such line."""
    for tag, task, due, state, winter in rows:
        where = f"{step}: due {tag} {task}"
        row = book.due(tag, task)
        if due is None:
            same(where, None, row)
            continue
        found = row and (row["due"], row["state"], row["winter"])
        same(where, (due, state, winter), found)


def handed_in(shore):
    return {(item["tag"], item["task"]): (trip["station"], trip["hand_in"], trip["collect"])
            for trip in shore["hand_in"] for item in trip["items"]}


def at_the_start(book):
    """What the fleet's list says before anything went ashore."""
    trips = handed_in(book.winter("Amberjay"))
    for tag in JACKETS:
        same(f"start: {tag} is handed in", (DEPOT, "2026-12-04", "2026-12-18"),
             trips.get((tag, "service")))


def november(book):
    """Eight jackets go into a bag for the station, with what is on and in them."""
    book.step("november", "land", "AJ-LJ-1..AJ-LJ-8", "--to", DEPOT)
    check_due(book, "november", [
        ("AJ-LJ-1", "service", "2027-02-07", "in-date", 2026),
        ("AJ-LJ-3", "service", "2025-02-28", "overdue", 2026),
        ("AJ-LJ-8", "service", "2027-03-21", "in-date", 2026)])
    shore = book.winter("Amberjay")
    same("november: what is still to be handed in to the depot",
         set(), {tag for tag, _ in handed_in(shore)} & set(JACKETS))
    ashore = {line["tag"]: line for line in shore["ashore"]}
    same("november: what is ashore", set(JACKETS), set(ashore))
    for tag in JACKETS:
        tasks = ["service", "renew"] if tag == "AJ-LJ-6" else ["service"]
        same(f"november: {tag} ashore",
             (DEPOT, "2026-11-25", "2026-12-09", tasks),
             tuple(ashore[tag][key] for key in ("station", "since", "collect", "tasks")))
    for tag in ("AJ-LJ-5", "AJ-LJ-5-FH", "AJ-LJ-5-LT"):
        shown = book.ask("show", tag)
        same(f"november: {tag} stands", ("landed", DEPOT, "2026-11-25"),
             tuple(shown[key] for key in ("state", "landed_to", "landed_on")))
    where = book.ask("where", "AJ-LJ-5-FH")[0]
    same("november: where AJ-LJ-5-FH is", ("AJ-LJ-5", "landed", DEPOT),
         (where["with"], where["state"], where["station"]))
    same("november: pieces ashore", 8, len(book.ask("ashore", "--station", DEPOT)))
    book.must("land", "AJ-LJ-1", "--to", DEPOT, status=(2,))


def december(book, folder):
    """Five come back, one of them for less time; three are condemned."""
    book.today = "2026-12-09"
    bag = folder / "back.csv"
    bag.write_text(BAG, encoding="utf-8")
    before = book.export()
    bad = folder / "bad.csv"
    bad.write_text(BAG.replace("AJ-LJ-8,condemned", "AJ-LJ-9,condemned"), encoding="utf-8")
    done = book.run("return", "--from-csv", str(bad))
    same("december: a bag with one bad row is refused", 2, done.returncode)
    same("december: a bag with one bad row is told", True,
         'line 9, column tag: there is no item with the tag "AJ-LJ-9"' in done.stderr)
    same("december: a bag with one bad row changes nothing", before, book.export())
    book.step("december", "return", "--from-csv", str(bag), "--as-asked")
    check_due(book, "december", [
        ("AJ-LJ-1", "service", "2027-12-07", "in-date", 2027),
        ("AJ-LJ-2", "service", "2027-12-07", "in-date", 2027),
        ("AJ-LJ-3", "service", None, None, None),
        ("AJ-LJ-4", "service", "2027-12-07", "in-date", 2027),
        ("AJ-LJ-5", "service", "2027-06-30", "in-date", 2026),
        ("AJ-LJ-6", "service", "2027-12-07", "in-date", 2027),
        ("AJ-LJ-6-FH", "renew", "2029-06-30", "in-date", 2028),
        ("AJ-LJ-7", "service", None, None, None),
        ("AJ-LJ-7-FH", "renew", None, None, None),
        ("AJ-LJ-8", "service", None, None, None),
        ("AJ-LJ-8-FH", "renew", None, None, None),
        ("AJ-LJ-8-LT", "renew", "2030-05-31", "in-date", 2029)])
    same("december: the certificate binds", "certificate", book.due("AJ-LJ-5", "service")["rule"])
    shore = book.winter("Amberjay")
    same("december: nothing is ashore", [], shore["ashore"])
    same("december: AJ-LJ-5 goes once more", (DEPOT, "2026-12-16", "2027-01-11"),
         handed_in(shore).get(("AJ-LJ-5", "service")))
    same("december: the others stay", set(JACKETS) & {tag for tag, _ in handed_in(shore)},
         {"AJ-LJ-5"})
    gone = book.ask("show", "AJ-LJ-3")
    same("december: AJ-LJ-3", ("withdrawn", "condemned"), (gone["state"], gone["because"]))
    kept = book.ask("show", "AJ-LJ-8-LT")
    same("december: AJ-LJ-8-LT", ("aboard", None, None),
         (kept["state"], kept["part_of"], kept["landed_to"]))
    renewed = book.ask("show", "AJ-LJ-6-FH")
    same("december: AJ-LJ-6-FH", ("aboard", "2029-06-30", "2026-12-07"),
         (renewed["state"], renewed["expires"], renewed["fitted"]))
    back = {line["tag"] for line in book.ask("ashore", "--came-back")}
    same("december: what came back different",
         {"AJ-LJ-3", "AJ-LJ-5", "AJ-LJ-6", "AJ-LJ-7", "AJ-LJ-8"}, back)
    spent = book.ask("spent", "--year", "2026", "--vessel", "Amberjay")
    same("december: spent at the depot", 28050,
         {row["station"]: row["minor"] for row in spent["stations"]}.get(DEPOT))
    book.must("enter", "lifejacket-manual", "--vessel", "Brindlewing", "--serial", "C191003",
             status=(2,))


def a_raft_is_hired(book):
    """The raft is away into January, and another stands in for it."""
    book.step("raft", "land", "AJ-LR-1", "--to", RAFTS)
    same("raft: it can be fetched", "2027-01-21",
         {line["tag"]: line["collect"] for line in book.winter("Amberjay")["ashore"]}
         .get("AJ-LR-1"))
    book.step("hire", "stand-in", "liferaft-valise", "--for", "AJ-LR-1", "--tag", "HIRE-1",
              "--until", "2027-01-31", "--made", "2024-05", "--served", "2026-06-01",
              "--serial", "HX-20417")
    check_due(book, "hire", [
        ("HIRE-1", "renew", "2027-01-31", "in-date", 2026),
        ("HIRE-1", "service", "2027-06-01", "in-date", 2026)])
    shore = book.winter("Amberjay")
    same("hire: to be given back", [("HIRE-1", "2027-01-31")],
         [(line["tag"], line["not_after"]) for line in shore["self"] if line["give_back"]])
    same("hire: its owner sees to its service", False,
         ("HIRE-1", "service") in handed_in(shore))
    book.today = "2027-02-01"
    check_due(book, "hire over", [("HIRE-1", "renew", "2027-01-31", "expired", 2026)])
    book.today = "2027-01-21"
    done = book.step("raft back", "return", "AJ-LR-1", "--as-asked", "--done", "2027-01-20",
                     "--certificate", "MR-27-001", "--renewed", "AJ-LR-1-BW=2031-01")
    same("raft back: the stand-in is named", True,
         "HIRE-1 stands in for AJ-LR-1, which is back: it is no longer needed" in done.stderr)
    check_due(book, "raft back", [
        ("AJ-LR-1", "service", "2028-01-20", "in-date", 2027),
        ("AJ-LR-1-BW", "renew", "2031-01-31", "in-date", 2030)])
    book.step("given back", "withdraw", "HIRE-1", "--because", "given-back")
    check_due(book, "given back", [("HIRE-1", "renew", None, None, None)])


def june(book):
    """A jacket listed on one boat turns up on another."""
    book.today = "2027-06-10"
    book.step("june, there", "move", "AJ-LJ-4", "--vessel", "Brindlewing")
    book.step("june, back", "move", "BW-LJ-1", "--vessel", "Amberjay")
    check_due(book, "june", [
        ("AJ-LJ-4", "service", "2027-12-07", "in-date", 2027),
        ("BW-LJ-1", "service", "2027-03-10", "overdue", None)])
    amberjay, brindlewing = book.winter("Amberjay"), book.winter("Brindlewing")
    same("june: BW-LJ-1 is Amberjay's to see to now", True,
         ("BW-LJ-1", "service") in {(line["tag"], line["task"]) for line in amberjay["now"]})
    same("june: AJ-LJ-4 goes with Brindlewing's", (True, False),
         (("AJ-LJ-4", "service") in handed_in(brindlewing),
          ("AJ-LJ-4", "service") in handed_in(amberjay)))
    book.must("move", "BW-LJ-5-FH", "--vessel", "Amberjay", status=(2,))
    book.step("june, spares", "move", "BW-LJ-5", "--spares", "Port Marrin")
    for tag in ("BW-LJ-5", "BW-LJ-5-FH", "BW-LJ-5-LT"):
        same(f"june: {tag}", "Spares at Port Marrin", book.ask("show", tag)["vessel"])
    moves = [(line["was_vessel"], line["vessel"]) for line in
             book.ask("show", "BW-LJ-5")["movements"] if line["move"] == "moved"]
    same("june: what BW-LJ-5 went through", [("Brindlewing", "Spares at Port Marrin")], moves)
    told = book.ask("history", "C191004")
    same("june: the history of C191004", ["2026-02-13", "2026-11-25", "2026-12-07",
                                          "2026-12-09", "2027-06-10"],
         [line["on"] for line in told["happened"]])


def after_a_fire(book, folder):
    """An event puts a jacket out until it is serviced."""
    book.today = "2027-06-20"
    book.step("inflated", "record", "inflated", "AJ-LJ-2", "--on", "2027-06-12")
    check_due(book, "inflated", [("AJ-LJ-2", "service", "2027-06-11", "overdue", None)])
    book.step("re-armed", "record", "service", "AJ-LJ-2", "--on", "2027-06-18")
    check_due(book, "re-armed", [("AJ-LJ-2", "service", "2028-06-18", "in-date", 2027)])
    copy = folder / "copy.becket"
    book.must("book", "backup", str(copy))
    kept = book.export(), book.ask("due"), book.ask("show", "AJ-LJ-3")
    book.must("withdraw", "AJ-LJ-5", "--because", "lost")
    book.must("book", "restore", str(copy))
    same("restored", kept, (book.export(), book.ask("due"), book.ask("show", "AJ-LJ-3")))


def main():
    with scratch() as name:
        folder = Path(name)
        book = Fleet(demonstration(folder)[1].path)
        at_the_start(book)
        november(book)
        december(book, folder)
        a_raft_is_hired(book)
        june(book)
        after_a_fire(book, folder)
    end()


main()
