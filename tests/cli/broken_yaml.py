#!/usr/bin/env python3
"""Breaks the YAML of a clean example in many ways: exit status 1, one error, at the right line, with the right code."""
from harness import Copy, check, finish, messages, run

BROKEN = [
    ("a quote never closed", "weather: dry,", "weather: 'dry,", "open-quote"),
    ("a key twice", "    organism: subterranean termites\n    state: active\n", "    organism: subterranean termites\n    state: active\n    state: past\n", "doubled-key"),
    ("two documents", "format: 1\n", "format: 1\n---\n", "several-documents"),
    ("no space after a colon", "    kind: condition\n    in: house\n    at: [24', 14']", "    kind:condition\n    in: house\n    at: [24', 14']", "missing-space"),
    ("an amount split by a comma", "asked of: seller, proof: a reading of 20 % or less in both joists", "asked of: seller, proof: a reading, by letter", "split-by-comma"),
    ("a comment instead of a value", "      kind: single-family\n", "      kind: #3\n", "empty-value"),
    ("a merge key", "    - name: detached garage\n", "    - name: detached garage\n      <<: house\n", "alias-used"),
    ("an anchor", "form: us-nc", "form: &f us-nc", "alias-used"),
    ("an alias", "weather: dry", "weather: *dry", "alias-used"),
    ("a tab", "      inspected: no\n", "\tinspected: no\n", "tab-indent"),
    ("an open bracket", "count: [4, 1],", "count: [4, 1,", "bad-yaml"),
    ("a mapping where text belongs", "form: us-nc", "form: {state: NC}", "wrong-shape"),
    ("a misspelt key", "    organism: subterranean termites\n    state: active\n", "    organsim: subterranean termites\n    state: active\n", "unknown-key"),
    ("a misspelt choice", "purpose: sale", "purpose: sael", "unknown-choice"),
    ("a number where a code belongs", 'zip: "27000"', "zip: 02134", "unquoted-text"),
    ("a day that is none", "ordered: 2026-03-02", "ordered: 2026-02-30", "bad-date"),
    ("an American date", "ordered: 2026-03-02", "ordered: 3/2/2026", "bad-date"),
    ("a time that is none", 'from: "9:10"', 'from: "9:70"', "bad-time"),
    ("twelve inches", "E 12',", "E 11'12\",", "bad-walk"),
    ("a percentage above 100", "percent: 24}", "percent: 240}", "bad-percent"),
    ("yes or no", "live seen: yes", "live seen: perhaps", "bad-yes-no"),
    ("a place nobody finds", "at: pier 3\n", "at: peer 3\n", "bad-place"),
    ("a newer format", "format: 1\n", "format: 2\n", "newer-format"),
    ("a reserved sign", "weather: dry", "weather: @dry", "bad-yaml"),
    ("a colon in text", "    where: the pull-down stair is blocked\n", "    where: stair: blocked: goods\n", "bad-yaml"),
]

for name, old, new, code in BROKEN:
    if new is None:
        continue
    with Copy() as copy:
        text = copy.case.read_text()
        line = text[: text.index(old)].count("\n") + 1
        copy.edit(old, new)
        checked = run("check", copy.case)
        errors = [m for m in messages(checked.stdout) if m["severity"] == "error"]
        check(checked.returncode == 1, f"{name}: exit status {checked.returncode}\n{checked.stderr}")
        check(len(errors) == 1 or code in ("unknown-key",), f"{name}: {len(errors)} errors\n{checked.stdout}")
        check(any(m["code"] == code and abs(int(m["line"]) - line) <= 2 for m in errors),
              f"{name}: no [{code}] near line {line}\n{checked.stdout}")
        drafted = run("report", copy.case, "--draft", "-o", copy.root / "d.pdf")
        check(drafted.returncode == 1, f"{name}: a draft ends with {drafted.returncode}\n{drafted.stderr}")
        check("  why: " in checked.stdout and "  fix: " in checked.stdout, f"{name}: no why or fix")
with Copy() as copy:  # bytes that are no text
    copy.case.write_bytes(copy.case.read_bytes().replace(b"weather: dry", b"weather: dr\xe9"))
    checked = run("check", copy.case)
    check(checked.returncode == 1 and "[bad-encoding]" in checked.stdout, f"bad bytes: {checked.stdout}")
finish()
