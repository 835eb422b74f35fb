#!/usr/bin/env python3
"""How cases are named, and what is told when something of them cannot be read: never a silent default, never half a list."""
import csv
import io
import json
import os
import shutil

from harness import ROOT, Copy, as_nobody, check, finish, run, skip

TODAY = ["--today", "2026-06-20"]

# A case is found from wherever a person stands, and so is the company above it.
with Copy() as copy:
    for where, name in ((copy.root, "heron-lane"), (copy.root, "heron-lane/"), (copy.root, "./heron-lane"),
                        (copy.root, "heron-lane/case.yaml"), (copy.folder, "."), (copy.folder, "case.yaml"),
                        (copy.folder, "./case.yaml"), (copy.folder, "../heron-lane"), (copy.folder / "photos", ".."),
                        (copy.folder / "photos", "../case.yaml"), ("/", copy.folder)):
        result = run("check", name, cwd=where)
        check(result.returncode == 0, f"check {name} in {where}: {result.stdout}{result.stderr}")
    for where, name in ((copy.root, "."), (copy.folder, "."), (copy.root, "heron-lane")):
        result = run("review", name, *TODAY, "--format", "csv", cwd=where)
        check(result.returncode == 0, f"review {name} in {where}: {result.returncode} {result.stdout}{result.stderr}")
    os.unlink(copy.company)
    gone = run("check", ".", cwd=copy.folder)
    check(gone.returncode == 2 and "`company.yaml` cannot be read: it is neither there nor in a folder above" in gone.stdout,
          f"no company: {gone.stdout}")

# The same case named twice is one case.
with Copy() as copy:
    named = ["heron-lane", "heron-lane/case.yaml", "./heron-lane/", copy.folder, ".", "heron-lane/../heron-lane"]
    once = run("review", ".", *TODAY, "--format", "json", cwd=copy.root)
    for some in (named, named[::-1]):
        twice = run("review", *some, *TODAY, "--format", "json", cwd=copy.root)
        files = [os.path.realpath(copy.root / row["file"]) for row in json.loads(twice.stdout)["cases"]]
        check(len(files) == len(set(files)) == len(json.loads(once.stdout)["cases"]), f"named twice: {files}")
    window = ["--from", "2026-06-01", "--to", "2028-06-01", "--format", "json", "--today", "2026-06-20"]
    due = json.loads(run("renew", ".", *window, cwd=copy.root).stdout)["due"]
    again = json.loads(run("renew", ".", *named, *window, cwd=copy.root).stdout)["due"]
    check(due and len(again) == len(due), f"renew: {len(again)} instead of {len(due)}")

# Nothing found is no list without faults.
with Copy() as copy:
    empty = copy.root / "empty"
    empty.mkdir()
    for command in ("review", "renew"):
        nothing = run(command, empty)
        check(nothing.returncode == 2 and "there is no case file below what was named" in nothing.stderr, f"{command}: {nothing}")
    check("clock" in run("review", "--help").stdout + run("--help").stdout, "--today: what the clock has to do with it")
    check("never asked" not in run("--help").stdout, "--today: the clock is asked when no day is given")
    check("1 parts" not in run("forms").stdout, "forms: 1 parts")

# Names that would drive a terminal or break a table.
with Copy() as copy:
    for letters in (b"a\x1b[31mred", b"two\nlines", b"no\xff\xfeletters", "c1\u009b31m".encode(), "turned\u202edets".encode()):
        ugly = os.path.join(os.fsencode(copy.root), letters)
        shutil.copytree(os.fsencode(copy.folder), ugly)
        with open(os.path.join(ugly, b"case.yaml"), "ab") as file:
            file.write(b"surplus: yes\n")
    text = run("review", ".", *TODAY, cwd=copy.root, errors="surrogateescape")
    plain = [text]
    for form in ("csv", "html", "sarif", "json"):
        plain.append(run("review", ".", *TODAY, "--format", form, cwd=copy.root, errors="surrogateescape"))
    for letters in (b"two\nlines", b"a\x1b[31mred"):
        ugly = os.path.join(os.fsencode(copy.root), letters)
        plain.append(run("check", os.fsdecode(ugly), errors="surrogateescape"))
        plain.append(run("report", os.fsdecode(ugly), "--draft", errors="surrogateescape"))
        plain.append(run("report", os.fsdecode(ugly), "-o", os.fsdecode(ugly) + "/no/where.pdf", "--draft", errors="surrogateescape"))
        plain.append(run("review", os.fsdecode(ugly) + "/nothing", errors="surrogateescape"))
        plain.append(run("check", os.fsdecode(ugly), "--forms", os.fsdecode(ugly) + "/nothing", errors="surrogateescape"))
    for result in plain:
        out = result.stdout + result.stderr
        words = " ".join(map(str, result.args[1:]))
        check("\x1b" not in out, f"ESC reaches the terminal: {words!r}")
        check(not any("\udc80" <= c <= "\udcff" for c in out), f"bytes that are no UTF-8: {words!r}")
        if "json" not in words:
            check("\u009b" not in out and "\u202e" not in out, f"C1 or a turned line: {words!r}")
        check("two\nlines" not in out, f"a name breaks its line: {words!r}")
    rows = list(csv.DictReader(io.StringIO(plain[1].stdout)))
    check(len([r for r in rows if r["rule"] == "unknown-key"]) == 5, "csv: rows of ugly names")
    check(len(json.loads(plain[4].stdout)["cases"]) == len(rows), "json: rows of ugly names")

# What is there and cannot be read is never passed over: neither for the built-in file nor for the folder above.
OWN = {"words.en.yaml": "templates", "packet.xml": "templates", "page.css": "templates", "work-order.xml": "templates",
       "us-nc.yaml": "forms", "us-general.yaml": "forms", "trade.yaml": "forms", "loan-va.yaml": "forms"}
for name, kind in OWN.items():
    with Copy() as copy:
        own = copy.root / "own"
        own.mkdir()
        (own / name).mkdir()  # a folder in place of the file: unreadable whoever runs the test
        command = "work-order" if name == "work-order.xml" else "report"
        option = ["--option", "1"] if command == "work-order" else []
        result = run(command, copy.folder, f"--{kind}", own, "-o", copy.root / "p.pdf")
        told = result.stdout + result.stderr
        check(result.returncode == 2 and f"own/{name}` cannot be read: it is a folder [unreadable-file]" in told,
              f"{name}: {result.returncode} {told}")
        check(not (copy.root / "p.pdf").exists(), f"{name}: a paper was made all the same")
with Copy() as copy:
    (copy.folder / "forms/us-nc.yaml").mkdir(parents=True)  # a form beside the case
    result = run("check", copy.folder)
    check(result.returncode == 2 and "us-nc.yaml` cannot be read" in result.stdout, f"form beside the case: {result.stdout}")
    for command in (["rules", "--form", "us-nc"], ["forms", "us-nc"], ["forms"], ["explain", "left-untreated"]):
        result = run(*command, "--forms", copy.folder / "forms")
        check(result.returncode == 2 and "cannot be read" in result.stderr, f"{command}: {result.returncode} {result.stderr}")

if as_nobody is None:
    skip("no setpriv, or not root: folders without permission")
else:
    with Copy() as copy:
        copy.open_to_all()
        locked = copy.root / "quarry-row"
        locked.chmod(0)
        for command in (["review", ".", *TODAY], ["renew", ".", *TODAY]):
            result = run(*command, cwd=copy.root, before=as_nobody)
            check(result.returncode == 2 and "quarry-row` was not looked into: Permission denied" in result.stderr,
                  f"{command}: {result.returncode} {result.stderr}")
        found = json.loads(run("review", ".", *TODAY, "--format", "json", cwd=copy.root, before=as_nobody).stdout)
        check(found["not_read"] == [{"path": "quarry-row", "why": "Permission denied"}], f"json: {found['not_read']}")
        locked.chmod(0o755)
        copy.case.chmod(0)
        result = run("check", "heron-lane", cwd=copy.root, before=as_nobody)
        check(result.returncode == 2 and "`heron-lane/case.yaml` cannot be read: Permission denied" in result.stdout, f"case: {result.stdout}")
        copy.case.chmod(0o644)
        copy.company.chmod(0)
        result = run("check", "heron-lane", cwd=copy.root, before=as_nobody)
        check(result.returncode == 2 and "`company.yaml` cannot be read: Permission denied" in result.stdout, f"company: {result.stdout}")
        copy.company.chmod(0o644)
        forms = copy.folder / "forms"
        forms.mkdir()
        shutil.copy(ROOT / "forms/us-nc.yaml", forms)
        forms.chmod(0)
        result = run("check", "heron-lane", cwd=copy.root, before=as_nobody)
        check(result.returncode == 2 and "us-nc.yaml` cannot be read: Permission denied" in result.stdout, f"form: {result.stdout}")
finish()
