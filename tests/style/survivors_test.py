"""What tests/mutants/survivors.txt and branches.txt tell of is still in the source: each survivor
is the one mutant of its function, each branch has its line."""
import sys
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "tests" / name) for name in ("support", "mutants")]
from harness import check, end  # noqa: E402
from mutants import ABOVE, explained, mutants_of, rows  # noqa: E402


def held(name, fields):
    """The rows of a table; one with other than so many fields is told."""
    found = rows(name)
    check(f"{name} is read", len(found) > 10, str(len(found)))
    odd = [f"{name}:{number}" for number, words in found if len(words) != fields or not all(words)]
    check(f"each line of {name} has {fields} fields", not odd, ", ".join(odd))
    return found


def main():
    sources = [path for room in ABOVE for path in sorted((ROOT / "src" / room).glob("*.c"))]
    mutants = Counter((path.name, function, before.strip(), after.strip())
                      for path in sources for _, function, before, after in mutants_of(path))
    held("survivors.txt", 5)
    gone = [": ".join(place[:3]) for place, count in explained().items() if mutants[place] != count]
    check("each survivor is a mutant of a line that is there, and of no other", not gone, "; ".join(gone))
    lines = {(path.name, line.strip()) for path in sources for line in path.read_text(encoding="utf-8").splitlines()}
    gone = [f"branches.txt:{number} {words[0]}: {words[1]}" for number, words in held("branches.txt", 4)
            if tuple(words[:2]) not in lines]
    check("each branch is of a line that is there", not gone, "; ".join(gone))
    end()


main()
