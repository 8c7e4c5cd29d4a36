"""A calendar read back after it went through programs that no one here wrote: untouched, older,
moved and ticked. What nobody touched proposes nothing on any of 60 later days, whatever the
program did to its bytes; a day that a person chose is seen, and so is a tick.

Python's icalendar writes the file anew; khal imports it into a folder of its own; todoman ticks;
vdirsyncer carries what was pushed from radicale and back; calcurse keeps no identity, so what it
gives out is foreign."""
import datetime
import json
import os
import resource
import subprocess
import sys

sys.path.insert(0, os.path.join(os.path.dirname(__file__), "..", "support"))
import caldav_bench  # noqa: E402
from caldav_bench import Book, Server  # noqa: E402
from calendar_person import Person  # noqa: E402
from harness import SANITIZED, TODAY, check, end, same, skip, skip_without  # noqa: E402

DAYS = 60
MOST_SECONDS = 30  # on the processor, this script and all its children
FIRST = datetime.date.fromisoformat(TODAY)


def scratch(name, text):
    path = os.path.join(caldav_bench.scratch, name)
    with open(path, "w", encoding="utf-8", newline="") as file:
        file.write(text)
    return path


def rewritten(text, change=None):
    """The calendar as icalendar writes it; `change` is done to each component before."""
    import icalendar
    calendar = icalendar.Calendar.from_ical(text)
    for component in calendar.walk():
        if change is not None and component.name in ("VEVENT", "VTODO"):
            change(component)
    return calendar.to_ical().decode()


def proposals(book, path, today=TODAY):
    return book.ask("calendar", "read", path, today=today)


def untouched(book, name, text):
    """Proposes nothing today or on any of the days after, and gives nothing out by looking."""
    path = scratch("untouched.ics", text)
    before = book.must("calendar", "-")
    days = [FIRST + datetime.timedelta(days=number) for number in range(DAYS + 1)]
    if SANITIZED:
        days = days[::10]
    proposed = [str(day) for day in days if proposals(book, path, day)]
    same(f"{name}: untouched proposes nothing on {len(days)} days", [], proposed)
    check(f"{name}: looking gave nothing out", book.must("calendar", "-") == before)


def move_first(text, days=7):
    """The calendar with its first event of a day to come moved by some days; its UID and day."""
    told = {}

    def change(component):
        fixed = str(component["SUMMARY"]).startswith("Last day")
        if not told and not fixed and component["DTSTART"].dt > FIRST:
            to = component["DTSTART"].dt + datetime.timedelta(days=days)
            told.update(uid=str(component["UID"]), day=str(to))
            component["DTSTART"].dt = to
            component["DTEND"].dt = to + datetime.timedelta(days=1)
    return rewritten(text, change), told


def moved(book, name, text, told):
    found = proposals(book, scratch("moved.ics", text))
    same(f"{name}: one was moved, and is seen", [("moved", told["day"], False)],
         [(one["what"], one["day"], one["both"]) for one in found])


def older(book, name, text):
    """Given out before the book changed."""
    said = book.must("calendar", "read", scratch("older.ics", text))
    check(f"{name}: an older one is called older, and proposes nothing",
          "older file" in said and "moved from" not in said, said)


def khal_through(name, text):
    """What khal keeps of a file that it imports."""
    person = Person(name, 'type = "filesystem"\npath = "/nowhere"\nfileext = ".ics"\n')
    person.run("khal", "-c", person.khal_config, "import", "--batch", "-a", "boats",
               scratch(f"{name}.ics", text))
    return "".join(person.files().values())


def calcurse_through(text):
    folder = os.path.join(caldav_bench.scratch, "calcurse")
    os.makedirs(folder)
    path = scratch("calcurse.ics", text)
    for words in (["-q", "-i", path], ["-x"]):
        done = subprocess.run(["calcurse", "-D", folder, "-C", folder, *words],
                              capture_output=True, encoding="utf-8", check=True, timeout=60,
                              stdin=subprocess.DEVNULL)
    return done.stdout


def events(book):
    first = book.file_text()
    untouched(book, "icalendar", rewritten(first))
    moved(book, "icalendar", *move_first(first))
    khal = khal_through("khal", first)
    check("khal: all were imported", khal.count("BEGIN:VEVENT") == first.count("BEGIN:VEVENT"))
    untouched(book, "khal", khal)
    text, told = move_first(first)
    moved(book, "khal", khal_through("khal-moved", text), told)
    try:
        calcurse = calcurse_through(first)
    except FileNotFoundError:
        skip("calcurse", "it is not installed")
    else:
        check("calcurse: there is something in it", "BEGIN:VEVENT" in calcurse)
        untouched(book, "calcurse", calcurse)
    return first, khal


def todos(book):
    """Ticked off with todoman, and the rest left alone."""
    path = os.path.join(caldav_bench.scratch, "todos.ics")
    book.must("calendar", path, "--to-dos")
    with open(path, encoding="utf-8", newline="") as file:
        text = file.read()
    untouched(book, "to-dos, icalendar", rewritten(text))
    person = Person("ticker", 'type = "filesystem"\npath = "/nowhere"\nfileext = ".ics"\n')
    head, *parts = text.split("BEGIN:VTODO")
    for number, part in enumerate(parts):
        body = part.removesuffix("END:VCALENDAR\r\n")
        with open(os.path.join(person.events, f"{number}.ics"), "w", encoding="utf-8",
                  newline="") as file:
            file.write(f"{head}BEGIN:VTODO{body}END:VCALENDAR\r\n")
    person.todo("list")
    person.todo("done", "1")
    found = proposals(book, scratch("ticked.ics", "".join(person.files().values())),
                      datetime.date.today().isoformat())
    check("todoman: the one that was ticked, and no other",
          [one["what"] for one in found] == ["done"] and
          any(f"\r\nSUMMARY:{found[0]['tag']}:" in one and "STATUS:COMPLETED" in one
              for one in person.files().values()), found)


def carry_a_move(person):
    """Moves one by nine days at the person's, and carries that to the server."""
    for name, text in sorted(person.files().items()):
        text, told = move_first(text, 9)
        if told:
            scratch(os.path.join(person.events, name), text)
            person.sync()
            return told
    return None


def server(book):
    """Pushed, carried off with vdirsyncer and back; nothing is found until somebody moves one, and
    what is moved on both sides waits for a word of its own."""
    radicale = Server("radicale")
    _, told = book.push(radicale.url, "--calendar", "Boats", "--create")
    person = Person("carrier", f'type = "caldav"\nurl = "{radicale.url}"\n'
                    f'username = "{caldav_bench.USER}"\npassword = "{pass_quoted()}"\n',
                    told["url"].rstrip("/").rsplit("/", 1)[1])
    person.discover()
    person.sync()
    untouched(book, "vdirsyncer", "".join(person.files().values()))
    found = [str(FIRST + datetime.timedelta(days=number)) for number in range(0, DAYS + 1, 5)
             if any(row["found"] for row in pulled(book, number)["reminders"])]
    same("radicale: pulled on later days, nothing of a person's is found", [], found)
    planned = carry_a_move(person)
    book.must("remind", "--plan", f"{planned['uid']}={FIRST + datetime.timedelta(days=40)}")
    done, told = book.push(None)
    rows = {row["uid"]: row for row in told["reminders"]}
    row = rows[planned["uid"]]
    same("radicale: what was moved on both sides is left", ("leave", "moved", True, 1),
         (row["act"], row["found"], row["both"], done.returncode))
    said = book.run("calendar", "push", "--password-file", book.password)
    check("radicale: and told with the words that decide",
          f"--keep theirs={planned['uid'][:8]}" in " ".join(said.stdout.split()), said.stdout)
    done, told = book.push(None, "--keep", f"theirs={planned['uid'][:8]}")
    row = {row["uid"]: row for row in told["reminders"]}[planned["uid"]]
    same("radicale: theirs is taken for that one", ("plan", planned["day"], 0),
         (row["act"], row["their_day"], done.returncode))
    done = book.run("calendar", "push", "--password-file", book.password, "--keep",
                    "ours=ffffffffffff")
    check("radicale: an identity that is no reminder's is refused",
          done.returncode == 2 and "no reminder's identity starts with" in done.stderr,
          done.stderr)
    journal = book.must("book", "journal")
    check("radicale: the account stands in the journal, and no password",
          radicale.url in journal and caldav_bench.PASSWORD not in journal, journal)
    radicale.stop()


def pass_quoted():
    return caldav_bench.PASSWORD.replace("\\", "\\\\").replace('"', '\\"')


def pulled(book, number):
    """What a pull that changes nothing finds some days on."""
    done = book.run("calendar", "pull", "--json", "--dry-run", "--password-file", book.password,
                    today=FIRST + datetime.timedelta(days=number))
    return json.loads(done.stdout)


def main():
    skip_without("calendar programs", "radicale", "vdirsyncer", "khal", "todoman")
    book = Book("programs").fill()
    first, khal = events(book)
    todos(book)
    server(book)
    book.must("station", "Flåteverksted; \"Øst\", Ås", "--turn-round", "60")
    book.must("remind", "--weekday", "wednesday")
    book.must("calendar", os.path.join(caldav_bench.scratch, "second.ics"))
    older(book, "icalendar", rewritten(first))
    older(book, "khal", khal)
    spent = sum(usage.ru_utime + usage.ru_stime for usage in map(
        resource.getrusage, (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)))
    print(f"{spent:.1f} s on the processor, of {MOST_SECONDS} that it is meant to stay under")
    end()


main()
