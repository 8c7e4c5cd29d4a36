"""What holds a feed up: its addresses, the journal, slow clients, and polls that find nothing new.

Sockets and HTTP are Python's. What a poll costs is the server's own time on the processor, as the
kernel counts it in /proc, so that a busy machine changes nothing."""
import http.client
import json
import os
import re
import socket
import subprocess
import sys
import threading
import time

ROOT = os.environ.get("ROOT") or os.path.join(os.path.dirname(__file__), "..", "..")
sys.path.insert(0, os.path.join(ROOT, "tests", "support"))
import caldav_bench  # noqa: E402
from caldav_bench import Book  # noqa: E402
from feed_bench import Feeds  # noqa: E402
from harness import check, end  # noqa: E402

os.environ.setdefault("BECKET", sys.argv[1] if len(sys.argv) > 1 else "becket")
DEADLINE = 20  # seconds a request may take in all, as the command's help has it
POLLS = 40


def acts(book):
    return [entry["command"] for entry in json.loads(book.must("book", "journal", "--json"))]


def check_addresses(book, feeds, path):
    """The addresses shown are those that answer, and a code is shown for a phone alone."""
    shown = book.must("serve", "list")
    check("addresses: those that are shown are those that are served",
          f"http://127.0.0.1:{feeds.port}{path}" in shown, shown)
    show = book.must("serve", "show", "1")
    check("addresses: no code for one that no phone can reach", "█" not in show and
          "This" not in show and "this machine only" in show, show)
    nowhere = book.must("serve", "show", "1", "--listen", "0.0.0.0")
    check("addresses: none for one that stands for all", "█" not in nowhere and
          "--host" in nowhere, nowhere)
    phone = book.must("serve", "show", "1", "--listen", "0.0.0.0", "--host", "boat.example")
    check("addresses: one for a machine that others find",
          "█" in phone and f"webcal://boat.example:{feeds.port}{path}" in phone, phone)


def check_journal(book, path):
    number = book.must("serve", "new").split()[0]
    book.must("serve", "revoke", number)
    told = acts(book)
    check("journal: an address that was made and one that was revoked stand in it",
          any(f"revoke {number}" in act for act in told) and
          any(act.split()[-2:] == ["serve", "new"] for act in told), told[:4])
    secret = re.search(r"/feed/(.*)\.ics", path).group(1)
    file = os.path.join(caldav_bench.scratch, "copy.db")
    subprocess.run(["sqlite3", book.path, f".backup '{file}'"], check=True)
    rows = subprocess.run(["sqlite3", file, "SELECT hex(changes) FROM journal"], check=True,
                          capture_output=True, text=True).stdout
    check("journal: the secret does not", secret.encode().hex().upper() not in rows)


def used(process):
    """Seconds on the processor."""
    with open(f"/proc/{process.pid}/stat", encoding="utf-8") as file:
        fields = file.read().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def check_polls(book, feeds, path):
    """A poll that finds nothing new costs no reckoning; one that does sees it at once."""
    etag = feeds.ask(path)[1]["etag"]
    feeds.ask(path)  # the first noted what it gave out, which is a change of the book
    before = used(feeds.process)
    told = {feeds.ask(path, If_None_Match=etag)[0] for _ in range(POLLS)}
    quiet = used(feeds.process) - before
    check("polls: nothing new is 304", told == {304}, told)
    before = used(feeds.process)
    for number in range(POLLS):
        book.must("amend", "FL-4", "--notes", f"note {number}")
        feeds.ask(path, If_None_Match=etag)
    busy = used(feeds.process) - before
    check(f"polls: {POLLS} that find nothing new cost {quiet:.2f} s, as many after a change "
          f"{busy:.2f} s", quiet < busy / 4, (quiet, busy))
    book.must("withdraw", "FL-4", "--because", "used")
    after = feeds.ask(path, If_None_Match=etag)
    check("polls: a change is seen by the next", after[0] == 200 and after[1]["etag"] != etag)


def drip(sock, until):
    """A header that does not end, a byte a second; how long the server bears it."""
    begun = time.monotonic()
    sock.settimeout(1)
    sock.sendall(b"GET / HTTP/1.1\r\nHost: a\r\nX-Slow: ")
    while time.monotonic() - begun < until:
        try:
            sock.sendall(b"a")
            if sock.recv(1) == b"":
                break
        except socket.timeout:
            continue
        except OSError:
            break
    return time.monotonic() - begun


def check_slow(feeds, path):
    slow = [socket.create_connection(("127.0.0.1", feeds.port)) for _ in range(8)]
    for sock in slow[1:]:
        sock.sendall(b"GET / HTTP/1.1\r\nHost: a\r\n")
    took = drip(slow[0], DEADLINE * 2)
    check("slow: a client that sends a byte a second is shut out in time",
          DEADLINE - 1 <= took <= DEADLINE + 4, took)
    for sock in slow:
        sock.close()
    time.sleep(0.5)
    check("slow: and then there is room again", feeds.ask(path)[0] == 200)


def check_each(book, path):
    """A proxy's owner lets more in from one address."""
    process = subprocess.Popen(
        book.command("serve", "--port", "0", "--each", "20"), env=book.environment,
        stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    port = int(re.search(r"port (\d+)", process.stdout.readline()).group(1))
    open_ones = [http.client.HTTPConnection("127.0.0.1", port, timeout=30) for _ in range(20)]
    for connection in open_ones:
        connection.connect()
    open_ones[-1].request("GET", path)
    check("each: twenty from one address where that is asked for",
          open_ones[-1].getresponse().status == 200)
    for connection in open_ones:
        connection.close()
    process.send_signal(2)
    check("each: it ends well", process.wait(timeout=20) == 0)
    process.stdout.close()


def check_password_file(book):
    """A file that others can read is refused, whoever they are."""
    path = os.path.join(caldav_bench.scratch, "password")
    with open(path, "w", encoding="utf-8") as file:
        file.write("secret\n")
    refused = []
    for mode in (0o644, 0o604, 0o640, 0o660, 0o620, 0o610):
        os.chmod(path, mode)
        done = book.run("calendar", "push", "--url", "http://127.0.0.1:9/", "--user", "ola",
                        "--password-file", path)
        refused.append(done.returncode == 2 and "can be read by others" in done.stderr)
    check("passwords: a file with any right for others or its group is refused", all(refused),
          refused)


def check_bytes():
    """Sixty boats whose lists come to nearly 2 MB in fewer than 200 reminders: the soonest are
    given, as many as 1,000,000 bytes hold (a limit of one large service, from memory)."""
    book = Book("large")
    book.must("station", "Varne Loft", "--turn-round", "14")
    rows = ["vessel,tag,kind,made,served,place"]
    for boat in range(60):
        book.must("vessel", f"Boat {boat:02}", "--lay-up", "11-01..03-31")
        rows += [f"Boat {boat:02},B{boat}-{number},"
                 f"{'extinguisher-powder' if number % 3 == 2 else 'lifejacket-auto'},"
                 f"2016-01,2024-06-01,{'long locker ' * 6}" for number in range(60)]
    table = os.path.join(caldav_bench.scratch, "large.csv")
    with open(table, "w", encoding="utf-8") as file:
        file.write("\n".join(rows) + "\n")
    book.must("import", table)
    whole = book.file_text()
    feeds = Feeds(book)
    path, _ = feeds.new()
    status, _, body = feeds.ask(path)
    feeds.stop()
    uids = re.findall(r"\r\nUID:(\S+)", whole)
    given = re.findall(r"\r\nUID:(\S+)", body.decode())
    check("bytes: more than a feed may hold, in fewer events than it may",
          len(whole) > 1_000_000 and len(uids) < 1000, (len(whole), len(uids)))
    check("bytes: a feed has a million at most, and not far below",
          status == 200 and 980_000 < len(body) <= 1_000_000, (status, len(body)))
    check("bytes: it gives the soonest", given == uids[:len(given)] and len(given) < len(uids),
          (len(given), len(uids)))


def main():
    book = Book("plumbing").fill()
    feeds = Feeds(book)
    path, _ = feeds.new()
    check_addresses(book, feeds, path)
    check_journal(book, path)
    check_polls(book, feeds, path)
    slow = threading.Thread(target=check_slow, args=(feeds, path))
    slow.start()  # which mostly waits, for as long as the others take
    check_each(book, path)
    check_password_file(book)
    check_bytes()
    slow.join()
    check("serve: Ctrl-C ends it well", feeds.stop() == 0)
    end()


main()
