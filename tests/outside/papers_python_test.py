#!/usr/bin/env python3
"""Papers seen from outside: Python writes random bytes behind the marks of a format, and what
is brought out again has the same bytes and the digest that Python finds. Other commands do
not read the papers of a book of 200."""
import hashlib
import json
import os
import random
import sqlite3
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BECKET, Book, check, end, scratch  # noqa: E402

SEED = 20261125
HEADS = {
    "png": b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\x10\0\0\0\x10\x08\2\0\0\0",
    "pdf": b"%PDF-1.4\n",
    "jpg": b"\xff\xd8\xff\xe0\0\x10JFIF\0\1\1\0\0\1\0\1\0\0",
}


def becket(folder, *words, good=True):
    """The finished command."""
    done = Book(folder / "boats.book").run(*map(os.fsdecode, words))
    if good and done.returncode != 0:
        check(" ".join(words[:3]), False, done.stderr)
    return done


def write_papers(folder, count, size, rng):
    """Files with names of the world and random bytes; their bytes by name."""
    made = {}
    for i in range(count):
        ending = rng.choice(list(HEADS))
        name = f"{rng.choice(['label', 'Blåskjell', 'Σωσίβιο', '救命', '🛟'])} {i}.{ending}"
        made[name] = HEADS[ending] + rng.randbytes(rng.randrange(size))
        (folder / name).write_bytes(made[name])
    return made


def check_round_trip(folder, rng):
    made = write_papers(folder, 200, 200_000, rng)
    becket(folder, "attach", "LR-1", *made)
    listed = json.loads(becket(folder, "papers", "LR-1", "--json").stdout)
    check("200 are listed", len(listed) == 200, len(listed))
    wrong = [paper["name"] for paper in listed
             if paper["sha256"] != hashlib.sha256(made[paper["name"]]).hexdigest()
             or paper["size"] != len(made[paper["name"]])]
    check("each has the digest and the size that Python finds", not wrong, wrong[:3])
    becket(folder, "papers", "LR-1", "--out", "out")
    came = {path.name.split("-", 1)[1]: path.read_bytes()
            for path in (folder / "out").iterdir()}
    check("each comes out bit for bit under its own name", came == made,
          sorted(set(came) ^ set(made))[:3])
    again = becket(folder, "papers", "LR-1", "--out", "out", good=False)
    check("nothing is written over", again.returncode == 3, again.returncode)


def check_hostile_names(folder):
    """Files that may be called so where they are, but nowhere else."""
    (folder / "odd").mkdir()
    names = ["..\n<b>\x1b[2J.png", "\u202egnp.png", "C:\\x\".png", "." + "y" * 240 + ".png",
             b"\xff\xfe.png"]
    for number, name in enumerate(names):
        path = os.path.join(os.fsencode(folder / "odd"), os.fsencode(name))
        with open(path, "wb") as file:
            file.write(HEADS["png"] + bytes([number]))
        becket(folder, "attach", "LR-2", path)
    becket(folder, "papers", "LR-2", "--out", "safe")
    found = sorted(path.name.split("-", 1)[1] for path in (folder / "safe").iterdir())
    check("names are made safe and nothing else is written",
          found == sorted(["_.__b__[2J.png", "_gnp.png", "C__x_.png", "_" + "y" * 115 + ".png",
                           "__.png"]), found)
    again = [path.name for path in folder.iterdir() if path.is_dir()]
    check("no folder was made on the way", set(again) == {"odd", "safe", "out"}, again)


def bytes_read(folder, *words):
    """How many bytes a command reads: the kernel adds a finished child's to the shell's."""
    script = '"$0" "$@" >/dev/null && cat "/proc/$$/io"'
    done = subprocess.run(
        ["sh", "-c", script, BECKET, "--book", f"{folder}/boats.book", *words],
        cwd=folder, capture_output=True, text=True, check=False, timeout=120)
    lines = dict(line.split(": ") for line in done.stdout.splitlines())
    return int(lines["rchar"])


def check_not_read(folder):
    size = (folder / "boats.book").stat().st_size
    check("the book holds them all", size > 15_000_000, size)
    for words in (["list"], ["due", "--json"], ["show", "LR-1"], ["papers"]):
        count = bytes_read(folder, *words)
        check(f"{words[0]} does not read them", count < 1_500_000, f"{count} bytes read")


def check_hostile_book(folder):
    """A name that somebody wrote into the file with other means leads nowhere."""
    with sqlite3.connect(folder / "boats.book") as book:
        book.execute("DELETE FROM paper WHERE id > 1")
        book.execute("UPDATE paper SET name = ?", ("../../out of\nhere.png",))
    becket(folder, "papers", "LR-1", "--out", "deep")
    found = [path.name for path in (folder / "deep").iterdir()]
    check("a name in the file leads nowhere", found == ["1-out of_here.png"], found)
    with sqlite3.connect(folder / "boats.book") as book:
        book.execute("UPDATE paper SET bytes = zeroblob(size)")
    done = becket(folder, "book", "check", good=False)
    check("a check of the book finds them", done.returncode == 1 and "SHA-256" in done.stdout,
          f"{done.returncode} {done.stdout}")
    done = becket(folder, "papers", "LR-1", "--out", "spoilt", good=False)
    check("bytes that are spoilt are not given out",
          done.returncode == 3 and "SHA-256" in done.stderr and
          not (folder / "spoilt").exists(), done.stderr)


def main():
    rng = random.Random(SEED)
    print(f"papers: seed {SEED}")
    with scratch() as name:
        folder = Path(name)
        becket(folder, "vessel", "Amber Tern")
        becket(folder, "enter", "liferaft-canister", "--vessel", "Amber Tern", "--tag", "LR-1")
        becket(folder, "enter", "liferaft-canister", "--vessel", "Amber Tern", "--tag", "LR-2")
        check_round_trip(folder, rng)
        check_hostile_names(folder)
        check_not_read(folder)
        check_hostile_book(folder)
    end()


main()
