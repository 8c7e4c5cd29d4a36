#!/usr/bin/env python3
"""Writes the digest of files, as shelf_digest in src/desk/shelf.c makes one where a person has no
sheets of their own: BLAKE2b (RFC 7693) of 32 bytes over each file's name, a zero byte and its
bytes, by name.

    digest.py HEADER NAME OUTPUT FILE...
"""
import hashlib
import sys
from pathlib import Path

header, name, output, *files = sys.argv[1:]
digest = hashlib.blake2b(digest_size=32)
for file in sorted(map(Path, files), key=lambda path: path.name):  # as embed.py has them
    digest.update(file.name.encode() + b"\0" + file.read_bytes())
Path(output).write_text(f'#include "{header}"\n\nconst char {name}[] = "{digest.hexdigest()}";\n')
