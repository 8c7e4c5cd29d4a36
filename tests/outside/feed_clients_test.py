"""The feed, fetched by programs that no one here wrote: by Python's HTTP client as RFC 9110
has it, by vdirsyncer, and read with khal and todoman; and to-dos ticked off there, read back."""
import email.utils
import gzip
import json
import os
import re
import subprocess
import sys

sys.path.insert(0, os.path.join(os.path.dirname(__file__), "..", "support"))
import caldav_bench  # noqa: E402
from caldav_bench import Book, values  # noqa: E402
from harness import ROOT, check, end, skip_without  # noqa: E402
from calendar_person import Person, as_khal  # noqa: E402
from feed_bench import Feeds  # noqa: E402

LINT = os.path.join(ROOT, "tests", "support", "ics_lint.py")


def lint(name, body):
    """The byte lint's complaints."""
    path = os.path.join(caldav_bench.scratch, name)
    with open(path, "wb") as file:
        file.write(body)
    return subprocess.run([sys.executable, LINT, path], capture_output=True, text=True,
                          check=False).stdout


def seen(everything):
    """The values without UIDs: vdirsyncer gives what it fetches from a plain address UIDs of
    its own, made from the contents."""
    return sorted(everything.values(), key=str)


def check_http(feeds, path):
    """The answers that RFC 9110 asks for."""
    status, headers, body = feeds.ask(path)
    check("feed: a GET gives the calendar", status == 200 and
          headers["content-type"] == "text/calendar; charset=utf-8" and
          "content-disposition" not in headers, (status, headers))
    check("feed: its bytes pass the lint", lint("feed.ics", body) == "", lint("feed.ics", body))
    check("feed: its events are the file's",
          values(body.decode()) == feeds.book.file())
    again = feeds.ask(path)
    check("feed: the same book gives the same bytes, ETag and date", again[2] == body and
          (again[1]["etag"], again[1]["last-modified"]) ==
          (headers["etag"], headers["last-modified"]))
    told = feeds.ask(path, If_None_Match=headers["etag"])
    check("feed: who has that ETag is told 304", told[0] == 304 and told[2] == b"", told)
    told = feeds.ask(path, If_Modified_Since=headers["last-modified"])
    check("feed: and so is who has that date", told[0] == 304, told)
    told = feeds.ask(path, "HEAD")
    check("feed: a HEAD gives the headers alone", told[0] == 200 and told[2] == b"" and
          told[1]["content-length"] == str(len(body)), told)
    packed = feeds.ask(path, Accept_Encoding="gzip")
    check("feed: gzip when it is asked for, and the same inside",
          packed[1].get("content-encoding") == "gzip" and gzip.decompress(packed[2]) == body and
          packed[1]["etag"] != headers["etag"] and "content-encoding" not in headers)
    check("feed: nothing else can be done there",
          [feeds.ask(path, method)[0] for method in ("POST", "PUT", "DELETE", "PROPFIND")] ==
          [405] * 4)
    wrong = path[:-5] + ("A" if path[-5] != "A" else "B") + ".ics"
    check("feed: a secret that is one letter off is not found",
          [feeds.ask(it)[0] for it in (wrong, "/", "/feed/", path + "?x=1")] ==
          [404, 404, 404, 200])


def check_changes(feeds, path, number):
    """What a subscriber is told after changes, and across a restart."""
    before = feeds.ask(path)
    feeds.book.must("withdraw", "FL-4", "--because", "used")
    after = feeds.ask(path)
    gone = set(values(before[2].decode())) - set(values(after[2].decode()))
    date = [email.utils.parsedate_to_datetime(it[1]["last-modified"]) for it in (before, after)]
    check("feed: what no longer applies is absent, and that alone is a change",
          len(gone) == 1 and date[1] > date[0] and before[1]["etag"] != after[1]["etag"] and
          b"CANCELLED" not in after[2], (gone, date))
    check("feed: Ctrl-C ends it well", feeds.stop() == 0)
    feeds.start()
    again = feeds.ask(path, If_None_Match=after[1]["etag"])
    check("feed: a restart is no change", again[0] == 304, again[:2])
    feeds.book.must("serve", "revoke", number)
    check("feed: a revoked address is not found", feeds.ask(path)[0] == 404)


def check_programs(feeds):
    """vdirsyncer and khal."""
    path, _ = feeds.new()
    person = Person("subscriber", f'type = "http"\nurl = "http://127.0.0.1:{feeds.port}{path}"\n')
    person.discover()
    person.sync()
    wanted = feeds.book.file()
    check("feed: vdirsyncer fetches every value", seen(person.values()) == seen(wanted))
    check("feed: khal lists every reminder on its day, with its words",
          person.khal() == as_khal(wanted))
    feeds.book.must("withdraw", "LR-2", "--because", "sold")
    feeds.book.must("station", "Flåteverksted; \"Øst\", Ås", "--turn-round", "50")
    person.sync()
    check("feed: what moved is moved and what is dropped goes, with no doubles",
          seen(person.values()) == seen(feeds.book.file()) and
          person.khal() == as_khal(feeds.book.file()) and
          len(person.files()) == len(feeds.book.file()))


def check_scopes(feeds):
    """An address for one vessel has hers alone."""
    path, _ = feeds.new("--vessel", "Σωσίβιο")
    body = feeds.ask(path)[2].decode()
    words = [seen[2] for seen in values(body).values()]
    check("feed: an address for one vessel has hers alone",
          words != [] and all("Σωσίβιο" in it for it in words), words)


def single_todos(text):
    """A calendar's to-dos, one calendar each, as programs that keep tasks keep them."""
    head, *todos = text.replace("\r\n", "\n").split("BEGIN:VTODO\n")
    return [head + "BEGIN:VTODO\n" + todo.split("END:VCALENDAR")[0] + "END:VCALENDAR\n"
            for todo in todos]


def check_ticks(feeds):
    """To-dos: fetched, listed and ticked off with todoman, read back and recorded."""
    book = feeds.book
    path, _ = feeds.new("--to-dos")
    check("to-dos: their bytes pass the lint", lint("todos.ics", feeds.ask(path)[2]) == "")
    person = Person("helper", "")
    for number, todo in enumerate(single_todos(feeds.ask(path)[2].decode())):
        person.write(os.path.join(person.events, f"{number}.ics"), todo)
    listed = json.loads(person.todo("--porcelain", "list"))
    wanted = sorted(re.findall(r"^SUMMARY:(.*)$", book.must("calendar", "-", "--to-dos"),
                               re.M))
    # todoman shows the words; commas and semicolons are escaped in the file
    plain = sorted(re.sub(r"\\([,;\\])", r"\1", it) for it in wanted)
    check("to-dos: todoman lists each task", sorted(it["summary"] for it in listed) == plain,
          (listed, plain))
    one = next(it for it in listed if it["summary"].startswith("LR-1: service"))
    person.todo("done", str(one["id"]))
    ticked = next(text for text in person.files().values() if "STATUS:COMPLETED" in text)
    file = os.path.join(caldav_bench.scratch, "ticked.ics")
    with open(file, "w", encoding="utf-8", newline="") as out:
        out.write(ticked)
    before = book.must("show", "LR-1", "--json")
    told = json.loads(book.must("calendar", "read", file, "--json"))
    check("to-dos: the tick proposes the record and changes nothing",
          [(it["what"], it["tag"], it["task"], it["taken"]) for it in told] ==
          [("done", "LR-1", "service", False)] and book.must("show", "LR-1", "--json") == before,
          told)
    book.must("calendar", "read", file, "--take", "1")
    shown = json.loads(book.must("show", "LR-1", "--json"))
    check("to-dos: taken, it is on record on the day it was ticked", any(
        record["task"] == "service" and record["on"] == told[0]["day"]
        for record in shown["records"]), shown)
    check("to-dos: and the feed has it no more",
          f"UID:{re.search(r'UID:(.*)', ticked).group(1).strip()}" not in
          feeds.ask(path)[2].decode())
    told = json.loads(book.must("calendar", "read", file, "--json"))
    check("to-dos: reading the same tick again proposes nothing", told == [], told)


def main():
    skip_without("feeds", "vdirsyncer", "khal", "todoman")
    feeds = Feeds(Book("feeds").fill())
    path, number = feeds.new()
    check_http(feeds, path)
    check_scopes(feeds)
    check_programs(feeds)
    check_ticks(feeds)
    check_changes(feeds, path, number)
    end()


main()
