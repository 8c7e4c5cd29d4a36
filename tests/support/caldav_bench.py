"""Servers, a meddling go-between and a small DAV client, for the checks of calendar pushes.

Everything listens on loopback, at ports chosen when it starts, and is ended by its own
process id."""
import atexit
import base64
import http.client
import http.server
import json
import os
import shutil
import signal
import socket
import subprocess
import tempfile
import threading
import time
import urllib.parse

import harness

USER, PASSWORD = "ola", "pæssord, sånn; \"ja\""

scratch = tempfile.mkdtemp(prefix="becket-caldav-")
atexit.register(shutil.rmtree, scratch, ignore_errors=True)


def free_port():
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        return listener.getsockname()[1]


class Server:
    """A calendar server that no one here wrote."""

    def __init__(self, kind):
        self.kind = kind
        self.folder = tempfile.mkdtemp(prefix=kind + "-", dir=scratch)
        self.port = free_port()
        self.url = f"http://127.0.0.1:{self.port}/"
        self.process = None
        self.log = open(os.path.join(self.folder, "log"), "ab")
        atexit.register(self.stop)
        self.start()

    def command(self):
        if self.kind == "xandikos":
            return ["xandikos", "-d", os.path.join(self.folder, "data"), "--defaults",
                    "-l", "127.0.0.1", "-p", str(self.port),
                    "--current-user-principal", f"/{USER}/"]
        users = os.path.join(self.folder, "users")
        with open(users, "w", encoding="utf-8") as file:
            file.write(f"{USER}:{PASSWORD}\n")
        config = os.path.join(self.folder, "config")
        with open(config, "w", encoding="utf-8") as file:
            file.write(f"[server]\nhosts = 127.0.0.1:{self.port}\n"
                       f"[auth]\ntype = htpasswd\nhtpasswd_filename = {users}\n"
                       "htpasswd_encryption = plain\ndelay = 0\n"
                       f"[storage]\nfilesystem_folder = {self.folder}/data\n"
                       "[logging]\nlevel = warning\n")
        return ["radicale", "--config", config]

    def start(self):
        self.process = subprocess.Popen(self.command(), stdout=self.log, stderr=self.log,
                                        start_new_session=True)
        for _ in range(300):
            try:
                socket.create_connection(("127.0.0.1", self.port), 1).close()
                return
            except OSError:
                time.sleep(0.1)
        raise RuntimeError(f"{self.kind} does not start")

    def stop(self):
        if self.process is not None:
            try:
                os.killpg(self.process.pid, signal.SIGKILL)
            except ProcessLookupError:
                pass
            self.process.wait()
            self.process = None


def request(url, method, body=None, headers=None):
    """One request of a person's own program: status, headers, body."""
    parts = urllib.parse.urlsplit(url)
    connection = http.client.HTTPConnection(parts.hostname, parts.port, timeout=20)
    token = base64.b64encode(f"{USER}:{PASSWORD}".encode()).decode()
    everything = {"Authorization": f"Basic {token}", **(headers or {})}
    data = body.encode() if isinstance(body, str) else body
    connection.request(method, parts.path, data, everything)
    answer = connection.getresponse()
    got = answer.read()
    connection.close()
    return answer.status, dict(answer.getheaders()), got


def resources(calendar):
    """What is in a calendar: {address: (ETag, text)}."""
    import xml.etree.ElementTree as tree
    status, _, body = request(calendar, "PROPFIND",
                              '<propfind xmlns="DAV:"><prop><getetag/></prop></propfind>',
                              {"Depth": "1", "Content-Type": "application/xml"})
    assert status == 207, (status, body)
    found = {}
    for href in tree.fromstring(body).iter("{DAV:}href"):
        if href.text.endswith(".ics"):
            url = urllib.parse.urljoin(calendar, href.text)
            status, headers, text = request(url, "GET")
            assert status == 200, (status, url)
            found[url] = (headers["ETag"], text.decode())
    return found


def values(text):
    """What a person sees of every event in a calendar: {UID: values}."""
    import icalendar
    seen = {}
    for event in icalendar.Calendar.from_ical(text).walk("VEVENT"):
        alarms = sorted(str(alarm["TRIGGER"].to_ical()) for alarm in event.walk("VALARM"))
        seen[str(event["UID"])] = (
            event["DTSTART"].dt, event["DTEND"].dt, str(event["SUMMARY"]),
            str(event.get("DESCRIPTION", "")), event["CATEGORIES"].to_ical(),
            str(event["STATUS"]), str(event["TRANSP"]), int(event["SEQUENCE"]),
            event["DTSTAMP"].dt, event["LAST-MODIFIED"].dt, tuple(alarms))
    return seen


def visible(everything):
    """The values without those that only programs look at."""
    return {uid: seen[:7] + seen[10:] for uid, seen in everything.items()}


def difference(before, after):
    """How many reminders a push makes, changes and takes out when the file said `before` what
    it was pushed as, and now says `after`."""
    old, new = visible(before), visible(after)
    counts = {"created": len(new.keys() - old.keys()), "removed": len(old.keys() - new.keys()),
              "changed": sum(old[uid] != new[uid] for uid in old.keys() & new.keys())}
    return {act: count for act, count in counts.items() if count}


class Book(harness.Book):
    """A book in the scratch folder, and the password for its server."""

    def __init__(self, name):
        super().__init__(os.path.join(scratch, name + ".db"), XDG_DATA_HOME=scratch)
        self.password = os.path.join(scratch, "password")
        with open(self.password, "w", encoding="utf-8") as file:
            file.write(PASSWORD + "\n")
        os.chmod(self.password, 0o600)

    def fill(self):
        """Boats and stations with names from several scripts, all invented."""
        for vessel in ("Skarv Ørn", "Σωσίβιο", "救命丸", "Fjord 🛟 To"):
            self.must("vessel", vessel, "--lay-up", "11-01..03-31")
        self.must("station", "Flåteverksted; \"Øst\", Ås", "--turn-round", "35")
        for number, vessel in enumerate(("Skarv Ørn", "Σωσίβιο", "救命丸", "Fjord 🛟 To"), 1):
            self.must("enter", "liferaft-valise", "--vessel", vessel, "--tag",
                      f"LR-{number}", "--made", "2019-04", "--served", "2024-03-18",
                      "--place", "dekk, babord; \\under\\ luken")
            self.must("enter", "flare-red-hand", "--vessel", vessel, "--tag",
                      f"FL-{number}", "--expires", "2027-06")
        return self

    def push(self, url, *words, act="push", user=USER, env=None):
        """Pushes, and gives the process and its JSON (None when there is none)."""
        where = ["--url", url] if url else []
        who = ["--user", user, "--password-file", self.password] if user else []
        done = self.run("calendar", act, "--json", *where, *who, *words, env=env)
        try:
            told = json.loads(done.stdout)
        except json.JSONDecodeError:
            told = None
        return done, told

    def file_text(self):
        """What the file outlet says."""
        path = f"{self.path}.ics"
        self.must("calendar", path)
        with open(path, encoding="utf-8", newline="") as file:
            return file.read()

    def file(self):
        return values(self.file_text())


class GoBetween:
    """Passes requests on to a server. `before(method, path)` is called before each is passed
    on; `after(method, path)` after the server has answered; what it returns is done instead
    of answering: "drop" closes the connection."""

    def __init__(self, server):
        outer = self
        self.server = server
        self.before = lambda method, path: None
        self.after = lambda method, path: None
        self.seen = []

        class Handler(http.server.BaseHTTPRequestHandler):
            protocol_version = "HTTP/1.1"

            def pass_on(self):
                length = int(self.headers.get("Content-Length") or 0)
                body = self.rfile.read(length)
                outer.seen.append((self.command, self.path))
                outer.before(self.command, self.path)
                try:
                    connection = http.client.HTTPConnection(
                        "127.0.0.1", outer.server.port, timeout=20)
                    headers = {key: value for key, value in self.headers.items()
                               if key.lower() not in ("connection", "content-length")}
                    headers["Host"] = self.headers["Host"]
                    connection.request(self.command, self.path, body, headers)
                    answer = connection.getresponse()
                    got = answer.read()
                except OSError:
                    self.close_connection = True
                    return
                if outer.after(self.command, self.path) == "drop":
                    self.close_connection = True
                    return
                self.send_response(answer.status)
                for key, value in answer.getheaders():
                    if key.lower() not in ("transfer-encoding", "content-length",
                                           "connection", "server", "date"):
                        self.send_header(key, value)
                self.send_header("Content-Length", str(len(got)))
                self.end_headers()
                self.wfile.write(got)

            do_PUT = do_DELETE = do_PROPFIND = do_REPORT = do_MKCALENDAR = pass_on
            do_GET = pass_on

            def log_message(self, *words):
                pass

        self.http = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        self.http.daemon_threads = True
        self.port = self.http.server_address[1]
        self.url = f"http://127.0.0.1:{self.port}/"
        threading.Thread(target=self.http.serve_forever, daemon=True).start()
        atexit.register(self.http.shutdown)
