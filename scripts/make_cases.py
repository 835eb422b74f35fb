#!/usr/bin/env python3
"""Writes N case folders that differ from each other: an L-shaped house, 12 findings, 4 photos. Invented, for benchmarks.

usage: make_cases.py N FOLDER [FINDINGS]
"""
import os
import pathlib
import random
import struct
import sys
import zlib

COMPANY = (pathlib.Path(__file__).resolve().parent.parent / "tests/rules/company.yaml").read_text()
ORGANISM = ["subterranean termites", "anobiid beetles", "carpenter ants"]


def png(width, height):
    """A gray picture, small on disk and large in pixels."""
    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
    rows = (b"\0" + b"\x80" * width) * height
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)) +
            chunk(b"IDAT", zlib.compress(rows, 9)) + chunk(b"IEND", b""))


def finding(no, rng, photos):
    kind = ["evidence", "damage", "condition"][no % 3]
    wall, foot = rng.randint(1, 2), rng.randint(1, 9)
    lines = [f"  - no: {no}", f"    kind: {kind}", "    in: house", f"    at: wall {wall} at {foot}'",
             f"    where: sill {foot} ft from the corner, seen with a lamp and a mirror"]
    if kind == "condition":
        lines += ["    condition: damp wood", f"    moisture: [{{at: sill, percent: {rng.randint(21, 30)}}}]"]
    else:
        lines += ["    organism: subterranean termites"]
    if kind == "evidence":
        lines += ["    state: active", "    live seen: yes", "    basis: [live workers in a broken tube]",
                  "    signs: [shelter tube, mud in galleries]"]
        if no <= 600:  # a case may have 200
            lines += [f"    photos: [{{file: photos/{photos[no % 4]}, shows: shelter tube on the sill beside wall {wall}}}]"]
    return lines


def case(number, rng, findings):
    a, b, c, d = rng.randint(30, 50), rng.randint(12, 20), rng.randint(10, 16), rng.randint(10, 14)
    photos = [f"{i}.png" for i in range(4)]
    evidence = [n for n in range(1, findings + 1) if n % 3 == 0]
    damage = [n for n in range(1, findings + 1) if n % 3 == 1]
    damp = [n for n in range(1, findings + 1) if n % 3 == 2]
    out = f"""format: 1
case: {{number: "B-{number:06}", revision: 1, ordered: 2026-03-02, due diligence: 2026-03-20, closing: 2026-03-31, purpose: sale, loan: VA}}
form: us-nc
people:
  inspector: {{name: Ann Poole}}
  buyer: {{name: Buyer Number {number}}}
  seller: {{name: Seller Number {number}}}
property:
  address: {{street: {number} Alder Way, city: Wrenfield, state: NC, zip: "27000"}}
  structures:
    - name: house
      soil: clay
      parts:
        - {{name: main, foundation: crawl space, crawl height: 30", outline: [E {a}', S {b}', E {c}', S {d}', W {a + c}', N {b + d}']}}
      walls:
        - {{walls: all, kind: hollow block, thick: 8", footing: {{outside: 18", inside: 12", known by: dug}}}}
      piers:
        - {{from: [6', 5'], every: [8', 8'], count: [3, 2], size: [16", 16"], kind: hollow block, footing: 12", known by: dug}}
      marks:
        - {{kind: hatch, along: wall 5 2' to 4'}}
      dangers: {{well: none, cistern: none, ducts in slab: none, plenum: none, radon pipe: none, drain: none, lines: none, post-tension slab: none, heated slab: none, pond: none, edible beds: none, blooming plants: none, sensitive occupants: none}}
      areas:
        - {{name: crawl space, seen: yes}}
        - {{name: attic, seen: partly, because: insulation covers the joists}}
    - {{name: shed, inspected: no, because: not ordered}}
visits:
  - {{id: visit 1, date: 2026-03-05, from: "9:10", to: "10:35", weather: dry, tools: [probe, moisture meter]}}
findings:
"""
    lines = []
    for n in range(1, findings + 1):
        lines += finding(n, rng, photos)
    out += "\n".join(lines)
    out += f"""
work:
  - {{id: soil, answers: {evidence}, do: treat soil, walls: all, sides: both, piers: all}}
  - {{id: voids, answers: {evidence}, do: drill and treat voids, near: {evidence}}}
  - {{id: sill, answers: {damage}, do: repair wood, by: contractor, asked of: seller}}
  - {{id: dry, answers: {damp}, do: stop water and dry out, by: owner}}
options:
  - {{id: full, work: all, product: example-a, warranty: repair-1}}
signed: {{name: Ann Poole, on: 2026-03-05}}
official sheet: {{signed: 2026-03-05, by: Ann Poole}}
"""
    return out, photos


def main():
    count, folder = int(sys.argv[1]), pathlib.Path(sys.argv[2])
    findings = int(sys.argv[3]) if len(sys.argv) > 3 else 12
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "company.yaml").write_text(COMPANY)
    picture = png(1600, 1200)
    for number in range(count):
        # A file system takes no more than some ten thousand names for one file.
        store = folder / ".photos" / f"{number // 10000}"
        if not store.exists():
            store.mkdir(parents=True)
            for i in range(4):
                (store / f"{i}.png").write_bytes(picture)
        rng = random.Random(number)
        text, photos = case(number, rng, findings)
        place = folder / f"{number // 1000:03}" / f"{number:06}"
        (place / "photos").mkdir(parents=True, exist_ok=True)
        (place / "case.yaml").write_text(text)
        for photo in photos:
            target = place / "photos" / photo
            if not target.exists():
                os.link(store / photo, target)


main()
