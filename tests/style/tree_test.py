"""What is kept in the tree: nothing at the top but what belongs there, nothing made by a
build, nobody else's code, no address of a package registry; no check that is never run; and
no comment that is too wide to read, which clang-format leaves alone."""
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(os.environ["ROOT"])
TOP = {"README.md", "DEVELOPERS.md", "LICENSE", "meson.build", "src", "data", "tests",
       "calendars"}
NOT_OURS = re.compile(
    r"(^|/)(node_modules|vendor|vendored|third[-_]party|external|subprojects|deps)(/|$)"
    r"|(^|/)sqlite3\.[ch]$|\.min\.js$|\.min\.css$")
MADE = re.compile(r"\.(o|a|so|pyc|db|db-wal|db-shm)$|(^|/)(build|__pycache__)(/|$)")
# Written in halves, so that this file passes its own test.
REGISTRIES = ["registry." + "npm", "registry." + "yarn", "npmjs" + ".", "py" + "pi.",
              "python" + "hosted", "crates" + ".io", "proxy." + "golang", "ruby" + "gems.",
              "deb." + "debian", "security." + "debian", "maven" + ".org",
              "docker" + ".io", "ghcr" + ".io"]
COMMENT_COLUMNS = 100
# What begins a comment and what ends it, by a file's suffix; None: the line.
IN_C = [(r"/\*", "*/")]
IN_SHELL = [(r"^\s*#", None)]
COMMENTS = {"c": IN_C, "h": IN_C, "sh": IN_SHELL, "py": [*IN_SHELL, (r'^\s*"""(?=\w)', '"""')]}


def kept():
    """Paths of everything in the tree that git would keep; all files where there is no git."""
    if shutil.which("git"):
        listing = subprocess.run(
            ["git", "-C", str(ROOT), "ls-files", "-z", "--cached", "--others",
             "--exclude-standard"], capture_output=True, text=True, check=False)
        if listing.returncode == 0:
            return [name for name in listing.stdout.split("\0") if name]
    return [str(path.relative_to(ROOT)) for path in ROOT.rglob("*") if path.is_file()
            and not MADE.search(str(path.relative_to(ROOT)))
            and "node_modules" not in path.parts]


def say(name, wrong):
    """One result line; `wrong` lists what is amiss."""
    print(f"not ok {name}: {', '.join(wrong[:20])}" if wrong else f"ok {name}")
    return not wrong


def never_run(names):
    """Checks that no meson.build of the tests names."""
    named = (ROOT / "tests/meson.build").read_text(encoding="utf-8")
    units = (ROOT / "tests/unit/meson.build").read_text(encoding="utf-8")
    scripts = [name for name in names
               if re.fullmatch(r"tests/(style|golden|outside)/\w+_test\.(sh|py)", name)]
    return [name for name in scripts if f"'{name.removeprefix('tests/')}'" not in named] + [
        name for name in names if re.fullmatch(r"tests/unit/\w+_test\.c", name)
        and f"'{name.split('/')[-1].removesuffix('_test.c')}': " not in units]


def wide_comments(name):
    """The lines of a source that are comments, or end in one of C's, and are too wide."""
    found, end = [], None
    for number, line in enumerate((ROOT / name).read_text(encoding="utf-8").splitlines(), 1):
        rest, comment = line, end is not None
        for begins, ends in COMMENTS[name.rsplit(".", 1)[1]]:
            begun = None if comment else re.search(begins, line)
            if begun:
                comment, end, rest = True, ends, line[begun.end():]
        if end is not None and end in rest:
            end = None
        if comment and len(line.expandtabs(8)) > COMMENT_COLUMNS:
            found.append(f"{name}:{number}")
    return found


def main():
    names = kept()
    tops = {name.split("/")[0] for name in names}
    strangers = sorted(top for top in tops - TOP if not top.startswith("."))
    missing = sorted(TOP - tops)
    hosts = []
    for name in names:
        path = ROOT / name
        if path.is_file():
            text = path.read_bytes().decode("utf-8", "replace").lower()
            hosts += [f"{name} ({host})" for host in REGISTRIES if host in text]
    good = [
        say("there are files to look at", [] if len(names) > 20 else ["too few"]),
        say("the top level holds only what belongs there", strangers),
        say("the top level holds all that belongs there", missing),
        say("nobody else's code is kept", [n for n in names if NOT_OURS.search(n)]),
        say("nothing made by a build is kept", [n for n in names if MADE.search(n)]),
        say("no package registry is named", hosts),
        say(f"no comment is wider than {COMMENT_COLUMNS} columns",
            [place for name in names if re.match(r"(src|tests)/.*\.(c|h|py|sh)$", name)
             for place in wide_comments(name)]),
        say("every check is in a meson.build of the tests", never_run(names)),
    ]
    return 0 if all(good) else 1


sys.exit(main())
