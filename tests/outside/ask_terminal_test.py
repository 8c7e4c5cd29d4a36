"""On a terminal, a serial number that should be read again is asked about; elsewhere it is refused;
a reminder that was moved in a calendar and in the book is asked about, and elsewhere left; so is
what is told of a boat otherwise than before, what becomes of the gear of one that leaves, and what
came back where "return" is all that was typed. The same command with each answer, on a
pseudo-terminal."""
import re
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, end, same, scratch  # noqa: E402
from talk import Talk  # noqa: E402


def on_terminal(book, answer, *words, question="Go on? [y/N]"):
    """The exit status, what the terminal shows, and whether the question was asked."""
    talk = Talk(book, [(question, answer)], *words)
    return talk.status, talk.shown, talk.asked == 1


def moved_on_both_sides(book):
    """What is planned then, for each answer; "theirs" alone takes what stands in the file."""
    book.must("vessel", "Skerry", "--lay-up", "11-01..03-31")
    book.must("enter", "flare-red-hand", "--vessel", "Skerry", "--tag", "FL-1", "--expires", "2027-06")
    path = book.folder / "boats.ics"
    book.must("calendar", path, "--vessel", "Skerry")
    text = path.read_bytes().decode()
    uid = re.search(r"\r\nUID:(\S+)", text).group(1)
    path.write_bytes(re.sub(r"(DTSTART;VALUE=DATE):\d+", r"\1:20270120", text).encode())
    book.must("remind", "--plan", f"{uid}=2027-01-11")
    book.must("calendar", book.folder / "second.ics")

    def planned():
        return [one["day"] for one in book.ask("remind") if one["uid"] == uid]

    said = book.must("calendar", "read", path)
    check("both moved: without a terminal it is told and left",
          "by its number alone" in " ".join(said.split()) and planned() == ["2027-01-11"], said)
    for answer, day in (("", "2027-01-11"), ("ours", "2027-01-11"), ("\x04", "2027-01-11"),
                        ("o", "2027-01-11"), ("T", "2027-01-20")):
        status, shown, asked = on_terminal(
            book, answer, "calendar", "read", str(path), question="Which holds?")
        check(f"both moved: asked, {answer!r} leaves it on {day}",
              asked and status == 0 and planned() == [day], f"{status} {planned()} {shown}")


def told_otherwise(book):
    """A boat whose base is told otherwise: written since ever, from today, or not at all."""
    book.must("vessel", "Garganey", "--base", "North quay")
    before = book.ask("vessel", "Garganey")
    words = ("vessel", "Garganey", "--base", "South quay")
    question = "or does it change from today (t)?"
    for answer in ("", "x", "y", "\x04"):
        status, shown, asked = on_terminal(book, answer, *words, question=question)
        check(f"told otherwise: asked, {answer!r} writes nothing",
              asked and status == 2 and book.ask("vessel", "Garganey") == before,
              f"{status} {shown}")
    status, shown, asked = on_terminal(book, "w", *words, question=question)
    [vessel] = book.ask("vessel", "Garganey")
    check("told otherwise: w corrects it since ever",
          asked and status == 0 and vessel["base"] == "South quay"
          and len(vessel["periods"]) == 1, f"{status} {vessel}")
    status, shown, asked = on_terminal(
        book, "t", "vessel", "Garganey", "--base", "East quay", question=question)
    [vessel] = book.ask("vessel", "Garganey")
    check("told otherwise: t changes it from today",
          asked and status == 0 and vessel["base"] == "East quay"
          and len(vessel["periods"]) == 2, f"{status} {vessel}")
    status, shown, asked = on_terminal(
        book, "", "vessel", "Garganey", "--base", "East quay", question=question)
    check("told as it is: it is not asked", status == 0 and not asked, shown)


def leaving(book):
    """Where the gear is and whether she left, for each answer."""
    question = "withdrawn (w)?"
    for answer, status_wanted, vessel, state in (
            ("", 2, "Wigeon", "aboard"), ("yes", 2, "Wigeon", "aboard"),
            ("\x04", 2, "Wigeon", "aboard"), ("with-her", 0, "Wigeon", "aboard"),
            ("spares", 0, "Spares at Quay", "aboard"),
            ("withdrawn", 0, "Wigeon", "withdrawn")):
        with scratch() as folder:
            own = Book(Path(folder) / "book.db")
            own.must("vessel", "Wigeon", "--base", "Quay")
            own.must("enter", "tether", "--vessel", "Wigeon", "--tag", "TE-1", "--made", "2024")
            status, shown, asked = on_terminal(
                own, answer, "vessel", "Wigeon", "--left", own.today, question=question)
            [wigeon] = own.ask("vessel", "Wigeon")
            [tether] = own.ask("list", "--all")
            left = wigeon["left"] is not None
            check(f"leaving: asked, {answer!r} is {status_wanted}",
                  asked and status == status_wanted and left == (status == 0)
                  and (tether["vessel"], tether["state"]) == (vessel, state),
                  f"{status} {wigeon['left']} {tether['vessel']} {tether['state']} {shown}")
    book.must("vessel", "Dunlin")
    status, shown, asked = on_terminal(
        book, "", "vessel", "Dunlin", "--left", "today", question=question)
    check("leaving without gear: it is not asked", status == 0 and not asked, shown)


def returning():
    """Return alone asks from which station, then piece by piece; without a terminal it says how."""
    with scratch() as folder:
        book = Book(Path(folder) / "book.db")
        alone = ("return",)
        book.must("vessel", "Smew")
        for station in ("Holm Quay Loft", "Båen Raft Loft"):
            book.must("station", station)
        book.must("enter", "lifejacket-auto", "--vessel", "Smew", "--tag", "LJ-1..LJ-3", "--made", "2024")
        refused = book.run(*alone)
        check("return alone without a terminal says how",
              refused.returncode == 2 and "--from-csv FILE" in refused.stderr
              and "--ask" in refused.stderr, refused.stderr)
        talk = Talk(book, [], *alone)
        check("return alone with nothing ashore says so",
              talk.status == 2 and "nothing is ashore" in talk.shown, talk.shown)
        book.must("land", "LJ-1..LJ-2", "--station", "Holm Quay Loft")
        book.must("land", "LJ-3", "--station", "Båen Raft Loft")
        for answer, back in (("1", ["LJ-1", "LJ-2"]), ("baen RAFT loft", ["LJ-3"]),
                             ("", ["LJ-1", "LJ-2", "LJ-3"])):
            talk = Talk(book, [("which station", ["3", answer]), ("passed-shorter", ["not-done"] * 3),
                               ("Price", [""] * 3), ("Go on?", "y")], *alone)
            ashore = {item["tag"] for item in book.ask("list") if item["state"] == "landed"}
            same(f"back from the station {answer!r}: its pieces are asked about, and no other",
                 (0, set(back)), (talk.status, {"LJ-1", "LJ-2", "LJ-3"} - ashore))
            book.must("book", "undo")
        talk = Talk(book, [("which station", "2")], *alone)
        check("answers that end write nothing",
              talk.status == 2 and "nothing is written" in talk.shown, talk.shown)
        talk = Talk(book, [("passed-shorter", "Not-Done"), ("Price", ""), ("Go on?", "y")],
                    "return", "--by", "båen raft loft")
        check("with --by it is not asked which station", talk.status == 0 and talk.left == [], talk.shown)
        talk = Talk(book, [("passed-shorter", ["not-done", ""]), ("Price", ""), ("Go on?", "y")], *alone)
        check("nor where all is at one", talk.status == 0 and talk.left == [], talk.shown)
        refused = Talk(book, [], "return", "--result", "passed")
        check("what is said of pieces that are not named is refused, as without a terminal",
              refused.status == 2 and "TAG is missing" in refused.shown, refused.shown)


def main():
    with scratch() as folder:
        book = Book(Path(folder) / "book.db")
        book.must("vessel", "Quillfish")
        book.must("enter", "plb", "--vessel", "Quillfish", "--tag", "PL-1",
            "--serial", "P-1100")
        near = ("enter", "plb", "--vessel", "Quillfish", "--tag", "PL-2", "--serial", "P-1101")
        refused = book.run(*near)
        check("without a terminal it is refused",
              refused.returncode == 2 and "--serials-are-right" in refused.stderr)
        for answer in ("n", "", "\x04"):
            status, shown, asked = on_terminal(book, answer, *near)
            there = "PL-2" in [item["tag"] for item in book.ask("list")]
            check(f"asked, {answer!r} enters nothing",
                  asked and status == 2 and not there and "P-1100" in shown)
        status, shown, asked = on_terminal(book, "y", *near)
        there = "PL-2" in [item["tag"] for item in book.ask("list")]
        check("asked, yes enters it", asked and status == 0 and there)
        status, shown, asked = on_terminal(
            book, "", "enter", "plb", "--vessel", "Quillfish", "--serial", "P-1102",
            "--serials-are-right")
        check("answered beforehand it is not asked", status == 0 and not asked)
        hint = '("becket book undo" takes that back)'
        check("a change is followed by how to take it back", hint in shown, shown)
        for words in (("list",), ("book", "check"), ("book", "undo"), ("list", "--json")):
            shown = on_terminal(book, "", *words)[1]
            check(f"{' '.join(words)} is not", hint not in shown, shown)
        done = book.run("amend", "PL-1", "--place", "chart table")
        check("nor is anything without a terminal", (done.returncode, done.stderr) == (0, ""), done.stderr)
        moved_on_both_sides(book)
        for letter in ("S", "h", "withdrawn"):
            status, shown, asked = on_terminal(
                book, letter, "vessel", "Quillfish", "--left", "2026-11-20", "--because", "sold",
                question="withdrawn (w)?")
            same(f"what becomes of her gear is answered by a letter, {letter!r}", (True, 0),
                 (asked, status))
            book.must("book", "undo")
        status, shown, asked = on_terminal(
            book, "x", "vessel", "Quillfish", "--left", "2026-11-20", "--because", "sold",
            question="withdrawn (w)?")
        check("another letter is none of them, and writes nothing",
              asked and status == 2 and 'found "x"' in shown, shown)
        told_otherwise(book)
        leaving(book)
    returning()
    end()


main()
