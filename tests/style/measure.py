"""How the house weighs, as tables: lines and files of each room, how long its functions are,
arguments over seven, headers that others use, files that call each other in a circle; and what the
lines are. No test: figures for who changes something, before and after.

    python3 tests/style/measure.py [BUILD]      # with a build, circles of calls too
"""
import re
import subprocess
import sys
from pathlib import Path

SRC = Path(__file__).resolve().parents[2] / "src"
ARGUMENTS_MOST = 7


def plain(text, quote=" "):
    """C without what stands in comments, strings and characters, its lines kept; a `quote` for each
    sign of a string."""
    def blank(match):
        return re.sub(r"[^\n]", quote if match.group(0)[0] == '"' else " ", match.group(0))
    return re.sub(r'/\*.*?\*/|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'', blank, text,
                  flags=re.DOTALL)


def argument_count(words):
    """How many arguments stand between a function's brackets."""
    depth, count = 0, 1
    for sign in words:
        depth += (sign == "(") - (sign == ")")
        count += sign == "," and depth == 0
    return 0 if words.strip() in ("", "void") else count


def functions(path):
    """(name, lines, arguments) of each function of a file as clang-format sets it: its name at the
    beginning of a line, its body between two braces that do as well."""
    found = []
    pattern = r"^(\w+)\(((?:[^{};]|\n)*?)\)\n\{\n(.*?)^\}"
    for match in re.finditer(pattern, plain(path.read_text()), re.MULTILINE | re.DOTALL):
        found.append((match[1], match[0].count("\n") + 2, argument_count(match[2])))
    return found


def part_of(sorted_lengths, share):
    """The length that a share of the functions does not pass; 0 of none."""
    if not sorted_lengths:
        return 0
    return sorted_lengths[min(len(sorted_lengths) - 1, int(share * len(sorted_lengths)))]


def inner_headers(room):
    """The headers of a room that no other room includes, by itself or by another header of the
    room."""
    includes = {str(path.relative_to(SRC)): re.findall(r'^#include "([^"]+)"', path.read_text(),
                                                       re.MULTILINE)
                for path in SRC.glob("*/*.[ch]")}
    wait = [name for path, names in includes.items() if path.split("/")[0] != room.name
            for name in names if name.startswith(room.name + "/")]
    public = set()
    while wait:
        name = wait.pop()
        if name not in public:
            public.add(name)
            wait += [other for other in includes.get(name, ()) if other.startswith(room.name + "/")]
    return sorted({str(path.relative_to(SRC)) for path in room.glob("*.h")} - public)


def calls(folder):
    """By object file of a room, the others of it whose functions or tables it uses."""
    home, needs = {}, {}
    objects = sorted(map(str, folder.glob("**/*.c.o")))
    listing = subprocess.run(["nm", "-A", "-P", *objects], capture_output=True, text=True,
                             check=True).stdout if objects else ""
    for line in listing.splitlines():
        path, name, kind = re.match(r"(.*): (\S+) (\w)", line).groups()
        file = Path(path).name[:-2]
        if kind in "TDRB":
            home[name] = file
        elif kind == "U":
            needs.setdefault(file, set()).add(name)
    return {file: {home[name] for name in names if name in home} - {file}
            for file, names in needs.items()}


def circles(graph):
    """Sets of files of which each comes back to itself through all the others."""
    def reached(start):
        found, wait = set(), list(graph.get(start, ()))
        while wait:
            name = wait.pop()
            if name not in found:
                found.add(name)
                wait += graph.get(name, ())
        return found

    ends = {name: reached(name) for name in graph}
    return sorted({tuple(sorted(other for other in ends[name] if name in ends.get(other, ())))
                   for name in graph if name in ends[name]})


SORTS = ("blank", "comment", "text", "table", "code")


def sort_of(line, raw):
    """What a line is, by itself without comments and with quotes for its strings, and as it stands:
    a text's line holds words alone, a table's is a row in braces or behind a designator."""
    if not raw.strip():
        return "blank"
    if not line.strip():
        return "comment"
    if re.fullmatch(r'[\s;,)}]*"+[\s;,)}]*', line):
        return "text"
    return "table" if re.match(r"\s*(?:\{|\[\w+\] = |\.\w+ = )", line) else "code"


def sorts(paths):
    """How many lines are of each sort."""
    found = dict.fromkeys(SORTS, 0)
    for path in paths:
        text = path.read_text()
        for line, raw in zip(plain(text, '"').splitlines(), text.splitlines()):
            found[sort_of(line, raw)] += 1
    return found


def row(words, *figures):
    print(f"{words:10}" + "".join(f"{figure:>8}" for figure in figures))


def sorts_table(rooms):
    """Lines by what they are, of source files and of headers."""
    print()
    row("room", *SORTS, *(f"h.{sort[:5]}" for sort in SORTS))
    sums = [0] * 2 * len(SORTS)
    for room in rooms:
        figures = [*sorts(room.glob("*.c")).values(), *sorts(room.glob("*.h")).values()]
        sums = [a + b for a, b in zip(sums, figures)]
        row(room.name, *figures)
    row("all", *sums)


def main():
    build = Path(sys.argv[1]) if len(sys.argv) > 1 else None
    rooms = sorted(path for path in SRC.iterdir() if path.is_dir() and list(path.glob("*.c")))
    row("room", "lines", "files", "<35", "funcs", "median", "90%", ">60", "args>7", "public", "inner")
    sums, every = [0] * 7, []
    many, rings = [], []
    for room in rooms:
        files = sorted(room.glob("*.[ch]"))
        lines = [path.read_text().count("\n") for path in files]
        slivers = sum(path.suffix == ".c" and count < 35 for path, count in zip(files, lines))
        found = [(path, *one) for path in files for one in functions(path)]
        lengths = sorted(one[2] for one in found)
        over = [f"{room.name}/{path.name} {name}: {count}" for path, name, _, count in found
                if count > ARGUMENTS_MOST]
        inner = len(inner_headers(room))
        public = len(list(room.glob("*.h"))) - inner
        long = sum(length > 60 for length in lengths)
        row(room.name, sum(lines), len(files), slivers, len(found), part_of(lengths, 0.5),
            part_of(lengths, 0.9), long, len(over), public, inner)
        for at, figure in enumerate((sum(lines), len(files), slivers, long, len(over), public, inner)):
            sums[at] += figure
        every += lengths
        many += over
        if build:
            rings += [f"{room.name}: {' '.join(ring)}" for ring in circles(calls(build / "src" / room.name))]
    every.sort()
    row("all", sums[0], sums[1], sums[2], len(every), part_of(every, 0.5), part_of(every, 0.9), sums[3],
        sums[4], sums[5], sums[6])
    sorts_table(rooms)
    for words, lines in (("Arguments over seven", many), ("Files that call each other in a circle", rings)):
        if lines:
            print(f"\n{words}:\n  " + "\n  ".join(lines))


if __name__ == "__main__":
    main()
