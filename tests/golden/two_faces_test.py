"""Two faces, one desk: every act that has a form is done once by command and once by form, on two
copies of the same book, and both books are then the same row by row, and so are their journals but
for the words that name the act. An act of the desk that is in neither table fails.

The rows are SQLite's, read by Python: nothing of the program's own says what is the same."""
import re
import shutil
import sqlite3
import sys
import urllib.parse
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import ROOT, Book, check, demonstration, end, same, scratch  # noqa: E402
from pages import Pages, send_parts, tree  # noqa: E402

# What is no one's word: how often the book was written, which the next rows' numbers hang on, too;
# and what was reckoned for the program to remember. Of the journal the words of the act.
NOT_COMPARED = {"book": "identity", "revision": "*", "reckoned": "*", "reckoned_by": "*",
                "journal": "act", "feed": "secret"}

# Acts of the desk that the page has no form of, and why.
WITHOUT = {
    "desk_extend": "an authority's paper is entered with its number and its task: by command",
    "desk_interval": "the maker's interval is read off a manual once: by command",
    "desk_accept": "who changed the book with another program is at a shell: by command alone",
    "desk_detach": "what is taken out of the papers is gone: by command alone",
    "desk_stand_in": "hired gear is entered with its day back: by command",
    "desk_stand_in_hired": "as above",
    "desk_leave": "a boat leaves with all that is to become of her gear: by command",
    "desk_give_rota": "a rota is made and kept by command",
    "desk_push_reminders": "needs the password of a calendar server: by command",
    "desk_forget_pushed": "as above",
    "desk_forget_account": "as above",
    "desk_take_calendar": "reads a file that a calendar program gave: by command",
    "desk_keep_feed_host": "written by serving itself",
    "desk_feed": "what a calendar program fetches",
    "desk_set_currency": "said once, as a book is begun: by command",
    "import_answers_write": "part of an import",
    "import_answers_keep": "part of an import",
}
# Acts of the page that no command does.
ONLY_A_FORM = {"desk_pack": "a tick beside a bag that stands packed: of the page alone"}
# Questions, which write nothing in the book.
QUESTIONS = {"desk_ashore", "desk_load_ashore", "desk_packed", "desk_hand_in_uid", "desk_reminders",
             "desk_reminders_by_bases", "desk_paper_lists", "desk_papers_by_bases",
             "desk_read_calendar", "bookings_find", "bookings_list", "bookings_muster", "import_answers_use", "brought_write"}
HEADERS = ("acts", "acts_fleet", "packing", "remind", "giving_out", "bookings", "feeds", "keeping",
           "import_answers")


def form_of(page, **wanted):
    """The first form of the page that has such fields."""
    return next(form for form in page.all("form") if form.attributes.get("method") == "post" and
                all(any(node.attributes.get("name") == name and
                        (value is None or node.attributes.get("value") == value)
                        for node in form.all()) for name, value in wanted.items()))


def piece(address, **typed):
    """A form about one piece: tried, then saved."""
    def send(pages):
        _, page, _ = pages.send(form_of(pages.get(address)), "look", **typed)
        status, page, _ = pages.send(form_of(page), "save")
        return status, page
    return send


def calendar_file(pages):
    """The calendar file is what the form is answered with."""
    status, page, _ = pages.send(form_of(pages.get("/reminders"), save="yes"), "save")
    return (303 if status == 200 and page.text().startswith("BEGIN:VCALENDAR") else status), page


def bag(act, station, ticked=(), **typed):
    """The bag for a station: its pieces ticked, and a button pressed."""
    def send(pages):
        form = form_of(pages.get("/winter"), station=station)
        more = {f"packed.{tag}": "yes" for tag in ticked}
        status, page, _ = pages.send(form, act=act, **more, **typed)
        return status, page
    return send


def did(**typed):
    def send(pages):
        form = form_of(pages.get("/winter"), act="did")
        status, page, _ = pages.send(form, **{"act": "did", **typed})
        return status, page
    return send


def booked(**typed):
    """A booking: tried, then saved."""
    return tried("/booking", **typed)


def rebooked(**typed):
    """The booking that the day's row leads to, changed or taken out."""
    def send(pages):
        path = next(a.attributes["href"] for a in pages.get("/saturday?on=2027-04-03").all("a", class_="go")
                    if a.attributes["href"].startswith("/booking?"))
        return tried(path, **typed)(pages)
    return send


def bought(**typed):
    def send(pages):
        status, page, _ = pages.send(form_of(pages.get("/winter"), act="bought"), act="bought", **typed)
        return status, page
    return send


def back(**typed):
    """What came back: reckoned, then saved."""
    def send(pages):
        _, page, _ = pages.send(form_of(pages.get("/back"), station=None), **{"act": "look", **typed})
        status, page, _ = pages.send(form_of(page, seen=None), act="save")
        return status, page
    return send


def other_day(station, day):
    """Another day for a bag: tried, then kept."""
    def send(pages):
        for act in ("look", "mine"):
            page = pages.get("/winter") if act == "look" else page
            form = next(f for f in page.all("form")
                        if any(n.attributes.get("value") == station for n in f.all("input")) and
                        any(n.attributes.get("name", "").startswith("day-") for n in f.all("input")))
            field = next(n.attributes["name"] for n in form.all("input")
                         if n.attributes.get("name", "").startswith("day-"))
            status, page, _ = pages.send(form, **{"act": act, field: day})
        return status, page
    return send


def bring(path):
    """A list brought as a file, then written as it was shown."""
    def send(pages):
        send_parts(pages, form_of(pages.get("/list"), list=None),
                   ("list", path.name, "text/csv", path.read_bytes()))
        status, page, _ = pages.send(form_of(pages.get("/list"), seen=None), act="write")
        return status, page
    return send


def back_with_photo(path):
    """One thing came back, and its paper was photographed."""
    def send(pages):
        typed = {"on": "25 Nov 2026", "by": STATION, "r.LJ-3": "passed"}
        _, page, _ = pages.send(form_of(pages.get("/back"), station=None), act="look", **typed)
        return send_parts(pages, form_of(page, seen=None),
                          ("photo", path.name, "image/png", path.read_bytes()), act="save")
    return send


def put_back(path):
    """A copy brought, looked at and put in the place of the book."""
    def send(pages):
        _, page = send_parts(pages, form_of(pages.get("/safe"), copy=None),
                             ("copy", path.name, "application/vnd.sqlite3", path.read_bytes()),
                             act="look")
        status, page, _ = pages.send(form_of(page, seen=None), act="restore")
        return status, page
    return send


def address(act, **typed):
    """An address of a feed: made, or ended."""
    def send(pages):
        status, page, _ = pages.send(form_of(pages.get("/reminders"), act=act), **{"act": act, **typed})
        return status, page
    return send


def chosen(**typed):
    """How one is reminded: tried, then saved."""
    return tried("/reminders/choices", **typed)


def tried(path, **typed):
    """A form of a page: tried, then saved."""
    def send(pages):
        _, page, _ = pages.send(form_of(pages.get(path), act="look"), act="look", **typed)
        status, page, _ = pages.send(form_of(page, seen=None), act="save")
        return status, page
    return send


def reminder_day(summary, **typed):
    """What is said of a reminder's day, or of a hand-in that was given up."""
    def send(pages):
        path = next(a.attributes["href"] for a in pages.get("/reminders").all("a", class_="go")
                    if summary in a.text() and STATION in a.text())
        return tried(path, **typed)(pages)
    return send


def take_back(pages):
    link = next(a.attributes["href"] for a in pages.get("/safe").all("a", class_="button")
                if a.attributes["href"].startswith("/safe/"))
    status, page, _ = pages.send(form_of(pages.get(link)), "save")
    return status, page


BOOKED = ["booking", "Foxmere", "--from", "2027-04-03", "--to", "2027-04-10", "--persons", "6", "--note", "Ann"]
STATION, DAY = "Holm Quay Safety Service", "2026-11-25"
# A picture of one grey point (ISO/IEC 15948).
PICTURE = bytes.fromhex("89504e470d0a1a0a0000000d49484452000000010000000108000000003a7e9b55"
                        "0000000a49444154789c63600000000200015d0b2ab40000000049454e44ae426082")
LIST = ("vessel,tag,kind,made,expires,place\n"
        "Quillfish,FL-31,flare-red-hand,2026-02,2030-02-28,grab bag\n"
        "Quillfish,LJ-1,lifejacket-auto,,,forepeak\n")

# What is done: the function of the desk, the book, what was done before on both copies, the
# command, the form.
ACTS = [
    ("desk_record", "owner", [],
     ["record", "service", "LJ-6", "--on", DAY, "--by", STATION, "--certificate", "C-77",
      "--price", "45,00", "--next", "Nov 2027"],
     piece("/done/LJ-6", task="service", by=STATION, certificate="C-77", price="45,00",
           next="Nov 2027")),
    ("desk_record", "owner", [], ["record", "inflated", "LJ-1", "--on", "24 Nov 2026"],
     piece("/done/LJ-1", task="inflated", on="24 Nov 2026")),
    ("desk_record", "owner", [],
     ["record", "renew", "GH-2", "--on", DAY, "--serial", "H-9", "--made", "2026-03"],
     piece("/done/GH-2", **{"task": "renew", "new-serial": "H-9", "new-made": "2026-03"})),
    ("desk_record", "owner", [],
     ["record", "renew", "EB-1", "--on", DAY, "--refit", "--expires", "2032-05"],
     piece("/done/EB-1", **{"task": "refit", "new-expires": "2032-05"})),
    ("desk_record", "owner", [], ["record", "inspect", "FA-1", "--on", DAY],
     did(**{"did.inspect.FA-1": "yes"})),
    ("desk_amend", "owner", [],
     ["amend", "LJ-1", "--place", "forepeak", "--notes", "webbing worn", "--price", "120"],
     piece("/mend/LJ-1", place="forepeak", notes="webbing worn", price="120")),
    ("desk_amend", "owner", [], ["amend", "LJ-3", "--to-buy", "two cylinders, 33 g"],
     piece("/buy/LJ-3", to_buy="two cylinders, 33 g")),
    ("desk_amend", "owner", [["amend", "LJ-3", "--to-buy", "one"]], ["amend", "LJ-3", "--to-buy", ""],
     bought(**{"bought.LJ-3": "one"})),
    ("desk_move", "fleet", [],
     ["move", "AJ-FE-1", "--vessel", "Brindlewing", "--place", "galley", "--on", DAY],
     piece("/move/AJ-FE-1", to="Brindlewing", place="galley")),
    ("bookings_put", "fleet", [],
     ["booking", "Foxmere", "--from", "2027-04-03", "--to", "2027-04-10", "--persons", "6", "--note", "Ann"],
     booked(vessel="Foxmere", to="10 Apr 2027", persons="6", note="Ann", **{"from": "3 Apr 2027"})),
    ("bookings_put", "fleet", [BOOKED], ["booking", "Foxmere", "--change", "2027-04-03", "--to", "2027-04-09",
                                         "--persons", "5"], rebooked(to="9 Apr 2027", persons="5")),
    ("bookings_drop", "fleet", [BOOKED], ["booking", "Foxmere", "--remove", "2027-04-03"], rebooked(what="out")),
    ("desk_reserve", "owner", [], ["reserve", "TE-1", "--on", DAY], piece("/extra/TE-1")),
    ("desk_withdraw", "owner", [], ["withdraw", "LJ-4", "--because", "condemned", "--on", DAY],
     piece("/gone/LJ-4", because="condemned")),
    ("desk_enter", "owner", [],
     ["enter", "flare-red-hand", "--vessel", "Quillfish", "--tag", "FRESH", "--expires",
      "Jun 2029", "--place", "grab bag"],
     piece("/new?count=3", kind="red hand flare", expires="Jun 2029", place="grab bag")),
    ("desk_land", "owner", [], ["land", "LJ-3", "LJ-6", "--to", STATION, "--on", DAY],
     bag("handed", STATION, ["LJ-3", "LJ-6"])),
    ("desk_return", "owner", [["land", "LJ-3", "LJ-6", "--to", STATION, "--on", "2026-11-20"]],
     ["return", "LJ-3", "LJ-6", "--on", DAY, "--done", "2026-11-24", "--by", STATION,
      "--as-asked"],
     back(**{"on": "25 Nov 2026", "done": "24 Nov 2026", "by": STATION, "r.LJ-3": "passed",
             "r.LJ-6": "passed"})),
    ("desk_remind", "owner", [],
     ["remind", "--plan", "UID=2026-12-09"], other_day(STATION, "9 Dec 2026")),
    ("desk_remind", "owner", [],
     ["remind", "--weekday", "friday", "--routines", "yes", "--notice", "liferaft-canister=40"],
     chosen(weekday="Friday", routines="yes", kind="liferaft in a canister", days="40")),
    ("desk_remind", "owner", [["remind", "--singles", "yes", "--notice", "epirb=20"]],
     ["remind", "--singles", "no", "--notice", "epirb=none"],
     chosen(**{"singles": "no", "notice.epirb": ""})),
    ("desk_remind", "owner", [], ["remind", "--confirmed", "UID=2026-12-08"],
     reminder_day("Hand in", what="said", on="8 Dec 2026")),
    ("desk_remind", "owner", [], ["remind", "--give-up", "UID=too dear"],
     reminder_day("Hand in", what="give-up", why="too dear")),
    ("desk_remind", "owner", [["remind", "--give-up", f"{STATION}=too dear"]],
     ["remind", "--plan", f"{STATION}=none"], reminder_day("Hand in", what="plan")),
    ("desk_give_hand_ins", "owner", [],
     ["shore-papers", "--vessel", "Quillfish", "--tags"], bag("tags", STATION)),
    ("desk_calendar", "owner", [], ["calendar", "CALENDAR"], calendar_file),
    ("desk_new_feed", "owner", [], ["serve", "new"], address("make")),
    ("desk_new_feed", "fleet", [], ["serve", "new", "--base", "Cape Lorne"],
     address("make", address_of="base Cape Lorne")),
    ("desk_revoke_feed", "owner", [["serve", "new"]], ["serve", "revoke", "1"], address("end")),
    ("desk_import", "owner", [], ["import", "LIST"], bring),
    ("desk_attach", "owner", [["land", "LJ-3", "--to", STATION, "--on", "2026-11-20"]],
     [["return", "LJ-3", "--on", DAY, "--by", STATION, "--as-asked"], ["attach", "LJ-3", "PAPER"]],
     back_with_photo),
    ("desk_restore", "owner", [],  # what is changed first is gone with the book that it is in
     [["amend", "TE-1", "--place", "chain locker"], ["book", "restore", "COPY"]], put_back),
    ("desk_undo", "owner", [["amend", "TE-1", "--place", "chain locker"]], ["book", "undo"],
     take_back),
]


def rows(book):
    """Every row of every table but what is no one's word."""
    with sqlite3.connect(book.path) as base:
        names = [name for (name,) in base.execute(
            "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")]
        found = {}
        for name in names:
            left_out = NOT_COMPARED.get(name, "")
            columns = [column[1] for column in base.execute(f"PRAGMA table_info({name})")
                       if left_out != "*" and column[1] != left_out]
            if columns:
                found[name] = sorted(map(repr, base.execute(
                    f"SELECT {', '.join(columns)} FROM {name}")))
    base.close()
    return found


def copy(book, folder):
    """A copy in a folder of its own."""
    folder.mkdir()
    path = folder / "book.db"
    for ending in ("", "-wal"):
        if Path(f"{book.path}{ending}").exists():
            shutil.copy(f"{book.path}{ending}", f"{path}{ending}")
    shutil.copytree(book.folder / "sheets", folder / "sheets")
    return Book(path, book.today)


def journal(book):
    """The last entry, but for the words of the act and the time."""
    entry = book.ask("book", "journal")[-1]
    return {key: value for key, value in entry.items() if key != "command"}


def plan_identity(book):
    """The identity of the hand-in of the first bag for the station."""
    return next(row["uid"] for row in book.ask("remind")
                if row["summary"].startswith("Hand in") and STATION in row["summary"])


def run(number, folder, start, words, form):
    """One act by both faces; what differs."""
    by_form, by_command = (copy(start, folder / f"{number}-{face}") for face in ("form", "command"))
    commands = words if isinstance(words[0], list) else [words]
    listed, paper = folder / "list.csv", folder / "paper.png"
    listed.write_text(LIST, encoding="utf-8")
    paper.write_bytes(PICTURE)
    kept = folder / "kept.db"
    kept.write_bytes(start.path.read_bytes())
    form = bring(listed) if form is bring else form
    form = back_with_photo(paper) if form is back_with_photo else form
    form = put_back(kept) if form is put_back else form
    name = f"{number} {' '.join(commands[0][:3])}"
    pages = Pages(by_form)
    try:
        status, page = form(pages)
    finally:
        pages.close()
    told = page.one("p", class_="caution") or page.one("p", class_="fault")
    if not check(f"{name}: the form is written", status == 303,
                 f"{status} {told.text() if told else page.text()[:300]}"):
        return
    fresh = {item["tag"] for item in by_form.ask("list")} - {
        item["tag"] for item in by_command.ask("list")}
    tags = sorted(fresh, key=lambda tag: int(tag.rsplit("-", 1)[1])) or [""]
    for command in commands:
        by_command.must(*(
            word.replace("LIST", str(listed)).replace("PAPER", str(paper))
            .replace("COPY", str(kept)).replace("CALENDAR", str(folder / f"{number}.ics"))
            .replace("FRESH", f"{tags[0]}..{tags[-1]}")
            .replace("UID", plan_identity(by_command) if "UID" in word else "")
            for word in command))
    same(f"{name}: the journal is the same", journal(by_command), journal(by_form))
    same_books(name, by_command, by_form)


def same_books(name, by_command, by_form):
    """Both books row by row."""
    left, right = rows(by_command), rows(by_form)
    wrong = [f"{table}\n  command {sorted(set(left.get(table, [])) - set(right.get(table, [])))[:3]}\n"
             f"  form    {sorted(set(right.get(table, [])) - set(left.get(table, [])))[:3]}"
             for table in sorted(left.keys() | right.keys()) if left.get(table) != right.get(table)]
    check(f"{name}: the book is the same", not wrong, "\n".join(wrong))


def check_begin(folder):
    """A book that is begun by its first form, and by commands."""
    by_form, by_command = (Book(folder / f"begin-{face}" / "book.db") for face in ("form", "command"))
    for book in (by_form, by_command):
        book.folder.mkdir()
    pages = Pages(by_form)
    status, _, _ = pages.send(form_of(pages.get("/begin")), **{
        "boat": "Reedling", "base": "Sandle Reach", "goes-6": "yes", "commercial": "yes",
        "station-0": "Reed Loft", "days-0": "21"})
    pages.close()
    same("begin: the form is written", 303, status)
    by_command.must("vessel", "Reedling", "--base", "Sandle Reach", "--lay-up", "11-01..03-31",
                    "--use", "commercial", "--goes", "sun")
    by_command.must("station", "Reed Loft", "--turn-round", "21")
    same_books("begin", by_command, by_form)


def check_backup(folder, book):
    """A copy that is saved by the form, and one that a command makes."""
    start = copy(book, folder / "backup")
    copies = [Book(start.folder / f"{face}.db") for face in ("form", "command")]
    pages = Pages(start)
    form = form_of(pages.get("/safe"), token=None)
    _, body = pages.ask("POST", "/copy", urllib.parse.urlencode(pages.fields(form)), **{
        "Content-Type": "application/x-www-form-urlencoded", "Origin": f"http://{pages.host}"})
    pages.close()
    copies[0].path.write_bytes(body)
    start.must("book", "backup", copies[1].path)
    same_books("backup", copies[1], copies[0])


def check_table():
    """Every function of the desk that writes is in one of the tables, and what the page calls has a
    row, so that no act has one face alone without a word why."""
    sources = ROOT / "src" / "page"
    called = set(re.findall(r"\b(\w+)\(", "\n".join(
        path.read_text(encoding="utf-8") for path in sources.glob("*.c"))))
    done = {function for function, *_ in ACTS} | {"desk_begin_book", "desk_vessel", "desk_station",
                                                  "desk_backup", "desk_backup_file"}
    told = {name for header in HEADERS for name in re.findall(
        r"^MUST_CHECK bool (\w+)\(\s*struct desk \*",
        (ROOT / "src" / "desk" / f"{header}.h").read_text(encoding="utf-8"), re.M)}
    known = done | WITHOUT.keys() | ONLY_A_FORM.keys() | QUESTIONS
    same("table: every act of the desk is in it, or is said to have no form", set(), told - known)
    same("table: what is said to have no form has none", set(), called & WITHOUT.keys())


with scratch() as place:
    folder = Path(place)
    books = dict(zip(("owner", "fleet"), demonstration(folder)))
    check_table()
    check_begin(folder)
    check_backup(folder, books["owner"])
    for at, (function, name, before, command, by_form) in enumerate(ACTS):
        begun = copy(books[name], folder / f"{at}-begun")
        for said in before:
            begun.must(*said)
        try:
            run(at, folder, begun, command, by_form)
        except (StopIteration, RuntimeError) as wrong:
            check(f"{at} {function}: the form is there", False, repr(wrong))
end()
