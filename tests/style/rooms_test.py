"""The rooms keep to their place: who may include whom, which library is used where, pure
rooms that touch nothing but memory, headers that stand alone, assertions that are on."""
import functools
import json
import re
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BUILD, ROOT, check, end, same  # noqa: E402
from measure import calls, circles, inner_headers  # noqa: E402

SRC = ROOT / "src"

# Each room and the rooms below it that it may include.
BELOW = {
    "base": [],
    "dates": ["base"],
    "gear": ["base", "dates"],
    "rules": ["base", "dates", "gear"],
    "due": ["base", "dates", "gear", "rules"],
    "muster": ["base", "dates", "gear", "rules", "due"],
    "winter": ["base", "dates", "gear", "rules", "due", "muster"],
    "years": ["base", "dates", "gear", "rules", "due", "muster", "winter"],
    "rota": ["base", "dates", "gear", "rules", "due", "muster", "winter", "years"],
    "life": ["base", "dates", "gear", "rules"],
    "book": ["base", "dates", "gear"],
    "exchange": ["base", "dates", "gear", "rules", "due", "muster", "winter", "years", "rota",
                 "life", "book"],
    "report": ["base", "dates", "gear", "rules", "due", "muster", "winter", "years", "rota",
               "life"],
    "calendar": ["base", "dates", "gear", "rules", "due", "muster", "winter", "life", "book"],
    "desk": ["base", "dates", "gear", "rules", "due", "muster", "winter", "years", "rota", "life",
             "book", "exchange", "report", "calendar"],
    "page": ["base", "dates", "gear", "rules", "due", "muster", "winter", "years", "rota", "life",
             "exchange", "report", "calendar", "desk"],
    "cli": ["base", "dates", "gear", "rules", "due", "muster", "winter", "years", "rota", "life",
            "book", "exchange", "report", "calendar", "desk", "page"],
}

# Headers of other people's libraries, and the rooms that may include each.
ONLY_IN = {
    "sqlite3.h": "book",
    "libical/ical.h": "calendar",
    "ical.h": "calendar",
    "cyaml/cyaml.h": "rules",
    "yaml.h": "rules",
    "csv.h": "base exchange",  # written in one, read in the other
    "magic.h": "exchange",
    "zip.h": "exchange",
    "unicase.h": "base",
    "iconv.h": "exchange",
    "libxml/xmlreader.h": "exchange calendar",
    "libxml/xmlwriter.h": "report",
    "libxml/parser.h": "calendar",
    "libxml/tree.h": "calendar",
    "curl/curl.h": "calendar",
    "microhttpd.h": "page",
    "qrencode.h": "report",
    "zlib.h": "page",
}

# How many headers a room may have that serve its own files alone: one, or in a big room a few, each
# of one subject.
INNER_MOST = {"base": 1, "dates": 0, "gear": 0, "rules": 2, "due": 1, "muster": 1, "winter": 6,
              "years": 3, "rota": 2, "life": 1, "book": 9, "exchange": 4, "report": 2,
              "calendar": 3, "desk": 1, "page": 6, "cli": 10}
HEADER_LINES_MOST = 300  # of one of these: more is a second subject

# What a pure room may ask of the C library: memory, text, sorting, assertions.
PURE = ["dates", "gear", "rules", "due", "muster", "winter", "years", "rota", "life"]
ALLOWED = re.compile(r"""^(
    mem(cpy|move|set|cmp|chr)|__mem\w+_chk
    |str(len|cmp|ncmp|chr|rchr|str|spn|cspn|pbrk|n?cpy|dup|ndup|toll?|toull?|nlen|casecmp|ncasecmp)
    |__isoc(99|23)_strtou?ll?|__str\w+_chk
    |v?snprintf|__v?snprintf_chk
    |malloc|calloc|realloc|reallocarray|free
    |__ctype_(b|tolower|toupper)_loc|is(alpha|digit|alnum|space)|to(lower|upper)
    |qsort|bsearch|abs|labs|abort
    |__assert_fail|__stack_chk_fail|_GLOBAL_OFFSET_TABLE_|__errno_location
)$""", re.VERBOSE)
# The sheets are read from text in memory through the YAML library.
ALLOWED_IN = {"rules": re.compile(r"^(cyaml|yaml)_\w+$")}



def includes(path):
    """The words between the quotes or brackets of each include line."""
    return re.findall(r'^\s*#\s*include\s+["<]([^">]+)[">]', path.read_text(), re.MULTILINE)


def check_includes(room):
    """No include points up or sideways."""
    wrong = []
    for path in sorted((SRC / room).glob("*.[ch]")):
        for name in includes(path):
            head = name.split("/")[0]
            if "/" in name and head in BELOW and head != room and head not in BELOW[room]:
                wrong.append(f"{path.name} includes {name}")
            if room not in ONLY_IN.get(name, room).split():
                wrong.append(f"{path.name} includes {name}, which is {ONLY_IN[name]}'s")
            if ".." in name:
                wrong.append(f"{path.name} includes {name} by a path upward")
    check(f"{room} includes only itself and what is below", not wrong, "; ".join(wrong))


def shapes(path):
    """The names of the structs, unions and enums that a file says what they are."""
    return set(re.findall(r"^\s*(?:static |const |typedef )*(?:struct|union|enum) (\w+)\s*\{",
                          path.read_text(), re.MULTILINE))


def check_shapes():
    """One name of a struct has one meaning: none is another's in a second room, and what a
    header says of one no other file says otherwise."""
    where = {}
    for path in sorted(SRC.glob("*/*.[ch]")):
        for name in shapes(path):
            where.setdefault(name, []).append(path.relative_to(SRC))
    check("structs are found", "obligation" in where and "trip" in where, str(len(where)))
    wrong = [f"{name} in {', '.join(map(str, paths))}" for name, paths in sorted(where.items())
             if len({path.parent for path in paths}) > 1
             or len(paths) > 1 and any(path.suffix == ".h" for path in paths)]
    check("no struct has a second meaning elsewhere", not wrong, "; ".join(wrong))


def check_one_writer():
    """What has one writer is written by it alone."""
    for what, call, alone in [
            ("a key of JSON", r"\tjson_write_key\(", {"json_object.c"}),
            ("a table of text", r"\btable_(init|add|add_extra|write)\s*\(",
             {"reply.c", "table.c", "table_write.c"})]:
        writers = {path.name for path in SRC.glob("*/*.c") if re.search(call, path.read_text())}
        same(f"{what} is written in {' and '.join(sorted(alone))} alone", alone, writers)


def check_circles():
    """No header comes back to itself by what it includes, and no file by what it calls."""
    below = {str(path.relative_to(SRC)): [name for name in includes(path) if "/" in name]
             for path in sorted(SRC.glob("*/*.h"))}

    def reached(start):
        found, wait = set(), list(below[start])
        while wait:
            name = wait.pop()
            if name not in found:
                found.add(name)
                wait += below.get(name, [])
        return found

    wrong = [name for name in below if name in reached(name)]
    check("no circle of headers", not wrong, ", ".join(wrong))
    for room in BELOW:
        graph = calls(BUILD / "src" / room)
        rings = [" ".join(ring) for ring in circles(graph)]
        check(f"no files of {room} call each other in a circle", graph and not rings,
              "; ".join(rings) or "its objects are not found")


def check_sockets():
    """Another program's sockets are spoken to from one file."""
    users = [str(path.relative_to(SRC)) for path in sorted(SRC.glob("*/*.[ch]"))
             if {"curl/curl.h", "calendar/curl_calls.h"} & set(includes(path))]
    check("curl is used in calendar/http.c and http_address.c alone",
          users == ["calendar/http.c", "calendar/http_address.c"],
          ", ".join(users))


def check_database():
    """SQLite is spoken to from a few files of the book, and no header shows a type of its."""
    users = {path.name for path in SRC.glob("*/*.[ch]") if "sqlite3.h" in includes(path)}
    keeps = {"database.c", "collect.c", "copy.c"}
    check("sqlite3.h is in the database, the collector and the copies alone",
          users == keeps, ", ".join(sorted(users)))
    showing = {path.name for path in SRC.glob("book/*.h")
               if re.search(r"\bsqlite3_?\w* *\*", path.read_text())}
    check("no header of the book shows a type of SQLite's",
          not showing, ", ".join(sorted(showing)))


def check_desk():
    """The desk knows no option: none stands in its words, and it reads no command line."""
    wrong = []
    for path in sorted((SRC / "desk").glob("*.[ch]")):
        for number, line in enumerate(path.read_text().splitlines(), 1):
            if re.search(r'"[^"]*--', line) and "#include" not in line:
                wrong.append(f"{path.name}:{number}")
            if re.search(r"\b(isatty|getenv|stdin|stdout|stderr|printf)\b", line):
                wrong.append(f"{path.name}:{number}")
    check("desk names no option, terminal or environment", not wrong, ", ".join(wrong))


def check_writers():
    """What is written goes through the desk: no file of a face calls a writing function of book."""
    writes = re.compile(r"\bbook_(?:begin|commit|rollback|put|add|store|set|note|remove|drop|forget|"
                        r"revoke|undo|restore|backup|split|tell|sign)\w*\(")
    told = "\n".join(path.read_text() for path in sorted((SRC / "book").glob("*.h")))
    check("writing functions of book are found", len(set(writes.findall(told))) > 15,
          str(len(set(writes.findall(told)))))
    wrong = [f"{path.parent.name}/{path.name}:{number}"
             for room in ("cli", "page") for path in sorted((SRC / room).glob("*.[ch]"))
             for number, line in enumerate(path.read_text().splitlines(), 1)
             if writes.search(line)]
    check("the faces write nothing to a book but through the desk", not wrong, ", ".join(wrong))


def check_cli():
    """The command line reckons nothing: of the rooms that do, it calls what reads or gives a
    word."""
    rooms = ["due", "muster", "winter", "years", "rota", "life"]
    theirs = set().union(*(symbols(BUILD / "src" / room / f"lib{room}.a", "--defined-only")
                           for room in rooms))
    listing = subprocess.run(["nm", "-A", "-u", "-P", str(BUILD / "src/cli/libcli.a")],
                             capture_output=True, text=True, check=True).stdout
    used = set(re.findall(r"\[?(\w+\.c)\.o\]?: (\w+) U", listing))
    check("what the command line calls is found", len(used) > 100, str(len(used)))
    wrong = {f"{name} calls {symbol}" for name, symbol in used
             if symbol in theirs and not re.search(r"_(words?|parse)$", symbol)}
    check("cli reckons nothing", not wrong, "; ".join(sorted(wrong)))


@functools.cache
def symbols(archive, flag):
    """Symbol names that nm lists with the flag."""
    listing = subprocess.run(["nm", flag, "-P", str(archive)], capture_output=True,
                             text=True, check=True).stdout
    return {line.split()[0] for line in listing.splitlines()
            if line and not line.endswith(":")}


def check_pure():
    """The pure libraries reference nothing that reads a clock, a file, the environment or
    prints; what is not on the list of harmless functions counts as such."""
    archives = {room: BUILD / "src" / room / f"lib{room}.a" for room in ["base", *PURE]}
    for room in PURE:
        if not archives[room].exists():
            check(f"{room} is pure", False, f"{archives[room]} is not built")
            continue
        ours = set()
        for below in [room, *BELOW[room]]:
            ours |= symbols(archives[below], "--defined-only")
        more = ALLOWED_IN.get(room)
        wrong = sorted(
            name for name in symbols(archives[room], "-u") - ours
            if not ALLOWED.match(name) and not (more and more.match(name)))
        check(f"{room} is pure", not wrong, "it uses " + ", ".join(wrong))


def check_headers():
    """Every header compiles by itself: the build has done so for each that a source includes first
    of all, and the others are compiled here. All of them twice over, in one file, are no fault."""
    compiled = json.loads((BUILD / "compile_commands.json").read_text())
    sources = [(BUILD / entry["file"]).resolve() for entry in compiled]
    first = {includes(path)[0] for path in sources
             if path.is_relative_to(SRC) and includes(path)}
    headers = [str(path.relative_to(SRC)) for path in sorted(SRC.glob("*/*.h"))]
    check("most headers are the first of a source", sum(name in first for name in headers) >
          len(headers) / 2)
    for name in [name for name in headers if name not in first]:
        said = compiled_alone(f'#include "{name}"\nint unused_by_anyone;\n')
        check(f"{name} compiles alone", not said, said)
    said = compiled_alone("".join(f'#include "{name}"\n' for name in 2 * headers))
    check("every header may be included twice", not said, said)


def compiled_alone(source):
    """What the compiler says of a source; nothing where it is well."""
    flags = ["-std=c17", "-D_POSIX_C_SOURCE=200809L", "-Wall", "-Wextra", "-Wpedantic",
             "-Werror", f"-I{SRC}", f"-I{BUILD / 'src'}", "-fsyntax-only", "-x", "c", "-"]
    done = subprocess.run(["gcc", *flags], input=source, capture_output=True, text=True, check=False)
    return (done.stderr[:600] or "it fails") if done.returncode else ""


def check_inner_headers():
    """What only a room's own files share stands in few headers."""
    wrong = []
    for room, most in INNER_MOST.items():
        inner = inner_headers(SRC / room)
        if len(inner) > most:
            wrong.append(f"{room} has {len(inner)}, at most {most}: {' '.join(inner)}")
        wrong += [f"{name} is long" for name in inner
                  if (SRC / name).read_text().count("\n") > HEADER_LINES_MOST]
    check("few headers serve their own room alone", not wrong, "\n".join(wrong))


def check_assertions():
    """No file is compiled with assertions off."""
    commands = json.loads((BUILD / "compile_commands.json").read_text())
    off = [entry["file"] for entry in commands if "NDEBUG" in entry["command"]]
    check("assertions are on in every file", not off, ", ".join(off))


def main():
    rooms = sorted(path.name for path in SRC.iterdir() if any(path.glob("*.c")))
    unknown = [room for room in rooms if room not in BELOW]
    check("every folder of src has its place in the order", not unknown, ", ".join(unknown))
    for room in BELOW:
        if room in rooms:
            check_includes(room)
    check_shapes()
    check_circles()
    check_sockets()
    check_database()
    check_desk()
    check_writers()
    check_one_writer()
    check_cli()
    check_pure()
    check_headers()
    check_inner_headers()
    check_assertions()
    end()


main()
