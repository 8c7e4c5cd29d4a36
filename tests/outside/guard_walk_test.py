#!/usr/bin/env python3
"""A random walk through the commands that write: after every one that is accepted, `book check`
finds nothing, and one that is refused has changed nothing.

    guard_walk_test.py BECKET

A few boats with jackets, their parts and a raft; then import, enter, amend, move, land, return,
withdraw, reserve, stand-in, record and undo at random, seeded, with tags drawn from all there
are, so that most of what a person can do wrong is done. The oracle is `book check` over the whole
book; the program's guard looks at what was touched alone, and is a separate code path.
"""
import json
import os
import random
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "support"))
from harness import scaled  # noqa: E402

SEEDS = (1, 2, 3)
STEPS = scaled(150)
BOATS = ("Quillfish", "Brambling", "Egret")
TODAY = "2026-11-25"


class Walk:
    def __init__(self, becket, folder, seed):
        self.becket = becket
        self.folder = folder
        self.draw = random.Random(seed)
        self.environment = dict(os.environ, BECKET_BOOK=os.path.join(folder, "book.db"),
                                TZ="UTC", LC_ALL="C.UTF-8")
        self.accepted = 0
        self.refused = 0

    def run(self, *words):
        return subprocess.run([self.becket, "--today", TODAY, *words], cwd=self.folder,
                              env=self.environment, capture_output=True, text=True,
                              stdin=subprocess.DEVNULL, timeout=60, check=False)

    def open(self):
        for boat in BOATS:
            self.run("vessel", boat, "--base", "North quay")
        self.run("station", "Loft")
        for number, boat in enumerate(BOATS, 1):
            self.run("enter", "lifejacket-auto", "--vessel", boat, "--tag", f"LJ-{number}",
                     "--made", "2024-05")
            self.run("enter", "gas-cylinder", "--vessel", boat, "--tag", f"CY-{number}",
                     "--part-of", f"LJ-{number}")
            self.run("enter", "liferaft-canister", "--vessel", boat, "--tag", f"LR-{number}")
            self.run("enter", "flare-red-hand", "--vessel", boat, "--tag", f"FL-{number}",
                     "--quantity", "4")

    def items(self):
        listed = self.run("list", "--all", "--json")
        return json.loads(listed.stdout or "[]")

    def step(self, tags):
        draw = self.draw
        tag, other = draw.choice(tags), draw.choice(tags)
        boat = draw.choice(BOATS)
        row = os.path.join(self.folder, "rows.csv")
        if draw.random() < 0.2:
            whole = draw.choice(["", other])
            state = draw.choice(["aboard", "withdrawn", "landed", "reserve"])
            kind = next(item["kind"] for item in self.known if item["tag"] == tag)
            with open(row, "w", encoding="utf-8") as file:
                file.write("tag,vessel,kind,part_of,state\n"
                           f"{tag},{boat},{kind},{whole},{state}\n")
            return ("import", row)
        return draw.choice([
            ("enter", "gas-cylinder", "--vessel", boat, "--part-of", other),
            ("amend", tag, "--part-of", other),
            ("amend", tag, "--part-of", ""),
            ("amend", tag, "--vessel", boat),
            ("amend", tag, "--state", draw.choice(["aboard", "reserve", "withdrawn"])),
            ("move", tag, "--vessel", boat),
            ("move", tag, "--vessel", boat, "--alone"),
            ("move", tag, "--spares", "North quay"),
            ("land", tag, "--to", "Loft"),
            ("return", tag),
            ("return", tag, "--result", "condemned"),
            ("withdraw", tag, "--because", draw.choice(["lost", "sold", "condemned"])),
            ("withdraw", tag, "--because", "used", "--keep", other),
            ("reserve", tag),
            ("reserve", tag, "--aboard"),
            ("stand-in", "liferaft-valise", "--for", tag, "--until", "2027-05-01"),
            ("record", "service", tag, "--on", "2026-11-01", "--next", "2026-10"),
            ("record", "renew", tag, "--on", "2026-11-02", "--new"),
            ("record", "renew", tag, "--on", "2026-11-02", "--refit", "--expires", "2031-05"),
            ("book", "undo"),
            ("book", "undo", str(draw.randrange(1, 40))),
        ])

    def walk(self):
        self.open()
        before = None
        for number in range(STEPS):
            if before is None:  # what was refused has left it as it was
                before = self.run("export", "-").stdout
                self.known = self.items()
            words = self.step([item["tag"] for item in self.known])
            done = self.run(*words)
            if done.returncode == 0:
                self.accepted += 1
                before = None
                check = self.run("book", "check")
                if check.returncode != 0:
                    return f"step {number}, {words}: accepted, and check says:\n{check.stdout}"
            elif done.returncode in (1, 2):
                self.refused += 1
                if self.run("export", "-").stdout != before:
                    return f"step {number}, {words}: refused, and yet something changed"
            else:
                return f"step {number}, {words}: status {done.returncode}: {done.stderr}"
        return None


def main():
    becket = os.path.abspath(sys.argv[1])
    wrong = 0
    for seed in SEEDS:
        with tempfile.TemporaryDirectory() as folder:
            walk = Walk(becket, folder, seed)
            fault = walk.walk()
            print(f"{'not ok' if fault else 'ok'} seed {seed}: {walk.accepted} accepted, "
                  f"{walk.refused} refused" + (f"; {fault}" if fault else ""))
            wrong += bool(fault)
            if walk.accepted < STEPS / 5 or walk.refused < STEPS / 8:
                print(f"not ok seed {seed}: too few of one sort to tell anything")
                wrong += 1
    return wrong > 0


if __name__ == "__main__":
    sys.exit(main())
