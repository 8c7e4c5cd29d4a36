#!/usr/bin/env python3
"""How long the years ahead take: the command on invented books, and the solver beside GLPK.

    years_bench.py BECKET COURSES_DRIVER [BOATS]

First a boat of 60 items, 4 stations and 10 winters, and a fleet of BOATS (500 when not said) of 60
items each at two bases, each boat for herself and then each base as one: median wall time of whole
commands, the reading of the book counted in. Then random problems (those of
tests/outside/years_glpk_test.py, modelled apart) by our solver and by GLPK's glpsol, like with
like: processor time of whole processes, the reading of the problem counted in, and what each says
that its solving alone took (glpsol in tenths of a second, by the clock). GLPK is given 120 seconds
a problem, and what it does not finish is named and left out of both ratios. Last the median and the
worst of twenty draws of an owner's size. A benchmark, not a test: nothing is asserted.
"""
import csv
import random
import re
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "support"))
from years_problems import Problem  # noqa: E402

RUNS = 5
ITEMS = 60
WINTERS = "10"
TODAY = "2026-11-25"
KINDS = {"liferaft-canister": 189000, "lifejacket-auto": 16400, "flare-red-hand": 1750,
         "extinguisher-powder": 4800, "epirb": 56000, "tether": 6900, "first-aid-kit": 4200,
         "lifejacket-manual": 7900, "extinguisher-co2": 9200, "danbuoy-inflatable": 22800}
MARKED = {"flare-red-hand", "epirb"}
STATIONS = {  # kinds, price of a service, of a test, trip
    "Loft": ("liferaft-canister", "390.00", "90.00", "45.00"),
    "Depot": ("lifejacket-auto,lifejacket-manual,danbuoy-inflatable", "38.00", "30.00", "12.00"),
    "Works": ("lifejacket-auto,lifejacket-manual", "34.00", "30.00", "30.00"),
    "Fire": ("extinguisher-powder,extinguisher-co2", "19.00", "39.50", "15.00"),
}


def write_inventory(path, boats):
    drawn = random.Random(1)

    def month(first, last):
        return f"{drawn.randint(first, last)}-{drawn.randint(1, 12):02d}"

    with open(path, "w", newline="", encoding="utf-8") as file:
        rows = csv.writer(file)
        rows.writerow(["vessel", "tag", "kind", "made", "expires", "served", "task", "price"])
        names = list(KINDS)
        for number in range(boats * ITEMS):
            kind = names[number % len(names)]
            rows.writerow([f"Boat {number // ITEMS:05d}", f"T-{number}", kind,
                           month(2014, 2024), month(2026, 2030) if kind in MARKED else "",
                           month(2025, 2025), "service", f"{KINDS[kind] / 100:.2f}"])


def make_book(becket, folder, boats):
    book, inventory = folder / f"{boats}.db", folder / f"{boats}.csv"
    write_inventory(inventory, boats)
    program = [becket, "--book", str(book), "--today", TODAY]

    def run(*words):
        subprocess.run([*program, *words], check=True, stdout=subprocess.DEVNULL)

    for number in range(boats):
        base = "North" if number % 2 == 0 else "South"
        run("vessel", f"Boat {number:05d}", "--lay-up", "11-01..03-31", "--base", base)
    for name, (kinds, service, test, trip) in STATIONS.items():
        prices = [word for kind in kinds.split(",") for word in
                  ("--price", f"{kind}:service={service}", "--price", f"{kind}:test={test}")]
        run("station", name, "--turn-round", "14", "--kinds", kinds, "--trip", trip, *prices)
    run("import", str(inventory), "--serials-are-right")
    return program


def median_seconds(command):
    times = []
    for _ in range(RUNS):
        begun = time.monotonic()
        subprocess.run(command, stdout=subprocess.DEVNULL, check=True)
        times.append(time.monotonic() - begun)
    return statistics.median(times)


def time_commands(becket, boats):
    print(f"becket years {WINTERS}, {ITEMS} items a boat, {len(STATIONS)} stations; median of "
          f"{RUNS} runs, wall seconds")
    with tempfile.TemporaryDirectory() as scratch:
        one = make_book(becket, Path(scratch), 1)
        print(f"{'one boat':<44}{median_seconds([*one, 'years', WINTERS, '--json']):>8.3f}")
        fleet = make_book(becket, Path(scratch), boats)
        for words in (["--json"], ["--fleet", "--json"]):
            name = f"{boats} boats, {' '.join(words)}"
            print(f"{name:<44}{median_seconds([*fleet, 'years', WINTERS, *words]):>8.3f}")


def processor_seconds(command, **how):
    """The processor's seconds of a whole process, and what it printed."""
    begun = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
    run = subprocess.run(command, capture_output=True, text=True, check=False, **how)
    return resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - begun, run.stdout


def our_seconds(driver, problem):
    """Whole process, solving alone, and whether it is proven; the best of three runs."""
    whole, alone = [], []
    for _ in range(3):
        took, told = processor_seconds([driver], input="1\n" + problem.as_text())
        whole.append(took)
        alone.append(float(told.split()[4]))
    return min(whole), min(alone), told.split()[2] == "1"


def glpk_seconds(problem, folder):
    """Whole process and solving alone; None when it does not come to an end."""
    model = folder / "model.lp"
    model.write_text(problem.as_lp(), encoding="ascii")
    took, told = processor_seconds(["glpsol", "--lp", str(model), "--cuts", "--tmlim", "120"])
    alone = re.search(r"Time used:\s+(\S+)", told)
    return (took, float(alone.group(1))) if "INTEGER OPTIMAL SOLUTION FOUND" in told else None


def time_solvers(driver):
    print("\nsolver beside GLPK, sums over ten problems: processor seconds of whole processes, "
          "and seconds of the solving alone")
    for items, winters, stations in ((20, 6, 2), (30, 8, 3), (40, 10, 1), (40, 10, 3), (60, 10, 4)):
        problems = [Problem(1000 + n, items, winters, stations) for n in range(10)]
        ours = [our_seconds(driver, problem) for problem in problems]
        with tempfile.TemporaryDirectory() as folder:
            theirs = [glpk_seconds(problem, Path(folder)) for problem in problems]
        both = [(a, b) for a, b in zip(ours, theirs) if b is not None]
        name = f"{items} items, {winters} winters, {stations} stations"
        sums = [sum(pair[side][kind] for pair in both) for kind in (0, 1) for side in (0, 1)]
        told_alone = (f"{sums[3] / max(sums[2], 1e-3):.0f} times" if sums[3] >= 0.5
                      else "too short for glpsol to tell")
        proven = sum(is_proven for _, _, is_proven in ours)
        print(f"{name:<35} whole {sums[0]:.3f} / {sums[1]:.2f}: {sums[1] / max(sums[0], 1e-3):.0f} "
              f"times; alone {sums[2]:.3f} / {sums[3]:.1f}: {told_alone} "
              f"({proven} of 10 proven; GLPK finished {len(both)})", flush=True)


def time_worst(driver):
    """An owner's years: the median and the worst of twenty draws."""
    found = [our_seconds(driver, Problem(1000 + n, 60, 10, 4)) for n in range(20)]
    whole = sorted(seconds for seconds, _, _ in found)
    print(f"\n60 items, 10 winters, 4 stations, 20 draws: median {statistics.median(whole):.3f}, "
          f"worst {whole[-1]:.3f} s of the processor; {sum(proven for _, _, proven in found)} proven")


def main():
    becket, driver = sys.argv[1:3]
    time_commands(becket, int(sys.argv[3]) if len(sys.argv) > 3 else 500)
    time_solvers(driver)
    time_worst(driver)


if __name__ == "__main__":
    main()
