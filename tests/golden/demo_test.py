#!/usr/bin/env python3
"""Compares the demonstration books with what was derived by hand.

    demo_test.py BECKET

Makes both books with data/demo/make-demo.sh in a scratch folder, asks `due`, `why` and
`winter` for JSON, and compares with demo/expected.csv, whose reasons are in
demo/derivation.md. Each difference is one sentence on standard error; exit 1 when there is
any. An empty cell in the hand-in columns is not looked at; "-" in hand_in means that the
task must not be handed in this winter.
"""
import csv
import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
TODAY = "2026-11-25"
OWNER_VESSEL = "Quillfish"


class Program:
    """One becket binary on one book, on the demonstration's day."""

    def __init__(self, becket, book, environment):
        self.command = [becket, "--book", str(book), "--today", TODAY]
        self.environment = environment

    def ask(self, *words):
        done = subprocess.run(
            self.command + list(words) + ["--json"], env=self.environment,
            capture_output=True, text=True, check=False)
        # 1 is an answer too: "not all right".
        if done.returncode not in (0, 1):
            sys.exit(f"{' '.join(words)} --json ended with {done.returncode}: "
                     f"{done.stderr.strip()}")
        return json.loads(done.stdout)


def make_books(becket, folder, environment):
    books = [folder / "owner.becket", folder / "fleet.becket"]
    done = subprocess.run(
        ["sh", str(ROOT / "data/demo/make-demo.sh"), becket, *map(str, books)],
        env=environment, capture_output=True, text=True, check=False)
    if done.returncode != 0:
        sys.exit(f"make-demo.sh ended with {done.returncode}: {done.stderr.strip()}")
    return [Program(becket, book, environment) for book in books]


def read_csv(path):
    with open(path, newline="", encoding="utf-8") as lines:
        return list(csv.DictReader(lines))


def shown(value):
    return "nothing" if value in (None, "") else str(value)


def compare(differences, where, what, expected, found):
    if shown(expected) != shown(found):
        differences.append(
            f"{where}: {what} should be {shown(expected)}, the program says {shown(found)}")


def one(differences, where, rows):
    """The only element, or None with a difference noted."""
    if len(rows) == 1:
        return rows[0]
    differences.append(f"{where}: expected once, found {len(rows)} times")
    return None


def check_due(differences, expected, due):
    for line in expected:
        where = f"due: {line['tag']} {line['task']}"
        row = one(differences, where, [
            row for row in due
            if row["tag"] == line["tag"] and row["task"] == line["task"]])
        if row is not None:
            for key in ("due", "state", "winter"):
                compare(differences, where, key, line[key], row[key])


def check_why(differences, line, answer):
    """The same day and state, and a binding clock that accounts for it."""
    where = f"why: {line['tag']} {line['task']}"
    task = one(differences, where, [
        task for task in answer["tasks"] if task["task"] == line["task"]])
    if task is None:
        return
    compare(differences, where, "due", line["due"], task["due"])
    compare(differences, where, "state", line["state"], task["state"])
    binding = [clock for clock in task["clocks"] if clock["binds"]]
    if line["due"] and len(binding) != 1:
        differences.append(
            f"{where}: exactly one clock should bind, {len(binding)} do")
    if not line["due"] and binding:
        differences.append(f"{where}: no clock should bind where the date is unknown")
    for clock in binding:
        compare(differences, where, "the binding clock's rule", task["binds"],
                clock["rule"])


def handed_in(winters):
    """(tag, task) -> every (trip, line) it stands on."""
    lines = {}
    for winter in winters:
        for trip in winter["hand_in"]:
            for item in trip["items"]:
                lines.setdefault((item["tag"], item["task"]), []).append((trip, item))
    return lines


def check_winter(differences, line, lines):
    where = f"winter: {line['tag']} {line['task']}"
    found = lines.get((line["tag"], line["task"]), [])
    if line["hand_in"] == "-":
        for trip, _ in found:
            differences.append(
                f"{where}: should not be handed in, the program hands it in to "
                f"{shown(trip['station'])} on {trip['hand_in']}")
        return
    if not line["hand_in"]:
        return
    pair = one(differences, where + " in hand_in", found)
    if pair is None:
        return
    trip, item = pair
    compare(differences, where, "hand-in", line["hand_in"], trip["hand_in"])
    compare(differences, where, "collect", line["collect"], trip["collect"])
    for key in ("not_before", "not_after"):
        if line[key]:
            compare(differences, where, key, line[key], item[key])


def main():
    if len(sys.argv) != 2:
        sys.exit("usage: demo_test.py BECKET")
    becket = os.path.abspath(sys.argv[1])
    expected = read_csv(HERE / "demo/expected.csv")
    vessel_of = {row["tag"]: row["vessel"] for name in ("owner", "fleet")
                 for row in read_csv(ROOT / f"data/demo/{name}.csv")}
    differences = []
    with tempfile.TemporaryDirectory(prefix="becket-demo-") as folder:
        environment = dict(os.environ, TZ="UTC", LC_ALL="C", HOME=folder)
        environment.pop("BECKET_BOOK", None)
        owner, fleet = make_books(becket, Path(folder), environment)
        for program, is_owner in ((owner, True), (fleet, False)):
            part = [line for line in expected
                    if (vessel_of[line["tag"]] == OWNER_VESSEL) == is_owner]
            check_due(differences, part, program.ask("due"))
            lines = handed_in(program.ask("winter"))
            for tag in dict.fromkeys(line["tag"] for line in part):
                answer = program.ask("why", tag)
                for line in part:
                    if line["tag"] == tag:
                        check_why(differences, line, answer)
            for line in part:
                check_winter(differences, line, lines)
    for difference in differences:
        print(difference, file=sys.stderr)
    print(f"{len(expected)} derived lines, {len(differences)} differences")
    return 1 if differences else 0


if __name__ == "__main__":
    sys.exit(main())
