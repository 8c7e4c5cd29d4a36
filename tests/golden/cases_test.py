#!/usr/bin/env python3
"""Runs the golden cases and compares what they say, to the byte.

    cases_test.py BECKET [--here | --elsewhere] [--regenerate] [CASE...]

A case is a folder beside this file with the files `cmd`, `stdout`, `stderr` and `status`.
`cmd` is run by sh in an empty folder, with BECKET_BOOK=book.db. In it `becket` is the
program on the fixed day 2026-11-25, and `on DAY` the program on another day. Files of the case
named `in-*` are copied there first. Every case runs twice, in the C locale and UTC (--here)
and in another locale and time zone (--elsewhere): the answers must not differ.

`status` has a line for each time the program was called, with its own exit status and its
words (cut at 80 columns), and last the status of the whole.

--regenerate writes stdout, stderr and status anew. Read the diff: what is written so is
what the program says, not what it ought to say.
"""
import difflib
import os
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
TODAY = "2026-11-25"
PARTS = ("stdout", "stderr", "status")
PRELUDE = f"""
on() {{
	"$BECKET" --today "$@"
	set -- $? "$@"
	printf '%s\\036\\n' "$*" >>"$STATUSES"
	return "$1"
}}
becket() {{ on {TODAY} "$@"; }}
"""


def other_locale():
    """A German one where it is installed, for its decimal comma; else one that is there."""
    listed = subprocess.run(["locale", "-a"], capture_output=True, text=True, check=False)
    names = {name.lower().replace("-", "") for name in listed.stdout.split()}
    return "de_DE.UTF-8" if "de_de.utf8" in names else "C.UTF-8"


HERE_AND_THERE = {
    "--here": {"TZ": "UTC", "LC_ALL": "C"},
    "--elsewhere": {"TZ": "Asia/Tokyo", "LC_ALL": other_locale()},
}


def statuses(path, folder):
    """One line for each time the program was called."""
    lines = []
    said = path.read_text(encoding="utf-8") if path.exists() else ""
    for record in said.split("\x1e\n")[:-1]:
        status, day, *words = record.replace("\n", " ").split(" ")
        words = words if day == TODAY else ["on", day, *words]
        line = " ".join([status, *words]).rstrip()
        line = line.replace(str(ROOT), "$ROOT").replace(folder, "$HOME")
        lines.append(line if len(line) <= 80 else line[:77] + "...")
    return lines


def run_case(case, becket, place):
    """What the case says in a place, by part."""
    keep = ("PATH", "ASAN_OPTIONS", "UBSAN_OPTIONS", "LSAN_OPTIONS")
    environment = {name: os.environ[name] for name in keep if name in os.environ}
    with tempfile.TemporaryDirectory() as scratch:
        folder = os.path.join(scratch, "case")
        told = Path(scratch, "statuses")
        os.mkdir(folder)
        for source in sorted(case.glob("in-*")):
            shutil.copy(source, folder)
        environment.update(place, BECKET=becket, BECKET_BOOK="book.db", HOME=folder,
                           ROOT=str(ROOT), STATUSES=str(told))
        done = subprocess.run(
            ["sh", "-c", PRELUDE + (case / "cmd").read_text(encoding="utf-8")],
            cwd=folder, env=environment, capture_output=True, stdin=subprocess.DEVNULL,
            timeout=120, check=False)
        each = [*statuses(told, folder), str(done.returncode)]
    return {"stdout": done.stdout, "stderr": done.stderr,
            "status": "".join(f"{line}\n" for line in each).encode()}


def difference(part, expected, found):
    before = expected.decode("utf-8", "replace").splitlines()
    after = found.decode("utf-8", "replace").splitlines()
    lines = difflib.unified_diff(before, after, f"expected {part}", f"found {part}",
                                 lineterm="")
    return "\n".join(lines) or f"{part}: the same lines, but other line ends"


def check_case(case, becket, places):
    """Whether it says the same in every place, and the lines to print."""
    lines = []
    for place in places:
        found = run_case(case, becket, place)
        for part in PARTS:
            expected = (case / part).read_bytes()
            if found[part] != expected:
                lines.append(f"{case.name}, {place['LC_ALL']}, {place['TZ']}:")
                lines.append(difference(part, expected, found[part]))
    return not lines, [*lines, ("not ok " if lines else "ok ") + case.name]


def regenerate(case, becket):
    for part, bytes_found in run_case(case, becket, HERE_AND_THERE["--here"]).items():
        (case / part).write_bytes(bytes_found)


def main():
    words = [word for word in sys.argv[1:] if not word.startswith("--")]
    becket = os.path.abspath(words[0])
    cases = sorted(path.parent for path in HERE.glob("*/cmd"))
    cases = [case for case in cases if len(words) == 1 or case.name in words[1:]]
    if not cases:
        sys.exit("there is no such case")
    if "--regenerate" in sys.argv:
        for case in cases:
            regenerate(case, becket)
        return 0
    places = [place for option, place in HERE_AND_THERE.items() if option in sys.argv]
    places = places or list(HERE_AND_THERE.values())
    good = True
    with ThreadPoolExecutor(2) as pool:
        for held, lines in pool.map(lambda case: check_case(case, becket, places), cases):
            print("\n".join(lines), flush=True)
            good &= held
    return 0 if good else 1


sys.exit(main())
