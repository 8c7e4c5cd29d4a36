"""What other tools find in the program, beside clang-tidy: gcc's -fanalyzer and cppcheck in the
source, and valgrind in what runs.

    deep_test.py BECKET [gcc|cppcheck|valgrind]

Nothing is found that explained.txt has no reason for: a line of it is TOOL, a tab, the file, a tab,
what the tool calls it, a tab, the source line, a tab, the reason. A reason for what is found no
more is told too, so that the list stays true. Every command that needs no terminal and no network
runs under valgrind on a small book: no error, and nothing lost for good (definitely or indirectly,
in valgrind's words).
"""
import json
import os
import re
import shlex
import shutil
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BUILD, ROOT, SANITIZED, Book, check, end, scratch, skip  # noqa: E402

EXPLAINED = Path(__file__).with_name("explained.txt")
COMMANDS = (
    "vessel Quillfish --persons 4 --base Cove", "vessel Otter", "station Depot --turn-round 14",
    "enter liferaft-canister --vessel Quillfish --tag LR-1 --made 2020-05",
    "enter lifejacket-auto --vessel Quillfish --tag LJ-1..LJ-4 --served 2025-12-05 --serials C-1..C-4",
    "import list.csv", "record service LR-1 --on 2026-11-28 --by Depot", "land LJ-1 --to Depot", "ashore",
    "return LJ-1 --task service", "move LJ-2 --vessel Otter", "withdraw LJ-3 --because lost", "spent",
    "amend LR-1 --place deck", "book undo", "due", "due --json", "list", "muster", "now", "papers", "remind", "rota",
    "show LR-1", "why LR-1", "where LJ-2", "history LJ-2", "winter", "winter --json", "years", "calendar out.ics",
    "export -", "book journal", "book check", "book backup copy.db", "book restore copy.db", "sheet list", "help due",
    "due --no-such-option", "show LR-9",
)


def lines_of(path):
    return (ROOT / path).read_text(encoding="utf-8").splitlines()


def judge(tool, found, seen):
    """`found` are (file, line, what, words); told are those that have no reason."""
    reasons = [row.split("\t") for row in EXPLAINED.read_text(encoding="utf-8").splitlines()
               if row.startswith(tool + "\t")]
    known = {tuple(row[1:4]) for row in reasons}
    places, left = set(), []
    for path, line, what, words in found:
        place = (path, what, lines_of(path)[line - 1].strip())
        places.add(place)
        if place not in known:
            left.append(f"{path}:{line}: {what}: {words}\n    {place[2]}")
    check(f"{tool} finds nothing in {seen} files that is not explained", not left and seen > 0, "\n".join(sorted(set(left))))
    gone = known - places
    check(f"{tool} finds all that is explained", not gone, "\n".join(map(str, sorted(gone))))


def sources():
    """(file, words of its compiler, folder) of the program's own sources."""
    for entry in json.loads((BUILD / "compile_commands.json").read_text(encoding="utf-8")):
        path = Path(entry["directory"], entry["file"]).resolve()
        if path.is_relative_to(ROOT / "src"):
            yield str(path.relative_to(ROOT)), shlex.split(entry["command"]), entry["directory"]


def analyzed(path, words, folder):
    """What gcc's analyzer says of a file; it follows more with optimisation."""
    begin = next(i for i, word in enumerate(words) if word in ("cc", "gcc"))
    kept = [word for word in words[begin + 1: words.index("-o")] if word != "-Werror"]
    for flag in ("-MQ", "-MF"):
        if flag in kept:
            at = kept.index(flag)
            del kept[at:at + 2]
    done = subprocess.run(
        ["gcc", *(word for word in kept if word != "-MD"), "-O2", "-fanalyzer", "-fdiagnostics-plain-output",
         "-c", words[-1], "-o", os.devnull], cwd=folder, capture_output=True, text=True, check=False)
    found = []
    for place, line, what, option in re.findall(
            r"^(\S+?):(\d+):\d+: warning: (.*?) \[(?:CWE-\d+\] \[)?-W(\S+)\]$", done.stderr, re.M):
        where = Path(folder, place).resolve()
        if where.is_relative_to(ROOT):
            found.append((str(where.relative_to(ROOT)), int(line), option, what))
    if done.returncode != 0:
        found.append((path, 1, "not-compiled", done.stderr[:500]))
    return found


def gcc():
    files = list(sources())
    with ThreadPoolExecutor(2) as pool:
        found = [one for some in pool.map(lambda one: analyzed(*one), files) for one in some]
    judge("gcc", found, len(files))


def cppcheck():
    if shutil.which("cppcheck") is None:
        return skip("cppcheck", "it is not installed")
    done = subprocess.run(
        ["cppcheck", "-j2", "--std=c17", "--enable=warning,portability,performance", "--quiet",
         "--suppress=missingIncludeSystem", "--template={file}\t{line}\t{id}\t{message}", "-D__GNUC__",
         '-DBECKET_VERSION="0"', "-Isrc", "src"], cwd=ROOT, capture_output=True, text=True, check=False)
    found = [(row[0], int(row[1]), row[2], row[3]) for row in
             (line.split("\t") for line in done.stderr.splitlines()) if len(row) == 4]
    judge("cppcheck", found, len(list((ROOT / "src").rglob("*.c"))) if done.returncode == 0 else 0)


def valgrind():
    if SANITIZED or shutil.which("valgrind") is None:
        return skip("valgrind", "it is not installed, or the sanitizers are in the program")
    with scratch() as name:
        book, wrong = Book(Path(name) / "book.db", "2026-11-29"), []
        (Path(name) / "list.csv").write_text(
            "vessel,tag,kind,expires\nQuillfish,FL-1,flare-red-hand,2029-06\n", encoding="utf-8")
        for words in COMMANDS:
            done = subprocess.run(
                ["valgrind", "-q", "--error-exitcode=99", "--leak-check=full", "--errors-for-leak-kinds=definite,indirect",
                 "--show-leak-kinds=definite,indirect", *book.command(*shlex.split(words))], cwd=name,
                env=book.environment, capture_output=True, text=True, check=False, stdin=subprocess.DEVNULL)
            expected = (2,) if "LR-9" in words or "no-such" in words else (0, 1)
            if done.returncode not in expected:
                wrong.append(f"{words}: {done.returncode}\n{done.stderr[:3000]}")
        check(f"valgrind finds nothing in {len(COMMANDS)} commands", not wrong, "\n".join(wrong))


def main():
    tools = {"gcc": gcc, "cppcheck": cppcheck, "valgrind": valgrind}
    for tool in sys.argv[2:] or tools:
        tools[tool]()
    end()


main()
