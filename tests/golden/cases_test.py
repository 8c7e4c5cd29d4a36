#!/usr/bin/env python3
"""Runs the golden cases and compares what they say, to the byte.

    cases_test.py BECKET [--regenerate] [CASE...]

A case is a folder beside this file with the files `cmd`, `stdout`, `stderr` and `status`.
`cmd` is run by sh in an empty folder, with BECKET_BOOK=book.db. In it `becket` is the
program on the fixed day 2026-11-25, and "$BECKET" is the program itself. Files of the case
named `in-*` are copied there first. Every case runs twice, in the C locale and UTC and in
another locale and time zone: the answers must not differ.

--regenerate writes stdout, stderr and status anew. Read the diff: what is written so is
what the program says, not what it ought to say.
"""
import difflib
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
TODAY = "2026-11-25"
PARTS = ("stdout", "stderr", "status")
PRELUDE = f'becket() {{ "$BECKET" --today {TODAY} "$@"; }}\n'


def other_locale():
    """A German one where it is installed, for its decimal comma; else one that is there."""
    listed = subprocess.run(["locale", "-a"], capture_output=True, text=True, check=False)
    names = {name.lower().replace("-", "") for name in listed.stdout.split()}
    return "de_DE.UTF-8" if "de_de.utf8" in names else "C.UTF-8"


PLACES = (
    {"TZ": "UTC", "LC_ALL": "C"},
    {"TZ": "Asia/Tokyo", "LC_ALL": other_locale()},
)


def run_case(case, becket, place):
    """What the case says in a place, by part."""
    keep = ("PATH", "ASAN_OPTIONS", "UBSAN_OPTIONS", "LSAN_OPTIONS")
    environment = {name: os.environ[name] for name in keep if name in os.environ}
    with tempfile.TemporaryDirectory() as folder:
        for source in sorted(case.glob("in-*")):
            shutil.copy(source, folder)
        environment.update(place, BECKET=becket, BECKET_BOOK="book.db", HOME=folder,
                           ROOT=str(HERE.parent.parent))
        done = subprocess.run(
            ["sh", "-c", PRELUDE + (case / "cmd").read_text(encoding="utf-8")],
            cwd=folder, env=environment, capture_output=True, stdin=subprocess.DEVNULL,
            timeout=120, check=False)
    return {"stdout": done.stdout, "stderr": done.stderr,
            "status": f"{done.returncode}\n".encode()}


def difference(part, expected, found):
    before = expected.decode("utf-8", "replace").splitlines()
    after = found.decode("utf-8", "replace").splitlines()
    lines = difflib.unified_diff(before, after, f"expected {part}", f"found {part}",
                                 lineterm="")
    return "\n".join(lines) or f"{part}: the same lines, but other line ends"


def check_case(case, becket):
    good = True
    for place in PLACES:
        found = run_case(case, becket, place)
        for part in PARTS:
            expected = (case / part).read_bytes()
            if found[part] != expected:
                good = False
                print(f"{case.name}, {place['LC_ALL']}, {place['TZ']}:")
                print(difference(part, expected, found[part]))
    print(("ok " if good else "not ok ") + case.name)
    return good


def regenerate(case, becket):
    for part, bytes_found in run_case(case, becket, PLACES[0]).items():
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
    return 0 if all([check_case(case, becket) for case in cases]) else 1


sys.exit(main())
