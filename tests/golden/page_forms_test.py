"""The forms about one piece, without a script: what they would change is told before anything is
written, and only that is written; the second of two people is told what the first wrote."""
import re
import subprocess
import sys
import urllib.parse
from datetime import date
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, demonstration, end, same, scratch  # noqa: E402
from pages import Pages, send_parts  # noqa: E402


def form_of(page):
    return next(f for f in page.all("form") if f.attributes.get("method") == "post")


def told(page):
    """What the box above the button says."""
    return page.one("div", class_="change").text()


def due(book, tag, task):
    return next((row["due"], row["state"]) for row in book.ask("due", "--all", "--routine")
                if (row["tag"], row["task"]) == (tag, task))


def saved(pages, page, **typed):
    """Sends a page's form to be saved."""
    return pages.send(form_of(page), "save", **typed)


def check_done(book, pages):
    """A service of 25 Nov 2026 on LJ-6: common practice asks for it every 24 months on a private
    boat, as LJ-1's card says, so it is due again on 25 Nov 2028."""
    before = due(book, "LJ-6", "service")
    page = pages.get("/done/LJ-6")
    status, page, _ = pages.send(form_of(page), "look", task="service", by="Holm Quay Safety Service",
                                 certificate="C-77", price="45,00")
    same("a service that is tried is shown", 200, status)
    check("what it changes is told", "service of 25 Nov 2026 is written down" in told(page) and
          "service due 25 Nov 2028, in date; until now due 16 Sep 2026, overdue" in told(page),
          told(page))
    same("nothing is written by looking", before, due(book, "LJ-6", "service"))
    status, _, where = saved(pages, page)
    same("it is written when it is saved", (303, "/locker/LJ-6#piece"), (status, where))
    same("the date is what was told", ("2028-11-25", "in-date"), due(book, "LJ-6", "service"))
    record = book.ask("show", "LJ-6")["records"][-1]
    same("the record has what was typed",
         ("service", "2026-11-25", "Holm Quay Safety Service", "C-77"),
         (record["task"], record["on"], record["station"], record["certificate"]))


def check_mistyped(book, pages):
    """A day that is none is told at its field, what was typed is kept, nothing is written."""
    page = pages.get("/done/LJ-1")
    status, page, _ = pages.send(form_of(page), "save", task="service", on="31 Feb 2026", by="Ann's")
    field = page.one("input", name="on")
    check("a day that is none is told at its field",
          status == 409 and field.attributes.get("aria-invalid") == "true" and
          page.one("p", id="on.wrong") is not None, page.text()[:400])
    same("what was typed is kept", ("31 Feb 2026", "Ann's"),
         (field.attributes["value"], page.one("input", name="by").attributes["value"]))
    check("nothing can be saved then", all(b.attributes.get("name") != "save"
                                           for b in page.all("button")))


def check_unseen(book, pages):
    """A form sent to be saved that was not tried, or whose outcome is another by now, is shown."""
    before = book.ask("book", "journal")
    page = pages.get("/done/FE-2")
    status, page, _ = pages.send(form_of(page), "save", task="service")
    same("what was not seen is not written", (200, before), (status, book.ask("book", "journal")))
    status, page, _ = saved(pages, page, on="1 Nov 2026")
    check("what differs from what was seen is shown anew",
          status == 200 and "1 Nov 2026" in told(page), told(page))
    same("and not written", before, book.ask("book", "journal"))


def check_two(book, pages):
    """Two people mend one piece: the second is told, and keeps what was typed."""
    first = pages.get("/mend/RM-1")
    second = pages.get("/mend/RM-1")
    _, first, _ = pages.send(form_of(first), "look", place="saloon")
    status, _, _ = saved(pages, first)
    same("the first one's is written", (303, "saloon"), (status, book.ask("show", "RM-1")["place"]))
    status, page, _ = pages.send(form_of(second), "look", place="lazarette")
    check("the second is told what changed meanwhile",
          "Another wrote about it since you saw it" in told(page) and "saloon" in told(page) and
          "Place: another wrote saloon meanwhile; you typed lazarette" in page.text(), page.text()[:900])
    same("nothing is overwritten silently", "saloon", book.ask("show", "RM-1")["place"])
    status, page, where = saved(pages, page)
    same("who still wants it, having seen it, has it", (303, "lazarette"),
         (status, book.ask("show", "RM-1")["place"]))


STATION = "Holm Quay Safety Service"


def bag_of(page):
    return next(f for f in page.all("form") if f.attributes.get("method") == "post" and
                f.one("input", name="station", value=STATION))


def check_bag_of_two(pages):
    """Two people pack one bag: neither takes the other's ticks off, and what one has handed in the
    other can't hand in again unseen."""
    first, second = pages.get("/winter"), pages.get("/winter")
    pages.send(bag_of(first), act="keep", **{"packed.FE-1": "yes"})
    pages.send(bag_of(second), act="keep", **{"packed.FE-2": "yes"})
    ticked = {field.attributes["name"] for field in bag_of(pages.get("/winter")).all("input")
              if "checked" in field.attributes}
    same("both ticks stand", {"packed.FE-1", "packed.FE-2"}, ticked)
    form = bag_of(pages.get("/winter"))
    del form.one("input", name="packed.FE-1").attributes["checked"]
    pages.send(form, act="keep")
    first, second = pages.get("/winter"), pages.get("/winter")
    same("one tick is taken off", {"packed.FE-2"}, {
        field.attributes["name"] for field in bag_of(first).all("input") if "checked" in field.attributes})
    status, _, _ = pages.send(bag_of(first), act="handed")
    same("the first hands in what is ticked", 303, status)
    status, page, _ = pages.send(bag_of(second), act="handed", **{"packed.FE-1": "yes"})
    check("the second is told what is in the bag no more, and who changed it",
          status == 400 and "FE-2 is not in this bag any more: changed on 25 Nov 2026" in page.text(),
          page.text()[:600])


def check_back_of_two(book, pages):
    """Two people enter one bag that came back: the second is told of what is ashore no more."""
    book.must("land", "LJ-3", "LJ-6", "--to", STATION, "--on", "2026-11-20")
    typed = {"act": "look", "on": "25 Nov 2026", "by": STATION}
    back = pages.get(f"/back?station={STATION.replace(' ', '+')}")
    check("of pieces that went on several days the first is told",
          f"Three pieces have been at {STATION}, the first since 20 Nov 2026." in back.text(), back.text()[:400])
    bag = [f for f in back.all("form") if f.one("input", name="station")][0]
    _, second, _ = pages.send(bag, **typed, **{"r.LJ-3": "passed", "r.LJ-6": "passed", "r.FE-2": "stays"})
    book.must("return", "LJ-3", "--on", "2026-11-25", "--by", STATION, "--as-asked")
    status, page, _ = pages.send(
        next(f for f in second.all("form") if f.one("input", name="seen")), act="save")
    check("the second is told what came back meanwhile, and by whom", status == 400 and
          "LJ-3 is not ashore there any more: changed on 25 Nov 2026" in page.text(), page.text()[:600])
    same("and nothing is written", "landed", book.ask("show", "LJ-6")["state"])


def check_new_parts(book, pages):
    """Two parts of one kind that a raft gets new are told apart by their tags."""
    book.must("land", "LR-1", "--to", "Varne Sound Raft Loft", "--on", "2026-11-20")
    labels = [label.text() for label in pages.get("/back?station=Varne+Sound+Raft+Loft").all("label")]
    same("each new part has a field of its own name",
         ["New hydrostatic release, marked", "New liferaft contents LR-1-BW, marked",
          "New liferaft contents LR-1-FL, marked"],
         sorted(label for label in labels if label.startswith("New ")))


def check_other_field(book, pages):
    """What only the other changed stays."""
    mine = pages.get("/mend/DB-1")
    book.must("amend", "DB-1", "--notes", "new line")
    _, page, _ = pages.send(form_of(mine), "look", place="stern rail")
    same("a field of the other's shows what stands there", "new line",
         page.one("input", name="notes").attributes["value"])
    status, _, _ = saved(pages, page)
    shown = book.ask("show", "DB-1")
    same("both changes stand", (303, "stern rail", "new line"),
         (status, shown["place"], shown["notes"]))


def check_enter(book, pages):
    """Ten alike at once, then gone, then moved."""
    page = pages.get("/new?count=3")
    _, page, _ = pages.send(form_of(page), "look", kind="red hand flare", expires="Jun 2029",
                            place="grab bag")
    check("what is entered is told, with the day it is due",
          told(page).count("is entered on Quillfish; its renewal due 30 Jun 2029, in date") == 3,
          told(page))
    before = {item["tag"] for item in book.ask("list")}
    status, _, _ = saved(pages, page)
    fresh = [item for item in book.ask("list") if item["tag"] not in before]
    same("three are entered", (303, ["2029-06-30"] * 3), (status, [i["expires"] for i in fresh]))
    tag = fresh[0]["tag"]
    page = pages.get(f"/gone/{tag}")
    _, page, _ = pages.send(form_of(page), "look", because="used")
    check("going for good is told", "withdrawn; until now aboard" in told(page), told(page))
    status, _, _ = saved(pages, page)
    same("it is gone", (303, "withdrawn", "used"),
         (status, book.ask("show", tag)["state"], book.ask("show", tag)["because"]))


def check_question(book, pages):
    """A serial number that is another's is asked about before it is written."""
    page = pages.get("/mend/LJ-2")
    serial = book.ask("show", "LJ-1")["serial"]
    _, page, _ = pages.send(form_of(page), "look", serial=serial)
    box = page.one("input", name="yes")
    check("a serial number of another is asked about", box is not None, page.text()[:900])
    if box is not None:
        _, page, _ = pages.send(form_of(page), "look", yes=box.attributes["value"])
        check("the answer is taken", "serial" in told(page) and page.one("button", name="save"),
              told(page))
        status, _, _ = saved(pages, page)
        same("and it is written", (303, serial), (status, book.ask("show", "LJ-2")["serial"]))


def check_move(book, pages):
    page = pages.get("/move/AJ-FE-1")
    _, page, _ = pages.send(form_of(page), "look", to="Brindlewing")
    check("a move is told", "vessel Brindlewing; until now Amberjay" in told(page), told(page))
    status, _, _ = saved(pages, page)
    same("it is moved", (303, "Brindlewing"), (status, book.ask("show", "AJ-FE-1")["vessel"]))


def check_booking(book, pages):
    """A booking says what it asks of the boat before it is written, as `muster --bookings` has it
    after; two that can't both be are refused, and what was typed is kept."""
    day, typed = "2027-04-03", {"to": "10 Apr 2027", "persons": "6"}
    page = pages.get("/booking?vessel=Foxmere&from=3+Apr+2027")
    _, page, _ = pages.send(form_of(page), act="look", persons="six", to="10 Apr 2027")
    same("a number that is none is told at its field", "true",
         page.one("input", name="persons").attributes.get("aria-invalid"))
    _, page, _ = pages.send(form_of(page), act="look", **typed)
    words = told(page)
    check("a booking is told", "Foxmere is let from 3 Apr 2027 to 10 Apr 2027, 6 persons." in words, words)
    same("nothing is written by looking", [], book.ask("booking"))
    status, _, where = pages.send(form_of(page), act="save")
    same("it is written, and its day shown", (303, f"/saturday?on={day}", [("Foxmere", day, 6)]),
         (status, where, [(one["vessel"], one["from"], one["persons"]) for one in book.ask("booking")]))
    answer = book.ask("muster", "--bookings", "--from", day, "--to", day)["bookings"][0]["answer"]
    said = {"fine": "She may sail on all days", "cured": "spares of her base cure it",
            "short": "no spares there are cure it", "not-told": "be told"}[answer]
    check("what was told is what the muster has", said in words, f"{answer}: {words}")
    status, page, _ = pages.send(form_of(pages.get("/booking")), act="look", vessel="Foxmere",
                                 **{"from": "5 Apr 2027"}, to="7 Apr 2027")
    check("two that can't both be are refused, and what was typed is kept", status == 400 and
          page.one("button", value="save") is None and
          page.one("input", name="from").attributes["value"] == "5 Apr 2027", told(page))


def check_rebooking(book, pages):
    """What another made of a booking meanwhile is told, by whom, and stays where one did not type
    over it; a booking that another took out is not brought back."""
    book.must("booking", "Foxmere", "--from", "2027-05-01", "--to", "2027-05-08", "--persons", "6")
    path = "/booking?vessel=Foxmere&first=2027-05-01"
    _, page, _ = pages.send(form_of(pages.get(path)), act="look", to="9 May 2027")
    check("a change of a booking is told with what it was", "Foxmere is let from 1 May 2027 to 9 May 2027, 6 persons; "
          "it was 1 May 2027 to 8 May 2027, 6 persons." in told(page), told(page))
    book.must("booking", "Foxmere", "--change", "2027-05-01", "--persons", "4", "--signed", "Bram Ost")
    status, page, _ = pages.send(form_of(page), act="save")
    check("what another made of it meanwhile is told first", status == 409 and
          "by Bram Ost: Foxmere: booking persons became 4; it was 6" in told(page), f"{status} {told(page)}")
    check("and is not typed over", "9 May 2027, 4 persons; it was" in told(page), told(page))
    status, _, _ = pages.send(form_of(page), act="save")
    same("saved on top of that it is both", (303, "2027-05-09", 4), (status, *(
        (one["to"], one["persons"]) for one in book.ask("booking") if one["from"] == "2027-05-01").__next__()))
    _, page, _ = pages.send(form_of(pages.get(path)), act="look", to="10 May 2027")
    book.must("booking", "Foxmere", "--remove", "2027-05-01", "--signed", "Bram Ost")
    status, page, _ = pages.send(form_of(page), act="save")
    check("one that another took out is not brought back", status == 400 and "taken out" in told(page) and
          "Bram Ost" in told(page) and all(one["from"] != "2027-05-01" for one in book.ask("booking")), told(page))


def check_long_list(book, pages):
    """Of a list of 130 different words and 210 pieces each stands on one part of the page, and what
    was answered on one part holds on the next and is written."""
    rows = "".join(f"Quillfish,ZZ-{i},wombat lantern {i % 130} flare red hand,2030-02-28\n" for i in range(210))
    _, page = send_parts(pages, form_of(pages.get("/list")),
                         ("list", "long.csv", "text/csv", f"Vessel,Tag,Kind,Expires\n{rows}".encode()))
    words, dates, told = [], [], []
    answered = {}
    for _ in range(12):
        for select in page.all("select"):
            name = select.attributes["name"]
            if name.startswith("means."):
                words.append(name)
                answered.setdefault(name, "flare-red-hand" if name != "means.wombat lantern 7 flare red hand"
                                    else "flare-white-hand")
        shown = {select.attributes["name"] for select in page.all("select")}
        more = [b for b in page.all("button", name="words") if int(b.attributes["value"]) >= 60 * len(told) + 60]
        told.append(len(shown))
        form = next(f for f in page.all("form") if f.attributes.get("id") == "list")
        sent = {name: value for name, value in answered.items() if name in shown}
        if not more:
            break
        _, page = send_parts(pages, form, ("none", "", "text/plain", b""), words=more[0].attributes["value"], **sent)
    check("the columns are told by what stands above them", {"map.Vessel", "map.Tag", "map.Kind", "map.Expires"} <=
          shown, shown)
    same("each of the different words stands on one part", sorted(f"means.wombat lantern {i} flare red hand"
         for i in range(130)), sorted(words))
    _, page = send_parts(pages, form, ("none", "", "text/plain", b""), act="read", **sent)
    for at in ("0", "200"):
        form = next(f for f in page.all("form") if f.attributes.get("id") == "list")
        _, page = send_parts(pages, form, ("none", "", "text/plain", b""), dates=at)
        dates += [tag.text() for tag in page.all("span", class_="tag")]
    same("each piece stands with its dates on one part", sorted(f"ZZ-{i}" for i in range(210)), sorted(dates))
    form = next(f for f in page.all("form") if f.attributes.get("id") == "list")
    status, _ = send_parts(pages, form, ("none", "", "text/plain", b""), act="write")
    kinds = {item["tag"]: item["kind"] for item in book.ask("list")}
    same("what was answered on the first part is written", (303, "flare-white-hand", "flare-white-hand", "flare-red-hand"),
         (status, *(kinds.get(f"ZZ-{i}") for i in (7, 137, 8))))


def check_choices(book, pages):
    """A day of the week is told with what moves by it, which `remind` then has; what one left as it
    was stays as another put it meanwhile, and who did is told first."""
    page = pages.get("/reminders/choices")
    _, page, _ = pages.send(form_of(page), act="look", weekday="Friday")
    words = told(page)
    check("another day of the week is told", "Your day of the week is Friday in place of Saturday." in words, words)
    before = {row["uid"]: row for row in book.ask("remind")}
    book.must("remind", "--routines", "yes")
    status, page, _ = pages.send(form_of(page), act="save")
    words = told(page)
    check("what another chose meanwhile is told first", status == 409 and "Another wrote about it since you saw it" in
          words and "looks" in words, f"{status} {words}")
    status, _, where = pages.send(form_of(page), act="save")
    same("it is written when it is saved on top of that", (303, "/reminders"), (status, where))
    rows = [row for row in book.ask("remind") if row["uid"] in before]
    moved = [row for row in rows if row["day"] != before[row["uid"]]["day"]]
    check("the reminders that moved are on a Friday, and were told to", len(moved) > 0 and all(
        date.fromisoformat(row["day"]).weekday() == 4 and row["summary"] in words for row in moved), moved)
    check("what another chose stays", any(row["summary"].startswith("Look at") for row in book.ask("remind")))


def check_reminder_day(book, pages):
    """A hand-in is given up with its reason, and planned again; a day gone by is refused at its
    field."""
    one = next(row for row in book.ask("remind") if row["summary"].startswith("Hand in"))
    path = f"/reminders/day/{one['uid']}"
    status, page, _ = pages.send(form_of(pages.get(path)), act="look", what="put", on="1 Nov 2026")
    check("a day gone by is refused at its field", status == 400 and "1 Nov 2026 is past" in
          page.one("p", class_="fault").text(), told(page))
    _, page, _ = pages.send(form_of(pages.get(path)), act="look", what="give-up", why="<b>dear</b>")
    check("what giving it up changes is told", f"None any more on 2 Dec 2026: {one['summary']}." in told(page),
          told(page))
    same("nothing is written by looking", one, next(r for r in book.ask("remind") if r["uid"] == one["uid"]))
    pages.send(form_of(page), act="save")
    same("it is given up, and why", "<b>dear</b>",
         next(r["given_up"] for r in book.ask("remind") if r["uid"] == one["uid"]))
    check("it stands with its reason among the reminders", "<b>dear</b>. It was planned for 2 Dec 2026" in
          pages.get("/reminders").text())
    _, page, _ = pages.send(form_of(pages.get(path)), act="look", what="plan")
    pages.send(form_of(page), act="save")
    same("planned again it is where it was", one["day"],
         next(r["day"] for r in book.ask("remind") if r["uid"] == one["uid"]))


def check_take_back(book, pages):
    """The last change is told with what taking it back would write, and is taken back."""
    book.must("amend", "TE-1", "--place", "chain locker")
    page = pages.get("/safe")
    heads = [row.one("b").text() for row in page.all("li", class_="row")]
    check("the oldest entry says in words that the book was begun", heads and heads[-1] == "The book was begun" and
          not any("identity" in head for head in heads), heads[-3:])
    link = next(a for a in page.all("a", class_="button")
                if a.attributes["href"].startswith("/safe/"))
    page = pages.get(link.attributes["href"])
    check("what taking back changes is told", "place became wet locker; it was chain locker"
          in told(page), told(page))
    same("nothing is written by looking", "chain locker", book.ask("show", "TE-1")["place"])
    status, _, where = pages.send(form_of(page), "save")
    same("it is taken back", (303, "/safe", "wet locker"),
         (status, where, book.ask("show", "TE-1")["place"]))
    check("what was done is told on the next page", "is taken back" in pages.get("/safe").text())
    page = pages.get(link.attributes["href"])
    check("it can't be taken back twice",
          page.one("button", name="save") is None and page.one("p", class_="caution") is not None)


def check_copy(book, pages):
    """A copy of the book comes as a file that is a book, and says what the book says."""
    page = pages.get("/safe")
    check("that no copy is known of is told", "No copy of it is known of" in page.text())
    check("what was paid is told in the main unit", "price EUR 45.00" in page.text() and
          "minor" not in page.text())
    form = next(f for f in page.all("form") if f.attributes["action"] == "/copy")
    answer, body = pages.ask(
        "POST", "/copy", urllib.parse.urlencode(pages.fields(form)),
        **{"Content-Type": "application/x-www-form-urlencoded", "Origin": f"http://{pages.host}"})
    same("the copy is a file to be saved", (200, 'attachment; filename="becket-book.db"'),
         (answer.status, answer.getheader("Content-Disposition")))
    copy = Book(book.folder / "copied.db", book.today)
    copy.path.write_bytes(body)
    same("it is the book", book.ask("list", "--all"), copy.ask("list", "--all"))
    check("the day of the last copy is told, and that it has all", "The last copy was made on "
          "25 Nov 2026; nothing was changed since." in pages.get("/safe").text())
    check("the copy itself knows of none", not copy.path.with_name("copied.db.copied").exists())


def check_old_copy(book):
    """A copy made by a command counts too; after thirty days with a change since it is old."""
    book.must("book", "backup", book.folder / "other.db")
    book.must("amend", "TE-2", "--place", "chain locker")
    for day, old in (("2026-12-25", False), ("2026-12-26", True)):
        pages = Pages(Book(book.path, day))
        page = pages.get("/safe")
        pages.close()
        check(f"on {day} the copy is {'old' if old else 'not old yet'}",
              "25 Nov 2026; 1 change since then is not in it." in page.text() and
              ("It is old" in page.text()) == old, page.text()[:600])


def serve_once(book, *options):
    """Serves the feeds for a moment, so that the book knows where they are served."""
    child = subprocess.Popen(book.command("serve", *options), cwd=book.folder, text=True,
                             env=book.environment, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    child.stdout.readline()
    child.terminate()
    child.wait()
    child.stdout.close()


def reminders(book):
    pages = Pages(book)
    page = pages.get("/reminders")
    pages.close()
    return page


def modules(drawing):
    """The dark modules of a code that is drawn, by row and column."""
    return {(int(y), int(x)) for x, y in
            re.findall(r"M(\d+) (\d+)h1v1h-1z", drawing.one("path").attributes["d"])}


def modules_of_words(words):
    """The same of a code of half blocks, light modules drawn, as `serve show` prints it."""
    light = {"█": (1, 1), "▀": (1, 0), "▄": (0, 1), " ": (0, 0)}
    rows = [line for line in words.splitlines() if line and set(line) <= light.keys()]
    return {(2 * y + half, x) for y, line in enumerate(rows) for x, letter in enumerate(line)
            for half in (0, 1) if not light[letter][half] and (half == 0 or y < len(rows) - 1)}


def check_feeds(book):
    """A feed's address stands there, with a code only where a phone can reach it."""
    words = reminders(book).text()
    check("without a feed there is a button that makes one, and it is said what serves it",
          "Make an address" in words and "while \"becket serve\" runs" in words, words[-600:])
    book.must("serve", "new")
    serve_once(book, "--port", "0")
    address = next(line.strip() for line in book.must("serve", "list").splitlines()
                   if "webcal" in line)
    page = reminders(book)
    check("an address of this machine alone has no code", address in page.text() and
          page.one("svg", class_="qr") is None and "Only this machine" in page.text())
    serve_once(book, "--port", "0", "--listen", "0.0.0.0", "--host", "boat.example")
    shown = book.must("serve", "show", "1")
    code = reminders(book).one("svg", class_="qr")
    check("one that a phone can reach has the code that serve show has", code is not None and
          len(modules(code)) > 200 and modules(code) == modules_of_words(shown))


def check_survey(pages):
    answer, body = pages.ask("GET", "/survey/Amberjay?on=2027-04-03")
    check("her survey file is a page to print", answer.status == 200 and
          b"Amberjay" in body and "'sha256-" in answer.getheader("Content-Security-Policy"))


with scratch() as folder:
    owner, fleet = demonstration(folder)
    pages = Pages(owner)
    check_done(owner, pages)
    check_mistyped(owner, pages)
    check_unseen(owner, pages)
    check_two(owner, pages)
    check_other_field(owner, pages)
    check_enter(owner, pages)
    check_question(owner, pages)
    check_take_back(owner, pages)
    check_copy(owner, pages)
    answer, _ = pages.ask("POST", "/done/LJ-1", "task=service&save=yes",
                          **{"Content-Type": "application/x-www-form-urlencoded"})
    same("a form without its token is refused", 403, answer.status)
    pages.close()
    check_old_copy(owner)
    check_feeds(owner)
    pages = Pages(fleet)
    check_move(fleet, pages)
    check_survey(pages)
    check_booking(fleet, pages)
    check_rebooking(fleet, pages)
    pages.close()
    pages = Pages(owner)
    check_choices(owner, pages)
    check_reminder_day(owner, pages)
    check_bag_of_two(pages)
    check_back_of_two(owner, pages)
    check_new_parts(owner, pages)
    check_long_list(owner, pages)
    pages.close()
end()
