"""On a terminal, a serial number that should be read again is asked about; elsewhere it is
refused. The same command with each answer, on a pseudo-terminal."""
import os
import pty
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BECKET, Book, check, end, scratch  # noqa: E402


def on_terminal(book, answer, *words):
    """The exit status and what the terminal shows."""
    pid, terminal = pty.fork()
    if pid == 0:
        os.execve(BECKET, book.command(*words), book.environment)
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
    with scratch() as folder:
        book = Book(Path(folder) / "book.db")
        book.must("vessel", "Quillfish")
        book.must("enter", "plb", "--vessel", "Quillfish", "--tag", "PL-1",
            "--serial", "P-1100")
        near = ("enter", "plb", "--vessel", "Quillfish", "--tag", "PL-2", "--serial", "P-1101")
        refused = book.run(*near)
        check("without a terminal it is refused",
              refused.returncode == 2 and "--serials-are-right" in refused.stderr)
        for answer in (b"n\n", b"\n", b"\x04"):
            status, shown, asked = on_terminal(book, answer, *near)
            there = "PL-2" in [item["tag"] for item in book.ask("list")]
            check(f"asked, {answer!r} enters nothing",
                  asked and status == 2 and not there and "P-1100" in shown)
        status, shown, asked = on_terminal(book, b"y\n", *near)
        there = "PL-2" in [item["tag"] for item in book.ask("list")]
        check("asked, yes enters it", asked and status == 0 and there)
        status, shown, asked = on_terminal(
            book, b"", "enter", "plb", "--vessel", "Quillfish", "--serial", "P-1102",
            "--serials-are-right")
        check("answered beforehand it is not asked", status == 0 and not asked)
    end()


main()
