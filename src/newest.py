#!/usr/bin/env python3
"""Writes what makes a new book at once: the tables, indexes, triggers and rows that the migrations
leave, with the numbers of the file's header.

usage: newest.py OUTPUT MIGRATION...

Each of them is made by its text in sqlite_schema, so that a book made by this has the same one
(https://www.sqlite.org/schematab.html). What SQLite makes by itself has no text there.
"""
import os
import sqlite3
import sys


def schema(book):
    """The texts in the order in which the file has them."""
    return [f"{text};" for (text,) in book.execute(
        "SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY rowid")]


def rows(book):
    """A statement for each row of each table."""
    tables = book.execute("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY rowid").fetchall()
    for (table,) in tables:
        columns = [name for (name,) in book.execute(
            "SELECT name FROM pragma_table_info(?) ORDER BY cid", [table])]
        values = " || ', ' || ".join(f"quote({name})" for name in columns)
        for (row,) in book.execute(f"SELECT {values} FROM {table} ORDER BY {columns[0]}"):
            yield f"INSERT INTO {table} VALUES ({row});"


def main():
    output, *paths = sys.argv[1:]
    book = sqlite3.connect(":memory:")
    for path in sorted(paths, key=os.path.basename):
        with open(path, encoding="utf-8") as source:
            book.executescript(source.read())
    header = [f"PRAGMA {name} = {book.execute(f'PRAGMA {name}').fetchone()[0]};"
              for name in ("application_id", "user_version")]
    with open(output, "w", encoding="utf-8") as out:
        out.write("\n".join([*schema(book), *rows(book), *header]) + "\n")


main()
