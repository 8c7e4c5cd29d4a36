"""Holds the program's due days beside a second reckoning of them (second_reckoning.py).

Named cases first, each with its day worked out by hand, then books drawn at random: every item,
task, state, grade and day of every book must be the same in both. TESTS_SCALE=20 draws over 30,000
items. The first difference found is told with all that makes it, to be made smaller by hand and
kept as a named case.
"""
import json
import random
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "support"))
from harness import BECKET, ROOT, check, end, scaled, scratch  # noqa: E402
from second_book import Refused, Written, stories, without  # noqa: E402
from second_draw import draw_book, draw_days  # noqa: E402
from second_reckoning import Seen, Shelf, day_of, iso  # noqa: E402

SHEETS = ROOT / "data" / "sheets"
BOOKS, ITEMS, DAYS = 4, 400, 4
UNKNOWN = (None, "date-unknown", None, None)


def told(answer):
    """An answer of the second reckoning in the program's terms."""
    if answer.state == "date-unknown":
        return UNKNOWN
    return iso(answer.due), answer.state, answer.grade, iso(answer.good_through)


def reckoned(book, folder, day):
    shelf = Shelf(Path(folder) / "sheets", SHEETS)
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


def differences(book, days):
    """(how many answers were compared, [(day, key, the program's, the second reckoning's)])."""
    count, found = 0, []
    with scratch() as folder:
        written = Written(BECKET, folder, book)
        kept = without(book, written.refused)
        for day in days:
            first, second = said(written, day), reckoned(kept, folder, day)
            keys = sorted(set(first) | set(second))
            count += len(keys)
            pairs = [(day, key, first.get(key), second.get(key)) for key in keys]
            found += [pair for pair in pairs if pair[2] != pair[3]]
            if written.refused and reckoned(book, folder, day) != second:
                found.append((day, "what was refused moves a day", written.refused, None))
    return count, found


def family(book, tag):
    """One item with its parent, parts and boat, and the sheets of one's own."""
    items = [item for item in book["items"] if tag in (item["tag"], item.get("part_of"))]
    parents = [item.get("part_of") for item in items]
    items += [i for i in book["items"] if i["tag"] in parents and i not in items]
    boats = [vessel for vessel in book["vessels"] if vessel["name"] == items[0]["vessel"]]
    return json.dumps({**book, "vessels": boats, "items": items})


def random_book(seed):
    """Draws a book and compares: how many items and answers."""
    draw = random.Random(seed)
    book = draw_book(draw, ITEMS)
    days = draw_days(draw, book["today"], DAYS)
    try:
        count, found = differences(book, days)
    except Refused as refusal:
        count, found = 0, [(book["today"], "refused", str(refusal), None)]
    why = ""
    if found:
        day, key, first, second = found[0]
        why = (
            f"{len(found)} of {count} answers differ; on {day}, {key}:\nthe program says {first}\n"
            f"the second reckoning {second}\n{family(book, key[0]) if isinstance(key, tuple) else ''}"
        )
    check(f"book {seed}: {len(book['items'])} items, {count} answers", not found, why)


def named_case(case):
    """Both must say what was worked out by hand: the day, the state, and the grade where told."""
    wrong = []
    with scratch() as folder:
        try:
            written = Written(BECKET, folder, case["book"])
            for day, tag, task, *right in case["right"]:
                answers = said(written, day), reckoned(case["book"], folder, day)
                for who, found in zip(("program", "second reckoning"), answers):
                    answer = found.get((tag, task, False)) or (None, "in-date", None)
                    if list(answer[: len(right)]) != right:
                        wrong.append(f"{day} {tag} {task}: the {who} says {answer}, by hand {right}")
        except Refused as refusal:
            wrong.append(f"refused: {refusal}")
    check(case["name"], not wrong, "\n".join([case["why"], *wrong]))


def main():
    for case in json.loads((HERE / "second_cases.json").read_text(encoding="utf-8")):
        named_case(case)
    for seed in range(scaled(BOOKS)):
        random_book(seed)
    end()


if __name__ == "__main__":
    main()
