#!/usr/bin/env python3
"""How reading a calendar grows with the length of one line.

    long_line_bench.py build/plain/tests/fuzz/ics_replay

Writes calendars with one unfolded line of 1, 5 and 20 MB: a description full of escapes, many
categories, many parameters, an identity, and a line that is no property. Each is read by the replay
of the reader's fuzz target. Prints the CPU time in milliseconds (least of three, less what an
empty calendar takes) and, as the limit to hold it against, from 5 to 20 MB: 4 times is linear, 16
times is quadratic. Status 1 when one grows more than 8 times. A benchmark, not a test.
"""
import os
import subprocess
import sys
import tempfile
from pathlib import Path

MEGABYTE = 1024 * 1024
RUNS = 3
HEAD = b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nBEGIN:VEVENT\r\nDTSTART;VALUE=DATE:20270101\r\n"
TAIL = b"\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"
SHAPES = {"description": (b"UID:a\r\nDESCRIPTION:", b"a\\, b; ", b"x"),
          "categories": (b"UID:a\r\nCATEGORIES:", b"ab,", b"x"),
          "parameters": (b"UID:a\r\nSUMMARY", b";X-P=ab", b":x"),
          "identity": (b"UID:", b"u", b""),
          "no property": (b"UID:a\r\n", b"N", b"")}


def calendar(shape, size):
    start, part, end = SHAPES[shape]
    return HEAD + start + part * (size // len(part)) + end + TAIL


def cpu(program, path):
    """The least CPU time, in seconds, of some runs."""
    times = []
    for _ in range(RUNS):
        process = subprocess.Popen([program, path], stdout=subprocess.DEVNULL)
        _, status, usage = os.wait4(process.pid, 0)
        if status != 0:
            sys.exit(f"{program} {path}: status {status}")
        times.append(usage.ru_utime + usage.ru_stime)
    return min(times)


def main():
    program = sys.argv[1]
    steep = 0
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "long.ics"
        path.write_bytes(calendar("identity", 1))
        idle = cpu(program, path)
        for shape in SHAPES:
            took = []
            for megabytes in (1, 5, 20):
                path.write_bytes(calendar(shape, megabytes * MEGABYTE))
                took.append(max(cpu(program, path) - idle, 1e-3))
            growth = took[2] / took[1]
            steep += growth > 8
            print(f"{shape:12}", *(f"{seconds * 1000:8.0f} ms" for seconds in took),
                  f"   5 to 20 MB: {growth:.1f} times")
    return 1 if steep else 0


if __name__ == "__main__":
    sys.exit(main())
