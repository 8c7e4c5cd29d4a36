"""How much of the pure rooms the tests go through: lines and branches, room by room.

    meson setup build/covered -Db_coverage=true -Doptimization=0
    ninja -C build/covered && meson test -C build/covered --suite unit --suite golden
    python3 tests/mutants/branches.py build/covered [ROOM]

With a room, each line with a branch that no test takes. gcov counts as a branch each side of a
condition. Counted apart, with its reason, is what no test can take:

    a switch    which names every value of its enum, and has a side for none of them
    no fault    the side on which a call that takes a fault has failed, in a room in which none is
                ever set but by what SETS names: out of memory, the only other, the program ends
    told        what branches.txt tells of: FILE, a tab, the source line, a tab, how many sides, a
                tab, the reason

A line of branches.txt that tells of more sides than are never taken, or of a source line that is no
more, is a failure, so that the list stays true: exit status 1.
"""
import gzip
import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path

from mutants import rows

ROOT = Path(__file__).resolve().parents[2]
ROOMS = ["dates", "gear", "rules", "due", "muster", "winter", "years", "rota", "life"]
# The calls that can fail for another reason, by room; of the rooms that are not here any may.
SETS = {
    "due": r"$^", "winter": r"$^", "rota": r"$^",
    "muster": r"find_line",
    "years": r"courses_solve|solve_part|check|life_find|lives_after|lives_begin|member_after|solve\(",
}


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


def told():
    """{(file, source line): sides} of branches.txt."""
    return {(file, line): int(sides) for _, (file, line, sides, _) in rows("branches.txt")}


def statement(lines, number):
    """From a line on to where its condition or statement ends."""
    words = ""
    for line in lines[number - 1:number + 7]:
        words += " " + line.strip()
        if line.rstrip().endswith((";", " {")):
            break
    return words


def beyond(room, lines, number, never, source, known):
    """How many of the sides that are never taken no test can take, and why."""
    line = lines[number - 1].strip()
    if (source, line) in known:
        return min(never, known[source, line]), "told"
    if line.startswith("switch ("):
        return 1, "a switch"
    words = statement(lines, number)
    if room in SETS and "fault)" in words and re.search(r"\w\(", line) and not re.search(SETS[room], words):
        return 1, "no fault"
    return 0, ""


def judge(build, room, known, shown):
    """Tells of a room; returns how many lines of branches.txt are not true of it."""
    lines, wrong, met = list(covered(build, room)), 0, set()
    sides = sum(len(line[3]) for line in lines)
    if sides == 0:
        print(f"{room}: no test was run")
        return 0
    texts, taken, why, left = {}, 0, {"a switch": 0, "no fault": 0, "told": 0}, []
    for source, number, _, counts in lines:
        text = texts.setdefault(source, (ROOT / "src" / room / source).read_text(encoding="utf-8").splitlines())
        never = counts.count(0)
        taken += len(counts) - never
        place = (source, text[number - 1].strip())
        met.add(place)
        if known.get(place, 0) > never:
            print(f"  {source}:{number}: {never} of its sides are never taken, and branches.txt tells of {known[place]}")
            wrong += 1
        if never:
            cannot, reason = beyond(room, text, number, never, source, known)
            if cannot:
                why[reason] += cannot
            if never > cannot:
                left.append(f"  {source}:{number}: {never - cannot} of {len(counts)} never: {text[number - 1].strip()}")
    for place in known.keys() - met:
        if (ROOT / "src" / room / place[0]).exists():
            print(f"  {place[0]}: branches.txt tells of a line that is not there: {place[1]}")
            wrong += 1
    can = sides - sum(why.values())
    ran = sum(line[2] > 0 for line in lines)
    apart = ", ".join(f"{count} {reason}" for reason, count in why.items() if count)
    print(f"{room}: {ran} of {len(lines)} lines, {taken} of {can} branches: {100 * taken / can:.1f} %"
          + (f" ({apart} apart)" if apart else ""))
    if shown:
        print("\n".join(left))
    return wrong


def main():
    build, known = Path(sys.argv[1]).resolve(), told()
    sys.exit(1 if sum([judge(build, room, known, bool(sys.argv[2:])) for room in sys.argv[2:] or ROOMS]) else 0)


main()
