#!/usr/bin/env python3
"""Twenty who write and two hundred who read one book at once, through its page and its feeds.

    load_bench.py BECKET [BOATS [SECONDS]]

On a book of invented boats (fleets.py; 40 when not said) `becket page` and `becket serve` are open.
For so many seconds (60 when not said) twenty writers each open the form of a piece, look what a
service would change and save it with a certificate of its own; a hundred readers ask for pages, and
a hundred calendar programs poll a base's feed with the ETag they have. Each has an address of its
own (127.0.1.N), since one address may have few connections. Printed are how many of each were
answered and the percentiles of the seconds until then. A benchmark, not a test of time: what it
asserts is that nothing is lost. Every service of which the page said that it is saved is in the
book, no other is, no answer was an error but "try again later", and `book check` finds nothing.
"""
import collections
import http.client
import random
import sys
import tempfile
import threading
import time
import urllib.parse
from pathlib import Path

import fleets

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from feed_bench import Feeds  # noqa: E402
from harness import BECKET, Book, check, end  # noqa: E402
from pages import Pages, tree  # noqa: E402

WRITERS, PAGE_READERS, FEED_READERS = 20, 100, 100
PAGES = ["/winter", "/locker?boat=Boat%2000001", "/locker/T-61", "/saturday", "/safe"]
PATIENCE = 120  # seconds until a client gives up


class Load:
    def __init__(self, book, seconds):
        self.pages, self.feeds = Pages(book), Feeds(book)
        self.feed = self.feeds.new("--base", "Base 000")[0]
        self.until = time.monotonic() + seconds
        self.waited = collections.defaultdict(list)
        self.wrong, self.saved, self.refused, self.again = [], [], 0, 0
        self.lock = threading.Lock()

    def ask(self, what, number, host, method, path, body=None, **headers):
        """Status, headers and body of one request from the address of this client; None when it
        failed."""
        began = time.monotonic()
        try:
            connection = http.client.HTTPConnection(
                host, timeout=PATIENCE, source_address=(f"127.0.1.{number + 1}", 0))
            connection.request(method, path, body, headers)
            answer = connection.getresponse()
            said = answer.status, answer, answer.read()
            connection.close()
        except (OSError, http.client.HTTPException) as why:
            with self.lock:
                self.wrong.append(f"{what}: {path}: {why!r}")
            return None
        with self.lock:
            self.waited[what].append(time.monotonic() - began)
            self.again += said[0] == 503
            if said[0] not in (200, 303, 304, 409, 503):
                self.wrong.append(f"{what}: {path}: {said[0]} {said[2][:200]!r}")
        return said

    def read_pages(self, number):
        draw = random.Random(number)
        while time.monotonic() < self.until:
            self.ask("a page", number, self.pages.host, "GET", draw.choice(PAGES), Cookie=self.pages.cookie)

    def poll(self, number):
        etag = None
        while time.monotonic() < self.until:
            more = {} if etag is None else {"If-None-Match": etag}
            said = self.ask("a poll", number, f"127.0.0.1:{self.feeds.port}", "GET", self.feed, **more)
            etag = said[1].getheader("ETag") if said else etag

    def send(self, what, number, page, press, **typed):
        """Presses a button of the form on a page, with these fields typed."""
        form = next(form for form in tree(page.decode()).all("form", method="post")
                    if form.attributes["action"].startswith("/done/"))
        fields = [(name, typed.pop(name, value)) for name, value in self.pages.fields(form)]
        return self.ask(what, number, self.pages.host, "POST", form.attributes["action"].split("#")[0],
                        urllib.parse.urlencode([*fields, *typed.items(), (press, "yes")]),
                        Cookie=self.pages.cookie, Origin=f"http://{self.pages.host}",
                        **{"Content-Type": "application/x-www-form-urlencoded"})

    def write(self, number):
        tag, count = f"T-{number * fleets.ITEMS + 1}", 0
        while time.monotonic() < self.until:
            count += 1
            certificate = f"W{number}-{count}"
            said = self.ask("a form", number, self.pages.host, "GET", f"/done/{tag}", Cookie=self.pages.cookie)
            if said and said[0] == 200:
                said = self.send("a look", number, said[2], "look", task="service", certificate=certificate)
            if said and said[0] == 200:
                said = self.send("a save", number, said[2], "save")
            with self.lock:
                if said and said[0] == 303:
                    self.saved.append((tag, certificate))
                else:
                    self.refused += 1

    def run(self):
        clients = [threading.Thread(target=self.write, args=[n]) for n in range(WRITERS)]
        clients += [threading.Thread(target=self.read_pages, args=[n + WRITERS]) for n in range(PAGE_READERS)]
        clients += [threading.Thread(target=self.poll, args=[n]) for n in range(FEED_READERS)]
        for client in clients:
            client.start()
        for client in clients:
            client.join()
        self.pages.close()
        self.feeds.stop()


def percentile(sorted_values, share):
    return sorted_values[min(len(sorted_values) - 1, int(len(sorted_values) * share))]


def main():
    boats, seconds = (int(word) for word in (sys.argv[2:] + ["40", "60"][len(sys.argv) - 2:]))
    with tempfile.TemporaryDirectory() as folder:
        book = Book(Path(folder) / "fleet.db", fleets.TODAY)
        fleets.by_sql(BECKET, book.path, boats)
        book.must("book", "accept")
        load = Load(book, seconds)
        load.run()
        print(f"{boats} boats, {boats * fleets.ITEMS} pieces; {WRITERS} write, {PAGE_READERS} read pages, "
              f"{FEED_READERS} poll a feed, for {seconds} seconds")
        for what, waited in load.waited.items():
            waited.sort()
            told = ", ".join(f"{name} {percentile(waited, share):.3f}" for name, share in
                             (("half within", 0.5), ("90 %", 0.9), ("99 %", 0.99), ("all", 1)))
            print(f"  {what:7} {len(waited):6} answered; {told} s")
        held = [(item["tag"], record["certificate"])
                for tag in sorted({tag for tag, _ in load.saved})
                for item in [book.ask("show", tag)] for record in item["records"]
                if (record["certificate"] or "").startswith("W")]
        print(f"  {len(load.saved)} services saved, {load.refused} not; 'try again later' was said {load.again} times")
        check("nothing that was saved is lost, and nothing else is there", sorted(held) == sorted(load.saved),
              f"{len(held)} held, {sorted(set(load.saved) ^ set(held))[:9]}")
        check("no answer was an error", not load.wrong, "\n".join(load.wrong[:9]))
        check("the book is in order", book.run("book", "check").returncode == 0)
    end()


main()
