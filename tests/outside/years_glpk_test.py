"""The solver of the years ahead beside GLPK: random problems of 20 to 40 items and 6 to 10
winters, one to three stations, modelled apart (tests/support/years_problems.py). Every plan
must be proven and cost what GLPK's optimum costs. Run with BUILD=<build directory>."""
import concurrent.futures
import os
import random
import re
import subprocess
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BUILD, check, end, scaled  # noqa: E402
from years_problems import Problem  # noqa: E402


PROBLEMS = scaled(200)
SEED = 20261125


def glpk_cost(job):
    folder, number, problem = job
    model, answer = (os.path.join(folder, f"{number}.{end}") for end in ("lp", "out"))
    with open(model, "w", encoding="ascii") as file:
        file.write(problem.as_lp())
    run = subprocess.run(["glpsol", "--lp", model, "--cuts", "-w", answer],
                         capture_output=True, text=True, check=False)
    if "INTEGER OPTIMAL SOLUTION FOUND" not in run.stdout:
        return None
    with open(answer, encoding="ascii") as file:
        found = re.search(r"^s mip \d+ \d+ o (\S+)", file.read(), re.M)
    return found and round(float(found.group(1)))


def main():
    chance = random.Random(SEED)
    problems = [Problem(SEED + n, chance.randint(20, 40), chance.randint(6, 10),
                        chance.randint(1, 3)) for n in range(PROBLEMS)]
    driver = BUILD / "tests" / "support" / "courses_driver"
    told = f"{PROBLEMS}\n" + "".join(problem.as_text() for problem in problems)
    run = subprocess.run([driver], input=told, capture_output=True, text=True, check=True)
    ours = [line.split() for line in run.stdout.splitlines()]
    with tempfile.TemporaryDirectory() as folder:
        with concurrent.futures.ThreadPoolExecutor(2) as pool:
            theirs = list(pool.map(glpk_cost, ((folder, n, p) for n, p in enumerate(problems))))
    unproven = sum(line[2] != "1" for line in ours)
    unsolved = sum(cost is None for cost in theirs)
    unequal = [f"problem {n}: we say {line[0]}, GLPK {cost}"
               for n, (line, cost) in enumerate(zip(ours, theirs))
               if cost is not None and int(line[0]) != cost]
    check(f"{PROBLEMS} plans of years ahead are proven", len(ours) == PROBLEMS and not unproven,
          f"{unproven} of {len(ours)} are not")
    check("GLPK solves all", unsolved == 0, f"{unsolved} it does not")
    check(f"{PROBLEMS} plans cost what GLPK's cost", not unequal and len(theirs) == PROBLEMS,
          "\n".join(unequal))
    end()


main()
