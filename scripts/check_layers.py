#!/usr/bin/env python3
"""Holds scripts/layers.txt: which folder of src/ may include which, and who alone may use an outside library. And that a
.cpp without a header of its own says in its first line which one it serves: `// Serves packet/builder.h.`"""
import pathlib
import re
import sys

root = pathlib.Path(__file__).resolve().parent.parent
may, alone = {}, {}
for line in (root / "scripts/layers.txt").read_text().splitlines():
    if line.strip() and not line.startswith("#"):
        folder, rest = line.split(":", 1)
        inside, _, outside = rest.partition("|")
        may[folder] = set(inside.split())
        for header in outside.split():
            alone.setdefault(header, set()).add(folder)

faults = []
folders = {p.name for p in (root / "src").iterdir() if p.is_dir()}
for missing in sorted(folders - may.keys()):
    faults.append(f"src/{missing}: stands in no row of scripts/layers.txt")
for gone in sorted(may.keys() - folders):
    faults.append(f"scripts/layers.txt: there is no folder src/{gone}")
for path in sorted((root / "src").rglob("*")):
    if path.suffix not in (".cpp", ".h"):
        continue
    folder = path.relative_to(root / "src").parts[0]
    if path.suffix == ".cpp" and path.name != "main.cpp" and not path.with_suffix(".h").exists():
        served = re.match(rf"// Serves ({folder}/\w+\.h)[.:]", path.read_text())
        if not served or not (root / "src" / served.group(1)).exists():
            faults.append(f"{path.relative_to(root)}:1: begin with `// Serves {folder}/HEADER.h.`, the header that declares what stands here")
    for number, line in enumerate(path.read_text().splitlines(), 1):
        place = f"{path.relative_to(root)}:{number}"
        if found := re.match(r'#include "([a-z]+)/', line):
            other = found.group(1)
            if other != folder and other not in may.get(folder, set()) and may.get(folder) != {"*"}:
                faults.append(f"{place}: {folder} may not include {other}")
        if found := re.match(r"#include <([^>]+)>", line):
            for header, owners in alone.items():
                if (
                    found.group(1) == header
                    or found.group(1).startswith(header + "/")
                    or found.group(1).startswith(header + "_")
                    or found.group(1).startswith(header + ".")
                ) and folder not in owners:
                    faults.append(f"{place}: only {', '.join(sorted(owners))} may use {header}")
print("\n".join(faults) or f"{len(folders)} folders keep to their layers")
sys.exit(bool(faults))
