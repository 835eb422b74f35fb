#!/usr/bin/env python3
"""Letters that a reader would not see as they were meant are told with their line, and no other letter is: held against
the Unicode Character Database that Python brings (module unicodedata)."""
import re
import sys
import unicodedata

from harness import Copy, check, finish, messages, run

AT_ONCE = 90  # reading stops after a hundred faults
# Default_Ignorable_Code_Point (DerivedCoreProperties.txt) that are no format characters.
IGNORED = {0x34F, 0x115F, 0x1160, 0x17B4, 0x17B5, 0x3164, 0xFFA0, *range(0x180B, 0x1810), *range(0xFE00, 0xFE10), *range(0xE0100, 0xE01F0)}
# Signs that stand round the number that follows them, in scripts read from left to right (Prepended_Concatenation_Mark).
PREPENDED = {0x110BD, 0x110CD}
# Blocks of scripts that run from right to left, marks and numbers of theirs included: what is not assigned there yet is R or
# AL by the @missing lines of DerivedBidiClass.txt.
LEFTWARD = [(0x590, 0x8FF), (0xFB1D, 0xFDCF), (0xFDF0, 0xFDFF), (0xFE70, 0xFEFF), (0x10800, 0x10FFF), (0x1E800, 0x1EFFF)]


def odd(code):
    if (code & 0xFFFE) == 0xFFFE or 0xFDD0 <= code <= 0xFDEF or code in (0xFFFC, 0xFFFD):  # The Unicode Standard, 23.7, 23.8
        return True
    letter = chr(code)
    if code in PREPENDED:
        return False
    if any(first <= code <= last for first, last in LEFTWARD):
        return True
    return unicodedata.category(letter) in ("Cf", "Co", "Zl", "Zp") or unicodedata.bidirectional(letter) in ("R", "AL") or code in IGNORED


def edges():
    """The first and the last of each run of odd letters, and their neighbors; letters without a name besides are nobody's."""
    found = set()
    before = False
    for code in range(0xA0, sys.maxunicode + 1):
        if 0xD800 <= code < 0xE000 or unicodedata.category(chr(code)) == "Cn" and not odd(code):
            continue
        now = odd(code)
        if now != before:
            found |= {code - 1, code}
        before = now
    return sorted(c for c in found if c >= 0xA0 and not 0xD800 <= c < 0xE000 and (odd(c) or unicodedata.category(chr(c)) != "Cn"))


def told(codes):
    """The letters of which something is told, typed as escapes: not every one may stand in a file as it is."""
    with Copy() as copy:
        text = copy.case.read_text()
        at = re.search(r"tools: \[[^\]]*\]", text)
        head, tail = text[: at.start()], text[at.end():]
        copy.case.write_text(head + "tools: [" + ", ".join(f'"a\\U{c:08X}b"' for c in codes) + "]" + tail)
        checked = run("check", copy.folder)
    return {int(m, 16) for m in re.findall(r"error: the letter U\+([0-9A-F]+) in `a", checked.stdout)} | {
        int(m, 16) for m in re.findall(r"error: `\\U0*([0-9A-F]+)` in double quotes stands for", checked.stdout)}


letters = edges()
ordinary = [c for c in range(0xA1, 0x2600) if unicodedata.category(chr(c))[0] in "LPS" and not odd(c)]
check(len(letters) > 60, f"only {len(letters)} edges")
for sample in (letters, ordinary[:: len(ordinary) // 400]):
    for begin in range(0, len(sample), AT_ONCE):
        part = sample[begin:begin + AT_ONCE]
        wanted, seen = {c for c in part if odd(c)}, told(part)
        check(seen == wanted, f"passed: {[hex(c) for c in sorted(wanted - seen)]}, refused: {[hex(c) for c in sorted(seen - wanted)]}")
with Copy() as copy:
    copy.edit("weather: dry", "weather: \u05d3\u05d9\u05df")
    line = next(n for n, text in enumerate(copy.case.read_text().splitlines(), 1) if "\u05d3" in text)
    found = messages(run("check", copy.folder).stdout)
    check([(m["code"], int(m["line"])) for m in found] == [("no-letter", line)], f"a name from right to left: {found}")
finish()
