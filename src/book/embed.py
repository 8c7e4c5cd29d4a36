"""Writes the migrations as a C array, in the order of their numbers.

usage: embed.py OUTPUT.c MIGRATION.sql...
"""
import os
import re
import sys


def main():
    output, paths = sys.argv[1], sorted(sys.argv[2:], key=os.path.basename)
    lines = ['#include "book/migrations.h"', ""]
    rows = []
    for number, path in enumerate(paths, 1):
        name = os.path.basename(path)
        if not re.fullmatch(r"%04d_[a-z_]+\.sql" % number, name):
            sys.exit(f"{name}: expected a name that starts with {number:04d}_")
        with open(path, "rb") as file:
            data = file.read() + b"\0"
        lines.append(f"static const char MIGRATION_{number}[] = {{")
        for at in range(0, len(data), 16):
            # Octal escapes are chars, whatever the signedness of char.
            lines.append("".join(f"'\\{byte:o}'," for byte in data[at : at + 16]))
        lines.append("};")
        rows.append(f'    {{"{name}", MIGRATION_{number}}},')
    lines += ["", "const struct migration MIGRATIONS[] = {", *rows, "};"]
    lines.append(f"const int MIGRATION_COUNT = {len(paths)};")
    with open(output, "w", encoding="ascii") as file:
        file.write("\n".join(lines) + "\n")


main()
