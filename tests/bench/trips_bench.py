#!/usr/bin/env python3
"""How long the trips of a big fleet take to choose, beside the same winter without a choice.

    trips_bench.py BECKET [BOATS]

Makes a book of BOATS invented boats (500 when not said) at ten bases with 60 items each, and
stations that compete for their gear: two a base and three for every base, with prices, weekdays,
slow months and makes. `winter` is then run three times with the stations, three times with one
station that takes everything (nothing to choose), and with weekly limits; the median wall time
is printed, and how many bases' plans are proven. A benchmark, not a test.
"""
import json
import random
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
import fleets  # noqa: E402

RUNS = 3
BASES = 10


def run(program, *words):
    return subprocess.run([*program, *map(str, words)], check=True, capture_output=True,
                          text=True).stdout


def add_stations(program, drawn):
    """Two stations a base and three for all, each with terms of its own."""
    names = [(f"Base {base:02d} {side}", f"Base {base:02d}") for base in range(BASES)
             for side in ("north", "south")]
    names += [(f"Coast {number}", "") for number in range(3)]
    for name, base in names:
        words = ["station", name, "--turn-round", drawn.choice([7, 14, 21]),
                 "--turn-round-in", f"02..04={drawn.choice([21, 28, 35])}",
                 "--open", drawn.choice(["mon-fri", "mon-sat", "tue-fri"]),
                 "--closed", "12-20..01-06", "--trip", drawn.randrange(20, 90),
                 "--carriage", drawn.choice([0, 2, 5])]
        for kind in sorted({kind for kind, _ in fleets.KINDS}):
            words += ["--price", f"{kind}={drawn.randrange(20, 60)}"]
        run(program, *words, *(["--base", base] if base else []))


def measure(program, title):
    times = []
    for _ in range(RUNS):
        begun = time.monotonic()
        answer = run(program, "winter", "--json")
        times.append(time.monotonic() - begun)
    lists = json.loads(answer)
    proven = sum(one["plan"]["proven"] for one in lists)
    trips = len({(trip["station"], trip["hand_in"], int(one["vessel"][5:]) % BASES)
                 for one in lists for trip in one["hand_in"]})
    minor, bound = (sum({one["vessel"][-1]: one["plan"][key] for one in lists}.values())
                    for key in ("minor", "bound"))
    print(f"{title:<28}{statistics.median(times):>8.2f}   {trips} trips, "
          f"{proven} of {len(lists)} boats' plans proven, at most "
          f"{(minor - bound) * 100 / max(minor, 1):.1f} % dearer than the best", flush=True)


def main():
    becket = sys.argv[1]
    boats = int(sys.argv[2]) if len(sys.argv) > 2 else 500
    drawn = random.Random(2)
    with tempfile.TemporaryDirectory() as scratch:
        book, inventory = Path(scratch) / "fleet.db", Path(scratch) / "fleet.csv"
        fleets.write_inventory(inventory, boats)
        program = [becket, "--book", str(book), "--today", fleets.TODAY]
        run(program, "import", inventory)
        for number in range(boats):
            run(program, "vessel", f"Boat {number:05d}", "--base", f"Base {number % BASES:02d}",
                "--margin", drawn.choice([0, 5, 7]),
                "--lay-up", drawn.choice(["10-15..03-20", "11-01..03-31", "11-15..04-10"]))
        print(f"{boats} boats at {BASES} bases, {boats * fleets.ITEMS} items; median of "
              f"{RUNS} runs, wall seconds")
        run(program, "station", "Only", "--turn-round", 14)
        measure(program, "one station, no choice")
        add_stations(program, drawn)
        measure(program, "23 stations more")
        for number in range(3):
            run(program, "station", f"Coast {number}", "--weekly", 40)
        measure(program, "three of them 40 a week")


if __name__ == "__main__":
    main()
