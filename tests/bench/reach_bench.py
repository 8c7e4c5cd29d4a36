#!/usr/bin/env python3
"""Whether what is about one piece, boat or base costs the same however big the book is.

    reach_bench.py BECKET [BOATS] [--seconds]

Makes two books of invented boats (fleets.py), of 100 boats and of BOATS (1,000 when not said), asks
and does the same with one piece in the middle of each, and prints what each takes in millions of
instructions, counted by valgrind, which other work on the machine does not change, and how much
more that is in the big book: the small one is the peer. Changes are made one upon the other, so
that what has to be ashore is. With --seconds it is the processor's seconds. A benchmark, not a
test: nothing is asserted.
"""
import os
import shutil
import struct
import subprocess
import sys
import tempfile
import zlib
from pathlib import Path

import fleet_bench
import fleets

SMALL = 100



def write_picture(path):
    """The least picture (PNG, ISO/IEC 15948): one black point."""
    def chunk(name, data):
        return (struct.pack(">I", len(data)) + name + data
                + struct.pack(">I", zlib.crc32(name + data)))

    path.write_bytes(b"\x89PNG\r\n\x1a\n"
                     + chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0))
                     + chunk(b"IDAT", zlib.compress(b"\0\0")) + chunk(b"IEND", b""))


def asked(boats, picture):
    """What is done with one piece, boat or base, in this order: what it is called, its words, and
    what it is told at its standard input."""
    number = boats // 2
    boat, base = f"Boat {number:05d}", f"Base {number // fleets.BOATS_OF_BASE:03d}"
    other, loft = f"Boat {number + 1:05d}", f"Loft of {base}"
    first = number * fleets.ITEMS
    raft, jacket, tether, light = (f"T-{first + at}" for at in (0, 1, 7, 9))
    told = [
        ("show", ["show", raft]), ("why", ["why", raft]), ("where", ["where", raft]),
        ("due --vessel", ["due", "--vessel", boat]),
        ("due --routine --vessel", ["due", "--routine", "--vessel", boat]),
        ("list --vessel", ["list", "--vessel", boat]),
        ("list --base", ["list", "--base", base]),
        ("muster --vessel", ["muster", "--vessel", boat]),
        ("muster --base", ["muster", "--base", base]),
        ("winter --vessel", ["winter", "--vessel", boat]),
        ("winter --base", ["winter", "--base", base]),
        ("years --vessel", ["years", "3", "--vessel", boat]),
        ("rota --base", ["rota", "--base", base]),
        ("remind --vessel", ["remind", "--vessel", boat]),
        ("remind --base", ["remind", "--base", base]),
        ("now --vessel", ["now", "--vessel", boat]),
        ("ashore", ["ashore"]),
        ("papers", ["papers", raft]),
        ("vessel", ["vessel", boat, "--persons", "5"]),
        ("station", ["station", loft, "--turn-round", "15"]),
        ("booking", ["booking", boat, "--from", "2027-07-03", "--to", "2027-07-17"]),
        ("booking (list)", ["booking", boat]),
        ("record", ["record", "inspect", raft, "--on", fleets.TODAY]),
        ("book undo", ["book", "undo"]),
        ("book journal", ["book", "journal", raft]),
        ("amend", ["amend", raft, "--place", "locker"]),
        ("amend --serial", ["amend", raft, "--serial", "ZQX-1-77"]),
        ("interval", ["interval", raft, "--task", "service", "--every", "24", "--paper", "manual"]),
        ("extend", ["extend", raft, "--task", "service", "--until", "2027-12-01", "--paper", "P-1"]),
        ("reserve", ["reserve", tether]),
        ("attach", ["attach", raft, picture]),
        ("enter", ["enter", "tether", "--vessel", boat]),
        ("enter --tag", ["enter", "tether", "--vessel", boat, "--tag", "NEW-1"]),
        ("enter --serial", ["enter", "tether", "--vessel", boat, "--tag", "NEW-2", "--serial",
                            "ZQX-1-78"]),
        ("enter --quantity", ["enter", "tether", "--vessel", boat, "--tag", "LOT-1", "--quantity", "9"]),
        ("land", ["land", raft, "--station", loft]),
        ("stand-in KIND", ["stand-in", "liferaft-canister", "--for", raft, "--tag", "HIRED-1"]),
        ("return", ["return", raft, "--task", "service"]),
        ("land (again)", ["land", jacket, "--station", loft]),
        ("ashore", ["ashore"]),
        ("return --ask", ["return", "--ask"], "\n\n\n\n\n\n\n\n"),
        ("stand-in TAG", ["stand-in", f"T-{first + fleets.ITEMS + 1}", "--for", jacket]),
        ("move --vessel", ["move", tether, "--vessel", other]),
        ("move --spares", ["move", light, "--alone", "--spares", base]),
        ("move --quantity", ["move", "LOT-1", "--quantity", "2", "--vessel", other]),
        ("withdraw", ["withdraw", f"T-{first + 3}", "--because", "lost"]),
        ("history", ["history", "ZQX-1-77"]),
        ("history TAG", ["history", raft]),
        ("spent --vessel", ["spent", "--vessel", boat]),
        ("shore-papers", ["shore-papers", "--vessel", boat, "--docket"]),
        ("vessel (enter)", ["vessel", "New boat", "--base", base]),
        ("station (enter)", ["station", "New loft", "--base", base]),
    ]
    return [(each + ("",))[:3] for each in told]


def counted(command, said, seconds):
    """Instructions in millions, or the processor's seconds, and what it said when it failed."""
    before = os.times()
    run = subprocess.run([*map(str, command)] if seconds else fleet_bench.counted(command),
                         input=said, capture_output=True, text=True, check=False)
    after = os.times()
    failed = run.stderr.strip() if run.returncode not in (0, 1) else ""
    if seconds:
        return (after.children_user + after.children_system
                - before.children_user - before.children_system), failed
    return fleet_bench.collected(run.stderr), failed


def measure(becket, boats, seconds):
    """What it is called, and what it takes in the small book and in the big one."""
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        picture = folder / "label.png"
        write_picture(picture)
        books = {size: folder / f"{size}.db" for size in (SMALL, boats)}
        for size, book in books.items():
            fleets.by_sql(becket, book, size)
        for few, many in zip(asked(SMALL, picture), asked(boats, picture)):
            found = []
            for size, what in ((SMALL, few), (boats, many)):
                value, failed = counted(
                    fleet_bench.program(becket, books[size], *what[1]), what[2], seconds)
                if failed:
                    sys.exit(f"{few[0]}: {failed}")
                found.append(value)
            yield few[0], *found


def main():
    words = [word for word in sys.argv[1:] if not word.startswith("--")]
    seconds = "--seconds" in sys.argv
    boats = int(words[1]) if len(words) > 1 else 1000
    if not seconds and shutil.which("valgrind") is None:
        sys.exit("valgrind is not installed, which counts instructions")
    print(f"{'seconds' if seconds else 'millions of instructions'} of {SMALL} and of {boats} boats")
    for name, few, many in measure(os.path.abspath(words[0]), boats, seconds):
        print(f"  {name:24} {few:9.2f} {many:9.2f} {many / max(few, 1e-2):6.1f} times", flush=True)


if __name__ == "__main__":
    main()
