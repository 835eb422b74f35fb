#!/usr/bin/env python3
"""Every paper of every example from one file: the same figures on all of them, read back by poppler and qpdf."""
import json
import pathlib
import re
import struct
import subprocess

from harness import ROOT, Copy, check, finish, messages, run

TREATED = {"heron-lane": "full", "mill-hollow": "local", "cedar-bend": "edges", "brick-row": "bait", "pine-fold": "local",
           "spring-row": "full", "stilt-court": "piers"}
PAPERS = ("work-order", "agreement", "record", "invoice", "certificate")


def text(path, *options):
    done = subprocess.run(["pdftotext", *options, str(path), "-"], capture_output=True, text=True)
    check(done.stderr == "", f"{path.name}: poppler complains: {done.stderr}")
    return done.stdout


def flat(path):
    return " ".join(text(path).split())


def cents(words):
    return round(float(words.replace("$", "").replace(",", "")) * 100)


def row(sheet, number):
    """The line of a run: from its number to the next line that begins one."""
    found = re.search(rf"^\s*☐?\s*{number}\. .*$", sheet, re.M)
    return found.group(0) if found else ""


for name, option in TREATED.items():
    with Copy(name) as copy:
        made = {}
        for paper in ("packet", *PAPERS):
            out = copy.root / f"{paper}.pdf"
            command = "report" if paper == "packet" else paper
            done = run(command, copy.folder, "-o", out)
            check(done.returncode == 0, f"{name}, {paper}: {done.stderr}")
            code = subprocess.run(["qpdf", "--check", str(out)], capture_output=True).returncode
            check(code == 0, f"{name}, {paper}: qpdf finds fault")
            made[paper] = out
        words = {paper: flat(path) for paper, path in made.items()}
        laid = {paper: text(path, "-layout") for paper, path in made.items()}
        plan = next(o for o in json.loads(run("measure", copy.folder, "--format", "json").stdout)["options"] if o["option"] == option)
        price = next(o for o in json.loads(run("estimate", copy.folder, "--format", "json").stdout)["options"] if o["option"] == option)

        # One total.
        total = f"${price['total_cents'] / 100:,.2f}"
        for paper in ("packet", "agreement", "invoice"):
            check(total in words[paper], f"{name}: {paper} does not say {total}")
        # Every amount of the agreement stands in the packet, and on the invoice.
        for paper in ("agreement", "invoice"):
            lines = re.findall(r"\$([\d,]+\.\d\d) / [\w ]+?\s+\$([\d,]+\.\d\d)", laid[paper])
            check(len(lines) == len(price["lines"]), f"{name}: {paper} has {len(lines)} priced lines of {len(price['lines'])}")
            wanted = sorted(line["amount_cents"] for line in price["lines"])
            check(sorted(cents(a) for _, a in lines) == wanted, f"{name}: {paper} has other amounts than the estimate")
            for _, amount in lines:
                check("$" + amount in words["packet"], f"{name}: ${amount} of the {paper} is not in the packet")
        # One figure for the gallons of each run, and their sum.
        for one in plan["runs"]:
            number, gallons = one["run"], one["gallons"]
            for paper in ("work-order", "record"):
                line = row(laid[paper], number)
                check(line != "", f"{name}: {paper} has no run {number}")
                if float(gallons) > 0:
                    check(re.search(rf"(?<![\d.]){re.escape(gallons)}(?![\d])", line), f"{name}: run {number} of the {paper} is not {gallons} gal: {line}")
        if float(plan["gallons"]) > 0:
            for paper in ("work-order", "record"):
                check(re.search(rf"^\s*Total\s+{re.escape(plan['gallons'])}", laid[paper], re.M), f"{name}: the sum of the {paper} is not {plan['gallons']}")
        # One count of holes: the drill list sums to the plan's.
        listed = re.findall(r"run (\d+): \D*?\d*\s{2,}(\d+)\s+at most", laid["work-order"])
        check(sum(int(h) for _, h in listed) == plan["holes"], f"{name}: the drill list has {listed}, the plan {plan['holes']} holes")
        # One mix.
        for mix in plan["mixes"]:
            for load in mix["loads"]:
                ounces = load.get("fl_oz_exact", load["fl_oz"])
                check(f"{load['gallons']} gal" in words["work-order"], f"{name}: no load of {load['gallons']} gal")
                check(re.search(rf"{re.escape(str(ounces).rstrip('0').rstrip('.'))}\d? ?fl oz", words["work-order"]), f"{name}: no load of {ounces} fl oz")
        # One warranty: kind, fee and last day.
        kind = re.search(r"RETREATMENT AND REPAIR|RETREATMENT ONLY", words["agreement"])
        check(kind and kind.group(0) in words["certificate"], f"{name}: agreement and certificate promise different things")
        fee = re.search(r"renewed each period for (\$[\d.]+)", words["agreement"])
        check(fee and fee.group(1) in words["certificate"], f"{name}: the renewal fee differs")
        # Each paper names the first one and its day.
        first = re.search(r"Case [\d-]+, revision 1, signed \w+ \d+, \d{4}", words["record"])
        check(first is not None, f"{name}: the record does not name the first paper")
        for paper in ("agreement", "invoice", "certificate"):
            check(first and first.group(0) in words[paper], f"{name}: {paper} does not name the first paper")
        # Every finding of the packet has its number on the work order.
        for number in re.findall(r"^  - no: (\d+)$", copy.case.read_text(), re.M):
            kind = re.search(rf"^  - no: {number}\n    kind: (\w+)", copy.case.read_text(), re.M).group(1)
            if kind != "condition":
                check(f"no. {number} before anything is touched" in words["work-order"], f"{name}: finding {number} is not on the work order")
        for paper in PAPERS:
            check("live seen" not in words[paper] and "termite bond" not in words[paper].lower(), f"{name}: {paper} says what it must not")

# A state's wish for large letters: GA-01d (Ga. Comp. R. & Regs. 620-6-.02(1)(e)): at least 1/8 in, that is 9 pt. Even the
# small letters of the statement are that high: their height stands in the font.
style = re.search(r'<text-style name="statement" face="bold" size="([\d.]+)pt"', (ROOT / "templates/paper.xml").read_text())
font = pathlib.Path("/usr/share/fonts/truetype/lato/Lato-Bold.ttf").read_bytes()
tables = {font[12 + 16 * i:16 + 16 * i].decode(): struct.unpack(">II", font[20 + 16 * i:28 + 16 * i]) for i in range(struct.unpack(">H", font[4:6])[0])}
em = struct.unpack(">H", font[tables["head"][0] + 18:tables["head"][0] + 20])[0]
x_height = struct.unpack(">h", font[tables["OS/2"][0] + 86:tables["OS/2"][0] + 88])[0]
check(style and float(style.group(1)) * x_height / em >= 9, f"the statement's letters are {float(style.group(1)) * x_height / em:.2f} pt high")

# A company's own look: its packet changes one color of ours, and the papers that are based on the packet follow.
with Copy() as copy:
    looks = copy.root / "looks"
    looks.mkdir()

    def inks(paper):
        """Whether the color 7A0019 is set anywhere in a paper."""
        out = copy.root / "look.pdf"
        done = run(paper, copy.folder, "--templates", looks, "--replace", "-o", out)
        check(done.returncode == 0, done.stderr)
        plain = subprocess.run(["qpdf", "--qdf", "--object-streams=disable", str(out), "-"], capture_output=True).stdout
        return bool(re.search(rb"0?\.478\d* 0(\.0*)? 0?\.098\d* (rg|RG)", plain))

    check(not inks("report") and not inks("invoice"), "the papers have that color without the company's look")
    own = '<template kind="packet" based-on="packet"><palette><color name="deep" value="#7A0019"/></palette></template>'
    (looks / "packet.xml").write_text(own)
    check(inks("report"), "a packet that is based on ours does not change its color")
    check(inks("invoice"), "a paper is not based on the company's own packet")
    (looks / "packet.xml").write_text(own.replace('based-on="packet"', 'based-on="pakcet"'))
    told = run("check", copy.folder, "--templates", looks)
    check(f'{looks}/packet.xml:1:35: error: no template is named "pakcet" [bad-template]' in told.stdout + told.stderr, told.stdout + told.stderr)
    check("fix: write packet" in told.stdout + told.stderr, told.stdout + told.stderr)
    (looks / "packet.xml").unlink()
    (looks / "paper.xml").write_text('<template kind="paper" based-on="work-order"/>')
    told = run("invoice", copy.folder, "--templates", looks, "-o", copy.root / "look.pdf", "--replace")
    circle = f"in a circle: {looks}/paper.xml -> built-in templates/work-order.xml -> {looks}/paper.xml"
    check(told.returncode == 2 and told.stderr.count("error:") == 1 and circle in told.stderr, told.stderr)
    # A file of one's own that is there and cannot be read is never passed over.
    (looks / "paper.xml").unlink()
    (looks / "packet.xml").mkdir()
    told = run("invoice", copy.folder, "--templates", looks, "-o", copy.root / "look.pdf", "--replace")
    check(told.returncode == 2 and f"`{looks}/packet.xml` cannot be read" in told.stderr, told.stderr)

# The notice: FL-01b (F.S. 482.226(4), reprint), at least 3 x 5 in; TX-03c (4 TAC 7.172(d)), at least 1 x 2 in.
with Copy() as copy:
    def notice(wide, high):
        folder = copy.folder / "forms"
        folder.mkdir(exist_ok=True)
        rule = f'posted notice: {{wide: {{value: {wide}, cite: test, status: memory}}, high: {{value: {high}, cite: test, status: memory}}}}\n'
        (folder / "us-nc.yaml").write_text((ROOT / "forms/us-nc.yaml").read_text() + rule)
        done = run("record", copy.folder, "-o", copy.root / "r.pdf", "--notice", copy.root / "n.pdf")
        check(done.returncode == 0, done.stderr)
        info = subprocess.run(["pdfinfo", str(copy.root / "n.pdf")], capture_output=True, text=True).stdout
        size = re.search(r"Page size:\s+([\d.]+) x ([\d.]+) pts", info)
        check("Pages:           1" in info, f"a notice of {wide} by {high} takes more than a page")
        return float(size.group(1)) / 72, float(size.group(2)) / 72

    wide, high = notice('5"', '3"')
    check(wide >= 5 and high >= 3, f"the notice is {wide} by {high} in")
    wide, high = notice('2"', '1"')
    check(wide >= 2 and high >= 1, f"the notice is {wide} by {high} in")
    wide, high = notice('8"', '6"')
    check(wide >= 8 and high >= 6, f"the notice is {wide} by {high} in")
    said = flat(copy.root / "n.pdf")
    for words_ in ("Marlow & Dean Termite Company", "40 Kiln Street", "March 12, 2026", "00000-11", "fipronil"):
        check(words_ in said, f"the notice lacks {words_}")

# Lender's statement and invoice for a VA loan name veteran and property.
with Copy() as copy:
    run("invoice", copy.folder, "-o", copy.root / "i.pdf")
    run("record", copy.folder, "-o", copy.root / "r.pdf")
    for path in ("i.pdf", "r.pdf"):
        check("Jo Abernethy-Łódź" in flat(copy.root / path) and "118 Heron Lane, Wrenfield, NC 27000" in flat(copy.root / path), f"{path} does not name veteran and property")
    bill = flat(copy.root / "i.pdf")
    check("Paid by P. Quill on March 16, 2026" in bill and "$978.65" in bill and "Imre Castell pays the open amount" in bill, "the invoice does not say who paid, and what is open")
    copy.edit("  veteran: {name: Jo Abernethy-Łódź}\n", "")
    told = run("invoice", copy.folder, "-o", copy.root / "j.pdf", "--replace")
    check([m["code"] for m in messages(told.stderr)] == ["invoice-unfit"] and not (copy.root / "j.pdf").exists(), f"an invoice without the veteran: {told.stderr}")

# An inspection alone is billed without any treatment; the other papers have nothing to tell of, in one message each.
with Copy("quarry-row") as copy:
    done = run("invoice", copy.folder, "-o", copy.root / "i.pdf")
    check(done.returncode == 0 and "$95.00" in flat(copy.root / "i.pdf"), done.stderr)
    for paper in ("work-order", "agreement", "record", "certificate"):
        told = run(paper, copy.folder)
        check(told.returncode == 1 and [m["code"] for m in messages(told.stderr)] == ["paper-unready"], f"quarry-row, {paper}: {told.stderr}")

# What the form calls too much is common practice, and warns; what the label calls so stops the record.
with Copy() as copy:
    copy.edit("{run: 1, gal: 81.6}", "{run: 1, gal: 120.0}")
    for label, severity in ((False, "warning"), (True, "error")):
        if label:
            copy.company.write_text(copy.company.read_text().replace("    label:\n", "    label:\n      applied over: 5 %\n", 1))
        told = [m["severity"] for m in messages(run("record", copy.folder, "--replace", "-o", copy.root / "r.pdf").stderr) if m["code"] == "applied-over"]
        check(told == [severity], f"too much applied by {'the label' if label else 'common practice'}: {told}")

# One message for each slip, and no paper.
SLIPS = [
    ("less than planned", "{run: 1, gal: 81.6}", "{run: 1, gal: 60.0}", "applied-short"),
    ("a stronger mix", "percent: 0.06, fl oz: 132.2", "percent: 0.25, fl oz: 550.8", "applied-over"),
    ("a run never treated", "      - {run: 3, gal: 57.1}\n", "", "run-untreated"),
    ("a record without date", "  - on: 2026-03-12\n    from: \"8:05\"", "  - from: \"8:05\"", "missing-key"),
    ("a renewal before treatment", "invoice:\n", "warranty: [{event: renewed, on: 2026-03-11, paid: $195.00}]\ninvoice:\n", "service-dates"),
    ("two revisions with one number", "  revision: 1\n", "  revision: 2\n  replaces: {revision: 2, on: 2026-03-05, because: a reading was added}\n", "revision-twice"),
    ("an unknown option", "accepted: {option: full,", "accepted: {option: fall,", "unknown-reference"),
]
for words_, old, new, code in SLIPS:
    with Copy() as copy:
        copy.edit(old, new)
        told = run("record", copy.folder, "-o", copy.root / "r.pdf")
        found = [m["code"] for m in messages(told.stderr)]
        check(told.returncode == 1 and found == [code], f"{words_}: {found}\n{told.stderr}")
        check(not (copy.root / "r.pdf").exists(), f"{words_}: a record was written")

# An unsigned waiver stops the work order, and not the agreement that it is made from.
with Copy("mill-hollow") as copy:
    source = copy.case.read_text()
    at = source.index("waivers:\n")
    copy.case.write_text(source[:at] + source[source.index("applied:\n"):])
    told = run("work-order", copy.folder)
    check(told.returncode == 1 and [m["code"] for m in messages(told.stderr)] == ["waiver-unsigned"], f"an unsigned waiver: {told.stderr}")
    done = run("agreement", copy.folder, "-o", copy.root / "a.pdf")
    check(done.returncode == 0 and "Worksheet for the waiver" in flat(copy.root / "a.pdf"), f"the agreement: {done.stderr}")

# Papers do not take each other's place, revisions only with --replace, and another option than the accepted one is refused.
with Copy() as copy:
    out = copy.root / "p.pdf"
    run("report", copy.folder, "-o", out)
    kept = out.read_bytes()
    check(run("record", copy.folder, "-o", out).returncode == 2 and out.read_bytes() == kept, "a record took the packet's place")
    record = copy.root / "r.pdf"
    run("record", copy.folder, "-o", record)
    kept = record.read_bytes()
    copy.edit("  revision: 1\n", "  revision: 2\n  replaces: {revision: 1, on: 2026-03-05, because: a reading was added}\n")
    check(run("record", copy.folder, "-o", record).returncode == 2 and record.read_bytes() == kept, "another revision took the place of a final record")
    check(run("record", copy.folder, "-o", record, "--replace").returncode == 0 and record.read_bytes() != kept, "--replace does not replace")
with Copy("mill-hollow") as copy:
    told = run("work-order", copy.folder, "--option", "full")
    check([m["code"] for m in messages(told.stderr)] == ["paper-unready"], f"another option than the accepted one: {told.stderr}")
    check(run("work-order", copy.folder, "--option", "ful").returncode == 2, "an option that is none")

# Runs left untreated are not called done: not to the lender, and not on the notice.
with Copy() as copy:
    waived = "untreated: {by: P. Quill, on: 2026-03-12, because: a locked room}"
    text_of = copy.case.read_text()
    for number, gal in ((9, "2.4, holes: 10, plugged: 10"), (10, "1.1, holes: 4, plugged: 4")):
        text_of = text_of.replace(f"{{run: {number}, gal: {gal}}}", f"{{run: {number}, {waived}}}")
    copy.case.write_text(text_of)
    done = run("record", copy.folder, "-o", copy.root / "r.pdf", "--notice", copy.root / "n.pdf")
    said = flat(copy.root / "r.pdf")
    check(done.returncode == 0 and "signed waiver: run 9" in said, f"the lender is not told of what was left: {done.stderr}")
    # A stream takes one paper: a notice that the form asks is not dropped without a word.
    (copy.folder / "forms").mkdir()
    rule = 'posted notice: {wide: {value: 5", cite: test, status: memory}, high: {value: 3", cite: test, status: memory}}\n'
    (copy.folder / "forms/us-nc.yaml").write_text((ROOT / "forms/us-nc.yaml").read_text() + rule)
    stream = run("record", copy.folder, "-o", "-")
    check(stream.returncode == 2 and stream.stdout == "" and "--notice FILE" in stream.stderr, f"a record on a stream drops its notice: {stream.stderr}")
finish()
