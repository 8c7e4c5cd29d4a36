"""The page for people who log in, over HTTP as it is: what each role is shown and may send, under
whose name it stands in the journal, how a session ends and tries are slowed; and the proxy of the
README, nginx, in front of it by https, with two clients told apart and none believed who says so
itself.

Sockets, HTTP and TLS are Python's and nginx's; what must hold is that of the OWASP cheat sheets on
authentication and sessions (from memory) and what the commands' help says."""
import http.client
import os
import re
import shutil
import signal
import socket
import ssl
import subprocess
import sys
import time
import urllib.parse
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import ROOT, Book, check, demonstration, end, same, scratch, skip  # noqa: E402
from pages import tree  # noqa: E402
from talk import Talk  # noqa: E402

FORM = "application/x-www-form-urlencoded"
PEOPLE = {"Orla Finch": ("manage", "four grey geese"), "Bo Tern": ("record", "five grey geese"),
          "Una Swift": ("look", "six grey geese")}


def free_port():
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


class Served:
    """`becket page --people`, and what it said."""

    def __init__(self, book, *options):
        self.process = subprocess.Popen(
            book.command("page", "--people", "--no-browser", *options), cwd=book.folder,
            env={**book.environment, "XDG_RUNTIME_DIR": str(book.folder)},
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        said = ""
        while "http" not in said:
            said = self.process.stdout.readline()
            if said == "":
                raise RuntimeError(self.process.stderr.read())
        self.address = said.strip()

    def close(self):
        self.process.send_signal(signal.SIGTERM)
        self.process.wait(10)
        self.process.stdout.close()
        self.process.stderr.close()


class Client:
    """A browser without scripts: the cookie it was given, the address it comes from."""

    def __init__(self, address, source="127.0.0.1", port=None, **headers):
        split = urllib.parse.urlsplit(address)
        self.origin = f"{split.scheme}://{split.netloc}"
        self.split, self.source, self.headers, self.cookie = split, source, headers, ""
        self.port = port or split.port

    def ask(self, method, path, body=None, **headers):
        where = ("127.0.0.1", self.port)
        if self.split.scheme == "https" and self.port == self.split.port:
            trust = ssl.create_default_context()
            trust.check_hostname, trust.verify_mode = False, ssl.CERT_NONE
            line = http.client.HTTPSConnection(*where, timeout=60, context=trust,
                                               source_address=(self.source, 0))
        else:
            line = http.client.HTTPConnection(*where, timeout=60, source_address=(self.source, 0))
        sent = {"Host": self.split.netloc, "Cookie": self.cookie, **self.headers,
                **{name.replace("_", "-"): value for name, value in headers.items()}}
        line.request(method, path, body, {name: value for name, value in sent.items() if value})
        answer = line.getresponse()
        words = answer.read().decode("utf-8", "replace")
        line.close()
        return answer.status, answer.headers, words

    def get(self, path):
        return self.ask("GET", path)

    def token(self, path):
        found = re.search(r'name="token" value="([^"]+)"', self.get(path)[2])
        return found.group(1) if found else ""

    def send(self, path, origin=None, **fields):
        return self.ask("POST", path, urllib.parse.urlencode(fields), Content_Type=FORM,
                        Origin=self.origin if origin is None else origin)

    def log_in(self, name, password, to="/"):
        status, headers, words = self.send("/log-in", token=self.token("/log-in"), name=name,
                                           password=password, to=to)
        if headers["Set-Cookie"]:
            self.cookie = headers["Set-Cookie"].split(";")[0]
        return status, headers, words


def write_password(book, password, rights=0o600):
    path = book.folder / "password"
    path.write_text(password + "\n", encoding="utf-8")
    path.chmod(rights)
    return path


def add_people(book):
    for name, (right, password) in PEOPLE.items():
        book.must("people", "add", name, "--right", right, "--password-file",
                  write_password(book, password))


def check_commands(book):
    same("commands: nobody is let in to begin with", [], book.ask("people"))
    done = book.run("people", "add", "Orla Finch", "--right", "manage", "--password-file",
                    write_password(book, "four grey geese", 0o644))
    check("commands: a password's file that others read is refused",
          done.returncode == 2 and "chmod 600" in done.stderr, done.stderr)
    done = book.run("people", "add", "Orla Finch", "--right", "manage")
    check("commands: without a terminal and a file there is no password",
          done.returncode == 2 and "--password-file" in done.stderr, done.stderr)
    talk = Talk(book, [("new password", "four grey geese"), ("again", "four grey goose")],
                "people", "add", "Orla Finch", "--right", "manage")
    check("commands: a password that is not the same twice is not taken, and never shown",
          talk.status == 2 and "not the same" in talk.shown and "geese" not in talk.shown,
          talk.shown)
    talk = Talk(book, [("new password", "four grey geese"), ("again", "four grey geese")],
                "people", "add", "Orla Finch", "--right", "manage")
    check("commands: it is asked for at the terminal and not shown",
          talk.status == 0 and "is let in" in talk.shown and "geese" not in talk.shown, talk.shown)
    book.must("people", "remove", "orla finch")
    add_people(book)
    same("commands: they are listed with what they may do",
         [{"name": name, "right": right} for name, (right, _) in PEOPLE.items()],
         book.ask("people"))
    done = book.run("people", "remove", "Orla Finch")
    check("commands: the last who may do all stays while there are others",
          done.returncode == 2 and "manage" in done.stderr, done.stderr)
    done = book.run("people", "change", "Bo Tern")
    check("commands: a change says what is to change", done.returncode == 2, done.stderr)


def check_nothing_told(book):
    """No copy of the book, no list and no journal has a name's digest in it."""
    copy = book.folder / "copy.db"
    book.must("book", "backup", copy)
    book.must("export", book.folder / "list.csv")
    there = [str(path) for path in (copy, book.path, book.folder / "list.csv")
             if b"argon2" in path.read_bytes()]
    there += ["journal"] if "argon2" in book.must("book", "journal") else []
    same("secrets: nothing that tells of a password is in the book, a copy, a list, the journal",
         [], there)
    copy.unlink()


def check_refusals(book, bare):
    cases = [
        (bare, ["--people"], "nobody is let in yet"),
        (book, ["--listen", "0.0.0.0"], "--people"),
        (book, ["--listen", "::", "--people"], "--at"),
        (book, ["--at", "http://becket.example:80"], "--people"),
        (book, ["--people", "--at", "https://becket.example"], "--proxy"),
        (book, ["--people", "--at", "ftp://becket.example"], "expected http://"),
        (book, ["--people", "--at", "https://becket.example/x", "--proxy", "127.0.0.1"],
         "expected http://"),
        (book, ["--people", "--proxy", "127.0.0.1"], "--at"),
        (book, ["--people", "--at", "https://b.example", "--proxy", "near"], "expected an address"),
        (Book(book.folder / "none.db"), ["--people"], "there is no book"),
    ]
    for one, options, words in cases:
        done = one.run("page", "--no-browser", *options, timeout=20)
        check(f"start: {' '.join(options)} is refused", done.returncode in (2, 3) and
              words in done.stderr, f"{done.returncode}: {done.stderr}")


def pages_of(client):
    """Every page that links lead to from the first, a few of each sort, with its words."""
    seen, left, sorts = {}, ["/winter", "/you"], {}
    while left:
        path = left.pop(0)
        if path in seen:
            continue
        status, _, words = client.get(path)
        seen[path] = (status, words)
        for href in re.findall(r'href="(/[^"#]*)"', words):
            href = href.replace("&amp;", "&")
            sort = re.sub(r"[^/]+$", "", href.split("?")[0]) + ("?" if "?" in href else "")
            if href not in seen and not href.startswith(("/page/", "/shore-papers")) and \
                    sorts.setdefault(sort, 0) < (12 if sort == "/" else 3):
                sorts[sort] += 1
                left.append(href)
    return seen


def check_shown(clients):
    """No link that leads to a refusal, and no form that would be refused."""
    allowed = {"look": {"/you"}, "record": {"/you", "/winter", "/back", "/done/", "/move/", "/safe/", "/reminders",
                                               "/buy/", "/booking", "/reminders/day/"}}
    for role, client in clients.items():
        seen = pages_of(client)
        refused = [path for path, (status, _) in seen.items() if status != 200]
        same(f"shown: {role} is led to no page that refuses", [], refused)
        if role == "manage":
            check("shown: who manages has forms of every sort",
                  any('action="/copy"' in words for _, words in seen.values()))
            continue
        forms = {(path, form.attributes["action"]) for path, (_, words) in seen.items()
                 for form in tree(words).all("form") if form.attributes.get("method") == "post"}
        wrong = [pair for pair in forms
                 if not any(pair[1].split("#")[0] == path or
                            (path.endswith("/") and pair[1].startswith(path))
                            for path in allowed[role])]
        same(f"shown: {role} gets no form but its own", [], wrong)
        loose = [path for path, (_, words) in seen.items() for field in
                 re.findall(r"<(?:input|button|select)[^>]*>", re.sub(r"(?s)<form.*?</form>", "", words))]
        same(f"shown: {role} gets no field that no form has", [], loose)
        check(f"shown: {role} sees the gear all the same",
              "LJ-6" in seen["/winter"][1] and "/list" not in seen["/winter"][1])


def check_sent(book, clients):
    """What a form of another right would write is not, with its own token and cookie."""
    before = book.must("book", "journal")
    sends = {"/winter": "look", "/back": "look", "/done/LJ-1": "look", "/move/LJ-1": "look",
             "/safe/1": "look", "/begin": "record", "/copy": "record", "/list": "record",
             "/mend/LJ-1": "record", "/gone/LJ-1": "record", "/new": "record"}
    for path, most in sends.items():
        for role in ("look", "record") if most == "record" else ("look",):
            token = clients[role].token("/you")
            status, _, words = clients[role].send(path, token=token, save="yes", task="service")
            check(f"sent: {path} by who may {role} is refused", status == 403 and
                  "not yours" in words, status)
    same("sent: nothing of it was written", before, book.must("book", "journal"))


def record(client, tag):
    """An inspection of today, through the form, as it is shown and then saved."""
    page = client.get(f"/done/{tag}")[2]
    for press in ("look", "save"):
        form = next(f for f in tree(page).all("form") if f.attributes.get("method") == "post")
        fields = {f.attributes["name"]: f.attributes.get("value", "") for f in form.all("input")
                  if f.attributes.get("type") not in ("checkbox", "radio")}
        for select in form.all("select"):
            fields[select.attributes["name"]] = "inspect"
        status, _, page = client.send(f"/done/{tag}", **{**fields, press: "yes"})
    return status


def check_journal(book, clients):
    same("journal: who may record writes down what was done", 303, record(clients["record"], "LJ-2"))
    last = book.ask("book", "journal")[-1]
    same("journal: it stands under their name", "Bo Tern", last["who"])
    record(clients["manage"], "LJ-3")
    mine = book.ask("book", "journal")[-1]
    same("journal: each under their own", "Orla Finch", mine["who"])
    path = f"/safe/{mine['number']}"
    status = clients["record"].get(path)[0]
    token = clients["record"].token("/you")
    sent = clients["record"].send(path, token=token, save="yes")[0]
    same("journal: who records can't take back another's", (403, 403), (status, sent))
    path = f"/safe/{last['number']}"
    status = clients["record"].get(path)[0]
    sent = clients["record"].send(path, token=token, save="yes")[0]
    same("journal: but their own", (200, 303), (status, sent))
    same("journal: which is an entry under their name",
         ("Bo Tern", last["number"]),
         tuple(book.ask("book", "journal")[-1][key] for key in ("who", "undoes")))


def check_apart(clients):
    """What one did is told to them and to nobody else."""
    one = clients["record"]
    one.send("/winter", **{"token": one.token("/you"), "act": "did", "did.inspect.FA-1": "yes"})
    other = clients["manage"].get("/winter")[2]
    own = one.get("/winter")[2]
    check("apart: what one did is told to them alone", "done today" not in other and
          "done today" in own, (len(other), len(own)))


def check_password(served):
    here, there = Client(served.address), Client(served.address)
    for one in (here, there):
        one.log_in("Bo Tern", "five grey geese")
    token = here.token("/you")
    wrong = here.send("/you", token=token, act="change", before="x", next="six red kites",
                      again="six red kites")[0]
    twice = here.send("/you", token=token, act="change", before="five grey geese",
                      next="six red kites", again="six red kite")[0]
    short = here.send("/you", token=token, act="change", before="five grey geese", next="kite",
                      again="kite")
    check("password: it takes the one before, the same twice, and a long enough one",
          (wrong, twice, short[0]) == (403, 409, 409) and "too short" in short[2])
    status, headers, _ = here.send("/you", token=token, act="change", before="five grey geese",
                                   next="six red kites", again="six red kites")
    check("password: with it comes another cookie", status == 303 and
          headers["Set-Cookie"].split(";")[0] != here.cookie, headers)
    old, here.cookie = here.cookie, headers["Set-Cookie"].split(";")[0]
    same("password: what was open elsewhere is closed", 303, there.get("/winter")[0])
    there.cookie = old
    same("password: and so is the cookie before", 303, there.get("/winter")[0])
    same("password: here it goes on", 200, here.get("/winter")[0])
    status, headers, _ = here.send("/you", token=here.token("/you"), act="out")
    same("password: a log-out ends it", (303, 303), (status, here.get("/winter")[0]))
    here.cookie = ""
    same("password: the new one lets in, to where one was going", (303, "/locker/LJ-6"),
         (lambda told: (told[0], told[1]["Location"]))(
             here.log_in("Bo Tern", "six red kites", to="/locker/LJ-6")))


def check_strangers(served):
    stranger = Client(served.address)
    told = [stranger.log_in("Una Swift", f"wrong {turn}")[0] for turn in range(6)]
    same("strangers: the sixth try for a name has to wait", [403] * 5 + [429], told)
    same("strangers: and is not looked at if it is right", 429,
         stranger.log_in("Una Swift", "six grey geese")[0])
    same("strangers: another's name is not kept waiting", 303,
         Client(served.address).log_in("Orla Finch", "four grey geese")[0])
    token = stranger.token("/log-in")
    same("strangers: a form of another site logs nobody in", 403, stranger.send(
        "/log-in", origin="http://evil.example", token=token, name="Orla Finch",
        password="four grey geese")[0])
    same("strangers: nor one without its token", 403, stranger.send(
        "/log-in", token="", name="Orla Finch", password="four grey geese")[0])
    same("strangers: a long body is refused", 413, stranger.ask(
        "POST", "/log-in", "a" * 20000, Content_Type=FORM, Origin=stranger.origin)[0])
    forged = Client(served.address, X_Forwarded_For="203.0.113.7")
    same("strangers: who says to be another is not believed without a proxy", 429,
         forged.log_in("Una Swift", "six grey geese")[0])
    for path in ("/winter", "/locker/LJ-6", "/safe", "/paper/1", "/survey/Quillfish"):
        status, headers, words = Client(served.address).get(path)
        check(f"strangers: {path} tells nothing", status == 303 and "LJ-6" not in words and
              headers["Location"].startswith("/log-in?to="), status)


def nginx_conf(folder, port, behind):
    """The proxy of the README, at a port of its own, as whoever runs the test."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    server = re.search(r"```nginx\n(.*?)```", readme, re.S).group(1)
    for old, new in (("listen 443 ssl", f"listen 127.0.0.1:{port} ssl"),
                     ("/etc/ssl/becket.pem", f"{folder}/becket.pem"),
                     ("/etc/ssl/private/becket.key", f"{folder}/becket.key"),
                     ("127.0.0.1:7462", f"127.0.0.1:{behind}")):
        if old not in server:
            raise RuntimeError(f"the README's server has no {old}")
        server = server.replace(old, new)
    temporary = "\n".join(f"{kind}_temp_path {folder}/{kind};" for kind in
                          ("client_body", "proxy", "fastcgi", "uwsgi", "scgi"))
    return (f"daemon off; pid {folder}/nginx.pid; error_log {folder}/nginx.log;\n"
            f"events {{}}\nhttp {{ access_log off;\n{temporary}\n{server}}}\n")


def start_nginx(folder, port, behind):
    subprocess.run(["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2",
                    "-subj", "/CN=becket.example", "-keyout", f"{folder}/becket.key",
                    "-out", f"{folder}/becket.pem"], check=True, capture_output=True)
    (folder / "nginx.conf").write_text(nginx_conf(folder, port, behind), encoding="utf-8")
    nginx = subprocess.Popen(["nginx", "-p", str(folder), "-c", str(folder / "nginx.conf"),
                              "-e", f"{folder}/nginx.log"],
                             stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    for _ in range(100):
        try:
            socket.create_connection(("127.0.0.1", port)).close()
            return nginx
        except OSError:
            if nginx.poll() is not None:
                raise RuntimeError(nginx.stderr.read().decode()) from None
            time.sleep(0.05)
    raise RuntimeError("nginx does not answer")


def check_proxied(address, behind):
    one = Client(address)
    status, headers, _ = one.log_in("Orla Finch", "four grey geese")
    cookie = headers["Set-Cookie"] or ""
    check("proxy: one logs in by https, with a cookie for that alone", status == 303 and
          cookie.startswith("__Host-becket=") and "Secure" in cookie, cookie)
    same("proxy: and sees the book", 200, one.get("/winter")[0])
    same("proxy: another name is refused", 421, one.ask("GET", "/winter", Host="evil.example")[0])
    # twenty wrong ones, each for another name
    guesser = Client(address, source="127.0.0.2", X_Forwarded_For="203.0.113.7")
    token = guesser.token("/log-in")
    told = [guesser.send("/log-in", token=token, name=f"nobody {turn}", password="x")[0]
            for turn in range(21)]
    same("proxy: a client that guesses has to wait, whoever it says it is", [403] * 20 + [429], told)
    same("proxy: and no other client has to", 303,
         Client(address, source="127.0.0.3").log_in("Bo Tern", "six red kites")[0])
    forged = {"X-Forwarded-Proto": "https", "X-Forwarded-For": "203.0.113.9"}
    same("proxy: past it nobody comes in, whatever they say", 421,
         Client(address, source="127.0.0.4", port=behind, **forged).get("/log-in")[0])
    same("proxy: nor who comes from its address without its words", 421,
         Client(address, port=behind).get("/log-in")[0])


def check_proxy(book, folder):
    if shutil.which("nginx") is None or shutil.which("openssl") is None:
        skip("proxy", "nginx or openssl is not installed")
        return
    port, behind = free_port(), free_port()
    address = f"https://becket.example:{port}"
    served = Served(book, "--port", str(behind), "--at", address, "--proxy", "127.0.0.1")
    nginx = start_nginx(folder, port, behind)
    try:
        check_proxied(address, behind)
    finally:
        nginx.terminate()
        nginx.wait(10)
        nginx.stderr.close()
        served.close()


with scratch() as place:
    owner, fleet = demonstration(place)
    check_commands(owner)
    check_refusals(owner, fleet)
    check_nothing_told(owner)
    page = Served(owner)
    who = {right: Client(page.address) for right, _ in PEOPLE.values()}
    for person, (right, password) in PEOPLE.items():
        who[right].log_in(person, password)
    check_shown(who)
    check_sent(owner, who)
    check_journal(owner, who)
    check_apart(who)
    check_password(page)
    check_strangers(page)
    owner.must("people", "remove", "Una Swift")
    same("people: who was taken out is out at once", 303, who["look"].get("/winter")[0])
    page.close()
    check_proxy(owner, Path(place))
end()
