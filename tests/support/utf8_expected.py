#!/usr/bin/env python3
"""Writes how Python's codec reads UTF-8: every letter there is, and sequences that are broken in every way RFC 3629 names.

usage: utf8_expected.py FOLDER

Each NAME.bytes has its letters in NAME.letters, as UTF-32 little-endian. A byte that belongs to no letter is U+FFFD.
"""
import codecs
import itertools
import pathlib
import random
import sys

codecs.register_error("each byte", lambda error: ("\ufffd", error.start + 1))
folder = pathlib.Path(sys.argv[1])


def write(name, data):
    letters = data.decode("utf-8", "each byte")
    (folder / f"{name}.bytes").write_bytes(data)
    (folder / f"{name}.letters").write_bytes(letters.encode("utf-32-le"))


write("all", "".join(chr(code) for code in range(0x110000) if not 0xD800 <= code < 0xE000).encode())

# Every two bytes; every first byte of three and four with the bytes on either side of each border; the same cut short.
edges = [0x00, 0x41, 0x7F, 0x80, 0x8F, 0x90, 0x9F, 0xA0, 0xBF, 0xC0, 0xFF]
broken = [bytes(pair) for pair in itertools.product(range(256), repeat=2)]
broken += [bytes(three) for three in itertools.product(range(0xE0, 0x100), edges, edges)]
broken += [bytes(four) for four in itertools.product(range(0xF0, 0x100), edges, edges, edges)]
dice = random.Random(3629)
some = [chr(code).encode() for code in (0x41, 0xE9, 0x20AC, 0x1F600)]
for _ in range(3000):
    line = bytearray(b"".join(dice.choices(some, k=6)))
    for _ in range(dice.randrange(4)):
        line[dice.randrange(len(line))] = dice.randrange(256)
    broken.append(bytes(line[:dice.randrange(1, len(line) + 1)]))
write("broken", b"\n".join(broken) + b"\xF0\x9F\x98")
