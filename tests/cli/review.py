#!/usr/bin/env python3
"""`review` over folders of cases, read back by other programs: csv, json, SARIF against its schema, HTML."""
import csv
import html.parser
import io
import json
import os
import pathlib
import shutil
import tempfile

import jsonschema
from harness import ROOT, check, finish, run

# The schema of SARIF 2.1.0, an OASIS standard, as Microsoft's sarif-multitool 5.7.0 ships it (MIT license).
SARIF = json.loads((ROOT / "tests/data/sarif-schema-2.1.0.json").read_text())
TODAY = ["--today", "2026-06-20"]


def conforms(text, what):
    log = json.loads(text)
    errors = [e.message for e in jsonschema.Draft202012Validator(SARIF).iter_errors(log)]
    check(not errors, f"{what}: {errors[:3]}")
    return log


class Page(html.parser.HTMLParser):
    """Rows and heads of a page, and whether every element that was opened is closed."""
    EMPTY = {"meta", "input", "br", "link"}

    def __init__(self):
        super().__init__()
        self.open, self.rows, self.heads, self.scripts, self.text, self.badly = [], 0, 0, 0, "", False

    def handle_starttag(self, tag, attrs):
        if tag not in self.EMPTY:
            self.open.append(tag)
        self.rows += tag == "tr"
        self.heads += tag == "th" and dict(attrs).get("scope") == "col"
        self.scripts += tag == "script"

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.badly = True

    def handle_data(self, data):
        if not self.open or self.open[-1] not in ("script", "style"):
            self.text += data


def main():
    scratch = tempfile.TemporaryDirectory(prefix="soundsill-review-")
    root = pathlib.Path(scratch.name)
    shutil.copytree(ROOT / "examples", root, dirs_exist_ok=True)
    examples = sorted(p.parent.name for p in root.glob("*/case.yaml"))
    heron = root / "heron-lane/case.yaml"

    # every example is ready, in the order of the folders
    result = run("review", root, *TODAY, "--format", "json")
    check(result.returncode == 0, f"examples: {result.returncode} {result.stderr}")
    rows = json.loads(result.stdout)["cases"]
    check([pathlib.Path(r["file"]).parent.name for r in rows] == examples, "order of the examples")
    check(all(r["errors"] == 0 for r in rows), "examples have errors")
    for jobs in ("1", "3"):
        again = run("review", root, *TODAY, "--format", "json", "--jobs", jobs)
        check(again.stdout == result.stdout, f"another list with --jobs {jobs}")

    # closings and papers that lapse within a window; a paper that was closed on lapses no more
    near = run("review", root, "--today", "2026-03-29", "--only", "closing", "--format", "csv")
    numbers = [r["case"] for r in csv.DictReader(io.StringIO(near.stdout))]
    check(numbers == ["2026-0417", "2026-0431"], f"closings near: {numbers}")
    lapsing = run("review", root, "--today", "2026-03-29", "--only", "lapsing", "--format", "csv")
    check([r["holds until"] for r in csv.DictReader(io.StringIO(lapsing.stdout))] == ["2026-04-04"], "lapsing")
    check("2026-04-04" not in run("review", root, "--today", "2026-04-02", "--only", "lapsing", "--format", "csv").stdout,
          "a paper that was closed on still lapses")
    dates = [r["closing"] for r in csv.DictReader(
        io.StringIO(run("review", root, *TODAY, "--sort", "closing", "--format", "csv").stdout))]
    check(dates == sorted(dates), f"sorted by closing: {dates}")

    # what a spreadsheet would run, what a browser would read as markup, what a terminal would obey
    text = heron.read_text()
    text = text.replace('number: "2026-0417"', 'number: "=HYPERLINK(1)"')
    text = text.replace("street: 118 Heron Lane", 'street: "<script>alert(1)</script> & \'Lane\'"')
    heron.write_text(text.replace("organism: subterranean termites", "organism: termights", 1))
    (root / "brick-row/case.yaml").write_bytes(b"format: 1\ncase: \x1b[31mred\x07\n\xff")
    shutil.rmtree(root / "cedar-bend")
    (root / "cedar-bend").mkdir()
    os.symlink(root, root / "cedar-bend/round")  # a walk does not run in circles
    for form in ("text", "csv", "json", "html", "sarif"):
        result = run("review", root, *TODAY, "--format", form)
        check(result.returncode == 1, f"{form}: {result.returncode}")
        check("\x1b" not in result.stdout and "\x07" not in result.stdout, f"{form}: control characters")
        check("2026-0431" in result.stdout or form == "sarif", f"{form}: the cases behind the broken one are missing")
    rows = list(csv.DictReader(io.StringIO(run("review", root, *TODAY, "--format", "csv").stdout)))
    row = next(r for r in rows if "heron" in r["file"])
    check(row["case"] == "'=HYPERLINK(1)" and row["attention"] == "not ready", f"csv: {row}")
    check(row["rule"] == "unknown-reference" and "`termights`" in row["first fault"], f"csv: {row}")
    page = Page()
    page.feed(run("review", root, *TODAY, "--format", "html").stdout)
    check(not page.badly and not page.open, f"html: elements left open {page.open}")
    check(page.rows == len(rows) + 1 and page.heads == 10 and page.scripts == 1, f"html: {page.rows} {page.heads}")
    check("<script>alert(1)</script> & 'Lane'" in page.text, "html: the address is not shown as text")

    # SARIF, of review and of check
    log = conforms(run("review", root, *TODAY, "--format", "sarif").stdout, "review")
    results = log["runs"][0]["results"]
    rules = log["runs"][0]["tool"]["driver"]["rules"]
    check(all(rules[r["ruleIndex"]]["id"] == r["ruleId"] for r in results), "sarif: rule indexes")
    wrong = next(r for r in results if r["ruleId"] == "unknown-reference")
    region = wrong["locations"][0]["physicalLocation"]["region"]
    line = heron.read_text().splitlines()[region["startLine"] - 1]
    check(line[region["startColumn"] - 1:region["endColumn"] - 1] == "termights", f"sarif: region {region}")
    checked = run("check", heron, "--format", "sarif")
    conforms(checked.stdout, "check")
    check(checked.returncode == 1, "check --format sarif: exit status")
    json.loads(run("check", heron, "--format", "json").stdout)

    # what is not there is told, and the rest goes on
    gone = run("review", root / "nowhere", root / "quarry-row", *TODAY, "--format", "csv")
    check(gone.returncode == 2 and "nowhere" in gone.stderr and "2026-0431" in gone.stdout, f"gone: {gone}")
    check(run("review", root / "quarry-row", *TODAY, "--only", "ready", "--format", "csv").stdout.count("\n") == 2,
          "--only ready")
    told = run("review", root / "quarry-row", "--today", "2026-03-29", "--progress")
    check("1 case: 0 not ready" in told.stdout and "1 closing" in told.stdout, f"text: {told.stdout}")
    scratch.cleanup()
    finish()


main()
