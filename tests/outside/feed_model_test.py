"""The feed under random changes of the book, as a subscriber sees it.

After each change it is fetched and held to what must be true of it, worked out anew: its events are
those that a file of the same book has; each hand-in day is one that `becket winter` names, or one
that was chosen; nothing is in the past and nothing is there twice; SEQUENCE and LAST-MODIFIED grow
where what is visible changed, and only there; a fetch without a change is the same bytes; and the
bytes pass the lint. Between the changes days pass, a year and more of them, on which nothing is to
change but what was on one of them. The changes are drawn with a fixed seed, FEED_SEED to draw
others.

What a file has is made from a copy of the book, so that it is not what the feed stored."""
import datetime
import json
import os
import random
import subprocess
import sys

sys.path.insert(0, os.path.join(os.path.dirname(__file__), "..", "support"))
from caldav_bench import Book, free_port, values  # noqa: E402
from feed_bench import Feeds  # noqa: E402
from harness import check, end, scaled, skip_without  # noqa: E402
from ics_lint import Lint  # noqa: E402

CHANGES = scaled(500)
FIRST = datetime.date(2026, 11, 25)
MOST_DAYS = max(1, 1600 // CHANGES)  # pass at a time, so that all of them are a year and more
VESSELS = ["Skarv Ørn", "Σωσίβιο", "救命丸", "Fjord 🛟 To"]
STATION = "Flåteverksted; \"Øst\", Ås"
LONG_NOTE = "merknad, ; \\ " * 800 + "slutt"  # some 10 kB


class Random:
    """Draws a command line."""

    def __init__(self, seed):
        self.draw = random.Random(seed)
        self.today = FIRST
        self.tags = [f"{kind}-{number}" for kind in ("LR", "FL") for number in (1, 2, 3, 4)]
        self.made = 0

    def day(self, first, last):
        days = (last - first).days
        return (first + datetime.timedelta(days=self.draw.randint(0, days))).isoformat()

    def past(self):
        return self.day(datetime.date(2022, 1, 1), self.today)

    def future(self):
        return self.day(self.today, self.today + datetime.timedelta(days=400))

    def tag(self):
        return self.draw.choice(self.tags)

    def words(self):
        return self.draw.choice(["", "x" * self.draw.randint(72, 76), "løs; \\, 救命 🛟",
                                 "en\nto\n\ntre", "Σωσίβιο, " * 9, LONG_NOTE])

    def enter(self):
        self.made += 1
        tag = f"N-{self.made}"
        self.tags.append(tag)
        kind = self.draw.choice(["lifejacket-auto", "flare-red-hand", "epirb", "tether",
                                 "extinguisher-powder", "liferaft-canister", "lifebuoy"])
        return ["enter", kind, "--vessel", self.draw.choice(VESSELS), "--tag", tag, "--made",
                self.past(), "--description", self.words()]

    def change(self, uids):
        """The words of one change; it may be one that is refused."""
        weekday = self.draw.choice(["monday", "saturday", "sunday", "friday"])
        acts = [
            lambda: ["record", self.draw.choice(["service", "inspect", "test"]), self.tag(),
                     "--on", self.past()],
            lambda: ["record", "renew", self.tag(), "--on", self.past(), "--expires",
                     self.future(), self.draw.choice(["--new", "--refit"])],
            lambda: ["amend", self.tag(), "--made", self.past()],
            lambda: ["amend", self.tag(), "--expires", self.future()],
            lambda: ["amend", self.tag(), "--place", self.words().replace("\n", " ")],
            lambda: ["withdraw", self.tag(), "--because", "lost"],
            lambda: ["land", self.tag(), "--to", STATION, "--on", self.past()],
            lambda: ["return", self.tag(), "--on", self.today.isoformat()],
            lambda: ["move", self.tag(), "--vessel", self.draw.choice(VESSELS)],
            lambda: ["remind", "--weekday", weekday],
            lambda: ["remind", "--notice", f"flare-red-hand={self.draw.randint(0, 90)}"],
            lambda: ["remind", "--singles", self.draw.choice(["yes", "no"])],
            lambda: ["remind", "--plan", f"{self.draw.choice(uids)}={self.future()}"],
            lambda: ["vessel", self.draw.choice(VESSELS), "--margin",
                     str(self.draw.randint(0, 60))],
            lambda: ["vessel", self.draw.choice(VESSELS), "--use",
                     self.draw.choice(["private", "commercial"])],
            lambda: ["station", STATION, "--turn-round", str(self.draw.randint(5, 60))],
            self.enter, self.enter,
        ]
        return self.draw.choice(acts)()


class Subscriber:
    """Remembers what it fetched last."""

    def __init__(self, feeds, path):
        self.feeds = feeds
        self.path = path
        self.body = b""
        self.modified = None
        self.events = {}
        self.versions = {}  # UID: the greatest SEQUENCE ever seen
        self.today = FIRST
        self.faults = []

    def fault(self, words, what):
        self.faults.append(f"after {words}: {what}")

    def fetch(self, words):
        """Fetches after a change, and compares with what was there before."""
        status, headers, body = self.feeds.ask(self.path)
        events = values(body.decode())
        if status != 200 or body.count(b"BEGIN:VEVENT") != len(events):
            self.fault(words, f"status {status}, or an event twice")
        complaints = Lint("the feed").check(body)
        if complaints:
            self.fault(words, complaints[:3])
        for uid, event in events.items():
            self.compare(words, uid, event)
        if (body == self.body) != (headers["last-modified"] == self.modified):
            self.fault(words, "Last-Modified and the bytes do not change together")
        if any(event[0] < self.today for event in events.values()):
            self.fault(words, "an event in the past")
        again = self.feeds.ask(self.path)
        if again[2] != body or again[1]["etag"] != headers["etag"]:
            self.fault(words, "fetched again, it is another")
        self.body, self.modified, self.events = body, headers["last-modified"], events

    def pass_days(self, today):
        """Fetches on a later day: what was on no day passed is as it was."""
        before, self.today = self.events, today
        words = f"days to {today}"
        self.fetch(words)
        for uid, event in before.items():
            if event[0] < today or self.events.get(uid) == event:
                continue
            self.fault(words, f"\"{event[2]}\" of {event[0]} changed, though it is not past")

    def compare(self, words, uid, event):
        """SEQUENCE and LAST-MODIFIED against what was seen of this event."""
        before = self.events.get(uid)
        visible = event[:7] + event[10:]
        if before is None:
            if event[7] <= self.versions.get(uid, -1):
                self.fault(words, f"{uid} came back with an old SEQUENCE")
        elif before[:7] + before[10:] == visible:
            if before[7:10] != event[7:10]:
                self.fault(words, f"{uid} has a new version and looks the same")
        elif event[7] <= before[7] or event[9] <= before[9]:
            self.fault(words, f"{uid} changed without a new version")
        self.versions[uid] = max(event[7], self.versions.get(uid, -1))


def from_copy(book):
    """The events a file of this book has, made from a copy of it."""
    copy = Book("copy")
    copy.today = book.today
    for ending in ("", "-wal", "-shm"):
        if os.path.exists(f"{copy.path}{ending}"):
            os.remove(f"{copy.path}{ending}")
    subprocess.run(["sqlite3", book.path, f".backup '{copy.path}'"], check=True)
    return {uid: event[:7] + event[10:] for uid, event in copy.file().items()}


def hand_in_days(book):
    """The days of all trips, by the station, from the winter's own answer."""
    return {datetime.date.fromisoformat(trip["hand_in"])
            for boat in json.loads(book.must("winter", "--json")) for trip in boat["hand_in"]}


def main():
    skip_without("the feed under random changes", "sqlite3")
    book = Book("model").fill()
    feeds = Feeds(book, free_port())  # one port throughout: it is kept in the book
    subscriber = Subscriber(feeds, feeds.new()[0])
    subscriber.fetch("the start")
    draw = Random(int(os.environ.get("FEED_SEED", "7")))
    refused = 0
    for number in range(CHANGES):
        if number % 2 == 1:
            draw.today += datetime.timedelta(days=draw.draw.randint(1, MOST_DAYS))
            feeds.stop()
            book.today = draw.today
            feeds.start()
            subscriber.pass_days(draw.today)
        words = draw.change([uid[:8] for uid in subscriber.events] or ["00000000"])
        done = book.run(*words)
        refused += done.returncode != 0
        if done.returncode not in (0, 2):
            subscriber.fault(words, f"status {done.returncode}: {done.stderr}")
        subscriber.fetch(words)
        seen = {uid: event[:7] + event[10:] for uid, event in subscriber.events.items()}
        if number % 5 == 0 and seen != from_copy(book):
            subscriber.fault(words, "the feed is not what a file of the book has")
        if number % 25 == 0:
            planned = {datetime.date.fromisoformat(row["day"])
                       for row in json.loads(book.must("remind", "--json")) if row["planned"]}
            days = {event[0] for event in seen.values() if event[2].startswith("Hand in")}
            if not days <= hand_in_days(book) | planned:
                subscriber.fault(words, f"hand-in on days of no trip: {days}")
    feeds.stop()
    days = (draw.today - FIRST).days
    check("feed: a year has passed", days > 365 or CHANGES < 100, days)
    check(f"feed: {CHANGES} changes in {days} days, each told once and no other", not subscriber.faults,
          "\n".join(subscriber.faults[:5]))
    check("feed: most of the changes were real", refused < CHANGES / 3, refused)
    end()


main()
