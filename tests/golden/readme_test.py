"""What README.md shows is what the program says.

    readme_test.py BECKET [--write]

Runs each `$ becket ...` of the README's console blocks, in their order, on the owner's
demonstration book, and compares the output with the lines below it. A line `...` stands for
lines left out. With --write, blocks that show no output at all are filled in: read the
difference before you keep it."""
import os
import shlex
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
README = ROOT / "README.md"
START = "```console\n$ becket "


def matches(shown, said):
    """True when the shown lines are what was said, `...` standing for any lines."""
    if not shown:
        return not said
    if shown[0] == "...":
        return any(matches(shown[1:], said[skip:]) for skip in range(len(said) + 1))
    return bool(said) and shown[0] == said[0] and matches(shown[1:], said[1:])


def run(becket, words, scratch):
    """What the command says on the demonstration book, line by line."""
    done = subprocess.run([becket, *shlex.split(words)], capture_output=True, text=True,
                          cwd=scratch, check=False,
                          env={**os.environ, "BECKET_BOOK": f"{scratch}/owner.db"})
    if done.returncode != 0:
        return [f"(exit status {done.returncode})", *done.stderr.splitlines()]
    return done.stdout.splitlines()


def main():
    becket = os.path.abspath(sys.argv[1])
    write = "--write" in sys.argv[2:]
    text = README.read_text(encoding="utf-8")
    first, *blocks = text.split(START)
    bad = 0
    with tempfile.TemporaryDirectory() as scratch:
        subprocess.run(["sh", ROOT / "data/demo/make-demo.sh", becket,
                        f"{scratch}/owner.db", f"{scratch}/fleet.db"], check=True)
        for index, block in enumerate(blocks):
            inside, after = block.split("```", 1)
            words, *shown = inside.rstrip("\n").split("\n")
            said = run(becket, words, scratch)
            if write and not shown:
                blocks[index] = "\n".join([words, *said]) + "\n```" + after
            good = write or matches(shown, said)
            print(f"{'ok' if good else 'not ok'} README.md: becket {words}")
            if not good:
                bad += 1
                print("\n".join(said))
    if not blocks:
        print("not ok README.md shows no command at all")
        return 1
    if write:
        README.write_text(START.join([first, *blocks]), encoding="utf-8")
    return 1 if bad else 0


sys.exit(main())
