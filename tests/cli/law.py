"""What was read of the law (tests/published/law.csv) against what `forms` shows a case would get, and what is said of editions."""
import csv
import pathlib
import re

from harness import ROOT, Copy, check, finish, messages, run



def told_by(*words):
    out = run(*words)
    return out.stdout + out.stderr


shown = {}


def data(form, loan):
    """(datum, value, status) of every row that `forms` lists."""
    key = (form, loan)
    if key not in shown:
        out = run("forms", form, *(["--loan", loan] if loan else []))
        lines = out.stdout.splitlines()
        rows = set()
        for i in range(len(lines) - 2):
            first = re.match(r"^(\S.*?)  +(.*)$", lines[i])
            second = re.match(r"^ {20,}([a-z ]+?)(?:, insisted on)?; ", lines[i + 1])
            if first and second:
                rows.add((first[1].strip(), re.sub(r'^"(.*)"$', r"\1", first[2].strip()), second[1]))
        shown[key] = rows
    return shown[key]


with open(ROOT / "tests/published/law.csv", newline="") as file:
    for row in csv.DictReader(file):
        found = data(row["form"], row["loan"])
        wanted = (row["datum"], row["value"], row["status"])
        near = [r for r in found if r[0] == row["datum"]]
        check(wanted in found, f"{row['id']}: {wanted} ({row['source']}); shown {near}")

# A state with nothing read is not shipped.
for path in sorted((ROOT / "forms").glob("us-*.yaml")):
    text = path.read_text()
    check("status: published" in text or path.stem == "us-va", f"{path.name}: nothing of it was read")

# What nobody has read: every unread part and every datum that is not published, and no other.
out = run("forms", "us-nc", "--open")
check("02 NCAC 34 .0503(a)(6) to (11)" in out.stdout, "--open names what was not read")
check("void hole spacing" in out.stdout and "memory" in out.stdout, "--open names what is remembered")
check("; published" not in out.stdout and " published;" not in out.stdout, "--open names nothing that was read")
every = run("forms", "--open").stdout
check(all(f"{form}: " in every for form in ("us-nc", "us-ga", "us-wa", "loan-fha")), "--open goes over every form")

# Editions: an own file that is older gives way, a newer one wins, and both are told.
with Copy() as copy:
    own = copy.folder / "forms"
    own.mkdir()
    text = (ROOT / "forms/us-nc.yaml").read_text()
    edition = re.search(r'^edition: "(.*)"$', text, re.M)[1]
    for other, wins in (("2020-01", edition), ("2999-01", "2999-01")):
        (own / "us-nc.yaml").write_text(text.replace(f'edition: "{edition}"', f'edition: "{other}"').replace(
            "void reach: {value: 4'", "void reach: {value: 5'"))
        told = [m for m in messages(told_by("check", copy.folder)) if m["code"] == "edition-differs"]
        check(len(told) == 1 and told[0]["severity"] == "warning", f"edition {other} beside {edition} is told once: {told}")
        check(f"`{wins}`" in told_by("check", copy.folder), f"the newer edition, {wins}, counts")
    diff = run("forms", "us-nc", "--diff", own / "us-nc.yaml").stdout
    check(f"edition {edition}" in diff.splitlines()[0] and "2999-01" in diff.splitlines()[0], "--diff names both editions")
    check([line for line in diff.splitlines()[2:] if line.startswith("<")] and
           sum(line.startswith(("<", ">", "+", "-")) for line in diff.splitlines()[2:]) == 2 and "void reach" in diff,
           "--diff tells what differs and nothing else: " + diff)

# FHA and a well 11 ft off: the remembered number warns; a company's own cited number stops the paper.
with Copy() as copy:
    copy.edit("  loan: VA", "  loan: FHA")
    far = [m for m in messages(told_by("check", copy.folder)) if m["code"] == "danger-near"]
    check([m["severity"] for m in far] == ["warning"], f"the remembered 25 ft warns, and no more: {far}")
    copy.company.write_text(copy.company.read_text() +
                            "\nlimits:\n  keep from well: {value: 15', cite: \"our own rule, by the county's advice\"}\n")
    own = [m for m in messages(told_by("check", copy.folder)) if m["code"] == "danger-near"]
    check([m["severity"] for m in own] == ["error"], f"the company's own 15 ft stops it: {own}")

finish()
