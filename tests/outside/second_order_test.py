"""What is known of different days may be entered in any order: the answers are the same.

    python3 tests/outside/second_order_test.py build/plain/src/cli/becket

Books drawn at random are written twice, the second time with every piece's records, events,
renewals and makers' intervals from the last to the first. Left out is a piece of which two things
are of one day: there the order of entry decides.
"""
import random
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BECKET, check, end, scaled, scratch  # noqa: E402
from second_book import Written  # noqa: E402
from second_draw import draw_book, draw_days  # noqa: E402

BOOKS, ITEMS = 1, 250


def of_days_apart(item):
    """Whether no two things known of the piece are of one day."""
    days = [what["day"] for name in ("records", "acts") for what in item[name]]
    days += [paper["on"] for paper in item["makers"]]
    return len(set(days)) == len(days)


def turned(book):
    """The book told from the last to the first."""
    items = []
    for item in book["items"]:
        acts = [{**act, "turn": -act["turn"]} for act in item["acts"]]
        items.append({**item, "records": item["records"][::-1], "acts": acts[::-1], "makers": item["makers"][::-1]})
    return {**book, "items": items}


def answers(book, days):
    with scratch() as folder:
        written = Written(BECKET, folder, book)
        return [written.ask(day) for day in days]


def main():
    for seed in range(scaled(BOOKS)):
        draw = random.Random(9000 + seed)
        book = draw_book(draw, ITEMS)
        families = {item["tag"]: [item] for item in book["items"]}
        for item in book["items"]:
            families[item.get("part_of") or item["tag"]].append(item)
        told = {tag for tag, family in families.items() if not all(map(of_days_apart, family))}
        told |= {item["tag"] for item in book["items"] if item.get("part_of") in told}
        days = draw_days(draw, book["today"], 2)
        wrong, count = [], 0
        for day, first, second in zip(days, answers(book, days), answers(turned(book), days)):
            keys = sorted(key for key in {*first, *second} if key[0] not in told)
            count += len(keys)
            wrong += [(day, key, first.get(key), second.get(key)) for key in keys if first.get(key) != second.get(key)]
        check(f"book {seed}: {count} answers in either order", not wrong and count > ITEMS, wrong[:3])
    end()


if __name__ == "__main__":
    main()
