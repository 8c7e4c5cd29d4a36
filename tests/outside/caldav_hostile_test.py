"""A calendar server that does everything wrong: garbage, floods, silence, detours, lies. It is
refused with words, nothing goes to anyone else, and the next honest answer is taken."""
import http.server
import os
import re
import ssl
import subprocess
import sys
import threading
import time
import urllib.parse

sys.path.insert(0, os.path.join(os.path.dirname(__file__), "..", "support"))
import caldav_bench  # noqa: E402
from caldav_bench import Book  # noqa: E402
from harness import check, end, skip_without  # noqa: E402

OPEN = ('<?xml version="1.0"?><D:multistatus xmlns:D="DAV:" '
        'xmlns:C="urn:ietf:params:xml:ns:caldav">')
CLOSE = "</D:multistatus>"
CALENDAR = ("<D:resourcetype><D:collection/><C:calendar/></D:resourcetype>"
            "<D:displayname>Fake</D:displayname>")


def said(href, properties, status="200 OK"):
    return (f"<D:response><D:href>{href}</D:href><D:propstat><D:prop>{properties}</D:prop>"
            f"<D:status>HTTP/1.1 {status}</D:status></D:propstat></D:response>")


class Fake:
    """A calendar at /cal/ that is honest until a hook says otherwise. A hook takes the
    handler and the body, and returns True when it has answered."""

    def __init__(self, tls=None):
        outer = self
        self.kept = {}  # path: (etag, text)
        self.count = 0
        self.hooks = {}
        self.seen = []

        class Handler(http.server.BaseHTTPRequestHandler):
            protocol_version = "HTTP/1.1"

            def reply(self, status, body="", kind="application/xml", **headers):
                data = body.encode() if isinstance(body, str) else body
                self.send_response(status)
                self.send_header("Content-Type", kind)
                self.send_header("Content-Length", str(len(data)))
                for key, value in headers.items():
                    self.send_header(key.replace("_", "-"), value)
                self.end_headers()
                self.wfile.write(data)

            def answer(self):
                body = self.rfile.read(int(self.headers.get("Content-Length") or 0)).decode()
                outer.seen.append((self.command, self.path,
                                   self.headers.get("Authorization")))
                hook = outer.hooks.get(self.command) or outer.hooks.get(self.path)
                try:
                    if not (hook and hook(self, body)):
                        outer.honest(self, body)
                except (BrokenPipeError, ConnectionResetError):
                    self.close_connection = True

            do_PUT = do_DELETE = do_PROPFIND = do_REPORT = do_MKCALENDAR = answer

            def log_message(self, *words):
                pass

        self.http = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        self.http.daemon_threads = True
        if tls:
            self.http.socket = tls.wrap_socket(self.http.socket, server_side=True)
        self.port = self.http.server_address[1]
        scheme = "https" if tls else "http"
        self.url = f"{scheme}://127.0.0.1:{self.port}/cal/"
        threading.Thread(target=self.http.serve_forever, args=(0.02,), daemon=True).start()

    def honest(self, handler, body):
        path = handler.path
        if handler.command == "PROPFIND" and path == "/cal/":
            text = said("/cal/", CALENDAR)
            if handler.headers.get("Depth") == "1":
                text += "".join(said(p, f"<D:getetag>{e}</D:getetag>")
                                for p, (e, _) in self.kept.items())
            handler.reply(207, OPEN + text + CLOSE)
        elif handler.command == "REPORT":
            text = ""
            for href in re.findall("<D:href>([^<]*)", body):
                if href in self.kept:
                    etag, data = self.kept[href]
                    text += said(href, f"<D:getetag>{etag}</D:getetag><C:calendar-data>"
                                 f"<![CDATA[{data}]]></C:calendar-data>")
            handler.reply(207, OPEN + text + CLOSE)
        elif handler.command == "PUT":
            old = self.kept.get(path, (None, ""))[0]
            wants = handler.headers.get("If-Match")
            if (handler.headers.get("If-None-Match") and old) or (wants and wants != old):
                handler.reply(412)
                return
            self.count += 1
            self.kept[path] = (f'"{self.count}"', body)
            handler.reply(201, ETag=f'"{self.count}"')
        elif handler.command == "DELETE" and path in self.kept:
            del self.kept[path]
            handler.reply(204)
        else:
            handler.reply(404)


def outcome(done):
    """What a run came to, for a failed check."""
    return f"status {done.returncode}: {done.stdout[:300]} {done.stderr[:600]}"


def is_refused(done, status, words):
    """One line of words, no crash, the status that was expected."""
    return (done.returncode == status and words in done.stderr and
            "Sanitizer" not in done.stderr and
            len(done.stderr.strip().splitlines()) <= 3)


def discovery():
    """Lies told before any calendar is found."""
    other = Fake()

    def text(status, body, kind="application/xml", **headers):
        return lambda handler, asked: handler.reply(status, body, kind, **headers) or True

    def flood(handler, asked):
        handler.send_response(207)
        handler.send_header("Content-Type", "application/xml")
        handler.end_headers()
        handler.close_connection = True
        for _ in range(40):
            handler.wfile.write(b"<!-- " + b"x" * (1 << 20))
        return True

    def hang(handler, asked):
        time.sleep(6)
        return True

    def drip(handler, asked):
        handler.send_response(207)
        handler.send_header("Content-Type", "application/xml")
        handler.send_header("Content-Length", "1000000")
        handler.end_headers()
        for _ in range(30):
            handler.wfile.write(b" ")
            handler.wfile.flush()
            time.sleep(0.2)
        handler.close_connection = True
        return True

    def short(handler, asked):
        handler.send_response(207)
        handler.send_header("Content-Type", "application/xml")
        handler.send_header("Content-Length", "1000")
        handler.end_headers()
        handler.wfile.write(b"<D:multi")
        handler.close_connection = True
        return True

    def hang_up(handler, asked):
        handler.close_connection = True
        return True

    def raw(data):
        def hook(handler, asked):
            handler.wfile.write(data)
            handler.close_connection = True
            return True
        return hook

    bomb = ('<!DOCTYPE a [<!ENTITY a "' + "x" * 1000 + '">' +
            "".join(f'<!ENTITY {chr(98 + n)} "' + f"&{chr(97 + n)};" * 10 + '">'
                    for n in range(8)) +
            ']><D:multistatus xmlns:D="DAV:"><D:response><D:href>&i;</D:href>'
            "</D:response></D:multistatus>")
    away = f"http://127.0.0.1:{other.port}/cal/"
    cases = [
        ("garbage in place of XML", 3, "multistatus", text(207, "\0\1 not XML \xff")),
        ("a web page", 3, "status 200", text(200, "<html>Welcome</html>", "text/html")),
        ("XML that calls itself a picture", 3, "expected XML",
         text(207, OPEN + said("/cal/", CALENDAR) + CLOSE, "image/png")),
        ("XML cut short", 3, "multistatus", text(207, OPEN + "<D:response>")),
        ("entities in entities", 3, "multistatus", text(207, bomb)),
        ("a document type from elsewhere", 3, "multistatus",
         text(207, f'<!DOCTYPE a SYSTEM "{away}x.dtd">' + OPEN + CLOSE)),
        ("a hundred thousand levels", 3, "multistatus",
         text(207, OPEN + "<D:response>" * 100000)),
        ("an answer without end", 3, "32 MiB", flood),
        ("silence", 3, "no answer in time", hang),
        ("one byte now and then", 3, "no answer in time", drip),
        ("less than it said", 3, "127.0.0.1", short),
        ("a connection that is closed", 3, "127.0.0.1", hang_up),
        ("no HTTP at all", 3, "127.0.0.1", raw(b"220 mail ready\r\n")),
        ("headers without end", 3, "127.0.0.1",
         raw(b"HTTP/1.1 207 OK\r\n" + b"X: " + b"y" * 200000 + b"\r\n" +
             b"Z: " + b"y" * 400000 + b"\r\n\r\n")),
        ("status 401", 2, "401", text(401, "", WWW_Authenticate='Basic realm="x"')),
        ("status 403", 3, "403", text(403, "")),
        ("status 500", 3, "500", text(500, "")),
        ("a redirect to another server", 3, "points to another", text(302, "", Location=away)),
        ("a redirect to another scheme", 3, "points to another",
         text(301, "", Location="https://127.0.0.1/cal/")),
        ("a redirect to a file", 2, "no address", text(301, "", Location="file:///etc/passwd")),
        ("a redirect without address", 2, "no address", text(302, "")),
        ("a redirect to itself", 3, "more than 5", text(307, "", Location="/cal/")),
        ("a home on another server", 3, "points to another",
         text(207, OPEN + said("/cal/", f"<C:calendar-home-set><D:href>{away}</D:href>"
                               "</C:calendar-home-set>") + CLOSE)),
        ("a principal on another server", 3, "points to another",
         text(207, OPEN + said("/cal/", "<D:current-user-principal><D:href>//127.0.0.2:1/"
                               "</D:href></D:current-user-principal>") + CLOSE)),
        ("a calendar that takes no events", 2, "takes no events",
         text(207, OPEN + said("/cal/", CALENDAR + "<C:supported-calendar-component-set>"
                               '<C:comp name="VTODO"/></C:supported-calendar-component-set>')
              + CLOSE)),
        ("an empty multistatus", 3, "no calendar is to be found", text(207, OPEN + CLOSE)),
    ]
    book = Book("hostile").fill()
    before = book.file_text()
    for name, status, words, hook in cases:
        fake = Fake()
        fake.hooks["/cal/"] = hook
        done, _ = book.push(fake.url, "--timeout", "1" if hook in (hang, drip) else "5")
        check(f"hostile: {name} is refused", is_refused(done, status, words), outcome(done))
        fake.http.shutdown()
    check("hostile: nothing was sent to the other server", other.seen == [], other.seen)
    check("hostile: the book is as it was, with no account", book.file_text() == before and
          "No calendar server" in book.must("calendar", "forget"))
    for url, words in (("ftp://127.0.0.1/", "neither"), ("http://calendar.invalid/", "encrypted"),
                       ("https://a:b@calendar.invalid/", "password in it"), ("calendar", "no address"),
                       ("https://calendar.invalid/", "calendar.invalid")):
        done, _ = book.push(url, "--timeout", "3")
        check(f"hostile: the address \"{url}\" is refused",
              done.returncode in (2, 3) and words in done.stderr, outcome(done))


def while_pushing():
    """Lies told once a calendar is known."""
    book = Book("lies").fill()
    fake = Fake()
    total = len(book.file())

    def status(code, body="", kind="application/xml"):
        return lambda handler, asked: handler.reply(code, body, kind) or True

    def lie(handler, asked):
        handler.reply(201, ETag='"nothing"')
        return True

    for name, code, words, hook in (
            ("207 for a write", 1, "status 207", status(207, OPEN + CLOSE)),
            ("403 for a write", 1, "write nothing there", status(403)),
            ("a UID it has elsewhere", 1, "another address",
             status(409, '<D:error xmlns:D="DAV:" xmlns:C="urn:ietf:params:xml:ns:caldav">'
                    "<C:no-uid-conflict/></D:error>")),
            ("status 415", 1, "status 415", status(415)),
            ("status 302 to nowhere", 2, "no address", status(302)),
            ("status 503 for a write", 3, "0 changed before; push again", status(503)),
            ("status 429 for a write", 3, "status 429", status(429))):
        fake.hooks["PUT"] = hook
        done = book.run("calendar", "push", "--url", fake.url)
        check(f"hostile: {name} is told, and nothing is taken for done",
              done.returncode == code and words in done.stdout + done.stderr and
              fake.kept == {} and "Sanitizer" not in done.stderr, outcome(done))
    fake.hooks["PUT"] = lie
    done, told = book.push(None, user=None)
    check("hostile: a server that says yes and keeps nothing", told["created"] == total)
    fake.hooks.clear()
    done, told = book.push(None, user=None)
    check("hostile: is found out by the next push", done.returncode == 1 and
          told["left"] == total and fake.kept == {}, outcome(done))
    done, told = book.push(None, "--keep", "ours", user=None)
    check("hostile: and put right", done.returncode == 0 and len(fake.kept) == total,
          outcome(done))

    kept = dict(fake.kept)
    first = sorted(kept)[0]

    def listing(extra):
        def hook(handler, asked):
            if handler.headers.get("Depth") != "1":
                return False
            text = "".join(said(p, f"<D:getetag>{e}</D:getetag>")
                           for p, (e, _) in fake.kept.items() if p != first)
            handler.reply(207, OPEN + text + extra + CLOSE)
            return True
        return hook

    def report(body):
        return lambda handler, asked: handler.reply(207, OPEN + body + CLOSE) or True

    changed = said(first, "<D:getetag>\"new\"</D:getetag>")
    etag = "<D:getetag>\"new\"</D:getetag>"
    for name, listed, reported in (
            ("an event that can't be read", changed,
             said(first, etag + "<C:calendar-data>BEGIN:VCALENDAR&#13;</C:calendar-data>")),
            ("a hundred thousand components in each other", changed,
             said(first, etag + "<C:calendar-data>" + "BEGIN:VCALENDAR\n" +
                  "BEGIN:VEVENT\n" * 100000 + "</C:calendar-data>")),
            ("another event at this address", changed,
             said(first, etag + "<C:calendar-data>" + kept[sorted(kept)[1]][1] +
                  "</C:calendar-data>")),
            ("data without end of line", changed,
             said(first, etag + "<C:calendar-data>BEGIN:VCALENDAR\nBEGIN:VEVENT\nUID:" +
                  first[5:-4] + "\nSUMMARY:" + "x" * 2000000 + "</C:calendar-data>")),
            ("nothing where something was listed", changed, "")):
        fake.hooks = {"/cal/": listing(listed), "REPORT": report(reported)}
        done, told = book.push(None, user=None)
        check(f"hostile: {name} is left alone", done.returncode == 1 and told and
              told["left"] >= 1 and fake.kept == kept and
              told["created"] == told["changed"] == told["removed"] == 0, outcome(done))
    for name, listed, reported, code, words in (
            ("answers nobody asked for", changed, said("/x", etag) * 60, 3, "asked for 1"),
            ("addresses on another server", said("http://127.0.0.2:1" + first, etag), "", 1,
             ""),
            ("an address that is none", said("http://[", etag), "", 2, "no address")):
        fake.hooks = {"/cal/": listing(listed), "REPORT": report(reported)}
        done, told = book.push(None, user=None)
        check(f"hostile: {name} change nothing", done.returncode == code and
              words in done.stderr and fake.kept == kept, outcome(done))
    fake.hooks.clear()
    done, told = book.push(None, user=None)
    check("hostile: then an honest server is believed again", done.returncode == 0 and
          told["unchanged"] == total, outcome(done))

    # an honest server that gives no ETag for a write, and words things its own way
    quiet = Fake()

    def no_etag(handler, asked):
        quiet.count += 1
        own = asked.replace("SUMMARY:", "SUMMARY:[boat] ", 1)
        quiet.kept[handler.path] = (f'"{quiet.count}"', own)
        handler.reply(201)
        return True

    quiet.hooks["PUT"] = no_etag
    other = Book("quiet").fill()
    done, told = other.push(quiet.url, user=None)
    kept = dict(quiet.kept)
    done, told = other.push(None, user=None)
    check("hostile: a server that rewords every event is not fought with",
          done.returncode == 0 and told["unchanged"] == total and quiet.kept == kept,
          outcome(done))


def encrypted():
    """Certificates."""
    folder = caldav_bench.scratch
    key, certificate = os.path.join(folder, "key.pem"), os.path.join(folder, "cert.pem")
    subprocess.run(["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "3650",
                    "-subj", "/CN=127.0.0.1", "-addext", "subjectAltName=IP:127.0.0.1",
                    "-keyout", key, "-out", certificate], check=True, capture_output=True)
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(certificate, key)
    fake = Fake(context)
    book = Book("encrypted").fill()
    done, _ = book.push(fake.url)
    check("hostile: a certificate that nobody vouches for is refused, and nothing is sent",
          is_refused(done, 3, "certificate") and fake.seen == [], outcome(done))
    done, told = book.push(fake.url, "--ca-file", certificate)
    check("hostile: one that is named is taken", done.returncode == 0 and
          told["created"] > 0, outcome(done))
    done, told = book.push(None)
    check("hostile: and remembered", done.returncode == 0, outcome(done))
    done, _ = book.push(fake.url.replace("127.0.0.1", "localhost"), "--ca-file", certificate)
    check("hostile: but not for another name", is_refused(done, 3, "certificate"),
          outcome(done))
    done, _ = book.push(fake.url, "--ca-file", os.path.join(folder, "nowhere"))
    check("hostile: a certificate file that is not there is said", done.returncode == 3 and
          "--ca-file" in done.stderr, outcome(done))


def digest():
    """A server that takes passwords by digest only."""
    fake = Fake()
    book = Book("digest").fill()

    def demand(handler, asked):
        if (handler.headers.get("Authorization") or "").startswith("Digest "):
            return False
        handler.reply(401, WWW_Authenticate='Digest realm="x", nonce="abc", qop="auth"')
        return True

    for method in ("PROPFIND", "REPORT", "PUT"):
        fake.hooks[method] = demand
    done, told = book.push(fake.url)
    check("hostile: a server that takes digests only gets them", done.returncode == 0 and
          told["created"] == len(fake.kept) > 0, outcome(done))


def main():
    skip_without("calendar pushes", "openssl")
    discovery()
    while_pushing()
    digest()
    encrypted()
    end()


main()
