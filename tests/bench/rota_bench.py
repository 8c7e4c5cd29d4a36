#!/usr/bin/env python3
"""How long a rota takes.

    rota_bench.py BECKET [BOATS...]

First drawn fleets of a few boats beside glpsol, which finds the fewest spares of the same: whole
process against whole process, minimum of three, and the sum over all. Then fleets of so many boats
(500, 5000 if left out), 50 at a base with nine pieces each, beside `becket muster` of the same
book: both read all of it and ask the engine about every piece.
"""
import csv
import datetime
import importlib.util
import os
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
SHEET = HERE.parent / "golden" / "rota" / "in-isles.yaml"
TODAY = datetime.date(2026, 11, 25)
TIMES = 3
SMALL = 12
BOATS = 40  # of a drawn fleet, at most


def load(path):
    spec = importlib.util.spec_from_file_location(path.stem, path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def least(times, act):
    """The shortest of some runs, in seconds."""
    found = []
    for _ in range(times):
        start = time.perf_counter()
        act()
        found.append(time.perf_counter() - start)
    return min(found)


def run(becket, folder, *words):
    done = subprocess.run([becket, "--book", "fleet.db", "--today", str(TODAY), *words],
                          cwd=folder, capture_output=True, text=True, check=False)
    if done.returncode not in (0, 1):
        sys.exit(f"{' '.join(words)}: {done.stderr}")
    return done.stdout


def beside_glpk(becket):
    glpk = load(HERE.parent / "outside" / "rota_glpk_test.py")
    ours = theirs = 0.0
    for seed in range(1, SMALL + 1):
        fleet = glpk.Fleet(seed, BOATS)
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            fleet.enter(lambda *words: run(becket, folder, *words), folder)
            program = fleet.program()
            ours += least(TIMES, lambda: run(becket, folder, "rota", "--stand-ins", "30"))
            theirs += least(1, lambda: glpk.solve(program, folder))
    print(f"{SMALL} fleets of 2 to {BOATS} boats: becket {ours:.3f} s, glpsol {theirs:.3f} s, "
          f"{theirs / ours:.1f} times as long")


def write_fleet(folder, boats):
    draw = random.Random(boats)
    bases = max(1, boats // 50)
    rows = [["vessel", "tag", "kind", "made", "packed", "served", "capacity"]]
    for boat in range(boats):
        for number in range(9):
            served = TODAY - draw.randint(1, 360) * datetime.timedelta(days=1)
            raft = number == 0
            rows.append([f"Boat {boat:05}", f"P-{boat}-{number}",
                         "liferaft-valise" if raft else "lifejacket-auto", "2022-01",
                         "2022-01" if raft else "", served, 6 if raft else ""])
    for base in range(bases):
        for number in range(20):
            raft = number < 6
            rows.append([f"Store {base:03}", f"S-{base}-{number}",
                         "liferaft-valise" if raft else "lifejacket-auto", "2022-01",
                         "2022-01" if raft else "", TODAY, 6 if raft else ""])
    with open(folder / "fleet.csv", "w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows(rows)
    (folder / "sheets").mkdir()
    (folder / "sheets" / "isles.yaml").write_bytes(SHEET.read_bytes())
    return bases


def enter_fleet(becket, folder, boats, bases):
    run(becket, folder, "book", "new", "--currency", "EUR")
    run(becket, folder, "import", "fleet.csv")
    for boat in range(boats):
        run(becket, folder, "vessel", f"Boat {boat:05}", "--base", f"Base {boat % bases:03}",
            "--lay-up", "none", "--persons", "6", "--sheet", "isles")
    for base in range(bases):
        run(becket, folder, "vessel", f"Store {base:03}", "--store", "yes", "--base",
            f"Base {base:03}", "--sheet", "isles")
    run(becket, folder, "station", "Loft", "--turn-round", "10", "--open", "mon-fri")


def beside_muster(becket, boats):
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        enter_fleet(becket, folder, boats, write_fleet(folder, boats))
        rota = least(TIMES, lambda: run(becket, folder, "rota", "--json"))
        muster = least(TIMES, lambda: run(becket, folder, "muster", "--json"))
        said = run(becket, folder, "rota")
    print(f"{boats} boats, {boats * 9} pieces: rota {rota:.2f} s, muster of one day "
          f"{muster:.2f} s; {said.count('(proven)')} answers proven, "
          f"{said.count('were not found to do')} not")


def main():
    becket = os.path.abspath(sys.argv[1])
    beside_glpk(becket)
    for boats in [int(word) for word in sys.argv[2:]] or [500, 5000]:
        beside_muster(becket, boats)


if __name__ == "__main__":
    main()
