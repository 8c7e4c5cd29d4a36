#!/usr/bin/python3
"""Reads calendar files with six parsers and compares what they read.

usage: ics_parsers.py [--expected FILE] FILE...     exit 0 all read the same, 1 they do not

The parsers: icalendar, vobject and recurring_ical_events here, ical.js, node-ical and ts-ics
through ics_dump.mjs. Compared: UID, day, end, summary, description, sequence, categories and
alarms, event by event and to-do by to-do; recurring_ical_events is asked which events there
are from 1900 to 2199.
FILE of --expected is what tests/support/ics_driver.c writes beside the first calendar.

Two parsers undo the escapes one kind after the other (icalendar before 5, node-ical), so they
read an escaped backslash that stands before certain letters as something else. A text with
such a pair is not held against them; the other two must read it.
"""
import datetime
import json
import pathlib
import re
import subprocess
import sys

import icalendar
import recurring_ical_events
import vobject

MISREAD = {"icalendar": re.compile(r"\\[\\,;nN]"), "node-ical": re.compile(r"\\[nN]")}
MISREAD["recurring_ical_events"] = MISREAD["icalendar"]
CUT = re.compile(r"(BEGIN|END):V")
TOLD = 20  # differences a comparison tells of

def day_words(value):
    only_date = isinstance(value, datetime.date) and not isinstance(value, datetime.datetime)
    return ("" if only_date else "no date: ") + value.isoformat()


def of_icalendar(event):
    """Values of one of icalendar's components."""
    if event.errors:
        raise ValueError(f"icalendar complains: {event.errors}")
    alarms = [[str(alarm["ACTION"]), int(alarm["TRIGGER"].dt.total_seconds()),
               str(alarm["DESCRIPTION"])] for alarm in event.walk("VALARM")]
    todo = event.name == "VTODO"
    return {
        "uid": str(event["UID"]), "day": day_words(event["DUE" if todo else "DTSTART"].dt),
        "end": "" if todo else day_words(event["DTEND"].dt), "summary": str(event["SUMMARY"]),
        "description": str(event.get("DESCRIPTION", "")), "sequence": int(event["SEQUENCE"]),
        "categories": [str(category) for category in event["CATEGORIES"].cats],
        "alarms": alarms}


def by_icalendar(data):
    calendar = icalendar.Calendar.from_ical(data)
    return [of_icalendar(event) for event in calendar.walk("VEVENT") + calendar.walk("VTODO")]


def by_recurring(data):
    calendar = icalendar.Calendar.from_ical(data)
    asked = recurring_ical_events.of(calendar, components=["VEVENT", "VTODO"])
    return [{key: value for key, value in of_icalendar(event).items()
             if key in ("uid", "day", "summary", "description")}
            for event in asked.between((1900, 1, 1), (2200, 1, 1))]


def by_vobject(data):
    calendar = vobject.readOne(data.decode("utf-8"))
    found = []
    for event in calendar.contents.get("vevent", []) + calendar.contents.get("vtodo", []):
        todo = event.name == "VTODO"
        alarms = [[alarm.action.value, int(alarm.trigger.value.total_seconds()),
                   alarm.description.value] for alarm in event.valarm_list]
        found.append({
            "uid": event.uid.value,
            "day": day_words(event.due.value if todo else event.dtstart.value),
            "end": "" if todo else day_words(event.dtend.value), "summary": event.summary.value,
            "description": event.description.value if hasattr(event, "description") else "",
            "sequence": int(event.sequence.value), "categories": event.categories.value,
            "alarms": alarms})
    return found


def by_node(paths):
    script = pathlib.Path(__file__).with_name("ics_dump.mjs")
    done = subprocess.run(["node", str(script), *paths], stdout=subprocess.PIPE, check=True)
    return json.loads(done.stdout)


def text_in(value):
    """The text of a field: an alarm's is its last part."""
    return " ".join(str(part[-1]) for part in value) if isinstance(value, list) else str(value)


def compare(path, what, wanted, found):
    """The number of differences, each told."""
    if what == "ts-ics":  # it takes such words inside of a text for a component
        wanted = [event for event in wanted if not CUT.search(str(event))]
        found = [event for event in found
                 if event.get("uid") in {event["uid"] for event in wanted}]
    wanted = {event["uid"]: event for event in wanted}
    read = {event["uid"]: event for event in found}
    faults = 0
    if len(read) != len(found) or wanted.keys() != read.keys():
        print(f"{path}: {what}: {len(found)} events, {len(wanted)} expected, or other UIDs")
        return 1
    for uid, event in wanted.items():
        triggers = [alarm[:2] for alarm in event.get("alarms", [])]
        for field, value in (event | {"triggers": triggers}).items():
            if field not in read[uid]:
                continue  # the parser does not say
            if what in MISREAD and MISREAD[what].search(text_in(value)):
                continue
            if read[uid][field] != value:
                faults += 1
                if faults > TOLD:
                    continue
                print(f"{path}: {what}: {uid} {field}:\n  {read[uid][field]!r}\n"
                      f"  expected {value!r}")
    return faults


def read_expected(path):
    strings = pathlib.Path(path).read_bytes().decode("utf-8").split("\0")[:-1]
    return [dict(zip(("day", "summary", "description", "uid"), strings[i:i + 4]))
            for i in range(0, len(strings), 4)]


def main(arguments):
    expected = None
    if arguments[:1] == ["--expected"]:
        expected = read_expected(arguments[1])
        arguments = arguments[2:]
    if not arguments:
        sys.exit(__doc__)
    faults = 0
    for index, (path, read) in enumerate(zip(arguments, by_node(arguments))):
        data = pathlib.Path(path).read_bytes()
        read["icalendar"] = by_icalendar(data)
        read["vobject"] = by_vobject(data)
        read["recurring_ical_events"] = by_recurring(data)
        first = read["ical.js"]
        if not first:
            print(f"{path}: no events")
            faults += 1
        if index == 0 and expected is not None:
            faults += compare(path, "ical.js", expected, first)
        for what, found in read.items():
            faults += compare(path, what, first, found)
        print(f"{path}: {len(first)} events read by {', '.join(sorted(read))}")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
