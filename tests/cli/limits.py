#!/usr/bin/env python3
"""How much the tool takes: beyond its limits one clear message, in no time, and no paper."""
import re
import resource
import struct
import subprocess
import time
import zlib

from harness import PROGRAM, ROOT, Copy, check, finish, messages, run

MEMORY = 1_500_000_000
SECONDS = 10


def refused(copy, name, code, *words):
    """The one fault of a case that is beyond a limit, told in bounded time and room, and nothing written."""
    began = time.monotonic()
    result = subprocess.run([PROGRAM, "report", copy.folder], capture_output=True, text=True,
                            preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY)))
    took = time.monotonic() - began
    told = [m for m in messages(result.stderr) if m["severity"] == "error"]
    check(result.returncode in (1, 2), f"{name}: exit status {result.returncode} {result.stderr[:500]}")
    check(len(told) == 1 and told[0]["code"] == code, f"{name}: {told}")
    check(all(word in result.stderr for word in (*words, "why:", "fix:")), f"{name}: {result.stderr[:800]}")
    check(took < SECONDS, f"{name}: {took:.1f} s")
    check(not (copy.folder / "packet.pdf").exists(), f"{name}: a packet was written")
    return told[0] if told else {"line": None, "file": ""}


FINDING = '  - {{no: {}, in: house, kind: condition, condition: wood scraps, at: pier 3, where: on the soil}}\n'


def with_findings(copy, count):
    text = copy.case.read_text()
    head, tail = text.split("\nfindings:\n", 1)
    more = "".join(FINDING.format(1000 + n) for n in range(count))
    copy.case.write_text(head + "\nfindings:\n" + more + tail)
    return head.count("\n") + 3


with Copy() as copy:
    first = with_findings(copy, 2000)
    line = refused(copy, "findings", "too-large", "findings; 2,000 are the most")["line"]
    check(line is not None and int(line) == first + 2000, f"findings: line {line}, the list begins in {first}")
with Copy() as copy:
    with_findings(copy, 400)  # within the limit they are findings like others: unanswered
    told = run("check", copy.folder).stdout
    check("too-large" not in told and "[unanswered]" in told, f"400 findings: {told[:300]}")
with Copy() as copy:
    shows = "".join(f"        - {{file: photos/1-close.jpg, shows: no. {n}}}\n" for n in range(201))
    text = copy.case.read_text()
    at = text.index("    photos:\n") + len("    photos:\n")
    copy.case.write_text(text[:at] + shows + text[at:])
    refused(copy, "photos", "too-large", "photos; 200 are the most")
with Copy() as copy:
    with copy.case.open("a") as file:
        file.write("# nothing\n" * 400_001)
    refused(copy, "4 MB", "too-large", "case.yaml` cannot be read: it is larger than 4 MB")
with Copy() as copy:
    with copy.case.open("a") as file:
        file.write("surplus: [" + "1, " * 200_001 + "1]\n")
    refused(copy, "values", "too-large", "more than 200,000 values")
with Copy() as copy:
    with copy.case.open("a") as file:
        file.write("surplus: " + "[" * 65 + "]" * 65 + "\n")
    refused(copy, "depth", "too-deep", "nested deeper than 64 levels")


def chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


with Copy() as copy:  # 10,001 x 10,000 pixels in a few bytes
    header = chunk(b"IHDR", struct.pack(">IIBBBBB", 10_001, 10_000, 8, 0, 0, 0, 0))
    rows = chunk(b"IDAT", zlib.compress(bytes(10_002) * 10_000))
    (copy.folder / "photos/1-close.jpg").write_bytes(b"\x89PNG\r\n\x1a\n" + header + rows + chunk(b"IEND", b""))
    refused(copy, "100 MP", "photo-broken", "or save it smaller", "10001 x 10000 pixels, and more than 100 million")
with Copy() as copy:
    with (copy.folder / "photos/1-close.jpg").open("r+b") as file:
        file.truncate(60_000_001)
    refused(copy, "a photo of 60 MB", "photo-missing", "it is larger than 60 MB")

# A form whose limits are missing or cannot be read: the general form's hold, the fault stays, and nothing crashes.
FORM = (ROOT / "forms/us-nc.yaml").read_text()
LIMITS = re.search(r"^limits:\n(?:  .*\n)+", FORM, flags=re.M)[0]
for name, text, code in (("no limits", FORM.replace(LIMITS, ""), "missing-key"),
                         ("limits that are no block", FORM.replace(LIMITS, "limits: many\n"), "wrong-shape"),
                         ("limits that cannot be read", re.sub(r"\{value: [^,]+,", "{value: many,", LIMITS).join(FORM.split(LIMITS)), "bad-length")):
    with Copy() as copy:
        own = copy.folder / "forms"
        own.mkdir()
        (own / "us-nc.yaml").write_text(text)
        for command in (["check"], ["report", "--draft"], ["measure"], ["estimate"]):
            result = run(*command, copy.folder)
            told = result.stdout + result.stderr
            check(result.returncode == 1 and f"[{code}]" in told, f"{name}, {command}: {result.returncode} {told[:400]}")
        check((copy.folder / "packet-draft.pdf").exists(), f"{name}: no draft")

# A list of cases may come from a pipe, which tells no size and may never end.
for name in ("/dev/zero", "-"):
    began = time.monotonic()
    with open("/dev/zero", "rb") as endless:
        result = subprocess.run([PROGRAM, "review", "--list", name], stdin=endless, capture_output=True, text=True,
                                preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY)))
    took = time.monotonic() - began
    check(result.returncode == 2 and result.stderr.startswith(f"soundsill: `{name}` cannot be read: it is larger than 100 MB"),
          f"an endless list {name}: {result.returncode} {result.stderr[:300]}")
    check(took < SECONDS, f"an endless list {name}: {took:.1f} s")
finish()
