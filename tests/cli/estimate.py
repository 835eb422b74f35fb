#!/usr/bin/env python3
"""The estimate: lists for people and programs, the owner's sheet, ceilings, the paper alone, and what is refused."""
import csv
import io
import json
import subprocess

from harness import ROOT, Copy, check, finish, messages, run


def text_of(pdf):
    return subprocess.run(["pdftotext", "-layout", str(pdf), "-"], capture_output=True, text=True).stdout


def cents(text):
    sign = -1 if text.startswith(("-", "(")) else 1
    return sign * round(float(text.strip("()-$").replace(",", "")) * 100)



for example in ("mill-hollow", "brick-row", "cedar-bend", "pine-fold"):
    with Copy(example) as copy:
        listed = json.loads(run("estimate", copy.folder, "--format", "json").stdout)
        check(len(listed["options"]) == 3, f"{example}: not three options")
        rows = list(csv.DictReader(io.StringIO(run("estimate", copy.folder, "--format", "csv").stdout)))
        shown = run("estimate", copy.folder, "--explain").stdout
        for option in listed["options"]:
            lines = sum(line["amount_cents"] for line in option["lines"])
            check(lines == option["lines_cents"], f"{example}: lines of {option['option']} do not sum")
            for line in option["lines"]:
                check(round(float(line["measure"]) * line["rate_cents"] + 1e-9) == line["amount_cents"] or
                      abs(float(line["measure"]) * line["rate_cents"] - line["amount_cents"]) <= 0.5, f"{example}: {line}")
            total = lines + sum(a["amount_cents"] for a in option["adjustments"]) + option["to_minimum_cents"] + sum(t["amount_cents"] for t in option["taxes"])
            check(total == option["total_cents"], f"{example}: {option['option']} does not come to its total")
            mine = [r for r in rows if r["option"] == option["option"]]
            check(cents(mine[-1]["amount"]) == option["total_cents"], f"{example}: another total in CSV")
            check(sum(cents(r["amount"]) for r in mine[:-1]) == option["total_cents"], f"{example}: CSV does not sum")
            check(f"option {option['option']}" in shown, f"{example}: {option['option']} is not listed")
        alone = run("estimate", copy.folder, "-o", copy.folder / "estimate.pdf")
        check(alone.returncode == 0, f"{example}: {alone.stderr}")
        paper = text_of(copy.folder / "estimate.pdf")
        for option in listed["options"]:
            if option["lines"]:
                check(f"{option['total_cents'] / 100:,.2f}" in paper, f"{example}: total of {option['option']} is not on the paper")
        for words in ("Why it costs this", "Before we come", "Price and payment", "Not included"):
            check(words in paper, f"{example}: no `{words}`")
        apart = run("report", copy.folder, "--apart")
        check(apart.returncode == 0, f"{example}: {apart.stderr}")
        findings = text_of(copy.folder / "packet.pdf")
        check("$" not in findings, f"{example}: a price stands among the findings")
        check("What we found" in findings and "The estimate" not in findings, f"{example}: findings alone")
        check((copy.folder / "packet-estimate.pdf").exists(), f"{example}: no second file")

with Copy("mill-hollow") as copy:
    forms = copy.folder / "forms"
    forms.mkdir()
    text = (ROOT / "forms/us-nc.yaml").read_text()
    (forms / "us-nc.yaml").write_text(text.replace("rules:\n", "estimate apart: {value: yes, cite: invented, status: memory}\nrules:\n", 1))
    made = run("report", copy.folder)
    check(made.returncode == 0 and (copy.folder / "packet-estimate.pdf").exists(), f"a form that wants two papers gets one: {made.stderr}")
    check("$" not in text_of(copy.folder / "packet.pdf"), "a price stands among the findings of such a form")

with Copy("mill-hollow") as copy:
    copy.edit("do: drill and treat slab, walls: [1, 2, 3, 4], sides: inside}", "do: drill and treat slab, walls: [1, 2, 3, 4], sides: inside, lender asks: yes}")
    check(run("estimate", copy.folder, "-o", copy.folder / "estimate.pdf").returncode == 0, "a line that the lender asks for")
    check("the lender asks for it" in text_of(copy.folder / "estimate.pdf"), "what the lender asks for is not marked")

with Copy("mill-hollow") as copy:
    owner = run("estimate", copy.folder, "--for", "owner", "--price", "$5,400.00").stdout
    for words in ("FOR THE OWNER OF THE COMPANY ONLY", "overhead", "of the price", "a foot of treated face", "a price of $5,400.00", "fourfold"):
        check(words in owner, f"the owner's sheet lacks `{words}`")
    run("report", copy.folder)
    packet = text_of(copy.folder / "packet.pdf")
    for words in ("overhead", "margin", "OWNER OF THE COMPANY", "$31.00"):
        check(words not in packet, f"`{words}` of the owner's sheet stands in the packet")
    check("signed waiver" in packet, "a partial option does not ask for its waiver")
    best = run("estimate", copy.folder, "--ceiling", "1300").stdout
    check("option full with example-bifenthrin" in best and "comes before a partial one" in best, best)
    less = run("estimate", copy.folder, "--ceiling", "$1,200.00").stdout
    check("option local with example-fipronil" in less and "untreated" in less, less)
    none = run("estimate", copy.folder, "--ceiling", "100")
    check(none.returncode == 1 and "minimum charge is $250.00" in none.stdout, none.stdout)
    bad = run("estimate", copy.folder, "--ceiling", "cheap")
    check(bad.returncode == 2 and "--ceiling wants an amount" in bad.stderr, bad.stderr)

# what is wrong, the text and what it becomes, the code, words of the message; the company's file is marked
COMPANY = "company.yaml"
BAD = [
    ("a negative rate", "price: $6.50}", "price: -$6.50}", "bad-money", "-$6.50", COMPANY),
    ("an absurd rate", "{do: drill and treat voids, per: hole, price: $6.50}", "{do: drill and treat voids, per: hole, price: $650000.00}", "odd-rate", "$650,000.00 for one hole", COMPANY),
    ("a rate of nothing", "{do: drill and treat voids, per: hole, price: $6.50}", "{do: drill and treat voids, per: hole, price: $0.00}", "odd-rate", "$0.00", COMPANY),
    ("a missing rate", "  - {do: drill and treat voids, per: hole, price: $6.50}\n", "", "no-price", "drill and treat voids", COMPANY),
    ("a tax above 20 percent", "pricing: measure\n", "pricing: measure\ntax: [{percent: 25, on: [treat soil]}]\n", "odd-rate", "25 percent is more than 20", COMPANY),
    ("an option without warranty", ", product: example-fipronil, warranty: none}", ", product: example-fipronil}", "no-warranty", "`spots` treats"),
    ("repairs on a partial option", "scope: outside and local, because: the owner asks for a lower price, work: all, product: example-fipronil, warranty: retreat-12", "scope: outside and local, because: the owner asks for a lower price, work: all, product: example-fipronil, warranty: repair-12", "repair-on-partial", "promises repairs"),
    ("a scope that the label does not name", "scopes: [outside and local, evidence only]", "scopes: [outside and local]", "scope-forbidden", "does not name `evidence only`", COMPANY),
    ("a partial option without a reason", "scope: evidence only, because: the owner asks for the lowest price,", "scope: evidence only,", "fact-unsaid", "does not say why"),
    ("a price by cost without costs", "pricing: measure\ncosts:\n  hour: $31.00\n  equipment: $45.00\n  travel: $35.00\n  overhead: 20 %\n  margin: 25 %\n", "pricing: cost\n", "no-cost", "cannot be priced by cost", COMPANY),
    ("an adjustment of nothing", "\nsigned: {name", "\nadjustments: [{for: discount, because: a neighbor}]\n\nsigned: {name", "odd-rate", "changes nothing"),
    ("a discount greater than the price", "\nsigned: {name", "\nadjustments: [{for: discount, amount: $9000.00, because: a neighbor, options: [full]}]\n\nsigned: {name", "odd-rate", "more than its price"),
]
for name, old, new, code, word, *company in BAD:
    with Copy("mill-hollow") as copy:
        copy.edit(old, new, copy.company if company else None)
        checked = run("check", copy.folder)
        found = [m for m in messages(checked.stdout) if m["severity"] == "error"]
        kinds = {(m["code"], m["what"]) for m in found}
        check(checked.returncode == 1, f"{name}: exit status {checked.returncode}")
        check(any(c == code and word in what for c, what in kinds), f"{name}: no [{code}] that names `{word}`\n{checked.stdout}")
        check({c for c, _ in kinds} == {code}, f"{name}: also other faults\n{checked.stdout}")
        check(run("report", copy.folder).returncode == 1 and not (copy.folder / "packet.pdf").exists(), f"{name}: a packet was written")
finish()
