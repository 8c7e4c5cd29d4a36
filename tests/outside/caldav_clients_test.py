"""What is pushed, as calendar programs that no one here wrote take it: fetched with
vdirsyncer, read with khal, changed on a person's side and carried back."""
import os
import sys

sys.path.insert(0, os.path.join(os.path.dirname(__file__), "..", "support"))
import caldav_bench  # noqa: E402
from caldav_bench import Book, Server, difference, visible  # noqa: E402
from calendar_person import Person, as_khal  # noqa: E402
from harness import check, end, skip_without  # noqa: E402

NAME = "Båtutstyr Σωσίβια 救命 🛟"


def person_at(server, collection):
    """Somebody who has the calendar from the server."""
    home = os.path.join(caldav_bench.scratch, "secret")
    with open(home, "w", encoding="utf-8") as file:
        file.write(caldav_bench.PASSWORD)
    return Person("person", f'type = "caldav"\nurl = "{server.url}"\n'
                  f'username = "{caldav_bench.USER}"\n'
                  f'password.fetch = ["command", "cat", "{home}"]\n', collection)


def main():
    skip_without("calendar pushes", "radicale", "vdirsyncer", "khal")
    server = Server("radicale")
    book = Book("clients").fill()
    done, told = book.push(server.url, "--calendar", NAME, "--create")
    check("clients: pushed", done.returncode == 0, done.stderr)
    person = person_at(server, told["url"].rstrip("/").rsplit("/", 1)[1])
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
    moved = difference(wanted, book.file())
    check("clients: what moved is moved and what is dropped goes, with no doubles",
          moved.keys() >= {"changed", "removed"} and moved.items() <= told.items() and
          person.values() == book.file() and
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
    end()


main()
