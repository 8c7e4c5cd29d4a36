"""A command on a pseudo-terminal, and a person who answers its questions."""
import os
import pty
import select

from harness import BECKET


class Talk:
    """One command: each of its questions, known by a part of it, is given its answer; a question
    that was not expected ends the input. `answers` are pairs of a part and an answer, or of a part
    and several answers, one each time it is asked. Afterwards: status, what was shown, how many
    questions were answered, the parts of those that were never asked."""

    def __init__(self, book, answers, *words, today=None):
        self.shown, self.asked = "", 0
        pid, terminal = pty.fork()
        if pid == 0:
            os.execve(BECKET, book.command(*words, today=today), {**book.environment, "PAGER": "cat"})
        left = [(part, answer) for part, told in answers
                for answer in ([told] if isinstance(told, str) else told)]
        seen = 0
        while True:
            ready, _, _ = select.select([terminal], [], [], 60)
            try:
                piece = os.read(terminal, 4096) if ready else b""
            except OSError:
                break
            if not piece:
                break
            self.shown += piece.decode("utf-8", "replace")
            question = self.shown[seen:]
            if question.rstrip(" ").endswith(("?", ":", "]")) and question.endswith(" "):
                fits = [one for one in left if one[0] in question]
                os.write(terminal, fits[0][1].encode() + b"\n" if fits else b"\x04")
                for one in fits[:1]:
                    left.remove(one)
                self.asked += len(fits[:1])
                seen = len(self.shown)
        os.close(terminal)
        self.status = os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1])
        self.left = [part for part, _ in left]
