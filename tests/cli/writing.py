#!/usr/bin/env python3
"""Writing: the same bytes twice, whole or not at all, revisions, streams, exit statuses."""
import fcntl
import json
import os
import pathlib
import random
import shutil
import signal
import subprocess
import time

from harness import PROGRAM, ROOT, Copy, check, finish, run, skip

REVISION_2 = "  revision: 2\n  replaces: {revision: 1, on: 2026-03-05, because: a reading was added}\n"

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

    # Killed at any moment, the old file or the new one stands. Every run would write the paper that does not stand there.
    later = copy.root / "later"
    shutil.copytree(copy.folder, later)
    copy.edit("  revision: 1\n", REVISION_2, later / "case.yaml")
    began = time.monotonic()
    run("report", later, "-o", elsewhere, "--replace")
    took = time.monotonic() - began
    twice = elsewhere.read_bytes()
    check(twice != once and twice.startswith(b"%PDF-1.7"), "two revisions give the same bytes")
    killed = finished = halves = 0
    random.seed(7)
    for attempt in range(18):
        before = out.read_bytes()
        folder, after = (later, twice) if before == once else (copy.folder, once)
        process = subprocess.Popen([PROGRAM, "report", str(folder), "-o", str(out), "--replace"],
                                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        if attempt % 3:  # at any moment, or never
            time.sleep(random.uniform(0, 1.6 * took))
        else:  # as soon as the new file is begun
            while process.poll() is None and not any(e.name.startswith(".p.pdf.tmp-") for e in os.scandir(copy.root)):
                pass
        process.send_signal(signal.SIGKILL)
        process.wait()
        check(process.returncode in (0, -signal.SIGKILL), f"attempt {attempt}: exit status {process.returncode}")
        killed += process.returncode == -signal.SIGKILL
        finished += process.returncode == 0
        left = out.read_bytes()
        check(left == after or (process.returncode != 0 and left == before),
              f"attempt {attempt}: {len(left)} bytes that are neither the old paper nor the new one")
        if any(copy.root.glob(".p.pdf.tmp-*")):
            halves += 1
            next_run = run("report", folder, "-o", out, "--replace")
            check(next_run.returncode == 0 and out.read_bytes() == after, f"attempt {attempt}: the next run fails: {next_run.stderr}")
            check(not any(copy.root.glob(".p.pdf.tmp-*")), f"attempt {attempt}: what a killed run left was not removed")
    check(killed >= 1, "no run was killed: the test shows nothing")
    print(f"{killed} runs killed, {halves} of them while they wrote; {finished} came to their end")
    run("report", copy.folder, "-o", out, "--replace")
    check(out.read_bytes() == once, "after all the kills the paper is another one")
    # A leftover goes when this running kernel made it and nobody holds it. Of any other nobody here can tell whether its
    # writer lives: it may be another machine that sees the same folder, and process numbers are equal there.
    kernel = pathlib.Path("/proc/sys/kernel/random/boot_id").read_text().replace("-", "")[:12]
    stale, held = (copy.root / f".p.pdf.tmp-{kernel}-{n * 16}" for n in "12")
    others = [copy.root / f".p.pdf.tmp-{n}" for n in ("0123456789ab-3333333333333333", "4444444444444444", "999999")]
    for path in (stale, held, *others):
        path.write_bytes(b"half")
    with held.open("r+b") as file:
        fcntl.flock(file, fcntl.LOCK_EX)
        run("report", copy.folder, "-o", out)
    check(not stale.exists(), "a leftover was not removed")
    check(all(p.exists() for p in (held, *others)), f"what may be another's was removed: {list(copy.root.glob('.p.pdf.tmp-*'))}")
    for path in (held, *others):
        path.unlink()

    # Two machines that share a folder have equal process numbers now and then; here it is two namespaces of them. One
    # is stopped while it writes, the other comes and goes; both say that they wrote, and the later paper stands.
    alone = ["unshare", "--pid", "--fork", "--kill-child"]
    if not shutil.which("unshare") or subprocess.run([*alone, "true"], capture_output=True).returncode:
        skip("no namespace of process numbers can be made: equal ones on two machines")
    else:
        stopped = False
        for attempt in range(40):
            for path in copy.root.glob(".p.pdf.*"):
                path.unlink()
            process = subprocess.Popen([*alone, PROGRAM, "report", str(copy.folder), "-o", str(out), "--replace"],
                                       stderr=subprocess.PIPE, text=True)
            child = None
            while process.poll() is None and not any(e.name.startswith(".p.pdf.tmp-") for e in os.scandir(copy.root)):
                child = child or next(iter(pathlib.Path(f"/proc/{process.pid}/task/{process.pid}/children").read_text().split()), None)
            if process.poll() is None and child:
                os.kill(int(child), signal.SIGSTOP)
                stopped = any(copy.root.glob(".p.pdf.tmp-*"))
            if stopped:
                second = run("report", later, "-o", out, "--replace", before=alone)
                check(second.returncode == 0 and out.read_bytes() == twice, f"the second of two machines: {second.stderr}")
            if process.poll() is None and child:
                os.kill(int(child), signal.SIGCONT)
            told = process.communicate()[1]
            check(process.returncode == 0 and "wrote " in told, f"the first of two machines: {process.returncode} {told}")
            if stopped:
                check(out.read_bytes() == once, "the first of two machines wrote something else")
                break
        check(stopped, "no run was stopped while it wrote: the test shows nothing")
        check(not list(copy.root.glob(".p.pdf.*")), "two machines leave something behind")

    # A final paper gives way to its own revision only.
    text = copy.case.read_text()
    copy.edit("  revision: 1\n", REVISION_2)
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
    for words, hint in ((("check", "--formt", "text", copy.folder), "`--formt` is not an option of `check`; did you mean `--format`?"),
                        (("report", copy.folder, "--langg=es"), "`--langg` is not an option of `report`; did you mean `--lang`?"),
                        (("--tody", "2026-03-09", "check", copy.folder), "`--tody` is not an option; did you mean `--today`?"),
                        (("--strict", "check", copy.folder), "`--strict` is an option of a command; write it after the command"),
                        (("check", "--xyzzy", copy.folder), "`--xyzzy` is not an option of `check`\n")):
        wrong = run(*words)
        check(wrong.returncode == 2 and hint in wrong.stderr, f"{words}: {wrong.stderr}")
    check(run("--version").stdout.startswith("soundsill "), "no version")
    check("check" in run("--help").stdout, "no help")
    check(run("check", copy.folder).stdout == "", "a clean case is not silent")
    faults = json.loads(run("check", copy.folder, "--format", "json").stdout)
    check(faults == {"version": 1, "faults": [], "errors": 0, "warnings": 0}, f"JSON of a clean case: {faults}")
    measured = json.loads(run("measure", copy.folder, "--format", "json").stdout)
    option = measured["options"][0]
    total = sum(round(float(r["gallons"]) * 10) for r in option["runs"])
    check(total == round(float(option["gallons"]) * 10), "the gallons of the runs do not sum to the total in JSON")
    check(sum(round(float(l["gallons"]) * 10) for m in option["mixes"] for l in m["loads"]) == total, "the loads do not sum to the gallons")
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

# A name says what a file holds, and an empty one is none.
with Copy() as copy:
    for option in (["report", "-o"], ["report", "--png"], ["report", "--forms"], ["record", "--notice"], ["renew", "--letters"]):
        done = run(option[0], copy.folder, option[1], "")
        check(done.returncode == 2 and "empty" in done.stderr, f"{option}: an empty name is taken: {done.stderr}")
    for words in (["report", "-o", "x.html"], ["report", "--format", "html", "-o", "x.pdf"], ["draw", "-o", "x.png"],
                  ["draw", "--format", "svg", "-o", "x.pdf"], ["invoice", "-o", "x.svg"]):
        wanted = copy.root / words[-1]
        done = run(words[0], copy.folder, *words[1:-1], wanted)
        check(done.returncode == 2 and "would hold" in done.stderr and not wanted.exists(), f"{words}: {done.stderr}")
    for words, head in ((["draw", "-o", "x.pdf"], b"%PDF"), (["draw", "-o", "x.svg"], b"<?xml"), (["draw", "-o", "plan"], b"<?xml"),
                        (["report", "-o", "packet.out"], b"%PDF")):
        wanted = copy.root / words[-1]
        done = run(words[0], copy.folder, *words[1:-1], wanted)
        check(done.returncode == 0 and wanted.read_bytes().startswith(head), f"{words}: {done.stderr}")
finish()
