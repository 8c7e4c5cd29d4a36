"""What is pushed, as calendar programs that no one here wrote take it: fetched with
vdirsyncer, read with khal, changed on a person's side and carried back."""
import os
import subprocess
import sys

ROOT = os.environ.get("ROOT") or os.path.join(os.path.dirname(__file__), "..", "..")
sys.path.insert(0, os.path.join(ROOT, "tests", "support"))
import caldav_bench  # noqa: E402
from caldav_bench import Book, Server, check, skip_without, values, visible  # noqa: E402

os.environ.setdefault("BECKET", sys.argv[1] if len(sys.argv) > 1 else "becket")
NAME = "Båtutstyr Σωσίβια 救命 🛟"


class Person:
    """Somebody with vdirsyncer and khal, and a folder of events."""

    def __init__(self, server, collection):
        home = os.path.join(caldav_bench.scratch, "person")
        self.events = os.path.join(home, "events", collection)
        os.makedirs(os.path.join(home, "events"))
        self.environment = {**os.environ, "HOME": home, "XDG_CONFIG_HOME": home,
                            "XDG_DATA_HOME": home, "XDG_CACHE_HOME": home,
                            "LC_ALL": "C.UTF-8", "TZ": "UTC"}
        self.config = os.path.join(home, "vdirsyncer")
        with open(self.config, "w", encoding="utf-8") as file:
            file.write(
                f'[general]\nstatus_path = "{home}/status"\n'
                '[pair boats]\na = "here"\nb = "there"\n'
                f'collections = ["{collection}"]\nconflict_resolution = "a wins"\n'
                f'[storage here]\ntype = "filesystem"\npath = "{home}/events"\n'
                'fileext = ".ics"\n'
                f'[storage there]\ntype = "caldav"\nurl = "{server.url}"\n'
                f'username = "{caldav_bench.USER}"\n'
                f'password.fetch = ["command", "cat", "{home}/password"]\n')
        with open(os.path.join(home, "password"), "w", encoding="utf-8") as file:
            file.write(caldav_bench.PASSWORD)
        self.khal_config = os.path.join(home, "khal")
        with open(self.khal_config, "w", encoding="utf-8") as file:
            file.write(f"[calendars]\n[[boats]]\npath = {self.events}\n"
                       f"[sqlite]\npath = {home}/khal.db\n"
                       "[locale]\ndateformat = %Y-%m-%d\nlongdateformat = %Y-%m-%d\n"
                       "timeformat = %H:%M\ndatetimeformat = %Y-%m-%d %H:%M\n"
                       "longdatetimeformat = %Y-%m-%d %H:%M\n"
                       "local_timezone = UTC\ndefault_timezone = UTC\n")

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
            seen.update(values(text))
        return seen

    def khal(self):
        """What khal lists: sorted (day, title, description)."""
        text = self.run("khal", "-c", self.khal_config, "list", "--format",
                        "{start-date}\x1f{title}\x1f{description}\x1e", "--day-format", "",
                        "2026-11-01", "2027-12-31")
        rows = [row.strip("\n").split("\x1f") for row in text.split("\x1e")]
        return sorted(tuple(row) for row in rows if len(row) == 3)


def as_khal(everything):
    """Values in khal's form."""
    return sorted((str(seen[0]), seen[2], seen[3]) for seen in everything.values())


def main():
    skip_without("radicale", "vdirsyncer", "khal")
    server = Server("radicale")
    book = Book("clients").fill()
    done, told = book.push(server.url, "--calendar", NAME, "--make")
    check("clients: pushed", done.returncode == 0, done.stderr)
    person = Person(server, told["url"].rstrip("/").rsplit("/", 1)[1])
    person.discover()
    person.sync()
    wanted = book.file()
    check("clients: vdirsyncer fetches every value as the file has it",
          person.values() == wanted)
    check("clients: khal lists every reminder on its day, with its words",
          person.khal() == as_khal(wanted), f"{person.khal()[:2]} {as_khal(wanted)[:2]}")

    book.must("station", "Flåteverksted; \"Øst\", Ås", "--turn-round", "50")
    book.must("withdraw", "LR-2", "--because", "sold")
    names = set(person.files())
    done, told = book.push(None)
    person.sync()
    check("clients: what moved is moved and what is dropped goes, with no doubles",
          told["changed"] > 0 and told["removed"] > 0 and person.values() == book.file() and
          set(person.files()) < names and person.khal() == as_khal(book.file()),
          done.stderr)
    done, told = book.push(None)
    before = person.files()
    person.sync()
    check("clients: nothing new is nothing new", person.files() == before and
          told["changed"] == told["created"] == told["removed"] == 0)

    # the person rewords one and removes another, in a program of their own
    uids = sorted(book.file())
    for name, text in person.files().items():
        path = os.path.join(person.events, name)
        if uids[0] in text:
            with open(path, "w", encoding="utf-8", newline="") as file:
                file.write(text.replace("SUMMARY:", "SUMMARY:Først! ", 1))
        elif uids[1] in text:
            os.remove(path)
    person.sync()
    before = person.files()
    done, told = book.push(None)
    found = {row["uid"]: row["found"] for row in told["reminders"] if row["found"]}
    person.sync()
    check("clients: what a person changed with vdirsyncer is found and left",
          done.returncode == 1 and found == {uids[0]: "edited", uids[1]: "removed"} and
          person.files() == before, found)
    done, told = book.push(None, "--keep", "ours")
    person.sync()
    check("clients: and put back when asked",
          done.returncode == 0 and visible(person.values()) == visible(book.file()),
          done.stderr)
    server.stop()
    return 1 if caldav_bench.failures else 0


sys.exit(main())
