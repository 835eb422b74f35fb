#!/usr/bin/env python3
"""Ordinary situations of a company's year: what is told, and what stands on which paper. tests/situations/README.md says
how a file of a situation reads. One that is `pending` must still fail: when it holds, the word has to go."""
import concurrent.futures
import os
import pathlib
import subprocess
import sys

import yaml
from harness import ROOT, Copy, check, finish, messages, run

FOLDER = ROOT / "tests/situations"


def words_of(path):
    """The words of a paper as a reader takes them in, without line breaks."""
    done = subprocess.run(["pdftotext", str(path), "-"], capture_output=True, text=True)
    return " ".join(done.stdout.split())


def data_of(path):
    done = subprocess.run(["qpdf", "--show-attachment=packet.json", str(path)], capture_output=True, text=True)
    return " ".join(done.stdout.split())


def faults(situation, copy):
    done = run("--today", situation.get("today", "2026-06-20"), "check", copy.folder)
    if done.returncode not in (0, 1):
        yield f"check ends with {done.returncode}: {done.stderr.strip()[:200]}"
    told = messages(done.stdout + done.stderr)
    severities = {m["code"]: m["severity"] for m in sorted(told, key=lambda m: m["severity"], reverse=True)}
    for wanted in situation.get("tells", []):
        code, severity = next(iter(wanted.items())) if isinstance(wanted, dict) else (wanted, None)
        if code not in severities:
            yield f"{code} is not told; told are {sorted(severities) or 'none'}"
        elif severity and severities[code] != severity:
            yield f"{code} is told as {severities[code]}, not as {severity}"
    for code in situation.get("silent", []):
        if code in severities:
            yield f"{code} is told: " + next(m["what"] for m in told if m["code"] == code)
    if situation.get("errors") == "none":
        for m in told:
            if m["severity"] == "error":
                yield f"error at line {m['line']}: {m['what']} [{m['code']}]"
    for text in situation.get("message", []):
        if text not in done.stdout + done.stderr:
            yield f"no message says {text!r}"


def papers(situation, copy):
    for command, wanted in situation.get("papers", {}).items():
        out = copy.root / "out" / (command.replace(" ", "-") + ".pdf")
        out.parent.mkdir(exist_ok=True)
        done = run("--today", situation.get("today", "2026-06-20"), *command.split(), copy.folder, "-o", out)
        written = wanted.get("written", True)
        made = sorted(out.parent.glob(out.stem + "*.pdf"))
        if written != bool(made):
            yield f"{command}: {'not written' if written else 'written'}: {done.stderr.strip()[-300:]}"
            continue
        text = " ".join(words_of(path) for path in made)
        for words in wanted.get("says", []):
            if words not in text:
                yield f"{command} does not say {words!r}"
        for words in wanted.get("never", []):
            if words in text:
                yield f"{command} says {words!r}"
        data = "".join(data_of(path) for path in made) if "data" in wanted or "data never" in wanted else ""
        for words in wanted.get("data", []):
            if words not in data:
                yield f"the data inside {command} do not hold {words!r}"
        for words in wanted.get("data never", []):
            if words in data:
                yield f"the data inside {command} hold {words!r}"


def tried(path):
    situation = yaml.safe_load(path.read_text())
    with Copy(situation.get("from", "heron-lane")) as copy:
        for edit in situation.get("edits", []):
            where = copy.company if edit.get("in") == "company" else copy.case
            text = where.read_text()
            if "from" in edit:  # everything from there on goes
                head, found, _ = text.partition(edit["from"])
                assert found, f"{path.name}: {edit['from']!r} is not in the file"
                where.write_text(head + edit.get("new", ""))
            elif "old" in edit:
                copy.edit(edit["old"], edit["new"], where)
            else:
                where.write_text(text + edit["add"])
        for name, text in situation.get("files", {}).items():
            (copy.folder / name).parent.mkdir(parents=True, exist_ok=True)
            (copy.folder / name).write_text(text)
        if "case" in situation:
            copy.case.write_text(situation["case"])
        return situation, [*faults(situation, copy), *papers(situation, copy)]


def main():
    only = sys.argv[1:]
    paths = [p for p in sorted(FOLDER.glob("*.yaml")) if not only or any(p.name.startswith(o) for o in only)]
    pending = 0
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        for path, (situation, wrong) in zip(paths, pool.map(tried, paths)):
            if only and wrong:
                print(path.stem, *wrong, sep="\n  ")
            if situation.get("pending"):
                pending += 1
                check(wrong, f"{path.stem} holds: it is pending no more")
            else:
                check(not wrong, f"{path.stem}: " + "; ".join(wrong))
    print(f"{len(paths)} situations, {pending} of them pending")
    finish()


main()
