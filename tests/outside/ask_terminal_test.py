"""On a terminal, a serial number that should be read again is asked about; elsewhere it is
refused. The same command with each answer, on a pseudo-terminal."""
import os
import pty
import subprocess
import sys
import tempfile
from pathlib import Path


def run(becket, book, *words):
    return subprocess.run([becket, "--book", str(book), "--today", "2026-11-25", *words],
                          capture_output=True, text=True, check=False)


def on_terminal(becket, book, answer, *words):
    """The exit status and what the terminal shows."""
    pid, terminal = pty.fork()
    if pid == 0:
        os.execv(becket, [becket, "--book", str(book), "--today", "2026-11-25", *words])
    shown = b""
    asked = False
    while True:
        try:
            piece = os.read(terminal, 4096)
        except OSError:
            break
        if not piece:
            break
        shown += piece
        if not asked and b"Go on? [y/N]" in shown:
            asked = True
            os.write(terminal, answer)
    os.close(terminal)
    status = os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1])
    return status, shown.decode("utf-8", "replace"), asked


def main():
    becket = os.path.abspath(sys.argv[1])
    answers = []
    with tempfile.TemporaryDirectory(prefix="becket-ask-") as scratch:
        os.environ["HOME"] = scratch
        book = Path(scratch) / "book.db"
        run(becket, book, "vessel", "Quillfish")
        run(becket, book, "enter", "plb", "--vessel", "Quillfish", "--tag", "PL-1",
            "--serial", "P-1100")
        near = ("enter", "plb", "--vessel", "Quillfish", "--tag", "PL-2", "--serial", "P-1101")
        refused = run(becket, book, *near)
        answers.append(("without a terminal it is refused",
                        refused.returncode == 2 and "--serials-are-right" in refused.stderr))
        for answer in (b"n\n", b"\n", b"\x04"):
            status, shown, asked = on_terminal(becket, book, answer, *near)
            there = '"PL-2"' in run(becket, book, "list", "--json").stdout
            answers.append((f"asked, {answer!r} enters nothing",
                            asked and status == 2 and not there and "P-1100" in shown))
        status, shown, asked = on_terminal(becket, book, b"y\n", *near)
        there = '"PL-2"' in run(becket, book, "list", "--json").stdout
        answers.append(("asked, yes enters it", asked and status == 0 and there))
        status, shown, asked = on_terminal(
            becket, book, b"", "enter", "plb", "--vessel", "Quillfish", "--serial", "P-1102",
            "--serials-are-right")
        answers.append(("answered beforehand it is not asked", status == 0 and not asked))
    for name, good in answers:
        print(("ok " if good else "not ok ") + name)
    return 0 if all(good for _, good in answers) else 1


sys.exit(main())
