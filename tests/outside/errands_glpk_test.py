"""The choice of trips within weekly limits beside GLPK: random winters of a base, modelled apart
(tests/support/errands_problems.py), by the search that is made for big ones. What we call proven
must cost what GLPK's optimum costs and have as many errands; elsewhere no bound of ours may be
above it, and no plan below.

    errands_glpk_test.py BECKET [--solve]

What GLPK found is kept in errands_glpk.txt, a line a problem: the SHA-256 of the model as it was
told to glpsol, and the least cost, or `-` where it came to no end in a minute and a quarter. So
nothing depends on how fast it is today; a model that is another one fails. With --solve those
that it solved are solved anew, however long it takes, and must come to the same.
"""
import concurrent.futures
import hashlib
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BUILD, check, end  # noqa: E402
from errands_problems import Problem  # noqa: E402


SEED = 20261125
NOWHERE = 10 ** 7  # what GLPK is charged for a piece that goes nowhere
SHAPES = [  # things, pieces a week by station, weeks, lots
    (8, (3, 3), 6, 0), (10, (4, 3), 6, 0), (12, (5, 0), 6, 0), (9, (3, 4, 3), 5, 0),
    (8, (8, 6), 6, 0.3)]
EACH = 6
KEPT = Path(__file__).with_name("errands_glpk.txt")


def solved(job):
    """What GLPK says today, as it writes the least cost."""
    folder, number, problem = job
    model, answer = (os.path.join(folder, f"{number}.{end}") for end in ("lp", "out"))
    with open(model, "w", encoding="ascii") as file:
        file.write(problem.as_lp(NOWHERE))
    subprocess.run(["glpsol", "--lp", model, "--cuts", "-w", answer], capture_output=True,
                   check=True)
    with open(answer, encoding="ascii") as file:
        return re.search(r"^s mip \d+ \d+ o (\S+)", file.read(), re.M).group(1)


def solve_anew(problems, costs):
    """Those that were solved, solved again."""
    with tempfile.TemporaryDirectory() as folder:
        jobs = [(folder, n, problem) for n, (problem, cost) in enumerate(zip(problems, costs))
                if cost != "-"]
        with concurrent.futures.ThreadPoolExecutor(2) as pool:
            found = list(pool.map(solved, jobs))
    check(f"GLPK says of {len(jobs)} problems what it said", found ==
          [cost for cost in costs if cost != "-"], found)


def split(cost):
    """(pieces left out, cost, errands), from the one figure that they are told as."""
    hundredths = round(float(cost) * 100)
    return hundredths // 100 // NOWHERE, hundredths // 100 % NOWHERE, hundredths % 100


def main():
    problems = [Problem(SEED + 100 * shape + n, things, weekly, weeks, lots, kinds=4)
                for shape, (things, weekly, weeks, lots) in enumerate(SHAPES)
                for n in range(EACH)]
    kept = [line.split() for line in KEPT.read_text(encoding="ascii").splitlines()]
    check("the models are those that GLPK was told", [digest for digest, _ in kept] == [
        hashlib.sha256(problem.as_lp(NOWHERE).encode()).hexdigest() for problem in problems])
    costs = [cost for _, cost in kept]
    if "--solve" in sys.argv:
        solve_anew(problems, costs)
    theirs = [None if cost == "-" else split(cost) for cost in costs]
    driver = BUILD / "tests" / "support" / "errands_driver"
    told = f"{len(problems)}\n" + "".join(problem.as_text() for problem in problems)
    run = subprocess.run([driver, "branching"], input=told, capture_output=True, text=True,
                         check=True)
    ours = [list(map(float, line.split())) for line in run.stdout.splitlines()]
    wrong, compared, single, proven = [], 0, 0, 0
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
            wrong.append(f"problem {n}: we say {(left_out, minor, count)}, bound {bound}, "
                  f"{'' if is_proven else 'not '}proven; GLPK {best}")
    check(f"{compared} plans within weekly limits agree with GLPK's",
          not wrong and len(ours) == len(theirs) == len(problems) and compared == 25,
          "\n".join(wrong))
    check(f"the {single} plans that place all, piece by piece, are proven",
          proven == single >= 10, f"{proven} are")
    end()


main()
