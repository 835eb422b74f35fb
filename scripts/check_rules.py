#!/usr/bin/env python3
"""Holds that the function of a rule stands in src/rules/SECTION.cpp, by the catalogue's sections, so that its file can be guessed."""
import pathlib
import re
import sys

root = pathlib.Path(__file__).resolve().parent.parent
rules = root / "src/rules"
home, section = {}, ""
for line in (root / "src/diagnostics/catalogue.def").read_text().splitlines():
    if found := re.match(r"RULE_SECTION\((\w+),", line):
        section = found.group(1)
    elif found := re.match(r"RULE\((\w+), (?:check|asked),", line):
        home[found.group(1)] = section

faults, there = [], {}
for path in sorted(rules.glob("*.cpp")):
    for name in re.findall(r"^void (\w+)\(const Papers& papers, (?:const RuleUse& use, )?Faults& faults\)", path.read_text(), re.M):
        if name in home:
            there.setdefault(name, []).append(path.stem)
    if path.stem not in home.values() and not path.with_suffix(".h").exists():
        faults.append(f"src/rules/{path.name}: is no section of the catalogue, and has no header of its own")
for name, section in home.items():
    if there.get(name) != [section]:
        faults.append(f"{name}: stands in {there.get(name, 'no file')}, and its section is {section}")
print("\n".join(faults) or f"{len(home)} rules stand in the files of {len(set(home.values()))} sections")
sys.exit(bool(faults) or not home)
