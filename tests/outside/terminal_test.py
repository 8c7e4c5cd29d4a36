"""At a terminal: every screen fits its width at 60, 80 and 120 columns, a long answer goes through
the pager, a long reckoning says that it goes on, and the shells complete names of the book. Widths
are those of Unicode Standard Annex 11 as Python's unicodedata has them. A file or a pipe gets 80
columns, no pager and no word on standard error.

    terminal_test.py BECKET [--shells]

With `--shells` the pager and the completions alone, which no other test tries; without it the
rest."""
import fcntl
import os
import pty
import re
import shutil
import struct
import subprocess
import sys
import termios
import unicodedata
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BECKET, Book, check, demonstration, end, same, scratch, skip  # noqa: E402

SCREENS = ["now", "list", "due --all", "winter", "muster --remarks --season", "vessel", "station",
           "years 3", "rota", "ashore", "spent", "remind", "booking", "papers", "sheet list",
           "sheet show practice", "sheet compare practice uk-private", "book check", "book journal",
           "help", "help kinds", "help dates", "help enter", "help muster", "shore-papers --tags",
           "shore-papers --docket", "book upgrade", "people", "where raft"]
CHANGES = [["land", "LR-1", "--station", "Loft", "--on", "2026-11-25"], ["return", "LR-1", "--on", "2026-11-25"],
           ["amend", "LJ-1", "--place", "port cockpit locker under the seat beside the gas locker door"],
           ["booking", "Quillfish", "--from", "2027-06-05", "--to", "2027-06-12", "--persons", "4", "--note",
            "who comes and what they bring, in more words than one line of a narrow screen holds"],
           ["calendar", "out.ics"], ["withdraw", "LJ-4", "--because", "lost"], ["book", "undo"]]
# a command to be typed is not broken, nor the words of one choice
BIDDEN = re.compile(r"^ {2,}(becket |\[--\S+ \S+$|\S+$)")


def on_terminal(book, columns, rows, *words, **more):
    """The exit status and what the terminal shows, without colours or what was written over."""
    pid, terminal = pty.fork()
    if pid == 0:
        fcntl.ioctl(1, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
        os.chdir(book.folder)
        os.execve(BECKET, book.command(*words), {**book.environment, "NO_COLOR": "1", **more})
    shown = b""
    while True:
        try:
            piece = os.read(terminal, 65536)
        except OSError:
            break
        if not piece:
            break
        shown += piece
    os.close(terminal)
    status = os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1])
    return status, shown.decode().replace("\r\n", "\n")


def width(line):
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1
               for c in line)


def crooked(lines):
    """Rows of tables that don't keep to their columns, as the rule below the head has them."""
    found, gaps = [], []
    for line in lines:
        if re.fullmatch(r" *-+(  +-+)+", line):
            gaps = [match.start() for match in re.finditer(r"(?<=-)  (?=-)", line)]
        elif line == "":
            gaps = []
        elif any(line[gap:gap + 2].strip() for gap in gaps):
            found.append(line)
    return found


def changes_fit(book):
    """What a change answers is folded to the screen, and a calendar is written to the byte."""
    wide = []
    for words in CHANGES:
        status, shown = on_terminal(book, 60, 0, *words)
        lines = [line.split("\r")[-1] for line in shown.split("\n") if not line.startswith("becket: ")]
        wide += [f"{' '.join(words)}: {status} {line}" for line in lines
                 if status != 0 or (width(line) > 60 and not BIDDEN.match(line))]
    same(f"{len(CHANGES)} changes fit 60 columns", [], wide)
    same("a calendar on a narrow terminal is the file to the byte",
         book.run("calendar", "-").stdout, on_terminal(book, 60, 0, "calendar", "-")[1].replace("\r", ""))


def fits(book, name):
    tags = [item["tag"] for item in book.ask("list")][:2]
    screens = [screen.split() for screen in SCREENS] + [
        [word, tag] for tag in tags for word in ("show", "why", "history")]
    for columns in (60, 80, 120):
        wide, bent = [], []
        if name == "owner" and columns == 60:  # the helps are the same of any book
            screens += [["help", command] for command in re.findall(r"^  ([a-z-]+)  ", book.must("help"), re.M)]
        for words in screens:
            _, shown = on_terminal(book, columns, 0, *words)
            # the notes on standard error are wrapped by the terminal itself
            lines = [line.split("\r")[-1] for line in shown.split("\n") if not line.startswith("becket: ")]
            wide += [f"{' '.join(words)}: {line}" for line in lines
                     if width(line) > columns and not BIDDEN.match(line)]
            # the stations' prices and what boats will be follow their tables at once
            bent += [f"{' '.join(words)}: {line}" for line in crooked(lines)
                     if words[0] not in ("station", "vessel")]
        same(f"{name}: {len(screens)} screens fit {columns} columns", [], wide)
        same(f"{name}: no row of a table is out of line at {columns} columns", [], bent)
    plain = book.run("list").stdout
    same(f"{name}: a pipe is 80 columns whatever the terminal", plain,
         on_terminal(book, 80, 0, "list")[1])


def paged(book):
    seen = book.folder / "seen"
    pager = {"PAGER": f"cat > {seen}"}
    plain = book.run("list").stdout
    status, shown = on_terminal(book, 80, 10, "list", **pager)
    check("a long answer goes through $PAGER", status == 0 and seen.read_text() == plain, shown)
    seen.unlink()
    status, shown = on_terminal(book, 80, 1000, "list", **pager)
    check("one that fits the screen does not", status == 0 and not seen.exists() and shown == plain, shown)
    for name, more in (("an empty PAGER", {"PAGER": ""}), ("cat", {"PAGER": "cat"}),
                       ("a pager that is not there", {"PAGER": "no-such-pager-here 2>/dev/null"})):
        same(f"{name}: the answer is there all the same", (0, plain),
             on_terminal(book, 80, 10, "list", **more))
    same("a pager that is left early is no failure", 0,
         on_terminal(book, 80, 10, "list", PAGER="head -1")[0])
    status, shown = on_terminal(book, 80, 10, "list", "--json", **pager)
    check("JSON is not paged", status == 0 and not seen.exists())
    done = book.run("list", env=pager)
    check("nor is what goes to no terminal", done.stdout == plain and not seen.exists())
    status, shown = on_terminal(book, 80, 10, "muster", **pager)
    same("the exit status is the answer's", book.run("muster").returncode, status)


def waiting(book):
    """The plan of the owner's years takes seconds; where it does not here, there is nothing to
    see."""
    _, shown = on_terminal(book, 80, 0, "years", "6")
    if "working it out" not in shown:
        skip("work over a second says so", "the years took less than a second")
        return
    check("work over a second says so, and takes it away again",
          re.search(r"working it out, \d+ s \r +\r\S", shown), repr(shown[:200]))
    check("without a terminal it says nothing",
          "working" not in book.run("years", "6").stderr)


def waiting_for_changes(folder):
    """What changes the book says so, too: a long list that is read at a terminal, which it asks
    about only when the word is gone."""
    book = Book(Path(folder) / "long.db")
    book.must("vessel", "Quillfish")
    rows = "".join(f"Quillfish,tether,TE-{n},2024-03\n" for n in range(20000))
    (book.folder / "long.csv").write_text("vessel,kind,tag,made\n" + rows)
    _, shown = on_terminal(book, 80, 0, "import", str(book.folder / "long.csv"), "--dry-run")
    check("the long list is read", "20000 added" in shown, repr(shown[-300:]))
    if "working it out" not in shown:
        skip("a change over a second says so", "the list took less than a second")
        return
    check("a change over a second says so, and takes it away again",
          re.search(r"working it out, \d+ s \r +\r\S", shown), repr(shown[:200]))


def completed(script, book, *words):
    """What bash offers for the last word."""
    lines = [f"source {script}", "COMP_WORDS=(" + " ".join(f"'{w}'" for w in (BECKET, *words)) + ")",
             f"COMP_CWORD={len(words)}", "_becket", 'printf "%s\\n" "${COMPREPLY[@]}"']
    done = subprocess.run(["bash", "-c", "\n".join(lines)], env={**book.environment, "BECKET_BOOK": str(book.path)},
                          capture_output=True, encoding="utf-8", check=False)
    return done.stdout.split("\n")[:-1]


def completions_of_fish(book):
    """What fish itself offers for a line, with the script read."""
    if shutil.which("fish") is None:
        skip("completions of fish", "fish is not installed")
        return
    script = book.folder / "becket.fish"
    script.write_text(book.must("help", "--completion", "fish").replace("-c becket", f"-p {BECKET}"))
    rows = (("show ", ["EP-1", "PL-1"]), ("show p", ["PL-1"]), ("list --vessel q", ["Quillfish"]),
            ("list --base port", ["Port Marrin"]), ("enter liferaft-v", ["liferaft-valise"]),
            ("land PL-1 --station L", ["Loft & Sons (east)"]), ("vessel Quillfish --use c", ["commercial"]),
            ("record we", ["weigh"]), ("wint", ["winter"]), ("due --strict --wi", ["--within"]),
            ("help pri", ["prices"]), (f"--book {book.path} show p", ["PL-1"]), ("due --json wint", []))
    lines = [f"source {script}", *(f"complete -C '{BECKET} {line}'; echo ." for line, _ in rows)]
    done = subprocess.run(["fish", "--no-config", "-c", "\n".join(lines)],
                          env={**book.environment, "BECKET_BOOK": str(book.path)},
                          capture_output=True, encoding="utf-8", check=False)
    offered = [[one.split("\t")[0] for one in part.split("\n") if one]
               for part in done.stdout.split(".\n")]
    for (line, wanted), found in zip(rows, offered):
        words = [word for word in found if line.endswith("--wi") or not word.startswith("--")]
        same(f"fish: becket {line.replace(str(book.path), 'BOOK')}", wanted, words)
    check("fish says nothing wrong", done.stderr == "" and len(offered) > len(rows), done.stderr)


def completions(folder):
    book = Book(Path(folder) / "names.db")
    book.must("vessel", "Ærlig Sjøgang", "--base", "Port Marrin")
    book.must("vessel", "Quillfish")
    book.must("station", "Loft & Sons (east)")
    book.must("enter", "plb", "--vessel", "Quillfish", "--tag", "PL-1")
    book.must("enter", "epirb", "--vessel", "Quillfish", "--tag", "EP-1")
    if shutil.which("bash") is None:
        skip("completions of bash", "bash is not installed")
    else:
        script = book.folder / "becket.bash"
        script.write_text(book.must("help", "--completion", "bash"))
        for words, offered in ((("show", "p"), ["PL-1"]), (("show", ""), ["EP-1", "PL-1"]),
                               (("list", "--vessel", "q"), ["Quillfish"]),
                               (("list", "--vessel", "æ"), ["Ærlig\\ Sjøgang"]),
                               (("list", "--base", "port"), ["Port\\ Marrin"]),
                               (("land", "PL-1", "--station", "L"), ["Loft\\ \\&\\ Sons\\ \\(east\\)"]),
                               (("enter", "liferaft-v"), ["liferaft-valise"]),
                               (("list", "--kind", "flares"), ["flares"]),
                               (("due", "--kind", "first"), ["first\\ aid", "first-aid-kit"]),
                               (("where", "pl"), ["PL-1"]), (("history", "e"), ["EP-1"]),
                               (("station", "lo"), ["Loft\\ \\&\\ Sons\\ \\(east\\)"])):
            found = [word for word in completed(script, book, *words) if not word.startswith("--")]
            same(f"bash: becket {' '.join(words)}", offered, found)
        same("bash: --book names whose", ["PL-1"],
             completed(script, Book(book.folder / "none.db"), "--book", str(book.path), "show", "p"))
    completions_of_fish(book)
    if shutil.which("zsh") is None:
        skip("completions of zsh", "zsh is not installed")
        return
    script = book.folder / "_becket"
    script.write_text(book.must("help", "--completion", "zsh").replace('_becket "$@"', ""))
    lines = ["_call_program() { shift; eval \"$*\" }", "compadd() { print -rl -- $names }",
             f"becket() {{ {BECKET} \"$@\" }}", "typeset -A opt_args", f"source {script}", "_becket_names boats"]
    done = subprocess.run(["zsh", "-f", "-c", "\n".join(lines)],
                          env={**book.environment, "BECKET_BOOK": str(book.path)},
                          capture_output=True, encoding="utf-8", check=False)
    same("zsh: names of boats", ["Quillfish", "Ærlig Sjøgang"], done.stdout.split("\n")[:-1])


def main():
    with scratch() as folder:
        owner, fleet = demonstration(folder)
        if "--shells" in sys.argv:
            paged(owner)
            completions(folder)
            end()
        fits(owner, "owner")
        fits(fleet, "fleet")
        changes_fit(owner.copy("changed.db"))
        waiting(owner)
        waiting_for_changes(folder)
    end()


main()
