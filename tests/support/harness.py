"""What the checks in Python share: a book, a day, a command, what it said, what is expected.

A script puts this folder on its path, makes its books in a folder of its own (`scratch()`), says
what it finds with `check` or `same`, and ends with `end()`. The program is the script's first
argument."""
import json
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
BUILD = Path(os.environ.get("BUILD", ROOT / "build" / "plain"))
BECKET = os.path.abspath(sys.argv[1] if len(sys.argv) > 1 else os.environ["BECKET"])
SANITIZED = os.environ.get("SANITIZED") == "yes"
TODAY = "2026-11-25"  # the demonstration's day

failures = 0


def check(name, holds, why=""):
    """One result; `why` is shown where it does not hold."""
    global failures
    failures += not holds
    print(("ok " if holds else "not ok ") + name, flush=True)
    if not holds and why != "":
        print("\n".join(f"    {line}" for line in str(why).splitlines()), flush=True)
    return bool(holds)


def same(name, expected, found):
    """One result: what was found is what is expected. Long values are shown from shortly before
    where they part."""
    wanted, got = repr(expected), repr(found)
    start = max(0, len(os.path.commonprefix([wanted, got])) - 60)
    return check(name, expected == found, f"should be {wanted[start:start + 300]}\n"
                 f"found     {got[start:start + 300]}")


def skip(name, why):
    """Says that something can't be tested here."""
    print(f"skip {name}: {why}", flush=True)


def skip_without(name, *programs):
    """Ends the script when a program it needs is not there."""
    for program in programs:
        if shutil.which(program) is None:
            skip(name, f"{program} is not installed")
            sys.exit(0)


def end():
    """Ends the script with the status that its results give it."""
    sys.exit(1 if failures else 0)


def scaled(count):
    """How many random cases to draw instead of `count`: times TESTS_SCALE, and a fifth of that
    with the sanitizers, which make every start of the program five times as dear."""
    scale = float(os.environ.get("TESTS_SCALE", "1")) / (5 if SANITIZED else 1)
    return max(1, round(count * scale))


def scratch():
    """A folder that is gone at the end of the `with` it is made in. In memory where there is
    such a place: thousands of small transactions need not wait for a disk."""
    memory = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None
    return tempfile.TemporaryDirectory(prefix="becket-", dir=memory)


class Book:
    """The program on one book, on a day. Its commands run in the book's folder, which is their
    home; `more` is added to their environment."""

    def __init__(self, path, today=TODAY, **more):
        self.path = Path(path)
        self.folder = self.path.parent
        self.today = today
        self.environment = {**os.environ, "HOME": str(self.folder), "TZ": "UTC",
                            "LC_ALL": "C.UTF-8", **more}
        self.environment.pop("BECKET_BOOK", None)

    def command(self, *words, today=None):
        """The words of the command line."""
        return [BECKET, "--book", str(self.path), "--today", str(today or self.today),
                *map(str, words)]

    def run(self, *words, today=None, env=None, **how):
        """The finished command: returncode, stdout, stderr. `env` is added for this once."""
        home = self.folder if self.folder.is_dir() else None
        return subprocess.run(self.command(*words, today=today), cwd=home,
                              env={**self.environment, **(env or {})},
                              capture_output=True, encoding="utf-8",
                              check=False, stdin=subprocess.DEVNULL, **how)

    def must(self, *words, status=(0,), today=None):
        """What the command printed; another status than these ends the script, with words."""
        done = self.run(*words, today=today)
        if done.returncode not in status:
            print(f"not ok {' '.join(map(str, words))} ended with {done.returncode}, expected "
                  f"{' or '.join(map(str, status))}: {done.stderr.strip()}", flush=True)
            sys.exit(1)
        return done.stdout

    def ask(self, *words, today=None):
        """The answer in JSON; 1 is an answer too: "not all right"."""
        return json.loads(self.must(*words, "--json", status=(0, 1), today=today))

    def copy(self, name):
        """A copy of the book beside it."""
        path = self.path.with_name(name)
        for ending in ("", "-wal", "-shm"):
            Path(f"{path}{ending}").unlink(missing_ok=True)
            if Path(f"{self.path}{ending}").exists():
                shutil.copy(f"{self.path}{ending}", f"{path}{ending}")
        other = Book(path, self.today)
        other.environment = self.environment
        return other


def demonstration(folder):
    """The demonstration's two books, made anew in the folder: the owner's and the fleet's."""
    books = [Book(Path(folder) / f"{name}.db") for name in ("owner", "fleet")]
    done = subprocess.run(
        ["sh", str(ROOT / "data/demo/make-demo.sh"), BECKET, *(str(b.path) for b in books)],
        env=books[0].environment, capture_output=True, text=True, check=False)
    if done.returncode != 0:
        print(f"not ok make-demo.sh ended with {done.returncode}: {done.stderr.strip()}")
        sys.exit(1)
    return books
