#!/usr/bin/env python3
"""Keeps calls of libharu that lose text, break files or crash out of the sources, libharu itself inside src/pdf, and all
that looks into its records inside src/pdf/haru.cpp."""
import pathlib
import re
import sys

root = pathlib.Path(__file__).resolve().parent.parent
unsafe = []
for line in (root / "scripts/unsafe-haru.txt").read_text().splitlines():
    if line.strip() and not line.startswith("#"):
        name, why = line.split(":", 1)
        unsafe.append((re.compile(r"\b" + name.replace("*", r"\w*") + r"\b"), name, why.strip()))


RECORDS = re.compile(r"\bHPDF_\w+_Rec\b|->\s*(header|attr|write_fn|mmgr|xref|pdf_version|user_data)\b|<hpdf_")


def faults_in(text, folder, name=""):
    found = []
    for number, line in enumerate(text.splitlines(), 1):
        code = line.split("//")[0]
        for call, unsafe_name, why in unsafe:
            if call.search(code):
                found.append((number, f"{unsafe_name} is not called here: {why}"))
        if folder != "pdf" and re.search(r"\bHPDF_\w+|<hpdf", code):
            found.append((number, "only src/pdf knows libharu"))
        if folder == "pdf" and name not in ("haru.cpp", "haru.h") and RECORDS.search(code):
            found.append((number, "only pdf/haru.cpp looks into libharu's records"))
    return found


# The check itself: what it is there for, it finds.
assert faults_in('  HPDF_LoadPngImageFromMem(doc, p, n);', "pdf") and faults_in("#include <hpdf.h>", "page")
assert not faults_in("  HPDF_AddPage(doc);  // not HPDF_GetFont", "pdf")
assert faults_in("  dict->write_fn = f;", "pdf", "file.cpp") and not faults_in("  dict->write_fn = f;", "pdf", "haru.cpp")

faults = []
for path in sorted((root / "src").rglob("*")):
    if path.suffix in (".cpp", ".h"):
        place = path.relative_to(root)
        faults += [f"{place}:{number}: {words}" for number, words in faults_in(path.read_text(), place.parts[1], path.name)]
print("\n".join(faults) or f"none of {len(unsafe)} unsafe calls of libharu stands in src/")
sys.exit(bool(faults))
