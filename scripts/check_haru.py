#!/usr/bin/env python3
"""Keeps calls of libharu that lose text, break files or crash out of the sources, and libharu itself inside src/pdf."""
import pathlib
import re
import sys

root = pathlib.Path(__file__).resolve().parent.parent
unsafe = []
for line in (root / "scripts/unsafe-haru.txt").read_text().splitlines():
    if line.strip() and not line.startswith("#"):
        name, why = line.split(":", 1)
        unsafe.append((re.compile(r"\b" + name.replace("*", r"\w*") + r"\b"), name, why.strip()))


def faults_in(text, folder):
    found = []
    for number, line in enumerate(text.splitlines(), 1):
        code = line.split("//")[0]
        for call, name, why in unsafe:
            if call.search(code):
                found.append((number, f"{name} is not called here: {why}"))
        if folder != "pdf" and re.search(r"\bHPDF_\w+|<hpdf", code):
            found.append((number, "only src/pdf knows libharu"))
    return found


# The check itself: what it is there for, it finds.
assert faults_in('  HPDF_LoadPngImageFromMem(doc, p, n);', "pdf") and faults_in("#include <hpdf.h>", "page")
assert not faults_in("  HPDF_AddPage(doc);  // not HPDF_GetFont", "pdf")

faults = []
for path in sorted((root / "src").rglob("*")):
    if path.suffix in (".cpp", ".h"):
        place = path.relative_to(root)
        faults += [f"{place}:{number}: {words}" for number, words in faults_in(path.read_text(), place.parts[1])]
print("\n".join(faults) or f"none of {len(unsafe)} unsafe calls of libharu stands in src/")
sys.exit(bool(faults))
