"""Pushing to a calendar server that no one here wrote: made, the same again, moved, dropped,
changed by a person there, broken off in the middle, and met by what was there before."""
import datetime
import os
import pty
import subprocess
import time

import caldav_bench
from caldav_bench import (Book, GoBetween, Server, difference, request, resources, values,
                          visible)
from harness import check, end, skip, skip_without

NAME = "Sikkerhet Σωσίβια 救命 🛟"
ACTS = ("created", "changed", "removed", "planned", "accepted", "left", "unchanged")


def counts(told):
    """The counts that are not nought."""
    return {} if told is None else {act: told[act] for act in ACTS if told[act]}


def on_server(calendar):
    """The values of everything there."""
    seen = {}
    for _, text in resources(calendar).values():
        seen.update(values(text))
    return seen


def edit(calendar, uid, change):
    """A person's own change to one event."""
    for url, (etag, text) in resources(calendar).items():
        if f"UID:{uid}" in text:
            status, _, body = request(url, "PUT", change(text),
                                      {"Content-Type": "text/calendar", "If-Match": etag})
            assert status in (200, 201, 204), (status, body)
            return
    raise AssertionError(f"{uid} is not there")


def move(days):
    """Moves an all-day event."""
    def change(text):
        lines = []
        for line in text.splitlines():
            if line.startswith(("DTSTART;VALUE=DATE:", "DTEND;VALUE=DATE:")):
                head, day = line.split(":")
                day = datetime.datetime.strptime(day, "%Y%m%d")
                line = f"{head}:{day + datetime.timedelta(days):%Y%m%d}"
            lines.append(line)
        return "\r\n".join(lines) + "\r\n"
    return change


def reword(text):
    return text.replace("SUMMARY:", "SUMMARY:Ring først: ", 1)


def says_just(done, status, message):
    """Whether the command ended with this status, and said this and nothing else."""
    return done.returncode == status and done.stderr == f"becket: {message}\n"


def by_word(told, word, book=None):
    """The UID of the first reminder whose summary starts so."""
    rows = [row for row in told["reminders"] if row["summary"].startswith(word)]
    return rows[0]["uid"]


def whole_life(kind):
    """One calendar from the first push to the last."""
    server = Server(kind)
    book = Book(kind).fill()
    done, told = book.push(server.url, "--calendar", NAME, "--create", "--dry-run")
    check(f"{kind}: a dry run makes no calendar", done.returncode == 0 and
          says_just(done, 0, f'note: the calendar "{NAME}" is not there yet; without '
                       "--dry-run it would be made and every reminder created"), done.stderr)
    done, told = book.push(server.url, "--calendar", NAME, "--create")
    check(f"{kind}: a calendar is made and filled",
          done.returncode == 0 and counts(told).keys() == {"created"},
          f"{done.stderr} {counts(told)}")
    calendar = told["url"]
    wanted = book.file()
    check(f"{kind}: what is there equals the file", on_server(calendar) == wanted)
    before = resources(calendar)
    check(f"{kind}: each reminder is a resource of its own, named by its UID",
          all(os.path.basename(url) == f"{uid}.ics"
              for url, (_, text) in before.items() for uid in values(text)) and
          all(text.count("BEGIN:VEVENT") == 1 and "METHOD" not in text and
              "X-WR-CALNAME" not in text for _, text in before.values()))

    done, told = book.push(None)
    check(f"{kind}: the same again changes nothing, with the account remembered",
          done.returncode == 0 and counts(told) == {"unchanged": len(wanted)} and
          resources(calendar) == before, f"{done.stderr} {counts(told)}")

    done, told = book.push(None, "--vessel", "Σωσίβιο")
    check(f"{kind}: everyone's calendar is not made one vessel's by the way",
          says_just(done, 2, f'the calendar "{NAME}" shows the reminders of every vessel; name '
                       "another for these with --calendar NAME, or the same one to have it show "
                       'these only; try "becket calendar --help"') and
          resources(calendar) == before, done.stderr)

    # another turn-round moves hand-ins and collects
    book.must("station", "Flåteverksted; \"Øst\", Ås", "--turn-round", "50")
    moved = difference(wanted, book.file())
    same = {"unchanged": len(wanted) - moved["changed"]}
    done, told = book.push(None, "--dry-run")
    check(f"{kind}: a dry run says what would change and changes nothing",
          counts(told) == moved | same and resources(calendar) == before, counts(told))
    done, told = book.push(None)
    check(f"{kind}: what moved is moved, in place",
          counts(told) == moved | same and moved.keys() == {"changed"} and
          on_server(calendar) == book.file() and
          resources(calendar).keys() == before.keys(), counts(told))

    # what is sold is no longer to be handed in
    wanted = book.file()
    book.must("withdraw", "LR-1", "--because", "sold")
    done, told = book.push(None)
    moved = difference(wanted, book.file())
    check(f"{kind}: what no longer applies is taken out", moved["removed"] > 0 and
          moved.items() <= counts(told).items() and on_server(calendar) == book.file(),
          f"{counts(told)}, expected {moved}")
    by_a_person(kind, server, book, calendar)
    return server, book, calendar


def by_a_person(kind, server, book, calendar):
    """What a person changes there."""
    _, told = book.push(None)
    uid = by_word(told, "Hand in")
    day = on_server(calendar)[uid][0]
    edit(calendar, uid, move(2))
    done, told = book.push(None, act="pull")
    row = [row for row in told["reminders"] if row["uid"] == uid][0]
    check(f"{kind}: a pull reads back a day that was moved, and plans it",
          done.returncode == 0 and row["act"] == "plan" and row["found"] == "moved" and
          row["their_day"] == str(day + datetime.timedelta(2)), row)
    done, told = book.push(None)
    check(f"{kind}: the moved day stays, in the book and there",
          done.returncode == 0 and
          on_server(calendar)[uid][0] == day + datetime.timedelta(2) and
          visible(on_server(calendar)) == visible(book.file()), f"{done.stderr} {counts(told)}")
    uid = by_word(told, "Hand in")
    edit(calendar, uid, move(5))
    done, told = book.push(None)
    check(f"{kind}: a push plans a moved day by itself, and what hangs on it",
          told["planned"] == 1 and done.returncode == 0 and
          visible(on_server(calendar)) == visible(book.file()), f"{done.stderr} {counts(told)}")

    uid = by_word(told, "Buy")
    edit(calendar, uid, reword)
    before = resources(calendar)
    sequence = on_server(calendar)[uid][7]
    done, told = book.push(None)
    row = [row for row in told["reminders"] if row["uid"] == uid][0]
    check(f"{kind}: words a person changed are left and spoken of",
          done.returncode == 1 and row["act"] == "leave" and row["found"] == "edited" and
          row["their_summary"].startswith("Ring først") and
          resources(calendar) == before, row)
    plain = book.run("calendar", "push", "--password-file", book.password)
    words = " ".join(plain.stdout.split())
    check(f"{kind}: and that in words", plain.returncode == 1 and
          "changed there, \"Ring først: Buy" in words and "; left as it is To let what is there "
          "be, add --keep theirs; to put it back as becket has it, --keep ours." in words,
          plain.stdout)
    done, told = book.push(None, "--keep", "theirs")
    check(f"{kind}: they may be accepted", done.returncode == 0 and
          told["accepted"] == 1 and resources(calendar) == before, counts(told))
    done, told = book.push(None)
    check(f"{kind}: and are not spoken of again", done.returncode == 0 and
          counts(told).keys() == {"unchanged"}, counts(told))
    done, told = book.push(None, "--keep", "ours")
    check(f"{kind}: what is put back is newer than what was there, in the book too",
          on_server(calendar)[uid][7] == book.file()[uid][7] == sequence + 1)
    check(f"{kind}: or put back after all", told["changed"] == 1 and
          visible(on_server(calendar)) == visible(book.file()), counts(told))

    url = [url for url, (_, text) in resources(calendar).items() if uid in text][0]
    request(url, "DELETE")
    done, told = book.push(None)
    check(f"{kind}: what a person removed is not put back unasked",
          done.returncode == 1 and told["left"] == 1 and
          url not in resources(calendar), counts(told))
    done, told = book.push(None, "--keep", "ours")
    check(f"{kind}: but when asked", told["created"] == 1 and
          visible(on_server(calendar)) == visible(book.file()), counts(told))

    edit(calendar, uid, lambda text: text.replace("STATUS:CONFIRMED", "STATUS:CANCELLED"))
    own = ("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//a person//EN\r\nBEGIN:VEVENT\r\n"
           "UID:tea\r\nDTSTAMP:20261101T000000Z\r\nDTSTART:20261201T150000Z\r\n"
           "SUMMARY:Tea\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n")
    request(calendar + "tea.ics", "PUT", own, {"Content-Type": "text/calendar"})
    for tag in ("FL-2", "FL-3", "FL-4"):
        book.must("amend", tag, "--expires", "2031-06")
    done, told = book.push(None)
    row = [row for row in told["reminders"] if row["uid"] == uid][0]
    there = on_server_uids(calendar)
    check(f"{kind}: a person's own event is not touched", "tea" in there)
    check(f"{kind}: one that was cancelled there is spoken of",
          row["found"] == "edited" and row["their_status"] == "CANCELLED", row)
    request(calendar + "tea.ics", "DELETE")
    book.push(None, "--keep", "ours")


def on_server_uids(calendar):
    return {line[4:].strip() for _, text in resources(calendar).values()
            for line in text.splitlines() if line.startswith("UID:")}


CHANGED = 'the book was changed ("becket book journal" tells how), but then this failed: '


def broke_off(done, count, changed):
    """Whether it says after how many changes, and goes on with the address and the reason; where
    the push put something into the book first (days given out, a new calendar), it begins with
    that."""
    return done.stderr.startswith(f"becket: {CHANGED if changed else ''}pushing broke off, {count} "
                                  "changed before; push again to go on: http://127.0.0.1:")


def in_the_way(kind, server):
    """A change at the very moment of a push, and pushes that break off."""
    between = GoBetween(server)
    book = Book(kind + "-between").fill()
    done, told = book.push(between.url, "--calendar", "Between", "--create")
    calendar = told["url"].replace(str(between.port), str(server.port))
    wanted = book.file()
    check(f"{kind}: a go-between changes nothing", on_server(calendar) == wanted,
          done.stderr)

    book.must("station", "Flåteverksted; \"Øst\", Ås", "--turn-round", "50")
    hit = []

    def meddle(method, path):
        if method == "PUT" and not hit:
            hit.append(os.path.basename(path)[:-4])
            edit(calendar, hit[0], reword)

    between.before = meddle
    done, told = book.push(None)
    between.before = lambda method, path: None
    row = [row for row in told["reminders"] if row["uid"] in hit]
    check(f"{kind}: a change in the very moment of a push is not overwritten",
          done.returncode == 1 and row and row[0]["act"] == "leave" and
          on_server(calendar)[hit[0]][2].startswith("Ring først"), row)
    done, told = book.push(None, "--keep", "ours")
    check(f"{kind}: the next push sees it", done.returncode == 0 and
          told["changed"] >= 1 and on_server(calendar) == book.file(), counts(told))

    # the connection breaks after the server has written, and before it says so
    other = Book(kind + "-broken").fill()
    puts = []

    def break_off(method, path):
        if method == "PUT":
            puts.append(path)
            return "drop" if len(puts) >= 3 else None
        return None

    between.after = break_off
    done, told = other.push(between.url, "--calendar", "Broken", "--create")
    between.after = lambda method, path: None
    check(f"{kind}: a push that breaks off says how far it came",
          done.returncode == 3 and broke_off(done, 2, True), done.stderr)
    done, told = other.push(None)
    calendar = told["url"].replace(str(between.port), str(server.port))
    check(f"{kind}: the next one goes on without doubles",
          done.returncode == 0 and told["created"] == len(other.file()) - 3 and
          on_server(calendar) == other.file() and
          len(resources(calendar)) == len(other.file()), f"{done.stderr} {counts(told)}")

    # the server itself goes down in the middle, and comes back
    other.must("station", "Flåteverksted; \"Øst\", Ås", "--turn-round", "50")
    puts.clear()

    def go_down(method, path):
        if method == "PUT":
            puts.append(path)
            if len(puts) == 2:
                server.stop()

    between.before = go_down
    done, told = other.push(None)
    between.before = lambda method, path: None
    check(f"{kind}: a server that goes down in the middle is a failure",
          done.returncode == 3 and broke_off(done, 1, False), done.stderr)
    server.start()
    done, told = other.push(None)
    check(f"{kind}: when it is back the rest follows", done.returncode == 0 and
          told["changed"] > 0 and on_server(calendar) == other.file(),
          f"{done.stderr} {counts(told)}")
    between.seen.clear()
    other.push(None)
    check(f"{kind}: a push with nothing to do asks once and writes nothing",
          [method for method, _ in between.seen] == ["PROPFIND"], between.seen)


def two_at_once(kind, server):
    """The same book pushed by two at the same time."""
    book = Book(kind + "-twice").fill()
    book.file()
    words = book.command("calendar", "push", "--json", "--user", caldav_bench.USER,
                         "--password-file", book.password, "--url")
    place = book.push(server.url, "--calendar", "Twice", "--create")[1]["url"]
    for url in resources(place):
        request(url, "DELETE")
    book.must("calendar", "forget")
    both = [subprocess.Popen([*words, place], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
            for _ in range(2)]
    said = [one.communicate(timeout=100) for one in both]
    check(f"{kind}: two pushes at once make no doubles, and neither fails",
          [one.returncode for one in both] == [0, 0] and
          len(resources(place)) == len(book.file()) and on_server(place) == book.file(),
          said)
    done, told = book.push(None)
    check(f"{kind}: and leave nothing to do", done.returncode == 0 and
          counts(told).keys() == {"unchanged"}, counts(told))


def there_before(kind, server, calendar):
    """What was in the calendar before the book knew of it."""
    book = Book(kind + "-before").fill()
    whole = book.file_text()
    wanted = values(whole)
    uids = sorted(wanted)
    head = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//import//EN\r\n"
    events = {text.split("UID:")[1].split("\r\n")[0]: "BEGIN:VEVENT" + text
              for text in whole.split("END:VCALENDAR")[0].split("BEGIN:VEVENT")[1:]}
    place = calendar.rsplit("/", 2)[0] + "/imported/"
    status, _, body = request(place, "MKCALENDAR")
    assert status in (200, 201), (status, body)
    for number, uid in enumerate(uids[:2]):
        event = events[uid] if number == 0 else reword(events[uid])
        status, _, body = request(f"{place}import-{number}.ics", "PUT",
                                  head + event + "END:VCALENDAR\r\n",
                                  {"Content-Type": "text/calendar; charset=utf-8"})
        assert status in (200, 201, 204), (status, body)
    done, told = book.push(place)
    rows = {row["uid"]: row for row in told["reminders"]} if told else {}
    check(f"{kind}: a reminder that is there at another address is not doubled",
          told and told["created"] == len(uids) - 2 and
          rows[uids[0]]["act"] == "note" and rows[uids[1]]["found"] == "strange" and
          done.returncode == 1 and len(resources(place)) == len(uids),
          f"{done.stderr} {counts(told)}")
    done, told = book.push(None, "--keep", "ours")
    check(f"{kind}: and put right where it is when asked",
          on_server(place) == book.file() and len(resources(place)) == len(uids),
          counts(told))
    done, told = book.push(None)
    check(f"{kind}: from then on all is quiet", done.returncode == 0 and
          counts(told).keys() == {"unchanged"}, counts(told))
    # the same UID in two calendars of one account is two servers' matter, not ours
    book.must("calendar", "forget")
    done, told = book.push(place)
    check(f"{kind}: a book that forgot the account takes it up again without a change",
          done.returncode == 0 and counts(told).keys() == {"unchanged"}, counts(told))


def to_dos(kind, server, book):
    """To-dos in a calendar of their own, ticked there and entered here."""
    done, told = book.push(None, "--to-dos")
    check(f"{kind}: to-dos need a calendar that is named or takes them",
          done.returncode in (1, 2) if told is None else told["url"] != "", done.stderr)
    done, told = book.push(None, "--to-dos", "--calendar", "Å gjøre", "--create")
    place = told["url"]
    texts = [text for _, text in resources(place).values()]
    check(f"{kind}: to-dos go to a calendar of their own", done.returncode == 0 and
          told["created"] == len(texts) > 0 and
          all(text.count("BEGIN:VTODO") == 1 and "BEGIN:VEVENT" not in text
              for text in texts), f"{done.stderr} {counts(told)}")
    done, told = book.push(None, "--to-dos")
    check(f"{kind}: and stay as they are", done.returncode == 0 and
          counts(told).keys() == {"unchanged"}, counts(told))
    done, events = book.push(None)
    check(f"{kind}: the events' calendar is another", done.returncode == 0 and
          events["url"] != place and counts(events).keys() == {"unchanged"},
          counts(events))
    uid = by_word(told, "LR-3: service")

    def tick(text):
        return text.replace("STATUS:NEEDS-ACTION",
                            "STATUS:COMPLETED\r\nCOMPLETED:20261120T101500Z\r\n"
                            "PERCENT-COMPLETE:100")

    edit(place, uid, tick)
    done = book.run("calendar", "pull", "--to-dos", "--password-file", book.password)
    words = " ".join(done.stdout.split())
    check(f"{kind}: a to-do ticked there is told, with how to enter it",
          done.returncode == 1 and "ticked there as done on 20 Nov 2026" in words and
          "becket record service LR-3 --on 2026-11-20" in words, done.stdout + done.stderr)
    before = resources(place)
    done, told = book.push(None, "--to-dos")
    check(f"{kind}: and not unticked", done.returncode == 1 and told["left"] == 1 and
          resources(place) == before, counts(told))
    book.must("record", "service", "LR-3", "--on", "2026-11-20", "--next", "2029-11-20")
    done, told = book.push(None, "--to-dos")
    row = [row for row in told["reminders"] if row["uid"] == uid][0]
    check(f"{kind}: once it is entered the tick stays and all is quiet",
          done.returncode == 0 and row["act"] == "accept" and
          any(uid in text and "COMPLETED" in text
              for _, text in resources(place).values()), row)
    done, told = book.push(None, "--to-dos")
    check(f"{kind}: for good", done.returncode == 0 and
          counts(told).keys() == {"unchanged"}, counts(told))


def typed(book, words, answer):
    """Runs the program at a terminal and types an answer; gives what was shown, and its
    status."""
    pid, terminal = pty.fork()
    if pid == 0:
        command = book.command(*words)
        os.execve(command[0], command, book.environment)
    shown = b""
    sent = False
    while True:
        try:
            piece = os.read(terminal, 4096)
        except OSError:
            break
        if not piece:
            break
        shown += piece
        if b": " in shown and not sent:
            time.sleep(0.3)
            os.write(terminal, answer.encode() + b"\n")
            sent = True
    _, status = os.waitpid(pid, 0)
    return shown.decode(), os.waitstatus_to_exitcode(status)


def listed(done, message):
    """Whether it says so, what to do, and all that there are, in the server's order."""
    first, *rest = done.stderr.splitlines()
    return done.returncode == 2 and first == (
        f"becket: {message}; expected one, named by --calendar, or --create to make it. There are:"
        ) and sorted(rest) == sorted(f"  {name}" for name in (
            "Broken", "Twice", f"{caldav_bench.USER}/imported", NAME, "Between",
            "Å gjøre (takes no events)"))


def choosing(server):
    """Which calendar, which password."""
    book = Book("choosing").fill()
    done, _ = book.push(server.url)
    check("choosing: several calendars are listed", listed(
        done, "more than one calendar on the server that takes events"), done.stderr)
    done, _ = book.push(server.url, "--calendar", "Nowhere")
    check("choosing: one that is not there is said", listed(
        done, 'no calendar "Nowhere" on the server that takes events'), done.stderr)
    done, told = book.push(server.url, "--calendar", "Skarv", "--create",
                           "--vessel", "Skarv Ørn")
    rows = [row["summary"] for row in told["reminders"]] if told else []
    check("choosing: a calendar of one vessel's own holds hers alone", rows and
          all("Skarv" in row for row in rows), rows)
    done, told = book.push(None)
    check("choosing: and stays hers", done.returncode == 0 and
          counts(told) == {"unchanged": len(rows)}, counts(told))
    home = server.url + caldav_bench.USER + "/"
    for url, what in ((home, "a home"), (server.url + ".well-known/caldav", "well-known")):
        done, told = book.push(url, "--calendar", NAME, "--dry-run")
        check(f"choosing: {what} leads to the calendars", done.returncode in (0, 1) and
              told is not None and told["calendar"] == NAME, done.stderr)
    wrong = os.path.join(caldav_bench.scratch, "wrong")
    with open(wrong, "w", encoding="utf-8") as file:
        file.write("wrong\n")
    os.chmod(wrong, 0o600)
    done = book.run("calendar", "push", "--url", server.url, "--user", caldav_bench.USER,
                    "--password-file", wrong)
    check("choosing: a wrong password is bad input", says_just(
        done, 2, f"{home}skarv/: the server does not take this user and password (status 401)"),
        done.stderr)
    os.chmod(wrong, 0o644)
    done = book.run("calendar", "push", "--url", server.url, "--user", caldav_bench.USER,
                    "--password-file", wrong)
    check("choosing: a password that everyone can read is refused",
          says_just(done, 2, f"the password: {wrong} can be read by others on this machine (its "
                       'rights are 644); "chmod 600" mends that'), done.stderr)
    done = book.run("calendar", "push", "--url", server.url, "--user", caldav_bench.USER)
    check("choosing: without a password or a terminal it says where one comes from",
          says_just(done, 2, "there is no password: expected a file named by --password-file, "
                       "the environment variable BECKET_CALDAV_PASSWORD, or a terminal to ask at"),
          done.stderr)
    done = book.run("calendar", "push", "--calendar", NAME, "--dry-run",
                    env={"BECKET_CALDAV_PASSWORD": caldav_bench.PASSWORD})
    check("choosing: the environment's password is taken", done.returncode in (0, 1),
          done.stderr)
    shown, status = typed(book, ["calendar", "push", "--calendar", NAME, "--dry-run"],
                          caldav_bench.PASSWORD)
    check("choosing: a password that is typed is taken, and not shown",
          status in (0, 1) and f"Password of {caldav_bench.USER} at" in shown and
          caldav_bench.PASSWORD not in shown and "dry run" in shown, shown)
    check("choosing: at a terminal it shows how far it is", "\r1 of " in shown, shown)
    done, told = book.push(server.url, "--calendar", "Short-lived", "--create")
    request(told["url"], "DELETE")
    done, _ = book.push(None)
    check("choosing: a calendar that was taken away is said", says_just(
        done, 3, f"{home}short-lived/: the calendar is there no more (status 404); name another "
        "with --calendar, or make it again with --create as well"), done.stderr)
    done, told = book.push(None, "--calendar", "Short-lived", "--create")
    check("choosing: and is filled again when it is made again", done.returncode == 0 and
          told and counts(told).keys() == {"created"}, f"{done.stderr} {counts(told)}")
    done, told = book.push(None, env={"http_proxy": "http://127.0.0.1:1/",
                                      "HTTPS_PROXY": "http://127.0.0.1:1/"})
    check("choosing: what is not encrypted goes past any proxy", done.returncode == 0,
          done.stderr)
    done = book.run("book", "undo")
    check("choosing: taken back, it says what is still on the server", done.returncode == 0 and
          "what was pushed stays on the calendar server" in done.stderr,
          f"{done.stdout} {done.stderr}")
    with open(book.path, "rb") as file:
        check("choosing: the password is not in the book",
              caldav_bench.PASSWORD.encode() not in file.read())


def main(kind):
    """All of it, for one kind of server; ends the script."""
    skip_without("calendar pushes", kind)
    try:
        import icalendar  # noqa: F401
    except ImportError:
        skip("calendar pushes", "python3-icalendar is not installed")
        end()
    server, book, calendar = whole_life(kind)
    in_the_way(kind, server)
    two_at_once(kind, server)
    there_before(kind, server, calendar)
    to_dos(kind, server, book)
    if kind == "radicale":
        choosing(server)
    server.stop()
    end()
