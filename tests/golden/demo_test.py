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
import re
import shlex
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import ROOT, check, demonstration, end, scratch  # noqa: E402

HERE = Path(__file__).resolve().parent
OWNER_VESSEL = "Quillfish"


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


def examples_run(book):
    """Every command but those that serve until they are stopped has examples, and each does what it
    says it can: it runs, one after the other, on a copy of the owner's book, and its lines fit the
    page."""
    copy = book.copy("examples.db")
    (copy.folder / "my-list.csv").write_bytes((ROOT / "data/demo/owner.csv").read_bytes())
    (copy.folder / "certificate.pdf").write_bytes(b"%PDF-1.4\n%%EOF\n")
    (copy.folder / "word.txt").write_text("a long lee shore\n")
    (copy.folder / "word.txt").chmod(0o600)
    commands = re.findall(r"^  ([a-z-]+)  ", copy.must("help").split("topics of")[0], re.M)
    for command in commands:
        text = copy.must("help", command)
        lines = re.findall(r"^  becket (.*)$", text.partition("\nexamples:\n")[2], re.M)
        check(f"{command} has an example", lines)
        for line in lines:
            if command == "page":  # it serves until it is stopped; tests/browser opens it
                continue
            done = copy.run(*shlex.split(line))
            check(f"example: becket {line}",
                  done.returncode in (0, 1) and line.startswith(command) and len(line) <= 71,
                  f"{done.returncode} {done.stderr}")


def main():
    expected = read_csv(HERE / "demo/expected.csv")
    vessel_of = {row["tag"]: row["vessel"] for name in ("owner", "fleet")
                 for row in read_csv(ROOT / f"data/demo/{name}.csv")}
    differences = []
    with scratch() as folder:
        for book, is_owner in zip(demonstration(folder), (True, False)):
            if is_owner:
                examples_run(book)
            part = [line for line in expected
                    if (vessel_of[line["tag"]] == OWNER_VESSEL) == is_owner]
            check_due(differences, part, book.ask("due"))
            lines = handed_in(book.ask("winter"))
            for tag in dict.fromkeys(line["tag"] for line in part):
                answer = book.ask("why", tag)
                for line in part:
                    if line["tag"] == tag:
                        check_why(differences, line, answer)
            for line in part:
                check_winter(differences, line, lines)
    check(f"{len(expected)} derived lines are as the program says", expected and not differences,
          "\n".join(differences))
    end()


main()
