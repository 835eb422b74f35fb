#!/usr/bin/env python3
"""Runs the worked cases of tests/rules/*.txt that need the program itself, and holds what it tells to the letter.

src/rules/worked.h says how the cases are written. What is told now stands in NAME.txt.actual when it differs.
"""
import json
import pathlib
import re
import tempfile

from harness import ROOT, check, finish, run

RULES = ROOT / "tests/rules"
SOURCES = {"base.yaml": RULES / "base.yaml", "company.yaml": RULES / "company.yaml"}
NUMBER = re.compile(r"^([^ ]+\.(?:yaml|xml)):\d+(?::\d+)?:")
EXCERPT = re.compile(r"^ *\d* \| ")


def cases(text):
    """(name, changes, words of RUN, what is told) of each case that runs the program."""
    for block in re.split(r"^CASE ", text, flags=re.M)[1:]:
        head, _, says = block.partition("SAYS\n")
        name, *lines = head.splitlines()
        file, changes, words = "base.yaml", [], None
        old, new = [], []

        def close():
            if old:
                changes.append((file, "\n".join(old), "\n".join(new)))
            old.clear(), new.clear()

        for line in lines:
            if line.startswith("- "):
                if new:
                    close()
                old.append(line[2:])
            elif line.startswith("+ "):
                new.append(line[2:])
            else:
                close()
                if line.startswith("IN "):
                    file = line[3:]
                elif line.startswith("RUN "):
                    words = line[4:].split()
        close()
        if words:
            says = re.sub(r"^# .*\n", "", says, flags=re.M).rstrip("\n")
            yield name, changes, words, says


def told(changes, words):
    with tempfile.TemporaryDirectory(prefix="soundsill-told-") as scratch:
        folder = pathlib.Path(scratch)
        texts = {name: path.read_text() for name, path in SOURCES.items()}
        for file, old, new in changes:
            if file not in texts:
                kept = ROOT / "templates" / file
                texts[file] = (kept if kept.exists() else ROOT / "forms" / file).read_text()
            assert texts[file].count(old) == 1, f"{texts[file].count(old)} times in {file}: {old!r}"
            texts[file] = texts[file].replace(old, new)
        if "--without" in words:
            at = words.index("--without")
            texts.pop(words[at + 1])
            words = words[:at] + words[at + 2:]
        for name, text in texts.items():
            file = folder / ("case.yaml" if name == "base.yaml" else name)
            # \xE9 in a case stands for that byte, which is no UTF-8.
            file.write_bytes(re.sub(rb"\\x([0-9A-F]{2})", lambda m: bytes([int(m[1], 16)]), text.encode()))
        (folder / "photos").mkdir()
        (folder / "photos/tube.jpg").write_bytes((ROOT / "examples/heron-lane/photos/3-close.jpg").read_bytes())
        result = run(*words, cwd=folder)
    lines = [EXCERPT.sub("| ", NUMBER.sub(r"\1:", line)) for line in (result.stdout + result.stderr).splitlines()]
    return "\n".join(line for line in lines if not re.fullmatch(r"\d+ errors?, \d+ warnings?", line)).rstrip("\n")


for path in sorted(RULES.glob("*.txt")):
    text = path.read_text()
    now = text
    for name, changes, words, says in cases(text):
        actual = told(changes, words)
        check(actual == says, f"{path.name}: {name}: told\n{actual}\ninstead of\n{says}")
        begin = now.index("CASE " + name + "\n")
        start = now.index("SAYS\n", begin) + len("SAYS\n")
        tail = now[start:]
        end = re.search(r"^(?:CASE |# )", tail, flags=re.M)
        rest = tail[end.start():] if end else ""
        now = now[:start] + (actual + "\n" if actual else "") + ("\n" if rest else "") + rest
    if now != text:
        path.with_suffix(".txt.actual").write_text(now)

# The README's table of reasons names rules that there are, and `explain` tells of every rule.
known = {rule["rule"] for rule in json.loads(run("rules", "--format", "json").stdout)["rules"]}
table = (ROOT / "README.md").read_text().split("## Why papers come back")[1].split("\n## ")[0]
rows = re.findall(r"^\| (\d+) \|.*\|$", table, flags=re.M)
named = set(re.findall(r"`([a-z]+(?:-[a-z]+)*)`", table)) - {"none", "record"}
check([int(n) for n in rows] == list(range(1, 22)), f"README: reasons {rows}")
check(named <= known, f"README: no rules {named - known}")
for rule in sorted(known):
    told_of = run("explain", rule)
    check(told_of.returncode == 0 and told_of.stdout.startswith(rule + ": "), f"explain {rule}: {told_of}")
check(run("explain", "unansweredd").returncode == 2, "explain of a rule that is none")
for form in ("us-nc", "us-sc", "us-ga", "us-fl", "us-tx", "us-ca", "us-va", "us-general", "loan-fha", "loan-va", "loan-usda"):
    listed = run("forms", form, "--loan", "fha")
    check(listed.returncode == 0 and "built-in forms/" in listed.stdout, f"forms {form}: {listed.stderr}")

# A new state is a new file: a folder for --forms, and no line of the program.
with tempfile.TemporaryDirectory(prefix="soundsill-state-") as scratch:
    folder = pathlib.Path(scratch)
    form = (ROOT / "forms/us-va.yaml").read_text().replace("form: us-va", "form: us-zz").replace("state: VA", "state: ZZ")
    form += "\n".join(["active tests:", "  - {organisms: [subterranean termites], any of: [a live queen], cite: invented, status: published}", ""])
    (folder / "us-zz.yaml").write_text(form)
    case = SOURCES["base.yaml"].read_text().replace("form: us-nc", "form: us-zz").replace("state: NC", "state: ZZ")
    (folder / "case.yaml").write_text(case)
    (folder / "company.yaml").write_text(SOURCES["company.yaml"].read_text())
    (folder / "photos").mkdir()
    (folder / "photos/tube.jpg").write_bytes((ROOT / "examples/heron-lane/photos/3-close.jpg").read_bytes())
    checked = run("check", folder, "--forms", folder)
    check("[weak-basis]" in checked.stdout and "(invented)" in checked.stdout and checked.returncode == 1, f"a new state: {checked.stdout}")
    check(str(folder) in run("forms", "us-zz", "--forms", folder).stdout, "forms: where a new state came from")
finish()
