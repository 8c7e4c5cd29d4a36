"""Holds the program's due days beside a second reckoning of them (second_reckoning.py).

Named cases first, each with its day worked out by hand, then books drawn at random: every item,
task, state, grade and day of every book must be the same in both. TESTS_SCALE=20 draws some 30,000
items. The first difference found is told with all that makes it, to be made smaller by hand and
kept as a named case.
"""
import json
import os
import random
import shutil
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from second_book import Refused, Written, stories, without
from second_draw import draw_book, draw_days
from second_reckoning import Seen, Shelf, day_of, iso

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.environ.get("ROOT", os.path.join(HERE, "..", ".."))
SHEETS = os.path.join(ROOT, "data", "sheets")
BOOKS, ITEMS, DAYS = 15, 100, 4
UNKNOWN = (None, "date-unknown", None, None)


def told(answer):
    """An answer of the second reckoning in the program's terms."""
    if answer.state == "date-unknown":
        return UNKNOWN
    return iso(answer.due), answer.state, answer.grade, iso(answer.good_through)


def reckoned(book, folder, day):
    shelf = Shelf(os.path.join(folder, "sheets"), SHEETS)
    found = {}
    for tag, item in stories(book).items():
        for (task, routine), answer in Seen(item, day_of(day), shelf).answers().items():
            found[tag, task, routine] = told(answer)
    return found


def said(written, day):
    """What the program says. A task without a day, in date, is one that asks for nothing."""
    found = {}
    for key, (due, state, grade, good) in written.ask(day).items():
        if state == "date-unknown":
            found[key] = UNKNOWN
        elif (due, state) != (None, "in-date"):
            found[key] = (due, state, grade, good)
    return found


def differences(program, book, days):
    """(how many answers were compared, [(day, key, the program's, the second reckoning's)])."""
    folder = tempfile.mkdtemp(prefix="second-")
    try:
        written = Written(program, folder, book)
        kept = without(book, written.refused)
        count, found = 0, []
        for day in days:
            first, second = said(written, day), reckoned(kept, folder, day)
            keys = sorted(set(first) | set(second))
            count += len(keys)
            found += [
                (day, key, first.get(key), second.get(key))
                for key in keys
                if first.get(key) != second.get(key)
            ]
            if written.refused and reckoned(book, folder, day) != second:
                found.append((day, "what was refused moves a day", written.refused, None))
        return count, found
    finally:
        shutil.rmtree(folder)


def family(book, tag):
    """One item with its parent, parts and boat, and the sheets of one's own."""
    items = [item for item in book["items"] if tag in (item["tag"], item.get("part_of"))]
    parents = [item.get("part_of") for item in items]
    items += [i for i in book["items"] if i["tag"] in parents and i not in items]
    boats = [vessel for vessel in book["vessels"] if vessel["name"] == items[0]["vessel"]]
    return json.dumps({**book, "vessels": boats, "items": items})


def random_book(program, seed):
    draw = random.Random(seed)
    book = draw_book(draw, ITEMS)
    days = draw_days(draw, book["today"], DAYS)
    try:
        count, found = differences(program, book, days)
    except Refused as refusal:
        return len(book["items"]), 0, f"not ok book {seed}: refused: {refusal}"
    if not found:
        return len(book["items"]), count, None
    day, key, first, second = found[0]
    told_of = family(book, key[0]) if isinstance(key, tuple) else ""
    return len(book["items"]), count, (
        f"not ok book {seed}: {len(found)} of {count} answers differ; on {day}, {key}:\n"
        f"  the program says {first}\n  the second reckoning {second}\n  {told_of}"
    )


def named_cases(program):
    """Each case of second_cases.json: both must say what was worked out by hand."""
    with open(os.path.join(HERE, "second_cases.json"), encoding="utf-8") as file:
        cases = json.load(file)
    failed = 0
    for case in cases:
        folder = tempfile.mkdtemp(prefix="second-")
        wrong = []
        try:
            written = Written(program, folder, case["book"])
            for day, tag, task, *right in case["right"]:
                for who, found in (
                    ("program", said(written, day)),
                    ("second reckoning", reckoned(case["book"], folder, day)),
                ):
                    answer = found.get((tag, task, False)) or found.get((tag, task, True))
                    got = list(answer[:2]) if answer else [None, "in-date"]
                    if got != right[:2] or (len(right) > 2 and answer[2] != right[2]):
                        wrong.append(f"  {day} {tag} {task}: the {who} says {answer}, by hand {right}")
        except Refused as refusal:
            wrong.append(f"  refused: {refusal}")
        finally:
            shutil.rmtree(folder)
        print(f"{'not ok' if wrong else 'ok'} {case['name']}", *wrong, sep="\n")
        failed += bool(wrong)
    return failed


def main():
    program = sys.argv[1]
    failed = named_cases(program)
    scale = max(1, int(os.environ.get("TESTS_SCALE", "1")))
    items = answers = 0
    with ThreadPoolExecutor(1) as pool:
        for number, count, wrong in pool.map(lambda s: random_book(program, s), range(BOOKS * scale)):
            items, answers = items + number, answers + count
            if wrong:
                print(wrong)
                failed += 1
    print(f"{'not ok' if failed else 'ok'} {items} items drawn, {answers} answers compared")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
