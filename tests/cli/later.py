#!/usr/bin/env python3
"""What comes after the treatment: a run left out, a retreatment, what became of the warranty; read back by poppler."""
import json
import re
import subprocess

from harness import Copy, check, finish, run


def flat(path):
    done = subprocess.run(["pdftotext", "-raw", str(path), "-"], capture_output=True, text=True)
    check(done.stderr == "", f"{path.name}: poppler complains: {done.stderr}")
    return " ".join(done.stdout.split())


def near(text, first, *others):
    """Whether the others follow within one row of a table, somewhere."""
    return any(all(word in text[m.start():m.start() + 300] for word in others) for m in re.finditer(re.escape(first), text))


AGAIN = """  - on: 2026-09-01
    from: "9:00"
    to: "10:30"
    retreatment: yes
    because: a new tube at pier 5
    crew: [Kai Obi]
    weather: "dry, 71 F, no wind"
    products: [{product: example-fipronil, percent: 0.06, fl oz: 3.9}]
    runs:
      - {run: 6, gal: 6.0}
"""
SINCE = """warranty:
  - {event: transferred, on: 2026-10-05, to: Nils Brandt, by: Jo Abernethy-Łódź, because: the house was sold}
  - {event: claim, on: 2026-10-20, by: Nils Brandt, because: wings on a sill}
  - {event: renewed, on: 2027-03-01, paid: $195.00}
"""

with Copy() as copy:
    out = copy.root / "out.pdf"
    plain = copy.case.read_text()
    copy.case.write_text(plain.replace("    done: [scraps, attic]\n", "    done: [scraps, attic]\n" + AGAIN) + SINCE)
    day = ["--today", "2027-04-01"]
    made = run("record", copy.folder, *day, "-o", out)
    check(made.returncode == 0, f"record: {made.stderr}")
    record = flat(out)
    check(near(record, "September 1, 2026", "a new tube at pier 5", "3.9 fl oz", "6.0 gal"), f"the record lacks the retreatment: {record[-3500:]}")
    check("81.6" in record and "206.6" in record, "the first treatment's gallons are not as they were")

    out = copy.root / "certificate.pdf"
    made = run("certificate", copy.folder, *day, "-o", out)
    check(made.returncode == 0, f"certificate: {made.stderr}")
    certificate = flat(out)
    check("Nils Brandt" in certificate and "March 12, 2028" in certificate, f"holder and term: {certificate[:900]}")
    for first, *others in (("September 1, 2026", "a new tube at pier 5"), ("October 5, 2026", "Nils Brandt", "the house was sold"),
                           ("October 20, 2026", "wings on a sill"), ("March 1, 2027", "$195.00")):
        check(near(certificate, first, *others), f"the certificate lacks {first}: {others}: {certificate[:1500]}")

    check("Left untreated" not in certificate, "a run that was treated is called untreated")

    # Papers are kept for two years after the warranty ends (02 NCAC 34 .0604(a)), and longer while a claim is open.
    def review(text, today, *more):
        copy.case.write_text(text)
        return run("review", copy.folder, "--today", today, *more).stdout

    late = copy.case.read_text().replace("  - {event: renewed, on: 2027-03-01, paid: $195.00}\n", "")
    settled = late.replace("because: wings on a sill}", "because: wings on a sill, settled: 2026-11-02}")
    for text, day, told in ((settled, "2029-03-12", False), (settled, "2029-03-13", True), (late, "2029-03-13", False)):
        row = json.loads(review(text, day, "--format", "json"))["cases"][0]
        check(told == any("agreement" in words for words in row["kept"] if "open" not in words), f"{day}: {row['kept']}")
        check(("open" in " ".join(row["kept"])) == (text == late), f"{day}: {row['kept']}")

    # A run that could not be treated: told on the record, and the warranty leaves it out.
    copy.case.write_text(re.sub(r"      - \{run: 9, .*\n", "      - {run: 9, untreated: {by: P. Quill, on: 2026-03-12, because: the owner stored goods there}}\n", plain))
    out = copy.root / "left.pdf"
    made = run("record", copy.folder, "-o", out)
    record = flat(out) if made.returncode == 0 else made.stderr
    check("0 drilled" not in record, "holes are told of a run that was left out")
    check("the owner stored goods there" in record, f"the record does not say what was left: {record[:1500]}")
    out = copy.root / "less.pdf"
    made = run("certificate", copy.folder, "-o", out)
    certificate = flat(out) if made.returncode == 0 else made.stderr
    check(near(certificate, "Left untreated", "run 9: hollow walls"), f"the certificate does not leave it out: {certificate[:1500]}")
finish()
