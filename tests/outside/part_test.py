"""What is answered, written and refused with a part of the book loaded is what it is with all of
it: every command that reads no more than one piece or one boat needs, beside the same program built
so that it always reads everything. The book is the demonstration's fleet with what makes gear of
one boat hang on another: parts that stayed behind, stand-ins from elsewhere, stores, moved
bases."""
import random
import sqlite3
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
import harness  # noqa: E402

WHOLE = str(harness.BUILD / "tests/support/becket_whole")
SEED = 20261129


def tangle(book):
    """Makes gear of one boat hang on that of another."""
    book.must("vessel", "Spares Marrin", "--base", "Port Marrin", "--store", "yes", "--sheet",
              "practice")
    book.must("vessel", "Spares Lorne", "--base", "Cape Lorne", "--store", "yes", "--sheet",
              "practice")
    book.must("vessel", "Amberjay", "--base", "Cape Lorne", "--from", "2027-02-01")
    book.must("move", "BW-LJ-1", "--vessel", "Spares Marrin")
    book.must("move", "IQ-LJ-2", "--vessel", "Spares Lorne")
    book.must("land", "AJ-LR-1", "--to", "Marrin Raft Station", "--on", "2026-11-20")
    book.must("move", "DL-LR-1", "--vessel", "Harrowgull", "--on", "2026-11-21")
    book.must("stand-in", "DL-LR-1", "--for", "HG-LR-1", "--vessel", "Harrowgull")
    book.must("land", "HG-LR-1", "--to", "Marrin Raft Station", "--on", "2026-11-22")
    # a stand-in that has since gone to another boat than its own
    book.must("stand-in", "EF-LJ-2", "--for", "EF-LJ-1")
    book.must("land", "EF-LJ-1", "--to", "Marrin Safety Depot", "--on", "2026-11-22")
    book.must("move", "EF-LJ-2", "--vessel", "Foxmere")
    book.must("record", "inflated", "FM-LJ-3", "--on", "2026-11-01")
    book.must("reserve", "GW-LJ-1")
    # pieces of one lot on three boats, which have one number
    lot = next(row for row in book.ask("list", "--all") if row["quantity"] > 2)
    book.must("amend", lot["tag"], "--serial", "LOT-9 9")
    for boat in ("Kestrelvane", "Lowtide"):
        book.must("move", lot["tag"], "--quantity", "1", "--vessel", boat)
    book.must("amend", "FM-LJ-4", "--serial", "OLD-77 1")
    book.must("record", "renew", "FM-LJ-4", "--on", "2026-11-20", "--serial", "NEW-88 2")
    for tag, serial in (("FM-LJ-5", "COND-12345"), ("FM-LJ-6", "COND-98765"), ("GW-LJ-2", "COND-98766")):
        book.must("amend", tag, "--serial", serial, "--serials-are-right")
    for tag in ("FM-LJ-5", "FM-LJ-6"):
        book.must("withdraw", tag, "--because", "condemned")
    book.must("booking", "Amberjay", "--from", "2027-06-05", "--to", "2027-06-19", "--persons", "8")
    parts = [row for row in book.ask("list", "--all") if row.get("part_of")]
    wholes = sorted({row["part_of"] for row in parts})
    # parts that are withdrawn and stay on the boat their whole leaves
    for whole, boat in zip(wholes[3:40:6], ["Kestrelvane", "Foxmere", "Lowtide", "Emberfin"] * 2):
        mine = [row["tag"] for row in parts if row["part_of"] == whole]
        book.run("withdraw", mine[0], "--because", "lost")
        book.run("move", whole, "--vessel", boat)


def questions(drawn, tags, serials, lots, boats):
    """What is asked of one book; nothing is written."""
    for tag in drawn.sample(tags, harness.scaled(12)):
        yield ["show", tag]
        yield ["why", tag]
        yield ["why", tag, "--json"]
        yield ["papers", tag, "--json"]
        yield ["where", tag]
        yield ["where", tag, "--json"]
        yield ["history", tag]
    for serial in drawn.sample(serials, harness.scaled(8)):
        yield ["where", serial]
        yield ["where", serial.lower().replace("-", " "), "--json"]
        yield ["history", serial]
        yield ["history", serial.lower().replace("-", "."), "--json"]
    yield ["where", "raft"]
    yield ["where", "NOT-THERE"]
    yield ["where", "AJ-LJ-1..AJ-LJ-3"]
    yield ["history", "NOT-THERE"]
    yield ["history", "AJ-LJ-1..AJ-LJ-3"]
    for row in lots:
        yield ["where", row, "--json"]
        yield ["where", row]
        yield ["history", row]
    yield ["where", "LOT99"]
    # the number of a thing that is no longer under its tag
    yield ["where", "OLD-77 1"]
    yield ["where", "old771"]
    yield ["history", "old.771"]
    for boat in boats:
        for words in (["muster"], ["muster", "--json"], ["muster", "--season", "--year", "2027"],
                      ["muster", "--bookings"], ["winter"], ["winter", "--json"],
                      ["winter", "--year", "2027"]):
            yield [*words, "--vessel", boat]
    for base in ("Port Marrin", "Cape Lorne", "Port Marin"):
        for words in (["list", "--all", "--json"], ["due", "--json", "--routine"], ["muster"],
                      ["muster", "--on", "2027-06-10", "--json"], ["winter"],
                      ["rota", "--from", "2027-03-01"], ["remind"]):
            yield [*words, "--base", base]
    for boat in ("Amberjay", "Harrowgull", "Nobody"):
        yield ["remind", "--vessel", boat]
        yield ["booking", boat, "--all"]
    yield ["ashore"]
    yield ["ashore", "--json"]
    yield ["ashore", "--station", "Marrin Raft Station"]
    yield ["show", "AJ-LJ-1..AJ-LJ-3,BW-LR-1"]
    yield ["show", "aj-lj-1"]
    yield ["show", "AJ-LJ-1", "NOT-THERE"]
    yield ["why", "AJ-LJ-1..AJ-LJ-99"]
    yield ["why", "AJ-LJ-1,AJ-LJ-1"]
    yield ["muster", "--vessel", "Amberjaw"]
    yield ["muster", "--vessel", "Spares Marrin"]
    yield ["winter", "--vessel", "Nobody"]


def entering(tags, serials, lot):
    """What is new to the book: tags and numbers are held against all others, some just beside
    one."""
    near = serials[3][:-1] + ("1" if serials[3][-1] != "1" else "2")
    for more in ([], ["--count", "3"], ["--count", "25"], ["--tag", "LJ-900"], ["--tag", tags[5]],
                 ["--tag", tags[5].lower()], ["--tag", "AK-LJ-1"], ["--serial", "QQ-7766-X"],
                 ["--serial", serials[3].lower()], ["--serial", near], ["--serial", "OLD-77 1"],
                 ["--serial", near, "--serials-are-right"], ["--count", "2", "--serials", f"{near},C-2"],
                 ["--part-of", tags[5]], ["--part-of", "NOT-THERE"]):
        yield ["enter", "lifejacket-auto", "--vessel", "Amberjay", *more]
        yield ["stand-in", "lifejacket-auto", "--for", "EF-LJ-1", "--until", "2027-03-01", *more]
    yield ["enter", "tether", "--vessel", "Amberjaw"]
    yield ["stand-in", "tether", "--vessel", "Amberjay"]
    yield ["stand-in", "tether"]
    for tag in (lot, "NOT-THERE"):
        for serial in (serials[3], near, "QQ-7766-X", ""):
            yield ["amend", tag, "--serial", serial]
        yield ["record", "renew", tag, "--on", "2026-11-20", "--serial", near]
        for to in (["--vessel", "Amberjay"], ["--spares", "Cape Lorne"], ["--spares", "Port Marrin"],
                   ["--spares", "Port Marin"], ["--spares", "Nowhere"]):
            yield ["move", tag, *to]
            yield ["move", tag, "--quantity", "1", *to]


def of_boats():
    """What is said of boats and of their bookings."""
    for name in ("Amberjay", "Amberjoy"):
        yield ["vessel", name, "--persons", "5"]
        yield ["vessel", name, "--base", "Cape Lorne", "--from", "2027-01-01"]
        yield ["booking", name, "--from", "2027-07-03", "--to", "2027-07-17"]
        yield ["booking", name, "--from", "2027-06-10", "--to", "2027-06-17"]
        yield ["booking", name, "--change", "2027-06-10", "--persons", "4"]
        yield ["booking", name, "--remove", "2027-06-10"]


def acts(drawn, tags, boats):
    """What is written, each to a book as it was."""
    stations = ["Marrin Raft Station", "Marrin Safety Depot", "Lorne Inflatables"]
    for tag in drawn.sample(tags, harness.scaled(8)):
        other = drawn.choice(tags)
        yield ["record", drawn.choice(["service", "inspect", "inflated"]), tag, "--on", "2026-11-20"]
        yield ["record", "renew", tag, "--on", "2026-11-20",
               *drawn.choice([["--new"], ["--refit", "--expires", "2031-05"], []])]
        yield ["record", "renew", tag, "--on", "2026-11-20", "--serial", "X-1"]
        yield ["land", tag, "--to", drawn.choice(stations)]
        yield ["land", tag, other, "--to", drawn.choice(stations), "--without", drawn.choice(tags)]
        yield ["return", tag, "--as-asked", "--on", "2026-11-24"]
        yield ["return", tag, "--task", "service", "--keep", other]
        yield ["withdraw", tag, "--because", "condemned", "--keep", other]
        yield ["reserve", tag]
        yield ["move", tag, "--vessel", drawn.choice(boats)]
        yield ["stand-in", tag, "--for", other]
        yield ["stand-in", tag, "--vessel", drawn.choice(boats), "--until", "2027-03-01"]
        yield ["amend", tag, "--place", "forepeak"]
        yield ["amend", tag, "--part-of", other]
        yield ["extend", "service", tag, "--until", "2027-12-31", "--paper", "P-1"]
        yield ["interval", "service", tag, "--months", "30", "--paper", "card"]
    for tag in ("EF-LJ-1", "HG-LR-1", "AJ-LR-1"):
        yield ["return", tag, "--task", "service"]
        yield ["withdraw", tag, "--because", "lost"]
    for more in (["--vessel", boats[0]], ["--base", "Port Marrin"], ["--tag", tags[5]], ["--due-now"]):
        yield ["shore-papers", "--docket", *more]
    # condemned things brought back, of which one has a number just beside another's
    for tag in ("FM-LJ-5", "FM-LJ-6"):
        for more in ([], ["--serial", "COND-12345"], ["--again"],
                     ["--again", "--serials-are-right"]):
            yield ["amend", tag, "--state", "aboard", *more]


def bases(folder):
    """A fleet of more boats than are loaded at once, whose names go between those of other bases:
    one base by itself, two that a boat moves between, two that a stand-in ties, boats that have no
    base, and a jacket that has left its lost cylinder behind on a boat far from its own; each base
    has a store with what would cure some of its boats."""
    boats = [f"Tern {number:03d}" for number in range(140)]
    stores = [f"Spares {number}" for number in range(5)]
    rows = ["vessel,tag,kind,made,expires,served,task,part_of,quantity"]
    for number, boat in enumerate(boats):
        rows += [f"{boat},LR-{number},liferaft-canister,{2010 + number % 14},,2025-{number % 12 + 1:02d},service,,1",
                 f"{boat},LJ-{number},lifejacket-auto,{2014 + number % 9},,2025-05,service,,1",
                 f"{boat},GC-{number},gas-cylinder,{2019 + number % 6},,,,LJ-{number},1",
                 f"{boat},FM-{number},lifejacket-foam,{2015 + number % 9},,,,,{1 + number % 6}",
                 f"{boat},FL-{number},flare-red-hand,,20{26 + number % 4}-{number % 12 + 1:02d},,,,3"]
    for number, store in enumerate(stores):
        rows += [f"{store},S-FM-{number},lifejacket-foam,2022,,,,,{7 + number}",
                 f"{store},S-FL-{number},flare-red-hand,,2029-06,,,,{4 + number}"]
    folder = Path(folder)
    (folder / "bases.csv").write_text("\n".join(rows) + "\n", encoding="utf-8")
    book = harness.Book(folder / "bases.db")
    book.must("import", "bases.csv")
    con = sqlite3.connect(book.path)
    con.executemany("UPDATE vessel SET base = ?, length_cm = 1100 WHERE name = ?",
                    [(f"Port {number % 5}", boat) for number, boat in enumerate(boats[:120])])
    con.executemany("UPDATE vessel SET base = ?, store = 1 WHERE name = ?",
                    [(f"Port {number}", store) for number, store in enumerate(stores)])
    con.execute("INSERT INTO vessel_sheet SELECT id, 1, 'us-recreational' FROM vessel")
    con.execute("UPDATE vessel_period SET persons = 5")
    con.commit()
    con.close()
    book.must("book", "accept")
    book.must("vessel", boats[3], "--base", "Port 4", "--from", "2027-02-01")
    book.must("stand-in", "LR-0", "--for", "LR-1", "--vessel", boats[1])
    book.must("withdraw", "GC-5", "--because", "lost")
    book.must("move", "LJ-5", "--vessel", boats[130])
    for number in range(3):
        book.must("station", f"Loft {number}", "--base", f"Port {number}", "--turn-round", "14",
                  "--kinds", "liferaft-canister,lifejacket-auto")
    for number in (10, 21, 133):
        book.must("vessel", boats[number], "--lay-up", "none", "--from", "2026-01-01")
    # pieces of a lot on boats that are not loaded together
    book.must("amend", "FM-5", "--serial", "LOT-9 9")
    for boat in (boats[100], boats[20]):
        book.must("move", "FM-5", "--quantity", "1", "--vessel", boat)
    book.must("land", "LR-7", "LR-131", "--to", "Loft 2", "--on", "2026-11-20")
    for boat, first, last in ((boats[7], "05", "12"), (boats[12], "20", "27"), (boats[132], "01", "08")):
        book.must("booking", boat, "--from", f"2027-06-{first}", "--to", f"2027-06-{last}", "--persons", "4")
    return book


def crowded(folder):
    """Two boats of one base with a raft each, dearer to service than a new one (EUR 290 and a trip
    of 100, to 300), and a loft that takes one piece a week and is open for one week of the winter:
    by hand, it has room for one of the two this winter, whichever of their years is asked about."""
    folder = Path(folder)
    (folder / "crowded.csv").write_text(
        "vessel,tag,kind,made,served,task,price\n"
        "Avocet,LR-1,liferaft-valise,2015-03,2024-03,service,300.00\n"
        "Bittern,LR-2,liferaft-valise,2015-03,2024-01,service,300.00\n", encoding="utf-8")
    book = harness.Book(folder / "crowded.db")
    book.must("import", "crowded.csv")
    for boat in ("Avocet", "Bittern"):
        book.must("vessel", boat, "--base", "Port Marrin", "--sheet", "practice")
    book.must("station", "Loft", "--base", "Port Marrin", "--trip", "100.00", "--weekly", "1",
              "--price", "liferaft-valise:service=290.00", "--closed", "2026-12-14..2027-04-30")
    return book


def beside_years(book):
    """What her list of this winter has serviced that the years of each boat buy new, as her own
    years have it, and those of all boats."""
    alone = [row["tag"] for boat in ("Avocet", "Bittern")
             for row in book.ask("years", "2", "--vessel", boat)["shore_list"]]
    harness.check("a loft with room for one raft has one on the lists beside the years",
                  len(alone) == 1, alone)
    harness.same("the list beside a boat's years is the one that her base mates leave her",
                 [row["tag"] for plan in book.ask("years", "2")["plans"] for row in plan["shore_list"]],
                 alone)


def chain(folder):
    """3,000 boats, of which each has a part of a jacket of the next one's: all hang together."""
    folder = Path(folder)
    rows = ["vessel,tag,kind,made"]
    for number in range(3000):
        rows += [f"Link {number:04d},LJ-{number},lifejacket-auto,{2012 + number % 12}",
                 f"Link {number:04d},GC-{number},gas-cylinder,{2012 + number % 9}"]
    (folder / "chain.csv").write_text("\n".join(rows) + "\n", encoding="utf-8")
    book = harness.Book(folder / "chain.db")
    book.must("import", "chain.csv")
    con = sqlite3.connect(book.path)
    con.execute("UPDATE item SET parent_id = (SELECT whole.id FROM item AS whole WHERE whole.tag = "
                "'LJ-' || (CAST(substr(item.tag, 4) AS INTEGER) + 1)) WHERE tag LIKE 'GC-%'")
    con.commit()
    con.close()
    book.must("book", "accept")
    return book


def of_all_boats():
    """What is asked of a fleet and answered base by base, or some boats at a time."""
    for words in (["due"], ["due", "--json"], ["list", "--all", "--json"], ["export", "-"]):
        yield words
    for words in ([], ["--csv"], ["--season", "--remarks"], ["--json"],
                  ["--from", "2027-06-01", "--to", "2027-06-30", "--json"]):
        yield ["muster", *words]
    yield ["winter", "--json"]
    yield ["winter", "--json", "--year", "2027"]
    for words in (["3", "--json"], ["2", "--csv"], ["2", "--fleet"], ["2", "--skip-winter", "2027", "--compare"],
                  ["2", "--skip-winter", "2027", "--compare", "--json"], ["2", "--renew-now", "LR-9", "--csv"],
                  ["2", "--renew-now", "gc-5"], ["2", "--fleet", "--html", "/dev/stdout"]):
        yield ["years", *words]
    for words in (["raft", "--json"], ["foam"], ["foam", "--json"], ["LR-7", "LR-8"], ["LR-7..LR-999"], ["nothing"]):
        yield ["where", *words]
    yield ["now"]
    yield ["now", "--json", "--vessel", "Tern 007"]
    yield ["remind", "--json"]
    yield ["list"]
    yield ["remind", "--station", "Loft 2"]
    for words in (["--tags", "--html"], ["--docket"], ["--json"], ["--due-now", "--json"],
                  ["--due-now", "--docket", "--station", "Loft 1", "--on", "2027-01-02"],
                  ["--due-now", "--json", "--station", "Loft"]):
        yield ["shore-papers", *words]


def both(book, words, writes=True):
    """The command by both programs, on the same bytes: what each said, and what the book is then
    where it writes."""
    found = []
    for number, program in enumerate((harness.BECKET, WHOLE)):
        copy = book.copy("copy.db")
        done = subprocess.run([program, *copy.command(*words)[1:]], cwd=copy.folder,
                              env=copy.environment, capture_output=True, encoding="utf-8",
                              check=False, stdin=subprocess.DEVNULL)
        said = (done.returncode, done.stdout, done.stderr)
        found.append((*said, subprocess.run(["sqlite3", str(copy.path), ".dump"],
                                            capture_output=True, check=True).stdout)
                     if writes else said)
    return found


def compared(words, found):
    """What has to be the same: all, but for what `vessel` lists, which is what it reads again to
    tell, and all of the book in the other program."""
    return (found[0], *found[2:]) if words[0] == "vessel" else found


def main():
    harness.skip_without("part", "sqlite3")
    drawn = random.Random(SEED)
    with harness.scratch() as folder:
        fleet = harness.demonstration(folder)[1]
        tangle(fleet)
        tags = [row["tag"] for row in fleet.ask("list", "--all")]
        serials = [row["serial"] for row in fleet.ask("list", "--all") if row["serial"]]
        lots = [row["tag"] for row in fleet.ask("list", "--all") if row["serial"] == "LOT-9 9"]
        boats = sorted({row["vessel"] for row in fleet.ask("list", "--all")})
        for words in questions(drawn, tags, serials, lots, boats):
            one, all_of_it = both(fleet, words, writes=False)
            harness.same(" ".join(words), all_of_it, one)
        fleet_of_bases = bases(folder)
        for words in of_all_boats():
            one, all_of_it = both(fleet_of_bases, words, writes=False)
            harness.same("all boats: " + " ".join(words), all_of_it, one)
        beside_years(crowded(folder))
        one, all_of_it = both(chain(folder), ["due", "--json"], writes=False)
        harness.same("a chain of boats: due", all_of_it, one)
        # what was given out is kept, and a limit ties all bases
        fleet_of_bases.must("calendar", "all.ics")
        fleet_of_bases.must("move", "FM-9", "--vessel", "Tern 014")
        # a piece of its lot, with its number, is on a boat before its own, not loaded with it
        fleet_of_bases.must("move", "FM-5", "--quantity", "1", "--vessel", "Tern 002")
        fleet_of_bases.must("land", "FM-5", "--to", "Loft 2", "--on", "2026-11-20")
        lot = [one["tag"] for one in fleet_of_bases.ask("list", "--vessel", "Tern 002") if one["serial"] == "LOT-9 9"]
        shared = [one["serial_shared_with"] for one in fleet_of_bases.ask("now")["ashore"] if one["tag"] == "FM-5"]
        harness.same("what is ashore tells what has its number", lot, shared)
        for more in ([], ["station", "Loft 1", "--weekly", "2"]):
            if more:
                fleet_of_bases.must(*more)
            for words in (["now"], ["now", "--json"], ["remind", "--json"], ["winter", "--json"],
                          ["years", "2", "--json"], ["rota", "--json"], ["rota", "--keep"],
                          ["calendar", "-"], ["shore-papers", "--return-list"]):
                writes = "--keep" in words or words[0] in ("calendar", "shore-papers")
                one, all_of_it = both(fleet_of_bases, words, writes=writes)
                harness.same("given out: " + " ".join([*more, *words]), all_of_it, one)
        # her plan, handed out once all are read to see that there is no other, is told once
        fleet_of_bases.must("vessel", "Tern 060", "--left", "2026-10-01", "--because", "sold", "--gear", "with-her")
        with sqlite3.connect(fleet_of_bases.path) as con:
            con.execute("UPDATE vessel SET left_day = (SELECT left_day FROM vessel WHERE name = 'Tern 060') "
                        "WHERE name <> 'Tern 000'")
        fleet_of_bases.must("book", "accept")
        told = fleet_of_bases.must("years", "2")
        harness.check("the years of the one boat that is left of many are those of her alone",
                      told.count("Tern 000:") == 1 and "All together" not in told, told)
        done = 0
        tried = [*acts(drawn, tags, boats), *entering(tags, serials, lots[0]), *of_boats()]
        for words in tried:
            one, all_of_it = both(fleet, words)
            harness.same(" ".join(words), compared(words, all_of_it), compared(words, one))
            done += one[0] == 0
        harness.check("a third of the acts are done, so that more than refusals is compared",
                      done >= len(tried) / 3, f"{done} of {len(tried)}")
    harness.end()


if __name__ == "__main__":
    main()
