#!/usr/bin/env python3
"""Many cases over many processes or machines: shards by a list of files, joined to the same bytes as one run."""
import json
import os
import random
import shutil
import subprocess

from harness import PROGRAM, Copy, as_nobody, check, finish, run, skip

TODAY = ["--today", "2026-03-29"]
FORMATS = ("text", "csv", "json", "html", "sarif")


def names(path, cases):
    path.write_text("".join(f"{case}\n" for case in cases))
    return path


with Copy() as copy:
    # Forty cases, some broken, one that cannot be read, names that sort differently by letter and by folder.
    examples = sorted(p.parent.name for p in copy.root.glob("*/case.yaml"))
    for n in range(28):
        folder = copy.root / f"year-{n % 3}" / (f"case {n}" if n % 5 else f"case-{n}") / ("sub" if n % 7 == 0 else ".")
        shutil.copytree(copy.root / examples[n % len(examples)], folder)
        if n % 4 == 0:
            case = folder / "case.yaml"
            case.write_text(case.read_text().replace("organism: subterranean termites", "organism: termights", 1) + "surplus: é\n")
    (copy.root / "year-1/case 1/case.yaml").unlink()
    (copy.root / "year-1/case 1/case.yaml").symlink_to("nowhere")
    with open(os.path.join(os.fsencode(copy.root), b"year-2/no\xff\nletters.yaml"), "wb") as file:
        file.write(b"format: 1\n")
    found = subprocess.run(["find", ".", "-name", "case.yaml"], cwd=copy.root, capture_output=True, text=True).stdout.split("\n")[:-1]
    cases = [os.path.normpath(name) for name in found]
    check(len(cases) > 30, f"{len(cases)} cases")
    whole = {form: run("review", ".", *TODAY, "--format", form, cwd=copy.root) for form in FORMATS}
    check(whole["text"].returncode == 2 and "unreadable-file" in whole["text"].stdout, f"{whole['text'].returncode}")

    random.seed(8)
    for count in (1, 2, 7):
        random.shuffle(cases)
        shards = [names(copy.root / f"shard.{n}", cases[n::count]) for n in range(count)]
        lists = []
        for n, shard in enumerate(shards):
            part = run("review", "--list", shard, *TODAY, "--format", "json", cwd=copy.root)
            lists.append(copy.root / f"part.{n}.json")
            lists[-1].write_text(part.stdout)
        random.shuffle(lists)
        for form in FORMATS:
            merged = run("review", "--merge", *lists, "--format", form)
            check(merged.stdout == whole[form].stdout, f"{count} shards, {form}: other bytes than one run")
            check(merged.returncode == whole[form].returncode, f"{count} shards, {form}: exit status {merged.returncode}")
        for more in (["--only", "not ready"], ["--sort", "closing"], ["--only", "closing", "--sort", "number"]):
            merged = run("review", "--merge", *lists, "--format", "csv", *more)
            check(merged.stdout == run("review", ".", *TODAY, "--format", "csv", *more, cwd=copy.root).stdout,
                  f"{count} shards, {more}: other bytes than one run")
    listed = run("review", "--list", "-", *TODAY, "--format", "html", cwd=copy.root, input="\n".join(cases))
    check(listed.stdout == whole["html"].stdout, "names by standard input: other bytes")
    listed = run("review", "--list", "-", *TODAY, "--format", "html", cwd=copy.root, input="\0".join(cases) + "\0")
    check(listed.stdout == whole["html"].stdout, "names with null bytes between: other bytes")

    # What a shard could not look into is missing from the joined list, too, and that is said again.
    lost = run("review", "nowhere", "heron-lane", *TODAY, "--format", "json", cwd=copy.root)
    (copy.root / "lost.json").write_text(lost.stdout)
    merged = run("review", "--merge", copy.root / "lost.json", "--format", "json")
    check(lost.returncode == merged.returncode == 2 and merged.stdout == lost.stdout, f"not read: {merged}")
    check(merged.stderr == lost.stderr and "`nowhere` was not looked into: there is no such file or folder" in merged.stderr, merged.stderr)

    # What is no list of ours is told in one message, and nothing is written.
    good = json.loads(run("review", "heron-lane", *TODAY, "--format", "json", cwd=copy.root).stdout)
    row = good["cases"][0]
    fault = {"rule": "unheard-of", "severity": "error", "file": "", "line": 0, "column": 0, "end_line": 0, "end_column": 0,
             "what": "", "why": "", "fix": ""}
    bad = {"": "parse error at line 1, column 1", "{": "parse error at line 1, column 2", "[]": "`version` is missing",
           "null": "`version` is missing", "[" * 100_000: "parse error", '{"version": 1}': "`today` is missing",
           json.dumps({"version": 1, "faults": []}): "`today` is missing",
           json.dumps({**good, "version": 2}): "its `version` is not 1",
           json.dumps({**good, "cases": {}}): "`cases` is no list",
           json.dumps({**good, "cases": [7]}): "`file` is missing",
           json.dumps({**good, "cases": [{**row, "closing": "soon"}]}): "`closing` is no day",
           json.dumps({**good, "cases": [{**row, "errors": -1}]}): "`errors` is no whole number",
           json.dumps({**good, "cases": [{**row, "kept": [1]}]}): "type must be string",
           json.dumps({**good, "cases": [{**row, "attention": ["sleepy"]}]}): "`sleepy`",
           json.dumps({**good, "cases": [{**row, "faults": [fault]}]}): "`unheard-of`; another version of soundsill wrote it"}
    for text, word in bad.items():
        (copy.root / "bad.json").write_text(text)
        for form in ("json", "text"):
            refused = run("review", "--merge", copy.root / "lost.json", copy.root / "bad.json", "--format", form)
            check(refused.returncode == 2 and refused.stdout == "", f"{text[:60]}: {refused.returncode} {refused.stdout[:200]}")
            lines = refused.stderr.splitlines()
            check(len(lines) == 1 and "bad.json` cannot be merged: " in lines[0] and word in lines[0], f"{text[:60]}: {refused.stderr[:400]}")
    for name, other, word in (("another day", ["--today", "2026-03-30"], "judges by another day"),
                              ("other days ahead", [*TODAY, "--within", "8"], "judges by another day"),
                              ("the same case twice", TODAY, "two of the lists hold this case")):
        (copy.root / "other.json").write_text(run("review", "heron-lane", *other, "--format", "json", cwd=copy.root).stdout)
        refused = run("review", "--merge", copy.root / "lost.json", copy.root / "other.json")
        check(refused.returncode == 2 and word in refused.stderr and refused.stdout == "", f"{name}: {refused.stderr}")
    refused = run("review", "--merge", copy.root / "no.json")
    check(refused.returncode == 2 and "no.json` cannot be merged: there is no such file" in refused.stderr, refused.stderr)
    for words in (["review"], ["review", "--merge"], ["review", "--list", copy.root / "nothing"]):
        check(run(*words).returncode == 2, f"{words}")

# The recipe of DEVELOPERS.md, with GNU parallel.
RECIPE = r"""
find . -name case.yaml -printf "%P\n" > all.list
split -l 3 all.list shard.
parallel --will-cite 'soundsill review --list {} --today 2026-06-20 --format json > {}.json' ::: shard.??
soundsill review --merge shard.*.json --format html > review.html
parallel --will-cite -m soundsill report < all.list
"""
if not shutil.which("parallel") or "GNU" not in subprocess.run(["parallel", "--version"], capture_output=True, text=True).stdout:
    skip("GNU parallel is not installed: the recipe for many machines")
else:
    with Copy() as copy, Copy() as alone:
        shell = {"env": {**os.environ, "PATH": os.path.dirname(PROGRAM) + ":" + os.environ["PATH"], "HOME": str(copy.root / "home")}}
        (copy.root / "home").mkdir()
        done = subprocess.run(["sh", "-ec", RECIPE], cwd=copy.root, capture_output=True, text=True, **shell)
        check(done.returncode == 0, f"the recipe: {done.returncode} {done.stderr[-800:]}")
        one = run("review", ".", "--today", "2026-06-20", "--format", "html", cwd=copy.root).stdout
        check((copy.root / "review.html").read_text() == one, "the recipe: another list than one run")
        cases = sorted(alone.root.glob("*/case.yaml"))
        check(run("report", *cases).returncode == 0, "report of all cases")
        for case in cases:
            name = case.parent.name
            check((copy.root / name / "packet.pdf").read_bytes() == (case.parent / "packet.pdf").read_bytes(), f"{name}: other bytes in a shard")
finish()
