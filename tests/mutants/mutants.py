"""Changes the source of a room in one small place at a time, and looks whether a test notices.

    python3 tests/mutants/mutants.py due                 # every mutant of src/due
    python3 tests/mutants/mutants.py due --sample 200    # so many, drawn the same way each time
    python3 tests/mutants/mutants.py due decide.c:88     # those of one line, or of one file

BUILD names a build with the unit tests in it (build/plain unless told); its objects are linked with
the room as a library of its own, made anew for each mutant. A mutant is killed when a unit test in
TESTS fails, or else one of the golden cases in GOLDENS. What compiles to the very same object is no
mutant. What lives must stand in survivors.txt, with the reason why it changes no answer: a line of
it is FILE, a tab, the functions it is of, a tab, the source line, a tab, what it became, a tab, the
reason. A function with two lines that are the same has ":2" behind it: the reason holds for both.

Exit status 1 when one lives that is not told of there. Mutated are comparisons, `&&` and `||`, `+`
and `-`, `!`, true and false, 0 and 1, the earlier and the later of two days, and whole statements;
not what runs only when there is no memory left.
"""
import argparse
import hashlib
import json
import os
import random
import re
import resource
import shlex
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
BUILD = Path(os.environ.get("BUILD", ROOT / "build" / "plain")).resolve()
LAYERS = ["base", "dates", "gear", "rules", "due", "muster", "winter", "years", "rota", "life"]
ABOVE = {
    "dates": LAYERS[:1], "gear": LAYERS[:2], "rules": LAYERS[:3], "due": LAYERS[:4], "muster": LAYERS[:5], "winter": LAYERS[:6], "years": LAYERS[:7],
    "rota": LAYERS[:7], "life": LAYERS[:4],
}
TESTS = {  # the unit tests that are of the room, the quickest first
    "dates": "dates spans stamps station vessel_times windows sheet_days conditions fails_in_span season",
    "gear": "fields gear_words money booking going names station homecoming vessel_times book_movement book_record book_paper"
            " serials sheet inventory_csv commands",
    "due": "decide fails_in_span if_done siblings conditions working clocks interval extension label worked_cases"
           " events suppose windows sheet_days season due limits property oracle",
    "muster": "pieces leave why_line booked working ashore carriage muster cure_fleet cure rota",
    "winter": "first_word dockets station vessel_times winter_edges settled_edges ashore settled winter trips windows"
              " few_trips limits siblings season errands_placing errands_edges errands_given_up errands unpriced",
    "years": "years_sums moves_sift courses_walk years_like years_edges years_told outlook courses_solve outlook_ages unpriced",
    "rota": "rota rota_edges rota_works rota_fixes rota_hand_ins slots_edges slots",
    "life": "gone life_edges names homecoming life lookout serials",
    "rules": "rating kind_words yaml_where sheet_same sheet_slips kinds sheet_check carriage extends sheet worked_cases packed",
}
GOLDENS = {
    "dates": ["why-clocks", "vessel-times", "words-typed", "import-doubts", "stations", "printed-expiry"],
    "gear": ["entering", "messy-import", "bookings", "life-slips", "words-typed", "prices-by-age", "vessel-times", "papers",
             "given-up", "names-typed", "journal"],
    "due": ["why-clocks", "maker-interval", "printed-expiry", "two-sheets", "due-if", "part-gone", "extends"],
    "muster": ["muster", "bookings", "why-line", "part-gone", "muster-fleet", "cure-pieces", "vessel-times"],
    "winter": ["trips", "few-trips", "first-word", "settled-days", "shore-papers", "stations", "prices-by-age", "given-up", "slips"],
    "years": ["years", "prices-by-age", "due-year"],
    "rota": ["rota", "rota-kept"],
    "life": ["life-bag", "life-slips", "life-queries", "return-as-asked", "return-next", "return-not-in-date",
             "spent-nothing", "names-near", "boat-left"],
    "rules": ["sheet-check", "sheet-compare", "sheet-examples", "own-sheet", "two-sheets", "extends", "why-clocks"],
}
# Of the processor; a test, or a program of a golden case, that takes more goes round for ever.
SECONDS, SECONDS_OF_CASE = 20, 5

SWAPS = [
    (r" <= ", " < "), (r" < ", " <= "), (r" >= ", " > "), (r" > ", " >= "),
    (r" == ", " != "), (r" != ", " == "), (r" && ", " || "), (r" \|\| ", " && "),
    (r" \+ ", " - "), (r" - ", " + "), (r"\+\+", "--"), (r"--", "++"), (r" \+= ", " -= "), (r" -= ", " += "),
    (r"!(?=[a-z_(])", ""), (r"\btrue\b", "false"), (r"\bfalse\b", "true"),
    (r"(?<=[ (])0(?=[ ;,):])", "1"), (r"(?<=[ (])1(?=[ ;,):U])", "0"), (r"(?<=[ (])1(?=[ ;,):])", "2"),
    (r"\bday_min\b", "day_max"), (r"\bday_max\b", "day_min"),
    (r"\bstamp_first\b", "stamp_last"), (r"\bstamp_last\b", "stamp_first"),
]
STATEMENT = re.compile(r"^\t+(?!return|static|struct|const|enum|bool|int|size_t|day_t|unsigned|else|break;\s*$)"
                       r"[a-z_*(][^{}]*;$")
OF_MEMORY = re.compile(r"fault_memory|return false;|return NULL;|== NULL\)|ARENA_ROOM|sizeof|\bfree\(|arena_clear|arena_reset|_clear\(|_free\(")


def code_lines(text):
    """The numbers of the lines that say what is done, each with its function's name: comments are
    left out."""
    name, inside, comment = "", False, False
    for number, line in enumerate(text.splitlines()):
        head = re.match(r"(?:bool)?\(?(\w+)\)?\(", line)
        name = head[1] if head else name
        if line.startswith("{"):
            inside = True
        elif line.startswith("}"):
            inside = False
        comment = comment or line.strip().startswith("/*")
        if inside and not comment and not OF_MEMORY.search(line):
            yield number, name
        if "*/" in line:
            comment = False


def mutants_of(path):
    """[(number of the line, its function, the line, what it becomes)] in the order of the source."""
    text = path.read_text(encoding="utf-8")
    lines, found = text.splitlines(), []
    for number, name in code_lines(text):
        line = lines[number]
        code = re.sub(r'"[^"]*"', lambda quoted: "~" * len(quoted[0]), line.split("/*")[0])
        for pattern, after in SWAPS:
            for hit in re.finditer(pattern, code):
                if after == "2" and code[: hit.start()].endswith("-1 : "):
                    continue  # a comparison says the same by any number above 0
                found.append((number, name, line, line[: hit.start()] + after + line[hit.end():]))
        if STATEMENT.match(code) and (number == 0 or lines[number - 1].rstrip().endswith((";", "{", "}", ":", "*/", ")"))):
            found.append((number, name, line, re.match(r"\t*", line)[0] + ";"))
    return found


class House:
    """The build's programs, linked with one room as a library that each mutant makes anew."""

    def __init__(self, room, folder):
        self.room, self.folder = room, Path(folder)
        self.library = self.folder / "libroom.so"
        self.last = {}  # which test last killed, by file
        commands = json.loads((BUILD / "compile_commands.json").read_text(encoding="utf-8"))
        self.compile = {}
        for entry in commands:
            path = Path(entry["directory"], entry["file"]).resolve()
            if path.parent == ROOT / "src" / room and f"lib{room}.a.p" in entry["command"]:
                self.compile[path.name] = self.quiet(shlex.split(entry["command"]))
        self.objects = {}
        for name in self.compile:
            self.objects[name] = self.folder / f"{name}.o"
            self.make(name, ROOT / "src" / room / name, self.objects[name])
        self.link(self.objects)
        self.tests = [self.relink(test) for test in self.unit_tests()]
        self.becket = self.relink("src/cli/becket")

    @staticmethod
    def quiet(words):
        """A compiler's words without warnings, where to and what from."""
        kept, skip = [], False
        for word in words[: words.index("-o")]:
            if not skip and not word.startswith("-W") and word not in ("-MD", "ccache"):
                if word not in ("-MQ", "-MF"):
                    kept.append(word)
            skip = word in ("-MQ", "-MF")
        return kept

    def make(self, name, source, into):
        words = [*self.compile[name], "-I", str(ROOT / "src" / self.room), "-w", "-o", str(into), "-c", str(source)]
        return subprocess.run(words, cwd=BUILD, capture_output=True, check=False).returncode == 0

    def link(self, objects):
        words = ["cc", "-shared", "-o", str(self.library), *map(str, objects.values())]
        subprocess.run(words, check=True, capture_output=True)

    def unit_tests(self):
        return [f"tests/unit/{name}_test" for name in TESTS[self.room].split()]

    @staticmethod
    def link_words(target):
        said = subprocess.run(["ninja", "-C", str(BUILD), "-t", "commands", target],
                              capture_output=True, text=True, check=True).stdout
        return shlex.split(said.strip().splitlines()[-1])

    def relink(self, target):
        """A program of the build with the library in the place of the room."""
        above = [f"src/{room}/lib{room}.a" for room in ABOVE[self.room]]
        words = [word for word in self.link_words(target) if word not in above]
        words[words.index("-o") + 1] = str(self.folder / Path(target).name)
        words = [str(self.library) if word == f"src/{self.room}/lib{self.room}.a" else word for word in words]
        words = [word for word in words if word != "-Wl,--no-undefined"]
        whole = ["-rdynamic", "-Wl,--whole-archive", *above, "-Wl,--no-whole-archive", "-Wl,-rpath," + str(self.folder)]
        place = words.index("-Wl,--start-group")
        subprocess.run([*words[:place], *whole, *words[place:]], cwd=BUILD, check=True)
        return self.folder / Path(target).name

    @staticmethod
    def fails(words, seconds, **more):
        environment = {**os.environ, "TZ": "UTC", "LC_ALL": "C.UTF-8", **more}
        limit = lambda: resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))  # noqa: E731
        done = subprocess.run(words, env=environment, capture_output=True, preexec_fn=limit, check=False)
        return done.returncode != 0

    def killer(self, file=""):
        """The test that fails now, or None; first the one that last failed for a mutant of the same
        file."""
        more = {"BECKET": str(self.becket), "BUILD": str(BUILD), "ROOT": str(ROOT)}
        script = str(ROOT / "tests/golden/cases_test.py")
        each = [(test.name, SECONDS, [str(test)]) for test in self.tests]
        each += [(case, SECONDS_OF_CASE, ["/usr/bin/python3", script, str(self.becket), "--here", case])
                 for case in GOLDENS[self.room]]
        each.sort(key=lambda one: one[0] != self.last.get(file))
        for name, seconds, words in each:
            if self.fails(words, seconds, **more):
                self.last[file] = name
                return name
        return None

    def judge(self, name, number, after):
        """Who kills the mutant: a test's name, "compiler", "same" where it is none, or None."""
        lines = (ROOT / "src" / self.room / name).read_text(encoding="utf-8").splitlines()
        lines[number] = after
        source, into = self.folder / name, self.folder / "mutant.o"
        source.write_text("\n".join(lines) + "\n", encoding="utf-8")
        if not self.make(name, source, into):
            return "compiler"
        if digest(into) == digest(self.objects[name]):
            return "same"
        self.link({**self.objects, name: into})
        return self.killer(name)


def digest(path):
    """What an object does, without the name of its source, which is as long in both. By way of a
    file: objcopy puts a file of its own in the place of /dev/stdout where it may, for everyone."""
    code = path.with_suffix(".text")
    subprocess.run(["objcopy", "-O", "binary", "--only-section=.text*", str(path), str(code)],
                   capture_output=True, check=True)
    return hashlib.sha256(code.read_bytes()).digest()


def rows(name):
    """[(number of the line, its fields)] of a table beside this file; "#" begins a comment."""
    lines = Path(__file__).with_name(name).read_text(encoding="utf-8").splitlines()
    return [(number, line.split("\t")) for number, line in enumerate(lines, 1) if line and line[0] != "#"]


def explained():
    """{(file, function, line, after): how many are told of} of survivors.txt."""
    told = {}
    for _, (file, functions, line, after, _) in rows("survivors.txt"):
        for function in functions.split():
            name, _, count = function.partition(":")
            told[file, name, line, after] = int(count or 1)
    return told


def chosen(words, every):
    if words.only:
        wanted = [word.partition(":") for word in words.only]
        every = [m for m in every if any(m[0] == file and line in ("", str(m[1] + 1)) for file, _, line in wanted)]
    if words.sample and words.sample < len(every):
        every = sorted(random.Random(words.seed).sample(every, words.sample))
    return every[words.part::words.parts]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("room", choices=sorted(ABOVE))
    parser.add_argument("only", nargs="*")
    parser.add_argument("--sample", type=int)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--part", type=int, default=0)
    parser.add_argument("--parts", type=int, default=1)
    words = parser.parse_args()
    counts, known = {"killed": 0, "lives, as told": 0, "lives": 0, "same": 0, "compiler": 0}, explained()
    with tempfile.TemporaryDirectory(prefix="mutants-") as folder:
        house = House(words.room, folder)
        every = [(path.name, *mutant) for path in sorted((ROOT / "src" / words.room).glob("*.c")) 
                 if path.name in house.compile for mutant in mutants_of(path)]
        broken = house.killer()
        if broken:
            sys.exit(f"{broken} fails as it is")
        for name, number, function, before, after in chosen(words, every):
            killer = house.judge(name, number, after)
            told = (name, function, before.strip(), after.strip()) in known
            verdict = killer if killer in ("same", "compiler") else "killed" if killer else "lives, as told" if told else "lives"
            counts[verdict] += 1
            if verdict == "killed":
                print(f"ok {words.room}/{name}:{number + 1} {after.strip()}: {killer}", flush=True)
            if verdict == "lives":
                print(f"not ok {words.room}/{name}:{number + 1}\t{before.strip()}\t{after.strip()}", flush=True)
    judged = counts["killed"] + counts["lives"] + counts["lives, as told"]
    share = 100 * counts["killed"] / judged if judged else 100
    print(f"{words.room}: {counts}, {share:.1f} % of {judged} killed")
    sys.exit(1 if counts["lives"] else 0)


if __name__ == "__main__":
    main()
