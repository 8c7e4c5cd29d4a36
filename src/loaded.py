#!/usr/bin/env python3
"""Writes the C of a library that is loaded when first used, so that commands without it start fast.

usage: loaded.py ROOM NAME SONAME HEADERS PREFIX HEADER SOURCE FILE...

The functions are those that the files call: names that begin as PREFIX, a regular expression, says.
A file includes "ROOM/NAME_calls.h" in place of the library's own HEADERS (separated by commas), and
calls as it always did: each name becomes a macro that goes through a table. The table's types are
those of the library's prototypes, so that the compiler checks each call against them.
"""
import re
import sys
from pathlib import Path

HEADER = """/* Made by src/loaded.py: {soname}, loaded at the first call. */
#pragma once
{includes}
struct {name}_calls {{
{fields}
}};

/* Never NULL: the program ends, with words, where the library is not there (base/library.h). */
const struct {name}_calls *{name}_calls(void);

/* NOLINTBEGIN(readability-identifier-naming): the names are the library's */
#ifndef {upper}_CALLS_THEMSELVES
{macros}
#endif
/* NOLINTEND(readability-identifier-naming) */
"""

SOURCE = """/* Made by src/loaded.py. */
#define {upper}_CALLS_THEMSELVES
#include "{room}/{name}_calls.h"

#include "base/library.h"

#include <pthread.h>

static const char *const NAMES[] = {{
{names}
}};
static struct {name}_calls calls;
_Static_assert(sizeof calls == sizeof NAMES, "a table of functions and nothing else");

static void
load(void)
{{
	library_load("{soname}", NAMES, sizeof NAMES / sizeof NAMES[0], (void **)&calls);
}}

const struct {name}_calls *
{name}_calls(void)
{{
	static pthread_once_t once = PTHREAD_ONCE_INIT;
	(void)pthread_once(&once, load);
	return &calls;
}}
"""


def main():
    room, name, soname, headers, prefix, header, source, *paths = sys.argv[1:]
    text = "".join(re.sub(r"/\*.*?\*/", "", Path(path).read_text(), flags=re.DOTALL)
                   for path in paths)
    called = sorted(set(re.findall(rf"\b({prefix}\w+)\(", text)) - {f"{name}_calls"})
    if not called:
        sys.exit(f"no function of {soname} is called")
    words = {
        "room": room, "name": name, "upper": name.upper(), "soname": soname,
        "includes": "".join(f"#include <{each}>\n" for each in headers.split(",")),
        "fields": "\n".join(f"\t__typeof__({each}) *{each};" for each in called),
        "macros": "\n".join(f"#undef {each}\n#define {each} ({name}_calls()->{each})"
                            for each in called),
        "names": "\n".join(f'\t"{each}",' for each in called),
    }
    Path(header).write_text(HEADER.format(**words))
    Path(source).write_text(SOURCE.format(**words))


main()
