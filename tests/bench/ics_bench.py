#!/usr/bin/env python3
"""What writing reminders costs beside libical alone, and beside a program in Python with the
library that a user would take.

    ics_bench.py ICS_BENCH [EVENTS]

The same EVENTS (45,000 when not said) are written by ours, by a bare loop over libical
(ics_bench.c), and by python3-icalendar of the system's Python, where that is installed. Printed are
the processor's seconds, the peak of memory, and of the first two also millions of instructions for
a tenth of the events, counted by valgrind. What is aimed at is twice the loop, 64 MB, and a
twentieth of the last. A benchmark, not a test: nothing is asserted.
"""
import subprocess
import sys

import fleet_bench

PYTHON = "/usr/bin/python3"
SCRIPT = """import datetime, sys, icalendar
SUMMARY = "Hand in 3 items at Skerry Raft Loft, Amberjay"
DESCRIPTION = (
    "- LR-1 liferaft, canister: service, due 12 Mar 2027 (36 months from the last service)\\n"
    "- LJ-1 lifejacket, automatic: service, due 30 Apr 2027; its cylinder is renewed with it\\n"
    "- CY-7 gas cylinder: test, due 1 Jun 2027\\n"
    "Collect from Monday 1 March 2027.\\n"
    "The label, the maker's manual and the station's certificate decide.")
calendar = icalendar.Calendar()
calendar.add("version", "2.0")
calendar.add("prodid", "-//becket//bench//EN")
now = datetime.datetime(2026, 11, 18, 21, 6, 40, tzinfo=datetime.timezone.utc)
for number in range(int(sys.argv[1])):
    event = icalendar.Event()
    day = datetime.date(2026, 12, 13) + datetime.timedelta(days=number % 700)
    for name, value in (("uid", f"{number:08x}-0000-8000-8000-000000000000"), ("dtstamp", now),
                        ("last-modified", now), ("sequence", 0), ("dtstart", day),
                        ("dtend", day + datetime.timedelta(days=1)), ("summary", SUMMARY),
                        ("description", DESCRIPTION), ("categories", ["becket"]),
                        ("status", "CONFIRMED"), ("transp", "TRANSPARENT"),
                        ("x-microsoft-cdo-busystatus", "FREE")):
        event.add(name, value)
    for days in (6, 0):
        alarm = icalendar.Alarm()
        alarm.add("action", "DISPLAY")
        alarm.add("trigger", datetime.timedelta(days=-days, hours=-15))
        alarm.add("description", SUMMARY)
        event.add_component(alarm)
    calendar.add_component(event)
sys.stdout.buffer.write(calendar.to_ical())
"""


def has_library():
    return subprocess.run([PYTHON, "-c", "import icalendar"], capture_output=True,
                          check=False).returncode == 0


def main():
    program, count = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 45000
    found = {name: fleet_bench.measured([program, name, count], runs=3)
             for name in ("ours", "libical")}
    if has_library():
        found["python3-icalendar"] = fleet_bench.measured([PYTHON, "-c", SCRIPT, count], runs=1)
    ours = found["ours"][0]
    print(f"{count} events written: processor's seconds, MB")
    for name, (seconds, megabytes) in found.items():
        print(f"  {name:18} {seconds:8.3f} {megabytes:6.0f}   ours takes {ours / seconds:.2f} times that")
    counted = [fleet_bench.instructions([program, name, count // 10]) for name in ("ours", "libical")]
    if None not in counted:
        print(f"  {count // 10} events in millions of instructions: ours {counted[0]:.0f}, libical "
              f"{counted[1]:.0f}: {counted[0] / counted[1]:.2f} times")


if __name__ == "__main__":
    main()
