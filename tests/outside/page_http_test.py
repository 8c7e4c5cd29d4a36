"""The page as a stranger's program meets it: without the cookie, under a wrong name, with forms of
other sites, with too much and too slowly; and words that look like markup, stored everywhere.

Sockets and HTTP are Python's. What must be refused is that of the OWASP cheat sheets on cross-site
request forgery, session cookies and DNS rebinding (from memory)."""
import html.parser
import http.client
import os
import re
import signal
import socket
import subprocess
import sys
import time
import urllib.parse

ROOT = os.environ.get("ROOT") or os.path.join(os.path.dirname(__file__), "..", "..")
sys.path.insert(0, os.path.join(ROOT, "tests", "support"))
from harness import Book, check, demonstration, end, scratch  # noqa: E402
from pages import tree  # noqa: E402

BECKET = sys.argv[1] if len(sys.argv) > 1 else "becket"
os.environ.setdefault("BECKET", BECKET)
FORM = "application/x-www-form-urlencoded"
NASTY = "<script>alert(1)</script>'\"&<img src=x onerror=alert(2)>"
DEADLINE = 20  # seconds a request may take in all, as page/serve.h has it


class Page:
    """A page that is being served, and a browser that was let in."""

    def __init__(self, path, folder, day="2026-11-25"):
        environment = dict(os.environ, XDG_RUNTIME_DIR=folder)
        self.folder = folder
        self.child = subprocess.Popen([BECKET, "--book", path, "--today", day, "page",
                                       "--no-browser"], stdout=subprocess.PIPE, text=True,
                                      env=environment)
        said = ""
        while "http" not in said:
            said = self.child.stdout.readline()
        self.address = urllib.parse.urlsplit(said.strip())
        self.port = self.address.port
        self.origin = f"http://127.0.0.1:{self.port}"
        self.cookie = None

    def ask(self, method, path, body=None, **headers):
        """One request on a connection of its own: status, headers, text."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)
        sent = {"Cookie": self.cookie} if self.cookie else {}
        sent.update({name.replace("_", "-"): value for name, value in headers.items()
                     if value is not None})
        try:
            connection.request(method, path, body, {k: v for k, v in sent.items() if v != ""})
            answer = connection.getresponse()
            return answer.status, answer.headers, answer.read().decode("utf-8", "replace")
        finally:
            connection.close()

    def send(self, path, fields, origin=None, **headers):
        """A form, from a page of this site unless told otherwise."""
        return self.ask("POST", path, urllib.parse.urlencode(fields), Content_Type=FORM,
                        Origin=self.origin if origin is None else origin, **headers)

    def enter(self):
        status, headers, _ = self.ask("GET", self.address.path)
        self.cookie = (headers["Set-Cookie"] or "").split(";")[0]
        return status, headers

    def token(self):
        page = self.ask("GET", "/winter")[2] + self.ask("GET", "/begin")[2]
        found = re.search(r'name="token" value="([^"]+)"', page)
        return found.group(1) if found else ""

    def close(self):
        self.child.send_signal(signal.SIGTERM)
        self.child.wait(10)


class Markup(html.parser.HTMLParser):
    """What a browser would make of a page: names of elements and attributes that can run
    something."""

    def __init__(self, text):
        super().__init__()
        self.bad = []
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        names = [name for name, _ in attributes]
        if (tag == "script" and dict(attributes).get("src") != "/page/page.js") or \
                tag in ("iframe", "object", "embed", "base") or "style" in names or \
                any(name.startswith("on") for name in names):
            self.bad.append(self.get_starttag_text())


def check_way_in(page):
    refused = page.ask("GET", "/winter")
    check("way in: without the cookie nothing of the book is told",
          refused[0] == 403 and "Quillfish" not in refused[2], refused[0])
    status, headers = page.enter()
    cookie = headers["Set-Cookie"] or ""
    check("way in: the cookie is for no script and no other site",
          status == 303 and "HttpOnly" in cookie and "SameSite=Strict" in cookie and
          "Path=/" in cookie, cookie)
    check("way in: the address is no longer in the place it leads to",
          headers["Location"] == "/", headers["Location"])
    kept, page.cookie = page.cookie, None
    check("way in: the address serves once", page.ask("GET", page.address.path)[0] == 403)
    page.cookie = kept
    check("way in: with the cookie the book is open", page.ask("GET", "/winter")[0] == 200)


def check_files(page):
    names = [name for name in os.listdir(page.folder) if name.startswith("becket-page-")]
    rights = [os.stat(os.path.join(page.folder, name)).st_mode & 0o777 for name in names]
    check("way in: the address is kept where its owner alone can read it",
          rights == [0o600], rights)


def check_headers(page):
    for path in ("/winter", "/back", "/nowhere"):
        _, headers, _ = page.ask("GET", path)
        policy = headers["Content-Security-Policy"] or ""
        check(f"headers: {path} is kept and framed by nobody and runs nothing of its own",
              "default-src 'none'" in policy and "unsafe" not in policy and
              "frame-ancestors 'none'" in policy and headers["Cache-Control"] == "no-store" and
              headers["X-Content-Type-Options"] == "nosniff", str(headers))


def check_names(page):
    for host in ("evil.example", f"evil.example:{page.port}", "127.0.0.1", f"127.0.0.1:{page.port}0"):
        check(f"host: {host} is refused whatever the cookie",
              page.ask("GET", "/winter", Host=host)[0] == 421)
    for path in ("/../../etc/passwd", "/page/..%2f..%2fetc%2fpasswd", "/page/%00", "//etc/passwd",
                 "/locker/..%2f..%2fetc%2fpasswd", "/%2e%2e/"):
        status, _, text = page.ask("GET", path)
        check(f"paths: {path} leads to no file", status in (400, 404) and "root:" not in text, status)


def check_forms(page, book):
    before = book.must("book", "journal")
    token = page.token()
    fields = {"token": token, "act": "did", "did.inspect.FA-1": "yes"}
    foreign = [page.send("/winter", fields, origin=origin)[0]
               for origin in ("http://evil.example", "null", "", f"https://127.0.0.1:{page.port}")]
    check("forms: one of another site is refused", foreign == [403] * 4, foreign)
    check("forms: one without its token is refused",
          [page.send("/winter", dict(fields, token=bad))[0] for bad in ("", token + "x", "x" * 43)]
          == [403] * 3)
    kept, page.cookie = page.cookie, None
    check("forms: one without the cookie is refused", page.send("/winter", fields)[0] == 403)
    page.cookie = kept
    check("forms: a text of another kind is refused",
          page.ask("POST", "/winter", "{}", Content_Type="application/json",
                   Origin=page.origin)[0] in (400, 403))
    check("forms: nothing of all that was written", book.must("book", "journal") == before)
    check("forms: what is ours is written", page.send("/winter", fields)[0] == 303 and
          book.must("book", "journal") != before)


def check_size(page):
    token = page.token()
    many = "&".join(["token=" + token] + [f"a{i}=1" for i in range(100000)])
    check("size: a hundred thousand fields are refused",
          page.ask("POST", "/winter", many, Content_Type=FORM, Origin=page.origin)[0] == 400)
    connection = socket.create_connection(("127.0.0.1", page.port))
    connection.sendall((f"POST /winter HTTP/1.1\r\nHost: 127.0.0.1:{page.port}\r\n"
                        f"Content-Length: {1 << 40}\r\n\r\n").encode())
    told = b""
    while b"Nothing was written" not in told and (more := connection.recv(4000)):
        told += more
    connection.close()
    check("size: more than may be sent is refused before it is, with the command that takes it",
          b" 413 " in told and b"book restore FILE" in told, told)
    check("size: the page answers as before", page.ask("GET", "/winter")[0] == 200)


def check_slow(page):
    """Twenty that send a byte a second hold up nobody, and are cut off."""
    slow = [socket.create_connection(("127.0.0.1", page.port)) for _ in range(20)]
    began = time.monotonic()
    told = page.ask("GET", "/winter")[0]
    check("slow: others are answered meanwhile", told == 200)
    cut = 0
    while slow and time.monotonic() - began < 3 * DEADLINE:
        for one in list(slow):
            try:
                one.sendall(b"G")
            except OSError:
                slow.remove(one)
                cut += 1
        time.sleep(1)
    check("slow: each is cut off in the end", cut == 20, cut)


def check_markup(folder):
    """Words that look like markup, in every field of text that the book has."""
    book = Book(os.path.join(folder, "nasty.db"))
    book.must("vessel", NASTY, "--base", NASTY, "--lay-up", "11-01..03-31")
    book.must("station", NASTY)
    book.must("enter", "lifejacket-auto", "--vessel", NASTY, "--tag", "LJ<b>1", "--description",
              NASTY, "--make", NASTY, "--serial", NASTY, "--place", NASTY, "--notes", NASTY, "--to-buy", NASTY,
              "--made", "2020-05", "--served", "2025-05-20", "--station", NASTY, "--certificate",
              NASTY)
    page = Page(str(book.path), folder)
    page.enter()
    index = page.ask("GET", "/winter")[2]
    paths = re.findall(r'href="(/[^"#]*)"', index) + ["/" + NASTY, "/locker/LJ%3Cb%3E1", "/buy/LJ%3Cb%3E1",
                                                      "/shore-papers/all?station=" +
                                                      urllib.parse.quote(NASTY)]
    pages = {path: page.ask("GET", urllib.parse.quote(path.replace("&amp;", "&"), "/?=&%+"))[2]
             for path in paths if not path.startswith("/page/")}
    book.must("land", "LJ<b>1", "--to", NASTY, "--on", "2026-11-25")
    pages["/back"] = page.ask("GET", "/back")[2]
    token = page.token() or re.search(r'name="token" value="([^"]+)"', pages["/back"]).group(1)
    pages["/back sent"] = page.send("/back", {"token": token, "station": NASTY, "on": NASTY,
                                              "done": NASTY, "r.LJ<b>1": "shorter",
                                              "n.LJ<b>1": NASTY, "p.LJ<b>1": NASTY})[2]
    for path, text in pages.items():
        check(f"markup: {path[:40]} makes nothing of the words in the book",
              text != "" and not Markup(text).bad, Markup(text).bad[:3])
    check("markup: the words are there, as words",
          any("&lt;script&gt;alert(1)" in text for text in pages.values()))
    page.close()


class Walk:
    """Someone who follows each link and fills each field of text of each form with markup, presses
    each of its buttons, puts back what is refused at its field, and presses what then saves it."""

    TURNS = 3  # sendings of one form: as filled, with what was refused put back, saved

    def __init__(self, page):
        self.page, self.sent, self.fields, self.wrong = page, set(), set(), []

    def look(self, what, answer):
        status, headers, text = answer
        if status == 303:
            return self.look(f"{what}, led on", self.page.ask("GET", headers["Location"].split("#")[0]))
        if headers.get_content_type() != "text/html":
            text = ""  # a file to be saved
        if status >= 500 or Markup(text).bad:
            self.wrong.append((what, status, Markup(text).bad[:2]))
        shown = tree(text)
        parted = [f.attributes["name"] for f in shown.all("input") if "\u00a0" in f.attributes.get("value", "")]
        if parted:  # what is sent back as it stands must be read again
            self.wrong.append((what, status, f"no-break spaces in {parted}"))
        return shown

    @staticmethod
    def values(form, put_back=()):
        """What is sent: markup wherever one can type."""
        sent = {}
        for field in form.all():
            name, kind = field.attributes.get("name"), field.attributes.get("type", "text")
            if name is None or field.name not in ("input", "select", "textarea"):
                continue
            if field.name == "select":
                options = [o.attributes.get("value", o.text()) for o in field.all("option")]
                sent[name] = next((o for o in options if o.strip()), "")
            elif kind in ("hidden", "range"):
                sent[name] = field.attributes.get("value", "")
            elif kind in ("checkbox", "radio"):
                sent.setdefault(name, field.attributes.get("value", "yes"))
            elif kind != "file":
                sent[name] = put_back[name] if name in put_back else NASTY
        return sent

    def send(self, action, values, form):
        if form.attributes.get("method") != "post":
            return self.page.ask("GET", f"{action}?{urllib.parse.urlencode(values)}")
        files = [f.attributes["name"] for f in form.all("input", type="file")]
        if not files:
            return self.page.send(action, values)
        parts = [f'--xyz\r\nContent-Disposition: form-data; name="{name}"\r\n\r\n{value}\r\n'
                 for name, value in values.items()]
        parts += [f'--xyz\r\nContent-Disposition: form-data; name="{name}"; filename="<b>.csv"\r\n\r\n'
                  f"Tag,What,<b>\r\n{NASTY},lifejacket,{NASTY}\r\n\r\n" for name in files]
        return self.page.ask("POST", action, "".join(parts + ["--xyz--\r\n"]), Origin=self.page.origin,
                             Content_Type="multipart/form-data; boundary=xyz")

    def press(self, action, form, button):
        """Sends it, as it comes back without what was refused, and by what then saves it."""
        kept = {f.attributes.get("name"): f.attributes.get("value", "") for f in form.all("input")}
        put_back = {}
        for _ in range(self.TURNS):
            values = self.values(form, put_back)
            self.fields |= {(action.split("/")[1], name.split(".")[0]) for name, value in values.items() if value == NASTY}
            name, value = button.attributes.get("name"), button.attributes.get("value", "")
            shown = self.look(f"{action} {name}={value}", self.send(action, {**values, **({name: value} if name else {})}, form))
            form = next((f for f in shown.all("form") if f.attributes.get("action", "").split("#")[0] == action
                         and f.attributes.get("method") == "post"), None)
            if form is None:
                return
            refused = [f.attributes["name"] for f in form.all("input") if f.attributes.get("aria-invalid")]
            put_back.update({name: kept.get(name, "") for name in refused})
            saves = [b for b in form.all("button") if b.text().startswith("Save")]
            button = saves[0] if saves and not refused else button

    def forms(self, path, shown):
        for form in shown.all("form"):
            action = (form.attributes.get("action") or path).split("#")[0].split("?")[0]
            for button in form.all("button"):
                named = frozenset(f.attributes.get("name", "").split(".")[0] for f in form.all("input"))
                what = (action.split("/")[1], named, button.attributes.get("name"), button.attributes.get("value"))
                if what not in self.sent and button.attributes.get("aria-hidden") is None:
                    self.sent.add(what)
                    self.press(action, form, button)

    def everywhere(self, paths):
        seen = set()
        while paths:
            path = paths.pop(0)
            kind = (path.split("/")[1].split("?")[0], "?" in path)
            if path in seen or path.startswith(("/page/", "/paper/")) or sum(k[1] == kind for k in seen if k) > 4:
                continue
            seen.add(path)
            seen.add((path, kind))
            shown = self.look(path, self.page.ask("GET", urllib.parse.quote(path, "/?=&%+")))
            paths += [a.attributes["href"].split("#")[0] for a in shown.all("a")
                      if a.attributes.get("href", "").startswith("/")]
            self.forms(path, shown)
        return {one for one in seen if isinstance(one, str)}


def check_fields(folder):
    """Markup typed into each field of each form that a link leads to: reflected, stored, shown
    again."""
    book, _ = demonstration(folder)
    book.must("land", "DB-1", "LJ-1", "--to", "Holm Quay Safety Service", "--on", "2026-11-25")
    page = Page(str(book.path), folder)
    page.enter()
    walk = Walk(page)
    seen = walk.everywhere(["/winter", "/locker/LJ-6", "/locker/LR-1"])
    again = Walk(page)
    again.sent = walk.sent  # only looked at
    again.everywhere(sorted(seen))
    check("fields: each form that a link leads to was filled with markup", len(walk.fields) > 60 and
          {"winter", "back", "list", "done", "mend", "gone", "move", "extra", "buy", "new", "booking", "saturday",
           "reminders", "locker"} <= {where for where, _ in walk.fields | {(p.split("/")[1], "") for p in seen}},
          sorted(walk.fields))
    check("fields: no answer made anything of it, nor failed", not walk.wrong + again.wrong, (walk.wrong + again.wrong)[:4])
    check("fields: some of it was written, and is told as words", NASTY in book.must("book", "journal") and
          book.run("book", "check").returncode == 0, book.must("book", "journal")[-500:])
    page.close()


def check_all(folder):
    book, _ = demonstration(folder)
    page = Page(str(book.path), folder)
    check_way_in(page)
    check_files(page)
    check_headers(page)
    check_names(page)
    check_forms(page, book)
    check_size(page)
    check_slow(page)
    page.close()
    check("end: the address is gone with the page",
          not [name for name in os.listdir(folder) if name.startswith("becket-page-")])
    check_markup(folder)
    os.mkdir(os.path.join(folder, "walk"))
    check_fields(os.path.join(folder, "walk"))


with scratch() as place:
    check_all(place)
end()
