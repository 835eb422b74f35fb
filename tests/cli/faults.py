#!/usr/bin/env python3
"""Injected faults: whatever fails while a paper is written, the person is told which file and why, the exit status says
so, the old paper stands whole and nothing is left beside it.

  faults.py           what ctest runs: every fault, each on every paper it concerns
  faults.py --full    200 kills and 10,000 cases instead of a few
  faults.py --table   prints the table of DEVELOPERS.md besides
"""
import errno
import os
import random
import re
import resource
import shutil
import signal
import subprocess
import sys
import time

from harness import PROGRAM, ROOT, Copy, as_nobody, check, finish, run, skip

FULL = "--full" in sys.argv
table = []
WINDOW = ["--today", "2027-02-20", "--from", "2027-02-20", "--to", "2027-06-20"]

# Every command that writes files, and the files below the folder of the output that it writes.
PAPERS = {
    "report": (["report", "CASE", "-o", "OUT/a.pdf"], ["a.pdf"]),
    "report --apart": (["report", "CASE", "--apart", "-o", "OUT/a.pdf"], ["a.pdf", "a-estimate.pdf"]),
    "report --format html": (["report", "CASE", "--format", "html", "-o", "OUT/a.html"], ["a.html"]),
    "report --png": (["report", "CASE", "--png", "OUT/pages"], ["pages"]),
    "estimate -o": (["estimate", "CASE", "-o", "OUT/a.pdf"], ["a.pdf"]),
    "draw": (["draw", "CASE", "-o", "OUT/a.svg"], ["a.svg"]),
    "work-order": (["work-order", "CASE", "-o", "OUT/a.pdf"], ["a.pdf"]),
    "agreement": (["agreement", "CASE", "-o", "OUT/a.pdf"], ["a.pdf"]),
    "record": (["record", "CASE", "-o", "OUT/a.pdf", "--notice", "OUT/b.pdf"], ["a.pdf", "b.pdf"]),
    "invoice": (["invoice", "CASE", "-o", "OUT/a.pdf"], ["a.pdf"]),
    "certificate": (["certificate", "CASE", "-o", "OUT/a.pdf"], ["a.pdf"]),
    "renew --letters": (["renew", "CASE", *WINDOW, "--letters", "OUT/a.pdf"], ["a.pdf"]),
}
# Every command that writes to a stream.
STREAMS = [["report", "CASE", "-o", "-"], ["draw", "CASE", "-o", "-"], ["work-order", "CASE", "-o", "-"], ["measure", "CASE"],
           *([["review", "ALL", "--format", f] for f in ("text", "csv", "json", "html", "sarif")]),
           *([["renew", "ALL", *WINDOW, "--format", f] for f in ("text", "csv", "json", "ics")]),
           *([["check", "BROKEN", "--format", f] for f in ("text", "json", "sarif")]),
           *([["estimate", "CASE", "--format", f] for f in ("text", "json", "csv")]),
           ["rules"], ["explain", "unanswered"], ["forms"], ["forms", "us-nc"], ["schema"], ["--version"], ["--help"]]


def row(fault, sees, disk):
    """A line of the table, with a message as it was seen."""
    table.append((fault, sees, disk))


class Desk:
    """A copy of the examples, and a folder for output that holds the papers of before."""

    def __init__(self, copy, out=None):
        self.copy, self.out = copy, out or copy.root / "out"
        self.out.mkdir(exist_ok=True)

    def words(self, words):
        places = {"CASE": self.copy.folder, "ALL": self.copy.root, "BROKEN": self.copy.root / "broken"}
        return [str(places.get(w, w)).replace("OUT", str(self.out)) for w in words]

    def state(self):
        """Each file with its place on the disk and its bytes: a file that was exchanged has another place."""
        return {str(p.relative_to(self.out)): (p.stat().st_ino, p.read_bytes())
                for p in sorted(self.out.rglob("*")) if p.is_file() and p.name != "filler"}

    def clear(self):
        for path in self.out.iterdir():
            shutil.rmtree(path) if path.is_dir() else path.unlink()


def message_in(told):
    return next((line for line in told.splitlines() if line.startswith("soundsill: ")), "")


def message(result):
    return message_in(result.stderr)


def fails(desk, fault, paper, start, cause, before, disk="the old paper whole, nothing beside it", named=None):
    """Runs a paper under a fault and looks at the status, at what is told and at the disk."""
    words, files = PAPERS[paper]
    result = start(desk.words(words))
    told, after = message(result), desk.state()
    name = f"{fault}, {paper}"
    check(result.returncode == 2, f"{name}: exit status {result.returncode} {result.stderr[-300:]}")
    names = named or [str(desk.out / f) for f in files]
    check(any(f"`{n}`" in told for n in names), f"{name}: no file is named: {result.stderr[-300:]}")
    check(re.search(cause, told), f"{name}: the cause is not told: {result.stderr[-300:]}")
    for file, old in before.items():
        # Of two papers the first may have been written before the second failed; then it is whole.
        same = after.get(file) == old or (len(files) > 1 and file in after and after[file][1] == old[1])
        check(same, f"{name}: the old {file} is not as it was")
    check(set(after) <= set(before) | set(files), f"{name}: left behind {set(after) - set(before)}")
    left = [p for pattern in (".*.tmp-*", ".*.old-*") for p in desk.out.rglob(pattern)]
    check(not left, f"{name}: left behind {left}")
    if paper == "report":
        row(fault, told.replace(str(desk.out), "OUT"), disk)
    return result


def limited(words, **limits):
    """Runs the program with limits of the kernel: what `ulimit` sets."""
    def set_limits():
        for name, value in limits.items():
            resource.setrlimit(getattr(resource, name), (value, value))
    return subprocess.run([PROGRAM, *words], capture_output=True, text=True, preexec_fn=set_limits)


def each_paper(desk):
    """Each paper, with the state of the folder when its old paper stands there alone."""
    for paper, (words, files) in PAPERS.items():
        if paper == "report --png" and not shutil.which("pdftoppm"):
            skip("pdftoppm is not installed: pictures of pages")
            continue
        desk.clear()
        made = run(*desk.words(words))
        before = desk.state()
        check(made.returncode == 0 and all(any(n == f or n.startswith(f + "/") for n in before) for f in files),
              f"{paper} without a fault: {made.returncode} {made.stderr[-300:]}")
        yield paper, before


def thorough(paper):
    """Every amount is tried on one paper, and on the others only in a full run: they are written by the same few lines."""
    return FULL or paper == "report"


def largest(before):
    return max(len(bytes_) for _, bytes_ in before.values())


def file_size(desk):
    for paper, before in each_paper(desk):
        size = largest(before)
        for most in (0, 1, 4096, size // 2, size - 1) if thorough(paper) else (size // 2,):
            if paper == "report --png" and most > 4096:  # the largest file is a picture there, written by pdftoppm
                continue
            fails(desk, "`ulimit -f`", paper, lambda w: limited(w, RLIMIT_FSIZE=most), "File too large|pdftoppm ended", before)


def full_disk(copy):
    if os.geteuid() != 0:
        return skip("not root, so no small disk can be mounted: a full disk")
    disk = copy.root / "disk"
    disk.mkdir()
    if subprocess.run(["mount", "-t", "tmpfs", "-o", "size=24m", "tmpfs", str(disk)], capture_output=True).returncode:
        return skip("no small disk can be mounted here: a full disk")
    try:
        desk = Desk(copy, disk / "out")
        for paper, before in each_paper(desk):
            for room in (0, largest(before) // 2) if thorough(paper) else (4096,):
                with open(desk.out / "filler", "wb") as filler:
                    free = os.statvfs(disk)
                    os.posix_fallocate(filler.fileno(), 0, max(1, free.f_bavail * free.f_frsize - (room & ~4095)))
                fails(desk, "full disk", paper, lambda w: run(*w), "No space left on device|pdftoppm ended", before)
                (desk.out / "filler").unlink()
    finally:
        subprocess.run(["umount", str(disk)], check=True)


def no_permission(desk):
    if as_nobody is None:
        return skip("no setpriv, or not root: folders without permission")
    desk.copy.open_to_all()
    for paper, before in each_paper(desk):
        desk.copy.open_to_all()
        desk.out.chmod(0o555)
        fails(desk, "a folder that may not be written", paper, lambda w: run(*w, before=as_nobody), "Permission denied", before)
        desk.out.chmod(0o755)
        for path in desk.out.iterdir():
            path.chmod(0)
        if paper != "report --png":
            fails(desk, "an old paper that may not be read", paper, lambda w: run(*w, before=as_nobody), "Permission denied", before)
        desk.copy.open_to_all()


def missing_folder(desk):
    for paper, before in each_paper(desk):
        words, files = PAPERS[paper]
        gone = Desk(desk.copy, desk.out / "gone")
        gone.out.rmdir()
        result = run(*gone.words(words))
        told = message(result)
        check(result.returncode == 2 and "No such file or directory" in told and "/gone/" in told, f"missing folder, {paper}: {result.stderr[-300:]}")
        check(desk.state() == before, f"missing folder, {paper}: something was written")
    # Taken away while the program runs: a clean end, whichever way it comes.
    random.seed(4)
    seen = set()
    for _ in range(40 if FULL else 8):
        folder = desk.out / "gone"
        folder.mkdir(exist_ok=True)
        process = subprocess.Popen([PROGRAM, "report", str(desk.copy.folder), "-o", str(folder / "a.pdf")], stderr=subprocess.PIPE, text=True)
        time.sleep(random.uniform(0, 0.25))
        shutil.rmtree(folder, ignore_errors=True)
        told = process.communicate()[1]
        seen.add(process.returncode)
        check(process.returncode == 0 or (process.returncode == 2 and "cannot be written: No such file or directory" in told),
              f"vanished folder: {process.returncode} {told[-300:]}")
        shutil.rmtree(folder, ignore_errors=True)
    check(2 in seen, "no folder vanished in time: the test shows nothing")
    row("the folder is taken away meanwhile", "soundsill: `OUT/a.pdf` cannot be written: No such file or directory", "nothing")


def every_call(desk):
    """Each call of the kernel with which a file is written fails in turn, as strace makes it."""
    calls = "openat,write,fsync,close,rename,renameat2"
    strace = ["strace", "-f", "-qq", "-e", f"trace={calls}"]
    if not shutil.which("strace") or subprocess.run([*strace, "-o", "/dev/null", "true"], capture_output=True).returncode:
        return skip("no strace, or it may not trace: each call fails in turn")
    log = desk.copy.root / "calls"
    for paper, before in each_paper(desk):
        if paper == "report --png":  # its files are put in place by folders
            continue
        subprocess.run([*strace, "-o", str(log), PROGRAM, *desk.words(PAPERS[paper][0])], capture_output=True)
        before = desk.state()  # the run that was looked at has written, too
        counts, wanted, descriptor = {}, [], None
        for line in log.read_text().splitlines():
            call = re.match(r"\d+ +(\w+)\((.*)", line)
            if not call or "resumed" in line:
                continue
            name, rest = call.groups()
            counts[name] = counts.get(name, 0) + 1
            if name == "openat" and ".tmp-" in rest and "O_CREAT" in rest:
                descriptor = re.search(r"= (\d+)", rest)[1]
                wanted.append((name, counts[name], "EACCES"))
            elif descriptor is not None and name in ("write", "fsync", "close") and re.match(rf"{descriptor}\b", rest):
                wanted.append((name, counts[name], "ENOSPC" if name == "write" else "EIO"))
                descriptor = None if name == "close" else descriptor
            elif name.startswith("rename"):
                wanted.append((name, counts[name], "EIO"))
        check({n for n, _, _ in wanted} == set(calls.split(",")), f"{paper}: the calls were not found: {wanted}")
        for name, when, error in wanted:
            inject = ["-e", f"inject={name}:error={error}:when={when}", "-o", "/dev/null"]
            cause = os.strerror(getattr(errno, error))
            fails(desk, f"`{name}` fails", paper, lambda w: run(*w, before=[*strace, *inject]), cause, before)
        # File systems that cannot exchange two names, and older kernels (rename(2): EINVAL, ENOSYS), are no fault.
        for error in ("EINVAL", "ENOSYS"):
            for old in (True, False):
                if not old:
                    desk.clear()
                inject = ["-e", f"inject=renameat2:error={error}", "-o", "/dev/null"]
                result = run(*desk.words(PAPERS[paper][0]), before=[*strace, *inject])
                after = desk.state()
                check(result.returncode == 0 and set(after) == set(before), f"{error} of renameat2, {paper}: {result.stderr} {set(after)}")
                check("wrote " in result.stderr and all(after[f][1] == before[f][1] for f in before), f"{error} of renameat2, {paper}: {result.stderr}")


def streams(desk):
    broken = desk.copy.root / "broken"
    shutil.copytree(desk.copy.folder, broken)
    with (broken / "case.yaml").open("a") as file:
        file.write("surplus: yes\n")
    for words in STREAMS:
        whole = subprocess.run([PROGRAM, *desk.words(words)], capture_output=True)
        check(len(whole.stdout) > 1, f"{words}: nothing is written")
        for fault in ("a reader that went away", "a full disk behind a stream", "no standard output at all"):
            read, write = os.pipe()
            os.close(read)
            full = os.open("/dev/full", os.O_WRONLY)
            start = {"a reader that went away": {"stdout": write}, "a full disk behind a stream": {"stdout": full},
                     "no standard output at all": {"preexec_fn": lambda: os.close(1)}}[fault]
            result = subprocess.run([PROGRAM, *desk.words(words)], stderr=subprocess.PIPE, text=True, **start)
            os.close(write), os.close(full)
            check(result.returncode == 2, f"{fault}, {words}: exit status {result.returncode} {result.stderr[-200:]}")
            check("cannot be written" in result.stderr or "could not be written" in result.stderr, f"{fault}, {words}: told nothing: {result.stderr[-200:]}")
            if words == STREAMS[0]:
                row(fault, message(result), "nothing")


def killed(desk):
    """At random moments; what writing.py does for one paper, for all."""
    random.seed(9)
    attempts, kills, halves = (200 if FULL else 24), 0, 0
    papers = [p for p in PAPERS if p != "report --png"]
    for attempt in range(attempts):
        words, files = PAPERS[papers[attempt % len(papers)]]
        desk.clear()
        began = time.monotonic()
        run(*desk.words(words))
        took, before = time.monotonic() - began, desk.state()
        process = subprocess.Popen([PROGRAM, *desk.words(words)], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        time.sleep(random.uniform(0, 1.1 * took))
        process.kill()
        kills += process.wait() == -signal.SIGKILL
        after = {name: bytes_ for name, (_, bytes_) in desk.state().items()}
        for name, (_, bytes_) in before.items():
            check(after.get(name) == bytes_, f"killed, {words[0]}: {name} is neither old nor new")
        left = set(after) - set(before)
        halves += bool(left)
        check(all(re.fullmatch(r"\.[ab][\w.-]*\.(tmp-[0-9a-f]{12}|old)-[0-9a-f]{16}", name) for name in left), f"killed, {words[0]}: left behind {left}")
        # Between the exchange of two names and the look at what came out, nobody may take it away: it is whole.
        aside = {name for name in left if ".old-" in name}
        check(all(after[name] in [bytes_ for _, bytes_ in before.values()] for name in aside), f"killed, {words[0]}: {aside} is half")
        check(run(*desk.words(words)).returncode == 0 and set(desk.state()) == set(before) | aside, f"killed, {words[0]}: the next run leaves {set(desk.state())}")
    check(kills >= attempts // 4, f"{kills} of {attempts} runs killed: the test shows little")
    print(f"{kills} of {attempts} runs killed, {halves} of them while they wrote")
    row("`kill -9`", "(killed)", "the old paper or the new one, whole; a `.NAME.tmp-KERNEL-RANDOM` may stay, the next run removes it unless the machine was started anew; between two names that are exchanged a whole `.NAME.old-RANDOM` may, and nobody removes it")


def memory(desk):
    """From the least with which the program starts up to what it needs."""
    seen = set()
    for paper, before in each_paper(desk):
        if paper == "report --png":  # there the limit holds for pdftoppm, too
            continue
        few = [30_000, *range(39_000, 42_000, 300), *range(50_000, 130_000, 10_000)] if thorough(paper) else [55_000, 80_000]
        for kilobytes in range(24_000, 130_000, 400) if FULL else few:
            words, files = PAPERS[paper]
            result = limited(desk.words(words), RLIMIT_AS=kilobytes * 1_000)
            after = desk.state()
            told = result.stderr
            name = f"{kilobytes} KB of memory, {paper}"
            # The loader, or a library that is loaded, finds no room.
            if result.returncode == 127 or (result.returncode < 0 and "GLib" in told):
                continue
            # A photo for which there is none is a fault of its own, with its place.
            cause = {1: "more memory than there is", 2: "not enough memory"}.get(result.returncode)
            check(result.returncode in (0, 1, 2), f"{name}: exit status {result.returncode} {told[-300:]}")
            check(result.returncode == 0 or cause in told, f"{name}: {told[-300:]}")
            for file, old in before.items():
                check(file in after and after[file][1] == old[1], f"{name}: the old {file} is not as it was")
            check(set(after) == set(before), f"{name}: left behind {set(after) - set(before)}")
            seen.add(result.returncode)
            if result.returncode == 2 and paper == "report":
                row("no memory", message(result), "the old paper whole, nothing beside it")
    check(2 in seen, "the memory never ran out: the test shows nothing")


def batch(copy):
    """One broken case in the middle of many: named, and all others done."""
    for count, command in ((10_000 if FULL else 300, "review"), (1_000 if FULL else 24, "report")):
        folder = copy.root / f"many-{command}"
        cases = []
        for n in range(count):
            place = folder / f"{n:05}"
            place.mkdir(parents=True)
            os.link(copy.folder / "case.yaml", place / "case.yaml")
            (place / "photos").symlink_to(copy.folder / "photos") if command == "review" else shutil.copytree(copy.folder / "photos", place / "photos", copy_function=os.link)
            cases.append(place)
        middle = cases[count // 2]
        if command == "review":
            (middle / "case.yaml").unlink()
            (middle / "case.yaml").write_bytes(b"format: 1\ncase: {\xff\n")
            result = run("review", folder, "--today", "2026-06-20", "--format", "csv")
            rows = result.stdout.splitlines()
            check(result.returncode in (1, 2) and len(rows) == count + 1, f"{count} cases: {result.returncode}, {len(rows)} rows")
            check(f"{middle.name}/case.yaml" in rows[count // 2 + 1] and "bad-encoding" in rows[count // 2 + 1], f"{count} cases: {rows[count // 2 + 1]}")
            (middle / "case.yaml").unlink()
            (middle / "case.yaml").symlink_to("nowhere")
            result = run("review", folder, "--today", "2026-06-20", "--format", "csv")
            check(result.returncode == 2 and f"{middle.name}/case.yaml` cannot be read" in result.stdout, f"{count} cases: {result.returncode}")
            continue
        photo = middle / "photos/3-close.jpg"
        photo.unlink()
        photo.mkdir()
        result = run("report", *cases)
        written = [place for place in cases if (place / "packet.pdf").exists()]
        check(result.returncode == 1, f"report of {count}: exit status {result.returncode}")
        check(len(written) == count - 1 and middle not in written, f"report of {count}: {len(written)} written")
        check("`photos/3-close.jpg` cannot be read: it is a folder [photo-missing]" in result.stderr and f"{middle.name}/case.yaml:" in result.stderr,
              f"report of {count}: {result.stderr[:300]}")
        row("an unreadable photo in the middle of a batch", "MIDDLE/case.yaml:115:16: error: `photos/3-close.jpg` cannot be read: it is a folder [photo-missing]",
            "every other packet")


def slipped_in(desk):
    """A file that is put in the place of a paper while the paper is written, just before it takes its name, stays."""
    strace = ["strace", "-f", "-qq", "-e", "trace=rename,renameat2", "-e", "inject=rename,renameat2:delay_enter=400000", "-o", "/dev/null"]
    if not shutil.which("strace") or subprocess.run([*strace, "true"], capture_output=True).returncode:
        return skip("no strace, or it may not trace: a file that slips in")
    for paper, before in each_paper(desk):
        words, files = PAPERS[paper]
        place, own = desk.out / files[0], desk.out / "own"
        for stood in (True, False):
            if not stood:
                shutil.rmtree(place) if place.is_dir() else place.unlink()
            process = subprocess.Popen([*strace, PROGRAM, *desk.words(words)], stderr=subprocess.PIPE, text=True)
            while process.poll() is None and not any(e.name.startswith(f".{files[0]}.") and e.stat().st_size for e in os.scandir(desk.out)):
                pass
            if paper == "report --png":  # pdftoppm has still to run: only the next look is tried
                shutil.rmtree(place, ignore_errors=True)
            own.write_text("a case")
            own.rename(place)
            told = process.communicate()[1]
            check(place.read_text() == "a case", f"slipped in, {paper}: the file is lost")
            check(process.returncode == 2 and str(place) in told, f"slipped in, {paper}: {process.returncode} {told}")
            check(not list(desk.out.glob(".*")), f"slipped in, {paper}: left behind {list(desk.out.glob('.*'))}")
            place.unlink()
            run(*desk.words(words))
            if paper == "report" and stood:
                row("a file is put there while the paper is written", message_in(told).replace(str(desk.out), "OUT"), "that file, nothing beside it")


def together(desk):
    """Processes that write one file at once: one of their papers stands there in the end, whole."""
    other = desk.copy.root / "other"
    shutil.copytree(desk.copy.folder, other)
    desk.copy.edit("  revision: 1\n", "  revision: 2\n  replaces: {revision: 1, on: 2026-03-05, because: a reading was added}\n", other / "case.yaml")
    out, papers = desk.out / "a.pdf", set()
    desk.clear()
    for case in (desk.copy.folder, other):
        run("report", case, "-o", out, "--replace")
        papers.add(out.read_bytes())
    for _ in range(10 if FULL else 3):
        running = [subprocess.Popen([PROGRAM, "report", str(case), "-o", str(out), "--replace"], stderr=subprocess.PIPE, text=True)
                   for case in (desk.copy.folder, other) * 4]
        ends = [(p.communicate()[1], p.returncode) for p in running]
        check(all(code == 0 for _, code in ends), f"at once: {ends}")
        check(out.read_bytes() in papers and len(papers) == 2, "at once: the paper is a mixture")
        check([p.name for p in desk.out.iterdir()] == ["a.pdf"], f"at once: {list(desk.out.iterdir())}")
    row("several processes write one file", "wrote OUT/a.pdf", "the paper of one of them, whole")


def surroundings(desk):
    """Clock, language, home: none of them is in the papers."""
    plain = {**os.environ, "LC_ALL": "C"}
    places = {"C": plain, "no HOME": {k: v for k, v in plain.items() if k != "HOME"}, "a home that cannot be written": {**plain, "HOME": "/proc"},
              "no home that exists": {**plain, "HOME": "/nonexistent"}, "a zone": {**plain, "TZ": "Pacific/Kiritimati"},
              "a zone that is none": {**plain, "TZ": "No/Where"}, "a build's day": {**plain, "SOURCE_DATE_EPOCH": "1"},
              "a locale that is none": {**plain, "LC_ALL": "xx_YY.UTF-8"}, "no environment": {}}
    locales = desk.copy.root / "locales"
    locales.mkdir()
    made = shutil.which("localedef") and subprocess.run(["localedef", "-i", "de_DE", "-f", "UTF-8", str(locales / "de_DE.UTF-8")], capture_output=True)
    if made and (locales / "de_DE.UTF-8").exists():
        places["de_DE"] = {**plain, "LC_ALL": "de_DE.UTF-8", "LANG": "de_DE.UTF-8", "LOCPATH": str(locales)}
    else:
        skip("no German locale can be made: de_DE")
    first = {}
    for name, env in places.items():
        for paper, (words, files) in PAPERS.items():
            if paper == "report --png" or not (thorough(paper) or name in ("C", "de_DE")):
                continue
            desk.clear()
            result = run(*desk.words(words), env=env)
            check(result.returncode == 0, f"{name}, {paper}: {result.returncode} {result.stderr[-200:]}")
            bytes_ = {f: (desk.out / f).read_bytes() for f in files if (desk.out / f).exists()}
            check(first.setdefault(paper, bytes_) == bytes_, f"{name}, {paper}: other bytes")
        for words in (["estimate", "CASE"], ["measure", "CASE"], ["review", "ALL", "--today", "2026-06-20"]):
            out = subprocess.run([PROGRAM, *desk.words(words)], capture_output=True, env=env).stdout
            check(first.setdefault(str(words), out) == out, f"{name}, {words}: other bytes")
    row("another clock, zone, language, home, or none", "wrote OUT/a.pdf", "the same bytes")


def main():
    parts = {f.__name__: f for f in (file_size, no_permission, missing_folder, every_call, streams, killed, memory, slipped_in, together, surroundings)}
    chosen = [w for w in sys.argv[1:] if not w.startswith("--")]
    for name, part in parts.items():
        if not chosen or name in chosen:
            with Copy() as copy:
                part(Desk(copy))
    for part in (full_disk, batch):
        if not chosen or part.__name__ in chosen:
            with Copy() as copy:
                part(copy)
    lines = [f"| {fault} | {sees.removeprefix('soundsill: ')} | {disk} |" for fault, sees, disk in dict.fromkeys(table)]
    if "--table" in sys.argv:
        print("\n| Fault | What is told | On the disk |\n|---|---|---|")
        print("\n".join(lines))
    kept = (ROOT / "DEVELOPERS.md").read_text()
    for line in lines:
        check(line in kept, f"DEVELOPERS.md does not hold this row: {line}")
    finish()


main()
