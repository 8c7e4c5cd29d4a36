"""Whatever is printed is typed back: dates, prices, tags and names, drawn at random in Norwegian,
Greek, Turkish, Japanese and English, are entered, read off what the program prints for people,
typed again into a second book, and must mean the same there. What they mean is read from the
export, whose dates are ISO and whose prices are decimals.

Seeded, so that a failure comes again. TESTS_SCALE draws more."""
import csv
import io
import random
import re
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, end, same, scaled, scratch  # noqa: E402

LETTERS = {
    "Norwegian": "ABCDEFGHIJKLMNOPRSTUVÆØÅabcdefghijklmnoprstuvæøåéô",
    "Greek": "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩαβγδεζηθικλμνξοπρστυφχψωάέήίόύώϊΐς",
    "Turkish": "ABCÇDEFGĞHIİJKLMNOÖPRSŞTUÜVYZabcçdefgğhıijklmnoöprsştuüvyz",
    "Japanese": "海風波島星月船灯かきくけこがぎぐげごカキクケコガギグゲゴｶｷｸﾞ",
    "English": "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz",
}
PAUSES = [" ", "-", "'", ", ", " & ", ". ", "/", " = ", " (", ") ", " \" "]
CURRENCIES = {"EUR": 2, "NOK": 2, "TRY": 2, "JPY": 0, "KWD": 3}  # decimals of ISO 4217
DATES = ("made", "packed", "bought", "fitted", "expires")


def word(draw, letters, most=5):
    return "".join(draw.choice(letters) for _ in range(draw.randint(2, most)))


def name(draw, language):
    """A name of one or two words, with what people put between them; short enough for one line."""
    letters = LETTERS[language]
    made = word(draw, letters)
    for _ in range(draw.randint(0, 1)):
        made += draw.choice(PAUSES) + word(draw, letters)
    return made


def tag(draw, language):
    return f"{word(draw, LETTERS[language], 4)}-{draw.randint(1, 999)}"


def date(draw):
    """A stamp as the export has it: as coarse as it may be, worded, perhaps an estimate."""
    year, month, day = draw.randint(2005, 2039), draw.randint(1, 12), draw.randint(1, 28)
    made = draw.choice([f"{year}", f"{year}-{month:02}", f"{year}-{month:02}-{day:02}"])
    return made


def mark(draw):
    return draw.choice(["", "", "before ", "use by ", "exp "]) + date(draw)


def price(draw, decimals):
    main = draw.choice([0, 7, 45, 999, 1250, 12345, 1000000])
    minor = draw.randrange(10 ** decimals) if draw.random() < 0.5 else 0
    return f"{main}.{minor:0{decimals}}" if decimals else f"{main}"


def exported(book):
    rows = csv.DictReader(io.StringIO(book.must("export", "-"), newline=""))
    return {row["tag"]: row for row in rows}


def shown(book, of):
    """What `show` says of an item, line by line: the first word and the rest."""
    lines = book.must("show", of).splitlines()
    return dict(re.split(r"\s{2,}", line, maxsplit=1) for line in lines if re.search(r"\S\s{2,}\S", line))


def main():
    draw = random.Random(20261128)
    cases = scaled(8)
    kinds = ("made", "packed", "bought", "fitted")
    with scratch() as folder:
        for language in LETTERS:
            for case in range(cases):
                currency = draw.choice(list(CURRENCIES))
                one = Book(Path(folder) / f"{language}{case}.db")
                two = Book(Path(folder) / f"{language}{case}-again.db")
                boat, base, station = (name(draw, language) for _ in range(3))
                for book in (one, two):
                    book.must("book", "new", "--currency", currency)
                one.must("vessel", boat, f"--base={base}")
                one.must("station", station, f"--base={base}")
                tags = {tag(draw, language) for _ in range(3)}
                for of in tags:
                    options = [f"--{d}={date(draw)}{draw.choice(['', '', '~'])}" for d in kinds]
                    one.must("enter", "gas-cylinder", f"--vessel={boat}", f"--tag={of}",
                             f"--expires={mark(draw)}", f"--price={price(draw, CURRENCIES[currency])}",
                             f"--place={name(draw, language)}", f"--make={name(draw, language)}",
                             "--served=2026-03-01", f"--station={station}", *options)
                truth = exported(one)
                # the boat, her base and the station as lists print them, between their columns
                listed = one.must("vessel")
                check(f"{language} {case}: the boat and her base are printed as they are",
                      boat in listed and base in listed, listed)
                cells = re.split(r"\s{2,}", listed.splitlines()[2])
                two.must("vessel", cells[0], f"--base={cells[1]}")
                two.must("station", re.split(r"\s{2,}", one.must("station").splitlines()[2])[0])
                for of in tags:
                    said = shown(one, of)
                    two.must("enter", said_kind(one, of), f"--vessel={said['vessel']}", f"--tag={of}",
                             f"--place={said['place']}", f"--make={said['make']}",
                             f"--price={said['price']}", f"--expires={said['marked expiry']}",
                             *(f"--{d}={said[d]}" for d in kinds),
                             "--served", re.match(r"[^,]*", said["service"])[0],
                             "--station", re.search(r"by (.*) \(record \d+\)$", said["service"])[1])
                same(f"{language} {case}: what is printed, typed, is the same", truth, exported(two))
                check_names(language, case, one, boat, base, station, tags)
    end()


def said_kind(book, of):
    """The kind as `show` heads it: tag and words."""
    return re.split(r"\s{2,}", book.must("show", of).splitlines()[0])[1]


def check_names(language, case, book, boat, base, station, tags):
    """Each name finds what it names, as it is printed and in the other case where its script has
    one."""
    for typed in {boat, boat.swapcase() if boat.swapcase().casefold() == boat.casefold() else boat}:
        done = book.run("list", f"--vessel={typed}")
        check(f"{language} {case}: --vessel {typed!r}", all(of in done.stdout for of in tags), done.stderr)
    done = book.run("list", f"--base={base}")
    check(f"{language} {case}: --base {base!r}", all(of in done.stdout for of in tags), done.stderr)
    for of in tags:
        done = book.run("show", of)
        check(f"{language} {case}: show {of!r}", done.returncode == 0, done.stderr)
    done = book.run("station", station, "--turn-round", "9")
    check(f"{language} {case}: station {station!r} is no second one",
          done.returncode == 0 and len(book.ask("station")) == 1, done.stderr)


main()
