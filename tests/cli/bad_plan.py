#!/usr/bin/env python3
"""Impossible plans: each gets exit status 1 and exactly one clear message at its cause, and no packet."""
from harness import ROOT, Copy, check, finish, messages, run

CASE = (ROOT / "tests/rules/base.yaml").read_text()
COMPANY = (ROOT / "tests/rules/company.yaml").read_text()
OUTLINE = "outline: [E 40', S 16', E 12', S 12', W 52', N 28']"
WALLS = """- {walls: all, kind: hollow block, thick: 8", footing: {outside: 18", inside: 12", known by: dug}}"""
MARKS = "      marks:\n"
SOIL = "{id: soil, answers: [1], do: treat soil, walls: all, sides: both, piers: all}"
VOIDS = "{id: voids, answers: [1], do: drill and treat voids, near: [1]}"
DRY = "  - {id: dry, answers: [3], do: stop water and dry out, by: owner}\n"
PRODUCT = "    lb per gal: 1\n    finished percent: 0.06\n"

# what is wrong, the text and what it becomes, the code, words of the message; the company's file is marked
PLANS = [
    ("an open outline", OUTLINE, OUTLINE.replace("W 52'", "W 50'"), "outline-open", "2' east"),
    ("an outline that crosses itself", OUTLINE, "outline: [E 40', S 40', E 12', N 12', W 52', N 28']", "outline-crosses", "wall"),
    ("a wall of no length", OUTLINE, OUTLINE.replace("S 16'", "S 0'"), "bad-walk", "S 0'"),
    ("a wall of 1,000,000,000 ft", OUTLINE, OUTLINE.replace("E 40'", "E 1000000000'"), "too-large", "10,000 ft"),
    ("a pier outside", "count: [3, 2]", "count: [5, 1]", "pier-misplaced", "piers 4 and 5 do not stand within"),
    ("a wall named twice", WALLS, WALLS + "\n        - {walls: [2, 2], thick: 12\"}", "bad-wall", "wall 2 is named twice"),
    ("a footing at grade", 'outside: 18"', 'outside: 0"', "footing-exposed", "at or above grade"),
    ("a footing above grade", 'outside: 18"', 'outside: -6"', "bad-length", "less than zero"),
    ("a footing that slopes from nothing", 'outside: 18", inside', 'outside to: 18", inside', "bad-wall", "from no depth"),
    ("a spacing of nothing", VOIDS, VOIDS.replace("}", ', spacing: 0"}'), "too-wide", "makes holes without end"),
    ("a spacing wider than the company's own", VOIDS, VOIDS.replace("}", ", spacing: 3'}"), "too-wide", "wider than"),
    ("a product without strength", PRODUCT, "", "no-product", "no strength to mix by", COMPANY),
    ("a product of hardly any strength", "lb per gal: 1\n", "lb per gal: 0.0001\n", "bad-number", "more concentrate than the tank holds", COMPANY),
    ("a product stronger than its label", 'label: {soil depth: 0"}', 'label: {soil depth: 0", finished percent to: 0.05}', "mix-off-label", "stronger", COMPANY),
    ("a product where its label does not name the work", 'label: {soil depth: 0"}', 'label: {soil depth: 0", sites: [treat soil]}', "off-site", "drill and treat voids", COMPANY),
    ("a partition outside", MARKS, "      partitions: [{name: spine, from: [60', 0'], to: [70', 0'], thick: 8\", footing: 12\", known by: dug}]\n" + MARKS, "partition-misplaced", "no part"),
    ("a partition of one point", MARKS, "      partitions: [{name: spine, from: [6', 4'], to: [6', 4'], thick: 8\", footing: 12\", known by: dug}]\n" + MARKS, "partition-misplaced", "one point"),
    ("a pilaster beyond its wall", MARKS, "      pilasters: [{name: ribs, kind: pilaster, at: [wall 1 at 40'], side: inside, wide: 16\", deep: 8\", footing: 12\", known by: dug}]\n" + MARKS, "partition-misplaced", "beyond wall 1"),
    ("a porch whose walls have no footing", MARKS, "      slabs: [{name: porch, fill: earth, along: wall 2, deep: 6'}]\n" + MARKS + "", "footing-unsaid", "porch"),
    ("half the volume without a label", SOIL, SOIL.replace("}", ", half volume: yes}"), "label-silent", "no label is cited"),
    ("wood without a measure", DRY, DRY + "  - {id: wood, preventive: yes, do: spray wood}\n", "no-measure", "how much wood"),
    ("lumber of no size", DRY, DRY + "  - {id: wood, preventive: yes, do: spray wood, lumber: [{size: 2by6, length: 12'}]}\n", "bad-number", "2by6"),
    ("a depth below the footing", SOIL, SOIL.replace("}", ", depth: 3'}"), "below-footing", "3'"),
    ("a crew of nobody", "tank: 100\n", "tank: 100\ncrew: {people: 0, set-up minutes: 1, tips: [], pace: []}\n", "bad-number", "crew of 0", COMPANY),
]

for name, old, new, code, word, *company in PLANS:
    with Copy() as copy:
        copy.case.write_text(CASE)
        copy.company.write_text(COMPANY)
        (copy.folder / "photos").mkdir(exist_ok=True)
        (copy.folder / "photos/tube.jpg").write_bytes((ROOT / "examples/heron-lane/photos/3-close.jpg").read_bytes())
        if "porch" in name:  # the porch is drilled, so that nothing of the minimum is left out
            copy.edit(DRY, DRY + "  - {id: porch, preventive: yes, do: drill and treat slab, at: [slab porch]}\n")
        if "company's own" in name:  # the state's number is one that nobody has read: it warns, and the company insists
            copy.edit("tank: 100\n", 'tank: 100\nlimits: {void hole spacing: {value: 16", cite: "the company\'s handbook"}}\n', copy.company)
        copy.edit(old, new, copy.company if company else None)
        checked = run("check", copy.folder)
        errors = [m for m in messages(checked.stdout) if m["severity"] == "error"]
        check(checked.returncode == 1, f"{name}: exit status {checked.returncode}\n{checked.stderr}")
        check(len(errors) == 1, f"{name}: {len(errors)} errors\n{checked.stdout}")
        check(any(m["code"] == code and word in m["what"] for m in errors), f"{name}: no [{code}] that names `{word}`\n{checked.stdout}")
        reported = run("report", copy.folder)
        check(reported.returncode == 1 and not (copy.folder / "packet.pdf").exists(), f"{name}: a packet was written")
finish()
