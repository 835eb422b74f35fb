"""What was read of the law (tests/published/law.csv) against what `forms` shows a case would get, and what is said of editions."""
import csv
import pathlib
import re
import subprocess

from harness import ROOT, Copy, check, finish, messages, run



def told_by(*words):
    out = run(*words)
    return out.stdout + out.stderr


shown = {}
places = {}  # the file from which each of these rows comes


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
                row = (first[1].strip(), re.sub(r'^"(.*)"$', r"\1", first[2].strip()), second[1])
                rows.add(row)
                places[key + row] = lines[i + 2].strip()
        shown[key] = rows
    return shown[key]


checked, ids = set(), []
with open(ROOT / "tests/published/law.csv", newline="") as file:
    for row in csv.DictReader(file):
        ids.append((row["id"], row["form"], row["datum"], row["value"]))
        checked.add((row["form"], row["loan"], row["datum"], row["value"]))
        found = data(row["form"], row["loan"])
        wanted = (row["datum"], row["value"], row["status"])
        near = [r for r in found if r[0] == row["datum"]]
        check(wanted in found, f"{row['id']}: {wanted} ({row['source']}); shown {near}")

check(len(ids) == len(set(ids)), "a row stands twice")

# Every datum that was read has its row there: no value of the law changes unseen.
for path in sorted((ROOT / "forms").glob("*.yaml")):
    if path.stem == "trade":
        continue
    loan = path.stem.removeprefix("loan-") if path.stem.startswith("loan-") else ""
    form = "us-general" if loan else path.stem
    for row in sorted(data(form, loan)):
        if row[2] == "published" and places[(form, loan) + row].startswith(f"built-in forms/{path.name}:"):
            check((form, loan) + row[:2] in checked, f"{path.name}: `{row[0]}` {row[1]} was read, and no row of law.csv holds it")

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



def words(pdf):
    return " ".join(subprocess.run(["pdftotext", "-layout", pdf, "-"], capture_output=True, text=True).stdout.split())


# Georgia (Ga. Comp. R. & Regs. 620-6-.02(1)(e)): the statement comes first on page 1, below the running head.
with Copy() as copy:
    copy.edit("form: us-nc", "form: us-ga").edit("state: NC,", "state: GA,")
    pdf = copy.root / "agreement.pdf"
    out = run("agreement", copy.folder, "--replace", "-o", pdf)
    check(out.returncode == 0 and words(pdf).startswith(
        "118 Heron Lane, Wrenfield, GA 27000 Case 2026-0417, revision 1 This contract provides for retreatment of a structure and the "
        "repair of damages caused by wood destroying organisms within the limits stated in this contract. Treatment"),
        f"Georgia's statement is what page 1 begins with: {out.stderr}")
    # 620-6-.02(2): signed before any control measure.
    copy.edit("agreement: {on: 2026-03-12", "agreement: {on: 2026-03-13")
    told = [m["severity"] for m in messages(told_by("check", copy.folder)) if m["code"] == "agreement-late"]
    check(told == ["error"], f"an agreement on the day after the treatment is too late in Georgia: {told}")

# Texas (4 TAC 7.172(c)): what was done otherwise is told in an addendum at the end; nothing is, where all was done as agreed.
with Copy() as copy:
    copy.edit("form: us-nc", "form: us-tx").edit("state: NC,", "state: TX,")
    pdf = copy.root / "record.pdf"
    run("record", copy.folder, "--replace", "-o", pdf)
    check("Addendum" not in words(pdf), "no addendum where all was done as agreed")
    copy.edit("- {run: 7, gal: 2.0}", "- {run: 7, untreated: {by: P. Quill, on: 2026-03-12, because: the deck stays closed}}")
    out = run("record", copy.folder, "--replace", "-o", pdf)
    said = words(pdf)
    check("Addendum to the agreement" in said and "(4 TAC 7.172(c)" in said, f"Texas asks for an addendum: {out.stderr}")
    addendum = said[said.index("Addendum to the agreement"):]
    check(all(one in addendum for one in ("Run 7", "Not treated", "the deck stays closed", "Applicator", "Customer")), addendum[:600])
    check("Run 6" not in addendum, "what was done as agreed is not in it")
    copy.edit("form: us-tx", "form: us-nc").edit("state: TX,", "state: NC,")
    run("record", copy.folder, "--replace", "-o", pdf)
    check("Addendum to the agreement" not in words(pdf), "North Carolina does not ask for it")

# What is to be filed comes due like all else (AZ-01a, A.R.S. 3-3633(B); 3-3631(A)), until the case says that it was; no letter tells it.
with Copy() as copy:
    copy.edit("form: us-nc", "form: us-az").edit("state: NC,", "state: AZ,")
    due = run("renew", copy.folder, "--from", "2026-03-01", "--to", "2026-05-01").stdout
    check([line.split()[0] for line in due.splitlines()[1:]] == ["2026-03-12", "2026-04-04", "2026-04-11"] and
          due.count("termite action report with the pest management division") == 2 and "office copy" in due, due)
    copy.case.write_text(copy.case.read_text() + "filed: [{paper: office copy, on: 2026-03-06}, {paper: termite action report, on: 2026-04-02}]\n")
    due = run("renew", copy.folder, "--from", "2026-03-01", "--to", "2026-05-01").stdout
    check(due == "nothing comes due\n", due)

# Telephone numbers that were read are on the work order; one that is only remembered is not.
with Copy() as copy:
    pdf = copy.root / "work-order.pdf"
    run("work-order", copy.folder, "--replace", "-o", pdf)
    check("1-800-222-1222" in words(pdf) and "To call: 811." in words(pdf), "Poison Help and 811")
    own = copy.folder / "forms"
    own.mkdir()
    text = (ROOT / "forms/us-nc.yaml").read_text()
    number = 'poison center: {value: "1-800-555-0100", cite: "as remembered", status: memory}\nlocate line: {value: "555", cite: "as remembered", status: memory}\n'
    (own / "us-nc.yaml").write_text(re.sub(r'^edition: ".*"$', 'edition: "2999-01"', text, flags=re.M) + number)
    run("work-order", copy.folder, "--replace", "-o", pdf)
    check("555-0100" not in words(pdf) and "To call" not in words(pdf), "a remembered number is not printed")

finish()
