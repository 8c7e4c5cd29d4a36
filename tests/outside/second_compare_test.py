"""Holds the program's due days beside a second reckoning of them (second_reckoning.py), over books
drawn at random: every item, task, state, grade and day of every book.

    python3 tests/outside/second_compare_test.py build/plain/src/cli/becket

On a day gone by, what was renewed since is left out, and so is what the maker's interval was
entered for since: a book keeps the dates of the thing now in place, and is asked about that.

TESTS_SCALE=20 draws over 30,000 items. The first difference found in a book is told with all that
makes it, to be made smaller by hand and kept as a named case of second_reckoning_test.py.
"""
import json
import random
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
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


def changed_since(book, day):
    """The tags of what was renewed, or got a maker's interval, after the day, and of what holds
    it."""
    tags = set()
    for item in book["items"]:
        later = [act for act in item.get("acts", []) if act["what"] == "renew" and act["day"] > day]
        later += [paper for paper in item.get("makers", []) if paper["on"] > day]
        if later:
            tags |= {item["tag"], item.get("part_of")}
    return tags


def differences(book, days):
    """(how many answers were compared, [(day, key, the program's, the second reckoning's)])."""
    count, found = 0, []
    with scratch() as folder:
        written = Written(BECKET, folder, book)
        kept = without(book, written.refused)
        for day in days:
            first, second = said(written, day), reckoned(kept, folder, day)
            told = reckoned(book, folder, day) if written.refused else second
            changed = changed_since(book, day)
            keys = sorted(key for key in {*first, *second, *told} if key[0] not in changed)
            count += len(keys)
            pairs = [(day, key, first.get(key), second.get(key)) for key in keys]
            found += [pair for pair in pairs if pair[2] != pair[3]]
            # what was refused could only have moved the days before, which are history
            ahead = keys if day >= book["today"] else []
            moved = [(day, key, "refused what moves it", told.get(key)) for key in ahead]
            found += [pair for pair in moved if pair[3] != second.get(pair[1])]
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


def main():
    for seed in range(scaled(BOOKS)):
        random_book(seed)
    end()


if __name__ == "__main__":
    main()
