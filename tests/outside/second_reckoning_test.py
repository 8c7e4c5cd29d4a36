"""Cases of due days worked out by hand: the program and the second reckoning (second_reckoning.py)
must both say what stands in second_cases.json. second_compare_test.py holds the two beside each
other over books drawn at random."""
import json
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "support"))
from harness import BECKET, check, end, scratch  # noqa: E402
from second_book import Refused, Written  # noqa: E402
from second_compare_test import reckoned, said  # noqa: E402


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
    end()


main()
