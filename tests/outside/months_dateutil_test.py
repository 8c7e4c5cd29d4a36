"""Month arithmetic and day numbers, against python-dateutil and Python's own datetime.

The program adds months as dateutil's relativedelta does: the day of the month is kept and
clamped to the month's last. Day numbers are Python's proleptic Gregorian ordinals, shifted
so that 1970-01-01 is 0. Run with BUILD=<build directory>."""
import datetime
import os
import random
import subprocess
import sys

from dateutil.relativedelta import relativedelta

PAIRS = 150_000
SEED = 20261125
FIRST = datetime.date(1900, 1, 1).toordinal()
LAST = datetime.date(2199, 12, 31).toordinal()
EPOCH = datetime.date(1970, 1, 1).toordinal()


def make_pairs():
    """Random days and months, and month ends with every small interval, where clamping is."""
    chance = random.Random(SEED)
    pairs = [(datetime.date.fromordinal(chance.randint(FIRST, LAST)),
              chance.randint(-600, 600)) for _ in range(PAIRS)]
    for year in (1999, 2000, 2023, 2024, 2096, 2100):
        for month in range(1, 13):
            following = datetime.date(year + month // 12, month % 12 + 1, 1)
            last = following - datetime.timedelta(days=1)
            pairs += [(last, months) for months in range(-120, 121)]
    return pairs


def main():
    driver = os.path.join(os.environ["BUILD"], "tests", "support", "months_driver")
    pairs = make_pairs()
    lines = "".join(f"{d.year} {d.month} {d.day} {m}\n" for d, m in pairs)
    run = subprocess.run([driver], input=lines, capture_output=True, text=True, check=True)
    answers = run.stdout.splitlines()
    if len(answers) != len(pairs):
        print(f"not ok {len(pairs)} questions, {len(answers)} answers")
        return 1
    numbers = months = 0
    for (day, count), answer in zip(pairs, answers):
        number, *later = (int(word) for word in answer.split())
        expected = day + relativedelta(months=count)
        if number != day.toordinal() - EPOCH:
            numbers += 1
            print(f"{day}: day number {number}, datetime says {day.toordinal() - EPOCH}",
                  file=sys.stderr)
        if later != [expected.year, expected.month, expected.day]:
            months += 1
            print(f"{day} + {count} months: {later}, dateutil says {expected}",
                  file=sys.stderr)
    print(("not ok" if numbers else "ok") + f" {len(pairs)} day numbers are datetime's")
    print(("not ok" if months else "ok") + f" {len(pairs)} month sums are dateutil's")
    return 1 if numbers or months else 0


sys.exit(main())
