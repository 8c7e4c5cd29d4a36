#!/usr/bin/env python3
"""What is bought new in the first winter, for every number of winters that can be looked at.

    years_flips_test.py BECKET

Asks the owner's demonstration for 1 to 20 winters, one after another. Whatever is bought new in the
first winter of some of these plans and not of others must be marked in every one of them, with the
numbers with which it is and those with which it is not, and nothing else may be. Parts of such a
thing come and go with it and have no mark. The same is done once for a boat of the fleet."""
import csv
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import ROOT, check, demonstration, end, same, scratch  # noqa: E402

MOST = 20


def parents(name):
    """The parent's tag of every part."""
    with open(ROOT / f"data/demo/{name}.csv", newline="", encoding="utf-8") as lines:
        return {row["tag"]: row["part_of"] for row in csv.DictReader(lines)}


def flips(answers):
    """tag -> the numbers of winters with which it is bought new in the first."""
    bought = {}
    for winters, answer in answers.items():
        for item in answer["winters"][0]["items"]:
            if item["task"] == "renew":
                bought.setdefault(item["tag"], set()).add(winters)
    return {tag: found for tag, found in bought.items() if len(found) < len(answers)}


def look(book, name, parent, *scope):
    answers = {n: book.ask("years", str(n), *scope) for n in range(1, MOST + 1)}
    check(f"{name}: all plans are proven", all(a["proven"] for a in answers.values()))
    found = flips(answers)
    outer = {tag: sorted(numbers) for tag, numbers in found.items()
             if parent.get(tag, "") not in found}
    for winters, answer in answers.items():
        marked = {tip["tag"]: tip["bought_new_with"] for tip in answer["tips"]}
        same(f"{name}: what hangs on their number is marked with {winters} winters", outer, marked)
        rest = all(sorted(tip["bought_new_with"] + tip["not_with"]) == list(answers)
                   for tip in answer["tips"])
        check(f"{name}: all numbers are told with {winters} winters", rest)
    return outer


def main():
    with scratch() as folder:
        owner, fleet = demonstration(folder)
        found = look(owner, "the owner's", parents("owner"))
        check("something flips, or nothing was tested", len(found) > 1, found)
        look(fleet, "Harrowgull's", parents("fleet"), "--vessel", "Harrowgull")
    end()


main()
