#!/usr/bin/env python3
"""What `due --if` says must be what `due` says after the change was really made.

    due_if_test.py BECKET

On the demonstration's fleet, for supposed changes of use, area, persons and sheets and
switch days drawn at random (the same ones every time): the answer of `due --if` is
compared, row by row, with that of `due` on a copy of the book in which the change was
entered. Then the days to do it are tried out: a task recorded on its first or last day is in
date on the day of the switch, and on the day before the first one it is not.
"""
import random
import sys
from datetime import date, timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import check, demonstration, end, scaled, scratch  # noqa: E402

TODAY = date(2026, 11, 25)
ROUNDS = max(5, scaled(24))
TRIED = scaled(60)
SAME_KEYS = ("due", "state", "good_through", "grade", "rule", "missing")
differences = []


def draw_change(drawn, vessels):
    """A supposition, as options of `due` and of `vessel`, for one boat."""
    words = {"use": drawn.choice(["private", "commercial"]),
             "area": drawn.choice(["coastal", "offshore", "elsewhere"]),
             "persons": str(drawn.randint(1, 20))}
    chosen = drawn.sample(sorted(words), drawn.randint(1, 3))
    if "use" not in chosen and drawn.random() < 0.7:
        chosen.append("use")
    sheets = drawn.choice([[], [], ["practice"], ["uk-private"], ["us-small-passenger"],
                           ["solas-convention", "practice"]])
    day = TODAY + timedelta(days=drawn.randint(-200, 1200))
    supposed = [word for name in chosen for word in ("--if", f"{name}={words[name]}")]
    supposed += [word for sheet in sheets for word in ("--if", f"sheet={sheet}")]
    entered = [word for name in chosen for word in (f"--{name}", words[name])]
    entered += [word for sheet in sheets for word in ("--sheet", sheet)]
    return (drawn.choice(vessels), day, [*supposed, "--if-from", str(day)],
            [*entered, "--from", str(day)])


def rows_of(answer):
    return {(row["tag"], row["task"], row["routine"]): row for row in answer}


def compare(where, supposed, entered, before):
    """The `then` of each task with what `due` says now, and its `now` with what it said."""
    for side, said in (("then", rows_of(entered)), ("now", rows_of(before))):
        found = {key: row[side] for key, row in rows_of(supposed["tasks"]).items()
                 if row[side] is not None}
        if set(found) != set(said):
            differences.append(f"{where}: {side}: other tasks: {set(found) ^ set(said)}")
            continue
        for key, row in found.items():
            for name in SAME_KEYS:
                if row[name] != said[key][name]:
                    differences.append(f"{where}: {side}: {key} {name} should be "
                                       f"{said[key][name]}, found {row[name]}")


def on_the_switch(book, row, day):
    """The state of the task on the day of the switch; None when it is no longer asked."""
    for found in book.ask("due", "--routine", "--vessel", row["vessel"], today=day):
        if (found["tag"], found["task"], found["routine"]) == (
                row["tag"], row["task"], row["routine"]):
            return found["state"]
    return None


def try_days(where, entered, row, day):
    """Records the task on its first and its last day, and the day before the first."""
    first = date.fromisoformat(row["not_before"])
    last = date.fromisoformat(row["by"])
    for done, good in ((first, True), (last, True), (first - timedelta(days=1), False)):
        if done < TODAY:
            continue
        copy = entered.copy("tried.db")
        another = ["--new"] if row["task"] == "renew" else []
        copy.must("record", row["task"], row["tag"], "--on", str(done), *another, today=done)
        state = on_the_switch(copy, row, max(day, TODAY))
        if (state in (None, "in-date")) != good:
            differences.append(f"{where}: {row['tag']} {row['task']} done on {done} is "
                               f"{state} on the day of the switch")


def main():
    drawn = random.Random(20261125)
    tried = moved = 0
    with scratch() as folder:
        _, fleet = demonstration(folder)
        vessels = [vessel["vessel"] for vessel in fleet.ask("vessel")
                   if not vessel.get("store")]
        for _ in range(ROUNDS):
            vessel, day, supposed_words, entered_words = draw_change(drawn, vessels)
            where = f"{vessel}, {' '.join(supposed_words)}"
            about = ["due", "--routine", "--vessel", vessel]
            before = fleet.ask(*about)
            supposed = fleet.ask(*about, *supposed_words)
            if fleet.ask(*about) != before:
                differences.append(f"{where}: supposing changed the book")
            entered = fleet.copy("entered.db")
            entered.must("vessel", vessel, *entered_words)
            compare(where, supposed, entered.ask(*about), before)
            moved += sum(row["changes"] for row in supposed["tasks"])
            for row in supposed["tasks"]:
                if row["not_before"] is not None and tried < TRIED and drawn.random() < 0.2:
                    try_days(where, entered, row, day)
                    tried += 1
    # The draw must have met changes of each sort, or it proves nothing.
    if moved < 4 * ROUNDS or tried < min(TRIED, 2 * ROUNDS):
        differences.append(f"only {moved} tasks moved, and {tried} were tried out")
    check(f"{ROUNDS} suppositions, {moved} tasks moved, {tried} tried out: as if it were so",
          not differences, "\n".join(differences[:30]))
    end()


main()
