"""The choice of trips within weekly limits beside GLPK: random winters of a base, modelled apart
(tests/support/errands_problems.py), by the search that is made for big ones. What we call proven must cost what GLPK's optimum costs and have as many errands; elsewhere no
bound of ours may be above it, and no plan below. Run with BUILD=<build directory>."""
import concurrent.futures
import os
import re
import subprocess
import sys
import tempfile

ROOT = os.environ.get("ROOT", os.path.join(os.path.dirname(__file__), "..", ".."))
sys.path.insert(0, os.path.join(ROOT, "tests", "support"))
from errands_problems import Problem  # noqa: E402

SEED = 20261125
NOWHERE = 10 ** 7  # what GLPK is charged for a piece that goes nowhere
SHAPES = [  # things, pieces a week by station, weeks, lots
    (8, (3, 3), 6, 0), (10, (4, 3), 6, 0), (12, (5, 0), 6, 0), (9, (3, 4, 3), 5, 0),
    (8, (8, 6), 6, 0.3)]
EACH = 6


def glpk(job):
    """What GLPK finds best: (pieces left out, cost, errands); None when it comes to no end."""
    folder, number, problem = job
    model, answer = (os.path.join(folder, f"{number}.{end}") for end in ("lp", "out"))
    with open(model, "w", encoding="ascii") as file:
        file.write(problem.as_lp(NOWHERE))
    run = subprocess.run(["glpsol", "--lp", model, "--cuts", "--tmlim", "6", "-w", answer],
                         capture_output=True, text=True, check=False)
    if "INTEGER OPTIMAL SOLUTION FOUND" not in run.stdout:
        return None
    with open(answer, encoding="ascii") as file:
        found = re.search(r"^s mip \d+ \d+ o (\S+)", file.read(), re.M)
    if not found:
        return None
    hundredths = round(float(found.group(1)) * 100)
    return hundredths // 100 // NOWHERE, hundredths // 100 % NOWHERE, hundredths % 100


def main():
    problems = [Problem(SEED + 100 * shape + n, things, weekly, weeks, lots, kinds=4)
                for shape, (things, weekly, weeks, lots) in enumerate(SHAPES)
                for n in range(EACH)]
    driver = os.path.join(os.environ["BUILD"], "tests", "support", "errands_driver")
    told = f"{len(problems)}\n" + "".join(problem.as_text() for problem in problems)
    run = subprocess.run([driver, "branching"], input=told, capture_output=True, text=True, check=True)
    ours = [list(map(float, line.split())) for line in run.stdout.splitlines()]
    with tempfile.TemporaryDirectory() as folder:
        with concurrent.futures.ThreadPoolExecutor(2) as pool:
            theirs = list(pool.map(glpk, ((folder, n, p) for n, p in enumerate(problems))))
    wrong, compared, single, proven = 0, 0, 0, 0
    for n, (line, best) in enumerate(zip(ours, theirs)):
        left_out, minor, count, is_proven, bound = map(int, line[:5])
        left_out -= problems[n].unserved()
        if left_out == 0 and all(pieces == 1 for pieces, _ in problems[n].things):
            single += 1
            proven += is_proven
        if best is None:
            continue
        compared += 1
        equal = (left_out, minor, count) == best
        sound = (left_out, minor, count) >= best and (left_out > best[0] or bound <= best[1])
        if (is_proven and not equal) or not sound:
            wrong += 1
            print(f"problem {n}: we say {(left_out, minor, count)}, bound {bound}, "
                  f"{'' if is_proven else 'not '}proven; GLPK {best}", file=sys.stderr)
    good = {
        f"{compared} plans within weekly limits agree with GLPK's ({wrong} do not)":
            wrong == 0 and len(ours) == len(theirs) == len(problems),
        f"GLPK comes to an end with most ({len(problems) - compared} of {len(problems)} it "
        "does not)": compared * 10 >= len(problems) * 6,
        f"plans that place all, piece by piece, are proven ({proven} of {single})":
            proven == single >= 10,
    }
    for words, is_good in good.items():
        print(("ok " if is_good else "not ok ") + words)
    return 0 if all(good.values()) else 1


sys.exit(main())
