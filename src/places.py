#!/usr/bin/env python3
"""Writes where the columns of some tables stand in the file, as the migrations leave them: of each
table a struct with a byte a column, whose offset is the column's place.

usage: places.py TABLE,TABLE OUTPUT MIGRATION...

A column that is added stands behind the others in the file, wherever its field stands among the
fields; a field without a column, then, is a member that is not there, and does not compile.
"""
import os
import sqlite3
import sys


def main():
    tables, output, *paths = sys.argv[1:]
    book = sqlite3.connect(":memory:")
    for path in sorted(paths, key=os.path.basename):
        with open(path, encoding="utf-8") as source:
            book.executescript(source.read())
    parts = ["/* Made by src/places.py. */\n#pragma once"]
    for table in tables.split(","):
        columns = book.execute("SELECT name FROM pragma_table_info(?) ORDER BY cid", [table])
        members = "".join(f"\tchar {name};\n" for (name,) in columns)
        parts.append(f"struct {table}_places {{\n{members}}};")
    with open(output, "w", encoding="ascii") as out:
        out.write("\n\n".join(parts) + "\n")


main()
