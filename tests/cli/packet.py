#!/usr/bin/env python3
"""What outside programs read in the packets of the examples: qpdf and poppler know nothing of our code."""
import re
import subprocess

from harness import Copy, check, finish, run


def said(*words):
    done = subprocess.run(words, capture_output=True, text=True)
    return done.returncode, done.stdout, done.stderr


def pages(path):
    return said("pdftotext", "-layout", str(path), "-")[1].split("\f")[:-1]


def dollars(text):
    return [round(float(m.replace(",", "")) * 100) for m in re.findall(r"\$([\d,]+\.\d\d)", text)]


def sound(path, name):
    code, out, err = said("qpdf", "--check", str(path))
    check(code == 0, f"{name}: qpdf says {out}{err}")
    check(said("pdftotext", str(path), "-")[2] == "", f"{name}: poppler complains while it reads")
    fonts = said("pdffonts", str(path))[1].splitlines()[2:]
    check(len(fonts) >= 2 and all(f.split()[-5] == "yes" and f.split()[-3] == "yes" for f in fonts),
          f"{name}: a face is not embedded or has no Unicode map\n" + "\n".join(fonts))
    info = said("pdfinfo", str(path))[1]
    check("Tagged:          yes" in info and "JavaScript:      no" in info, f"{name}: {info}")


with Copy("heron-lane") as copy:
    out = copy.root / "p.pdf"
    wrote = run("report", copy.folder, "-o", out)
    check(wrote.returncode == 0, wrote.stderr)
    sound(out, "heron-lane")
    sheets = pages(out)
    whole = "\n".join(sheets)
    count = len(sheets)
    for number, sheet in enumerate(sheets, 1):
        check(f"Page {number} of {count}" in sheet, f"page {number} does not say so")
        check("118 Heron Lane, Wrenfield, NC 27000" in sheet, f"page {number} lacks the address")
        check("Case 2026-0417, revision 1" in sheet, f"page {number} lacks the case number")
        check("DRAFT" not in sheet, f"page {number} says DRAFT")
    first = sheets[0]
    total = max(dollars(first))
    check("On March 5, 2026 we saw live subterranean termites in 1 place" in " ".join(first.split()), "page 1 does not answer first")
    check("What we could not see, and why" in first, "page 1 does not say what was not seen")
    check("ducts hang lower than 12 in" in " ".join(first.split()), "page 1 does not say why")
    check("555-0142" in first, "page 1 does not say whom to call")
    check("WDIR 100" in first, "page 1 does not name the official sheet")
    check("report" not in whole.lower().replace("reported", ""), "a paper of ours calls itself a report")
    titles = {1: "Live subterranean termites, pier 3", 2: "Past signs of subterranean", 3: "Wood scraps", 4: "Damp wood",
              5: "Wood damaged by", 6: "No way in, attic"}
    for number, title in titles.items():
        rows = re.findall(rf"^ *{number} +{re.escape(title)}", first, re.M)
        check(len(rows) == 1, f"finding {number}, {title}, has {len(rows)} rows on page 1\n{first}")
    # The estimate: every measure x rate is its amount, and the amounts sum to the total.
    start = next(i for i, s in enumerate(sheets) if "The estimate" in s)
    estimate = sheets[start]
    rows = re.findall(r"([\d,]+(?:\.\d)?)(?: ft| holes?| gal)?\s+\$([\d,]+\.\d\d) / (\w+)\s+\$([\d,]+\.\d\d)", estimate)
    check(len(rows) >= 9, f"only {len(rows)} priced lines\n{estimate}")
    sum_of_lines = 0
    for measure, rate, per, amount in rows:
        exact = round(float(measure.replace(",", "")) * float(rate.replace(",", "")) * 100 + 1e-6)
        cents = round(float(amount.replace(",", "")) * 100)
        check(exact == cents, f"{measure} {per} x {rate} is not {amount}")
        sum_of_lines += cents
    check(sum_of_lines == total, f"the lines sum to {sum_of_lines}, page 1 says {total}")
    check(re.search(r"Total of the estimate\s+\$" + f"{total / 100:,.2f}", estimate), "the estimate's total is another one")
    # Gallons: the runs sum to the total, and `measure` says the same.
    gallons = re.search(r"Total\s+\d+\s+([\d.]+)\n", whole)
    measured = run("measure", copy.folder).stdout
    check(gallons and re.search(rf"sum\s+\d+\s+{re.escape(gallons.group(1))}\n", measured), "gallons on paper and in `measure` differ")
    for words in ("Live insects seen", "Past signs", "Damaged wood", "Invites insects or decay", "I own the property.",
                  "I agree to the price", "After closing I take over", "Abernethy-Łódź", "does not replace it"):
        check(words in " ".join(whole.split()), f"the packet lacks: {words}")
    check("live" not in re.search(r"Past signs\n(.*?)Damaged wood", whole, re.S).group(1).lower(), "past and live evidence stand under one heading")

    copy.edit("signed: {name: Ana Marlow, on: 2026-03-05}\n", "")
    draft = copy.root / "d.pdf"
    drafted = run("report", copy.folder, "--draft", "-o", draft)
    check(drafted.returncode == 1, "a draft with faults has exit status 1")
    check(all("DRAFT" in s for s in pages(draft)), "a page of the draft does not say DRAFT")
    sound(draft, "draft")

with Copy("quarry-row") as copy:
    out = copy.root / "p.pdf"
    wrote = run("report", copy.folder, "-o", out)
    check(wrote.returncode == 0, wrote.stderr)
    sound(out, "quarry-row")
    whole = " ".join("\n".join(pages(out)).split())
    check("We saw no sign of wood-destroying insects or decay" in whole, "nothing found is not said")
    check("Not seen does not mean not there" in whole, "not seen could be read as not there")
    check("The estimate" not in whole and "$" not in whole, "an estimate without work")
    check("Señor-Peña" in whole, "a letter is lost")
finish()
