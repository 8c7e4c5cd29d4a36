"""What README.md shows is what the program says.

    readme_test.py BECKET [--write]

Runs each `$ becket ...` of the README's console blocks, in their order, on the owner's
demonstration book, and compares the output with the lines below it. A line `...` stands for
lines left out. With --write, blocks that show no output at all are filled in: read the
difference before you keep it."""
import shlex
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BECKET, ROOT, check, demonstration, end, scratch  # noqa: E402

README = ROOT / "README.md"
START = "```console\n$ becket "


def matches(shown, said):
    """True when the shown lines are what was said, `...` standing for any lines."""
    if not shown:
        return not said
    if shown[0] == "...":
        return any(matches(shown[1:], said[skip:]) for skip in range(len(said) + 1))
    return bool(said) and shown[0] == said[0] and matches(shown[1:], said[1:])


def run(owner, words):
    """What the command says on the demonstration book, line by line."""
    done = subprocess.run([BECKET, *shlex.split(words)], cwd=owner.folder, check=False,
                          capture_output=True, encoding="utf-8",
                          env={**owner.environment, "BECKET_BOOK": str(owner.path)})
    if done.returncode != 0:
        return [f"(exit status {done.returncode})", *done.stderr.splitlines()]
    return done.stdout.splitlines()


def main():
    write = "--write" in sys.argv[2:]
    text = README.read_text(encoding="utf-8")
    first, *blocks = text.split(START)
    with scratch() as folder:
        owner, _ = demonstration(folder)
        for index, block in enumerate(blocks):
            inside, after = block.split("```", 1)
            words, *shown = inside.rstrip("\n").split("\n")
            said = run(owner, words)
            if write and not shown:
                blocks[index] = "\n".join([words, *said]) + "\n```" + after
            check(f"README.md: becket {words}", write or matches(shown, said), "\n".join(said))
    check("README.md shows commands", blocks)
    if write:
        README.write_text(START.join([first, *blocks]), encoding="utf-8")
    end()


main()
