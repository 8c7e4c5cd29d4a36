#!/usr/bin/env python3
"""Writes a C table of files, so that the program carries them with it.

usage: embed.py HEADER TABLE OUTPUT FILE...
"""
import os
import sys


def as_bytes(path):
    with open(path, "rb") as source:
        data = source.read()
    lines = []
    for start in range(0, len(data), 24):
        lines.append("\t" + "".join(f"{byte}," for byte in data[start : start + 24]))
    lines.append("\t0,")
    return len(data), "\n".join(lines)


def main():
    header, table, output, *paths = sys.argv[1:]
    parts = [f'#include "{header}"', ""]
    rows = []
    for index, path in enumerate(sorted(paths, key=os.path.basename)):
        length, body = as_bytes(path)
        parts.append(f"static const unsigned char file_{index}[] = {{\n{body}\n}};\n")
        rows.append(
            f'\t{{"{os.path.basename(path)}", (const char *)file_{index}, {length}}},'
        )
    parts.append(f"const struct embedded_file {table}[] = {{")
    parts.extend(rows)
    parts.append("};\n")
    parts.append(f"const size_t {table}_COUNT = {len(rows)};")
    with open(output, "w", encoding="ascii") as out:
        out.write("\n".join(parts) + "\n")


main()
