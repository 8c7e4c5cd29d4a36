"""Month arithmetic and day numbers, against python-dateutil and Python's own datetime.

The program adds months as dateutil's relativedelta does: the day of the month is kept and
clamped to the month's last. Day numbers are Python's proleptic Gregorian ordinals, shifted
so that 1970-01-01 is 0. Run with BUILD=<build directory>."""
import datetime
import random
import subprocess
import sys

from dateutil.relativedelta import relativedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BUILD, check, end  # noqa: E402

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
    driver = BUILD / "tests" / "support" / "months_driver"
    pairs = make_pairs()
    lines = "".join(f"{d.year} {d.month} {d.day} {m}\n" for d, m in pairs)
    run = subprocess.run([driver], input=lines, capture_output=True, text=True, check=True)
    answers = run.stdout.splitlines()
    numbers, months = [], []
    for (day, count), answer in zip(pairs, answers):
        number, *later = (int(word) for word in answer.split())
        expected = day + relativedelta(months=count)
        if number != day.toordinal() - EPOCH:
            numbers.append(f"{day}: day number {number}, datetime says {day.toordinal() - EPOCH}")
        if later != [expected.year, expected.month, expected.day]:
            months.append(f"{day} + {count} months: {later}, dateutil says {expected}")
    check(f"{len(pairs)} questions have as many answers", len(answers) == len(pairs), len(answers))
    check(f"{len(pairs)} day numbers are datetime's", not numbers, "\n".join(numbers[:20]))
    check(f"{len(pairs)} month sums are dateutil's", not months, "\n".join(months[:20]))
    end()


main()
