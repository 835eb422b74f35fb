#!/usr/bin/env python3
"""Writing: the same bytes twice, whole or not at all, revisions, streams, exit statuses."""
import json
import os
import random
import signal
import subprocess
import time

from harness import PROGRAM, ROOT, Copy, expect, finish, run

checks = 0


def check(holds, words):
    global checks
    checks += 1
    expect(holds, words)


with Copy() as copy:
    out = copy.root / "p.pdf"
    first = run("report", copy.folder, "-o", out)
    check(first.returncode == 0, f"the example is not clean: {first.stderr}")
    once = out.read_bytes()
    elsewhere = copy.root / "q.pdf"
    run("report", copy.folder, "-o", elsewhere, env={**os.environ, "TZ": "Pacific/Kiritimati", "LC_ALL": "de_DE.UTF-8"})
    check(once == elsewhere.read_bytes(), "the same case gives other bytes")
    check(once.startswith(b"%PDF-1.7") and once.rstrip().endswith(b"%%EOF"), "not a whole PDF")
    piped = subprocess.run([PROGRAM, "report", str(copy.folder), "-o", "-"], capture_output=True)
    check(piped.stdout == once, "standard output holds other bytes")

    # Killed at any moment, the old file or the new one stands.
    leftovers = 0
    random.seed(7)
    for attempt in range(60):
        process = subprocess.Popen([PROGRAM, "report", str(copy.folder), "-o", str(out)], stderr=subprocess.DEVNULL)
        time.sleep(random.uniform(0, 0.25))
        process.send_signal(signal.SIGKILL)
        process.wait()
        if out.read_bytes() != once:
            check(False, f"attempt {attempt}: the file is neither the old nor the new one")
            break
        leftovers += len(list(copy.root.glob(".p.pdf.tmp-*")))
    check(out.read_bytes() == once, "kill -9 spoiled the file")
    stale = copy.root / ".p.pdf.tmp-999999"
    stale.write_bytes(b"half")
    run("report", copy.folder, "-o", out)
    check(not stale.exists() and not list(copy.root.glob(".p.pdf.tmp-*")), "a leftover was not removed")

    # A final paper gives way to its own revision only.
    text = copy.case.read_text()
    copy.case.write_text(text.replace("  revision: 1\n", "  revision: 2\n  replaces: {revision: 1, on: 2026-03-05, because: a reading was added}\n"))
    refused = run("report", copy.folder, "-o", out)
    check(refused.returncode == 2 and out.read_bytes() == once, f"another revision replaced a final paper: {refused.stderr}")
    replaced = run("report", copy.folder, "-o", out, "--replace")
    check(replaced.returncode == 0 and out.read_bytes() != once, f"--replace did not replace: {replaced.stderr}")
    copy.case.write_text(text)

    missing = run("report", copy.folder, "-o", copy.root / "no-such-folder" / "p.pdf")
    check(missing.returncode == 2 and "cannot be written" in missing.stderr, "a missing folder was not named")
    check(run("check", copy.root / "nothing").returncode == 2, "a missing case is exit status 2")
    nobody = run("chekc", copy.folder)
    check(nobody.returncode == 2 and "did you mean `check`?" in nobody.stderr, f"no did-you-mean: {nobody.stderr}")
    check(run("--version").stdout.startswith("soundsill "), "no version")
    check("check" in run("--help").stdout, "no help")
    check(run("check", copy.folder).stdout == "", "a clean case is not silent")
    faults = json.loads(run("check", copy.folder, "--format", "json").stdout)
    check(faults == {"version": 1, "faults": [], "errors": 0, "warnings": 0}, f"JSON of a clean case: {faults}")
    measured = json.loads(run("measure", copy.folder, "--format", "json").stdout)
    option = measured["options"][0]
    total = sum(round(float(r["gallons"]) * 10) for r in option["runs"])
    check(total == round(float(option["gallons"]) * 10), "the gallons of the runs do not sum to the total in JSON")
    check(sum(round(float(l["gallons"]) * 10) for l in option["mix"]["loads"]) == total, "the loads do not sum to the gallons")
    explained = run("measure", copy.folder, "--explain").stdout
    check("= 136' x 1'6\" deep x 4 gal / 10 ft" in explained and "Purdue Extension PPP-144" in explained, "no working, or no source")
    forms = copy.root / "forms"
    forms.mkdir()
    own = (ROOT / "forms/us-nc.yaml").read_text().replace("form: us-nc", "form: us-xx").replace("name: North Carolina", "name: Example State")
    (forms / "us-xx.yaml").write_text(own)
    state = copy.case.read_text()
    copy.case.write_text(state.replace("form: us-nc", "form: us-xx"))
    unknown = run("check", copy.folder)
    check(unknown.returncode == 1 and "[unknown-form]" in unknown.stdout, "an unknown form is not a fault")
    check(run("check", copy.folder, "--forms", forms).returncode == 0, "a form of one's own is not found")
    copy.case.write_text(state)
    secret = copy.root / "secret.jpg"
    secret.write_bytes((copy.folder / "photos/1-close.jpg").read_bytes())
    copy.edit("photos/1-close.jpg", "../secret.jpg")
    outside = run("check", copy.folder)
    check(outside.returncode == 1 and "[photo-missing]" in outside.stdout, f"a photo outside the folder was read: {outside.stdout}")
finish(checks)
