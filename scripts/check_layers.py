#!/usr/bin/env python3
"""Holds scripts/layers.txt: which folder of src/ may include which, and who alone may use an outside library. That each folder
links what it includes and no more (the folders of its row, and what src/CMakeLists.txt gives it WITH). And that a .cpp
without a header of its own says in its first line which one it serves: `// Serves packet/builder.h.`

A word with a slash is a single header: `casefile/terms.h` may be included though its folder may not; `!casefile/case.h`
may not be reached at all, not even through other headers."""
import pathlib
import re
import sys

root = pathlib.Path(__file__).resolve().parent.parent
may, never, alone = {}, {}, {}
for line in (root / "scripts/layers.txt").read_text().splitlines():
    if line.strip() and not line.startswith("#"):
        folder, rest = line.split(":", 1)
        inside, _, outside = rest.partition("|")
        may[folder] = {word for word in inside.split() if not word.startswith("!")}
        never[folder] = {word[1:] for word in inside.split() if word.startswith("!")}
        for header in outside.split():
            alone.setdefault(header, set()).add(folder)

faults, includes, outside_of, included_by = [], {}, {}, {}
folders = {p.name for p in (root / "src").iterdir() if p.is_dir()}
for missing in sorted(folders - may.keys()):
    faults.append(f"src/{missing}: stands in no row of scripts/layers.txt")
for gone in sorted(may.keys() - folders):
    faults.append(f"scripts/layers.txt: there is no folder src/{gone}")
for header in sorted(set().union(*never.values()) | {word for words in may.values() for word in words if "/" in word}):
    if not (root / "src" / header).is_file():
        faults.append(f"scripts/layers.txt: there is no header src/{header}")
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
        if found := re.match(r'\s*#\s*include "(([a-z]+)/[^"]*)"', line):
            header, other = found.groups()
            if other != folder and not {other, header} & may.get(folder, set()) and may.get(folder) != {"*"}:
                faults.append(f"{place}: {folder} may not include {other}")
            includes.setdefault(folder, set()).add(other)
            included_by.setdefault(header, {})[str(path.relative_to(root / "src"))] = number
        if found := re.match(r"\s*#\s*include <([^>]+)>", line):
            outside_of.setdefault(folder, set()).add(found.group(1))
            for header, owners in alone.items():
                if (
                    found.group(1) == header
                    or found.group(1).startswith(header + "/")
                    or found.group(1).startswith(header + "_")
                    or found.group(1).startswith(header + ".")
                ) and folder not in owners:
                    faults.append(f"{place}: only {', '.join(sorted(owners))} may use {header}")


def reached(folder, seen=frozenset()):
    """The folders whose headers a folder sees, by its own includes or by theirs."""
    for other in includes.get(folder, set()) - seen:
        seen = reached(other, seen | {other})
    return seen


def ways_to(header):
    """For every file of src/ that reaches a header, the one it includes on its shortest way there, and in which line."""
    ways, at = {}, [header]
    while at:
        last = at.pop(0)
        for file, number in included_by.get(last, {}).items():
            if file not in ways:
                ways[file] = (last, number)
                at.append(file)
    return ways


for header in sorted(set().union(*never.values())):
    for file, (last, number) in sorted(ways_to(header).items()):
        if header in never.get(file.split("/")[0], ()):
            through = "" if last == header else f", through {last}"
            faults.append(f"src/{file}:{number}: {file.split('/')[0]} may not include {header}{through}")

for folder in sorted(folders & may.keys()):
    if may[folder] != {"*"}:
        for other in sorted(word for word in may[folder] - reached(folder) if "/" not in word):
            faults.append(f"scripts/layers.txt: {folder} links {other}, and none of its files includes it")

# By what an outside library is linked, and how the names of its headers begin. Libraries of C itself are left out.
LINKED = {"fmt::fmt-header-only": "fmt/", "nlohmann_json::nlohmann_json": "nlohmann/", "ARCHIVE_yaml-cpp": "yaml-cpp/",
          "ARCHIVE_pugixml": "pugixml", "ARCHIVE_hyphen": "hyphen.h", "ARCHIVE_deflate": "libdeflate.h", "ARCHIVE_jpeg": "jpeglib.h",
          "PNG::PNG": "png.h", "PkgConfig::LCMS": "lcms2", "PkgConfig::CLIPPER": "polyclipping/", "PkgConfig::UNIBREAK": "linebreak.h",
          "PkgConfig::HARFBUZZ": "hb", "HPDF_LIBRARY": "hpdf"}
cmake = (root / "src/CMakeLists.txt").read_text()
for folder in sorted(folders):
    if not (row := re.search(rf"^layer\({folder}(?: WITH ([^)]*))?\)$", cmake, re.M)):
        faults.append(f"src/CMakeLists.txt: no layer({folder})")
        continue
    links = {re.sub(r"[${}]", "", word) for word in (row[1] or "").split()} - {"CMAKE_DL_LIBS"}
    for unknown in sorted(links - LINKED.keys()):
        faults.append(f"src/CMakeLists.txt: {folder} links {unknown}, whose headers scripts/check_layers.py does not know")
    needs = {library for library, begins in LINKED.items() if any(h.startswith(begins) for h in outside_of.get(folder, set()))}
    for library in sorted(links & LINKED.keys() - needs):
        faults.append(f"src/CMakeLists.txt: {folder} links {library} and includes nothing of it")
    for library in sorted(needs - links):
        faults.append(f"src/CMakeLists.txt: {folder} includes {LINKED[library]}... and does not link {library}")
print("\n".join(faults) or f"{len(folders)} folders keep to their layers")
sys.exit(bool(faults))
