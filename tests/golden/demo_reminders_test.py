#!/usr/bin/env python3
"""The owner's reminders against the days derived by hand in demo/derivation.md.

    demo_reminders_test.py BECKET

Hand-in days and the last of them are those of the derivation's section Ground; a collect day is
given out once the gear is landed. What she does, buys
and registers herself is wanted by 24 March 2027 (31 March less her margin of seven days), and
its reminder stands four weeks before: 24 March less 28 days is 24 February 2027, a
Wednesday; what she does herself waits for the Saturday after it, 27 February.
The beacon's battery has no station in the book: 42 days before 24 March, 24 in March and 18 in
February, is 10 February 2027.
Reads calendars/owner.ics, which calendars_test.sh holds to what the program writes.
Prints a line `ok NAME` or `not ok NAME` a reminder.
"""
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent

# day, how the summary begins, what the description must name
DERIVED = [
    ("20261202", "Hand in", "Varne Sound Raft Loft", ["LR-1", "LR-1-FL", "LR-1-BW", "HR-1"]),
    ("20270217", "Last day to hand in", "Varne Sound Raft Loft", ["LR-1", "HR-1"]),
    ("20261202", "Hand in", "Holm Quay Safety Service", ["LJ-1", "LJ-3", "LJ-6", "DB-1", "RM-1"]),
    ("20270310", "Last day to hand in", "Holm Quay Safety Service", ["LJ-1", "RM-1"]),
    ("20261202", "Hand in", "an approved station", ["PL-2"]),
    ("20270210", "Last day to hand in", "an approved station", ["PL-2"]),
    ("20270224", "Buy or renew", "", ["FL-1", "FL-3", "LJ-4", "TE-1", "GH-1"]),
    ("20270227", "Check", "", ["FA-1", "LJ-2"]),
    ("20270224", "Papers for", "", ["PL-2"]),
]


def events(path):
    """Each event as a dictionary of its own unfolded properties (alarms left out)."""
    text = path.read_bytes().decode("utf-8").replace("\r\n ", "")
    for block in text.split("BEGIN:VEVENT\r\n")[1:]:
        own = block.split("BEGIN:VALARM")[0]
        lines = (line.split(":", 1) for line in own.split("\r\n") if ":" in line)
        yield {name.split(";")[0]: value for name, value in lines}


def main():
    found = list(events(ROOT / "calendars" / "owner.ics"))
    good = len(found) == len(DERIVED)
    print(("ok" if good else "not ok") + " as many reminders as were derived: 9")
    for day, start, place, tags in DERIVED:
        fits = [event for event in found
                if event["DTSTART"] == day and event["SUMMARY"].startswith(start)
                and place in event["SUMMARY"]
                and all(f"{tag} " in event["DESCRIPTION"] for tag in tags)]
        name = f"{start} {place} on {day}".replace("  ", " ")
        print(("ok " if len(fits) == 1 else "not ok ") + name)
        good &= len(fits) == 1
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
