#!/usr/bin/env python3
"""What a crew does with the printed work order alone: ounces for each load, seconds for each run and hole."""
import json
import re
import subprocess

from harness import PROGRAM, Copy, check, finish, run


TIPS = {"trench": 11, "rod": 15, "slab hole": 20, "void hole": 30}  # seconds a gallon, of the example company

with Copy() as copy:
    # 245 gal of a mix with 27.5 fl oz in 100 gal, from a tank of 150 gal: common practice, no source.
    copy.edit("gal_each: 0.5", "gal_each: 10.1")
    copy.edit("    lb per gal: 1\n    finished percent: 0.06\n    fl oz per 100 gal: 64\n", "    fl oz per 100 gal: 27.5\n", copy.company)
    source = copy.case.read_text()
    copy.case.write_text(source[:source.index("applied:\n")])
    order = copy.root / "w.pdf"
    done = run("work-order", copy.folder, "-o", order)
    check(done.returncode == 0, done.stderr)
    sheet = subprocess.run(["pdftotext", "-layout", str(order), "-"], capture_output=True, text=True).stdout
    check("245.0 gal" in sheet, "the job is not 245 gal")
    loads = [(float(g), float(w), float(o)) for g, w, o in re.findall(r"load \d+\s+([\d.]+) gal\s+([\d.]+) gal\s+([\d.]+) fl oz", sheet)]
    check([g for g, _, _ in loads] == [150.0, 95.0], f"the loads are {loads}")
    check(len(loads) == 2 and abs(loads[0][2] - 41.25) < 0.005, f"the first load carries {loads[0][2]} fl oz, not 41.25")
    check(len(loads) == 2 and abs(loads[1][2] - 26.1) < 0.05, f"the second load carries {loads[1][2]} fl oz, not 26.1")
    for gallons, water, ounces in loads:
        check(abs(water + ounces / 128 - gallons) < 0.006, f"{water} gal of water and {ounces} fl oz do not fill {gallons} gal")
    check("Bring 2 packages of 64 fl oz" in " ".join(sheet.split()), "67.4 fl oz take two packages of 64")

    rows = {int(n): (float(g), int(s.replace(",", ""))) for n, g, s in
            re.findall(r"☐\s+(\d+)\. .*?\s([\d.]+)\s+(?:[\d.]+ \+ [\d.]+\s+.*?)?\s([\d,]+) s\s+_+", sheet)}
    runs = json.loads(run("measure", copy.folder, "--format", "json").stdout)["options"][0]["runs"]
    check(sorted(rows) == [r["run"] for r in runs], f"rows of the sheet: {sorted(rows)}")
    for one in runs:
        gallons, seconds = rows.get(one["run"], (0, 0))
        check(f"{gallons:.1f}" == one["gallons"], f"run {one['run']}: {gallons} gal on the sheet, {one['gallons']} planned")
        if one["holes"]:
            wanted = gallons * TIPS["slab hole" if one["line"] == "porch" else "void hole"]
        else:
            rods = float(one["rod_gallons"])
            wanted = (gallons - rods) * TIPS["trench"] + rods * TIPS["rod"]
        check(abs(seconds - wanted) <= 0.5 + 1e-6, f"run {one['run']}: {seconds} s, not {wanted}")
    # The trench's share before and with the soil, and the rods, make the gallons of the run.
    found = re.findall(r"☐\s+(\d+)\. .*?\s([\d.]+)\s+([\d.]+) \+ ([\d.]+)\s+(\d+) × ([\d.]+)", sheet)
    rodded = [r["run"] for r in runs if float(r["rod_gallons"]) > 0]
    check(sorted(int(f[0]) for f in found) == rodded, f"trench and rods share the gallons of {rodded}, and the sheet says so of {[f[0] for f in found]}")
    for number, gallons, before, later, count, each in found:
        sum_of = float(before) + float(later) + int(count) * float(each)
        check(abs(sum_of - float(gallons)) <= 0.005 * int(count) + 0.051, f"run {number}: {before} + {later} + {count} x {each} is not {gallons}")
    # Each hole's dose and seconds make its run.
    for number, holes, dose, seconds in re.findall(r"run (\d+): .*?\s{2,}(\d+)\s+at most.*?([\d.]+) gal, (\d+) s", sheet):
        gallons = rows[int(number)][0]
        check(abs(int(holes) * float(dose) - gallons) <= 0.005 * int(holes) + 0.05, f"run {number}: {holes} holes of {dose} gal are not {gallons} gal")
    plain = " ".join(sheet.split())
    for words in ("Locate ticket", "A-20260309", "The air handler is off", "silica dust", "ground-fault", "look for live wires",
                  "spill kit", "safety sheet", "1-800-222-1222", "water line enters through wall 4", "from the soil of run",
                  "Dig first, then mix", "2 ft 6 in", "before anything is touched", "555-0142", "Remove wood scraps"):
        check(words in plain, f"the work order lacks: {words}")
finish()
