"""How much of the pure rooms the unit tests go through: lines and branches, room by room.

    meson setup build/covered -Db_coverage=true -Doptimization=0
    ninja -C build/covered && meson test -C build/covered --suite unit
    python3 tests/mutants/branches.py build/covered [ROOM]

With a room, each line with a branch that no test takes. gcov counts as a branch each side of a condition; those of
`assert` and of loops that can't end otherwise are never taken.
"""
import gzip
import json
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
ROOMS = ["dates", "gear", "rules", "due", "muster", "winter", "years", "rota", "life"]


def covered(build, room):
    """[(file, line, times, [times of each branch])] of a room's sources."""
    notes = sorted((build / "src" / room / f"lib{room}.a.p").glob("*.gcda"))
    with tempfile.TemporaryDirectory() as folder:
        for note in notes:
            subprocess.run(["gcov", "--branch-probabilities", "--json-format", str(note)], cwd=folder,
                           capture_output=True, check=True)
        for path in sorted(Path(folder).glob("*.json.gz")):
            with gzip.open(path, "rt", encoding="utf-8") as file:
                for source in json.load(file)["files"]:
                    if f"src/{room}/" in source["file"] and source["file"].endswith(".c"):
                        for line in source["lines"]:
                            yield (Path(source["file"]).name, line["line_number"], line["count"],
                                   [branch["count"] for branch in line["branches"]])


def main():
    build = Path(sys.argv[1]).resolve()
    for room in sys.argv[2:] or ROOMS:
        lines = list(covered(build, room))
        sides = [count for line in lines for count in line[3]]
        if not sides:
            print(f"{room}: no test was run")
            continue
        ran, taken = sum(line[2] > 0 for line in lines), sum(count > 0 for count in sides)
        print(f"{room}: {ran} of {len(lines)} lines, {taken} of {len(sides)} branches: {100 * taken / len(sides):.1f} %")
        if sys.argv[2:]:
            for name, number, _, counts in lines:
                if counts and 0 in counts:
                    text = (ROOT / "src" / room / name).read_text(encoding="utf-8").splitlines()[number - 1].strip()
                    print(f"  {name}:{number}: {counts.count(0)} of {len(counts)} never: {text}")


main()
