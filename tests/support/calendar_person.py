"""Somebody with calendar programs that no one here wrote: vdirsyncer to fetch, khal to read
events, todoman to read and tick off to-dos."""
import os
import subprocess

import caldav_bench


class Person:
    """A home of their own with a folder of what was fetched. `storage` is vdirsyncer's
    description of where from, without its head; `collection` is its name there, or None for an
    address that is one calendar."""

    def __init__(self, name, storage, collection=None):
        self.home = os.path.join(caldav_bench.scratch, name)
        folder = collection or "calendar"
        self.events = os.path.join(self.home, "events", folder)
        os.makedirs(os.path.join(self.home, "events"))
        if collection is None:
            os.makedirs(self.events)
        self.environment = {**os.environ, "HOME": self.home, "XDG_CONFIG_HOME": self.home,
                            "XDG_DATA_HOME": self.home, "XDG_CACHE_HOME": self.home,
                            "LC_ALL": "C.UTF-8", "TZ": "UTC"}
        self.config = os.path.join(self.home, "vdirsyncer")
        self.khal_config = os.path.join(self.home, "khal")
        self.todo_config = os.path.join(self.home, "todoman.py")
        here = self.events if collection is None else os.path.dirname(self.events)
        collections = "null" if collection is None else f'["{collection}"]'
        self.write(self.config,
                   f'[general]\nstatus_path = "{self.home}/status"\n'
                   '[pair boats]\na = "here"\nb = "there"\n'
                   f'collections = {collections}\nconflict_resolution = "b wins"\n'
                   f'[storage here]\ntype = "filesystem"\npath = "{here}"\n'
                   f'fileext = ".ics"\n[storage there]\n{storage}')
        self.write(self.khal_config,
                   f"[calendars]\n[[boats]]\npath = {self.events}\n"
                   f"[sqlite]\npath = {self.home}/khal.db\n"
                   "[locale]\ndateformat = %Y-%m-%d\nlongdateformat = %Y-%m-%d\n"
                   "timeformat = %H:%M\ndatetimeformat = %Y-%m-%d %H:%M\n"
                   "longdatetimeformat = %Y-%m-%d %H:%M\n"
                   "local_timezone = UTC\ndefault_timezone = UTC\n")
        self.write(self.todo_config,
                   f'path = "{self.home}/events/*"\ndate_format = "%Y-%m-%d"\n'
                   f'time_format = "%H:%M"\ncache_path = "{self.home}/todo.db"\n')

    @staticmethod
    def write(path, text):
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)

    def run(self, *words, answer=None):
        done = subprocess.run(words, capture_output=True, text=True, check=False,
                              env=self.environment, timeout=120, input=answer)
        if done.returncode != 0:
            raise RuntimeError(f"{words}: {done.stdout}{done.stderr}")
        return done.stdout + done.stderr

    def discover(self):
        self.run("vdirsyncer", "-c", self.config, "discover", answer="y\ny\ny\n")

    def sync(self):
        return self.run("vdirsyncer", "-c", self.config, "sync")

    def files(self):
        """{file name: text}"""
        found = {}
        for name in sorted(os.listdir(self.events)):
            if name.endswith(".ics"):
                path = os.path.join(self.events, name)
                with open(path, encoding="utf-8", newline="") as file:
                    found[name] = file.read()
        return found

    def values(self):
        seen = {}
        for text in self.files().values():
            seen.update(caldav_bench.values(text))
        return seen

    def khal(self):
        """What khal lists: sorted (day, title, description)."""
        text = self.run("khal", "-c", self.khal_config, "list", "--format",
                        "{start-date}\x1f{title}\x1f{description}\x1e", "--day-format", "",
                        "2026-11-01", "2027-12-31")
        rows = [row.strip("\n").split("\x1f") for row in text.split("\x1e")]
        return sorted(tuple(row) for row in rows if len(row) == 3)

    def todo(self, *words):
        """What todoman says."""
        return self.run("todoman", "--config", self.todo_config, *words)


def as_khal(everything):
    """Values in khal's form."""
    return sorted((str(seen[0]), seen[2], seen[3]) for seen in everything.values())
