#!/usr/bin/env python3
"""Photos as phones make them: HEIC through its own library, parts and signs, files that are none, papers too heavy."""
import json
import os
import pathlib
import random
import re
import struct
import subprocess
import zlib

from harness import PROGRAM, ROOT, Copy, check, finish, messages, run

FIRST = '{file: photos/1-close.jpg, shows: "Shelter tube on the east face of pier 3, with a broken piece"}'


def said(*words):
    return subprocess.run(words, capture_output=True, text=True)


def objects(pdf):
    """What qpdf reads: every object of the file."""
    return json.loads(said("qpdf", "--json=2", "--json-key=qpdf", str(pdf)).stdout)["qpdf"][1]


def alternative_texts(pdf):
    return [o["value"]["/Alt"][2:] for o in objects(pdf).values()
            if isinstance(o.get("value"), dict) and "/Alt" in o["value"]]


def images(pdf):
    rows = said("pdfimages", "-list", str(pdf)).stdout.splitlines()[2:]
    return [(int(r.split()[3]), int(r.split()[4]), int(r.split()[12])) for r in rows]


def png_of_noise(path, width, height, seed):
    """A picture that no coder can make small."""
    pixels = random.Random(seed)
    rows = b"".join(b"\0" + pixels.randbytes(width * 3) for _ in range(height))

    def chunk(name, data):
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    path.write_bytes(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows, 1)) + chunk(b"IEND", b""))


# HEIC, made by another program.
linked = said("ldd", PROGRAM).stdout
check("libheif" not in linked, f"the program is linked to libheif:\n{linked}")
with Copy() as copy:
    heic = copy.folder / "photos/1-close.heic"
    made = said("heif-enc", "-q", "90", str(copy.folder / "photos/1-close.jpg"), "-o", str(heic))
    check(made.returncode == 0, made.stderr)
    plain, out = copy.root / "plain.pdf", copy.root / "p.pdf"
    loaded = run("report", copy.folder, "-o", plain, env={**os.environ, "LD_DEBUG": "files"})
    check("libheif" not in loaded.stderr, "libheif is loaded although no HEIC photo is there")
    copy.edit("photos/1-close.jpg", "photos/1-close.heic")
    wrote = run("report", copy.folder, "-o", out)
    check(wrote.returncode == 0, wrote.stderr)
    check(images(out) == images(plain), f"a HEIC is placed as its JPEG is: {images(out)} and {images(plain)}")
    check(said("qpdf", "--check", str(out)).returncode == 0, "qpdf finds fault with a packet made of HEIC")
    # A library that cannot be loaded stands for one that is not installed.
    (copy.root / "libheif.so.1").write_bytes(b"no library")
    without = run("check", copy.folder, env={**os.environ, "LD_LIBRARY_PATH": str(copy.root)})
    told = [m for m in messages(without.stdout) if m["code"] == "photo-broken"]
    check(without.returncode == 1 and len(told) == 1 and "libheif1" in told[0]["what"], without.stdout)
    whole = heic.read_bytes()
    for name, size in (("cut", len(whole) // 2), ("cut at its head", 60), ("empty", 0)):
        heic.write_bytes(whole[:size])
        told = messages(run("check", copy.folder).stdout)
        check([m["code"] for m in told] == ["photo-broken"], f"a HEIC that is {name}: {told}")
    heic.write_text("no photo at all\n")
    told = messages(run("report", copy.folder, "-o", copy.root / "n.pdf").stderr)
    check([m["code"] for m in told] == ["photo-broken"] and not (copy.root / "n.pdf").exists(), f"{told}")

# Files that are no photo of use are faults before any page is made, each in one line.
with Copy() as copy:
    photo = copy.folder / "photos/1-close.jpg"
    whole = photo.read_bytes()
    head = b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 13) + b"IHDR"
    bad = {
        "empty": (b"", "empty"),
        "cut short": (whole[: len(whole) // 2], "cut short"),
        "text": (b"Pier 3, close\n", "text"),
        "a TIFF": (b"II*\0\x08\0\0\0" + b"\0" * 40, "TIFF"),
        "a PDF": (b"%PDF-1.7\n", "PDF"),
        "too large": (head + struct.pack(">IIBBBBB", 12000, 9000, 8, 2, 0, 0, 0) + b"\0" * 20, "more than 100 million"),
        "torn": (whole[: len(whole) // 2] + b"\0" * 4000 + whole[len(whole) // 2 + 4000 :], "damaged"),
    }
    for name, (data, words) in bad.items():
        photo.write_bytes(data)
        done = run("report", copy.folder, "-o", copy.root / "bad.pdf")
        told = messages(done.stderr)
        check(done.returncode == 1 and [m["code"] for m in told] == ["photo-broken"] and words in told[0]["what"],
              f"{name}: {done.stderr}")
        check(not (copy.root / "bad.pdf").exists(), f"{name}: a paper is made all the same")

# A part of a photo, with signs on it.
with Copy() as copy:
    plain, out = copy.root / "plain.pdf", copy.root / "p.pdf"
    run("report", copy.folder, "-o", plain)
    copy.edit(FIRST, FIRST[:-1] + ", crop: [20, 10, 60, 80], marks: [{kind: arrow, at: [70, 80], to: [40, 30]}, "
                                  "{kind: circle, at: [30, 20], to: [38, 20]}]}")
    wrote = run("report", copy.folder, "-o", out)
    check(wrote.returncode == 0, wrote.stderr)
    alt = [a for a in alternative_texts(out) if a.startswith("Shelter tube on the east face of pier 3")]
    check(alt == ["Shelter tube on the east face of pier 3, with a broken piece. Drawn on the photo: an arrow that points "
                  "at the upper middle and a circle at the upper left."] or
          alt == ["Shelter tube on the east face of pier 3, with a broken piece. Drawn on the photo: an arrow that points "
                  "at the upper left and a circle at the upper left."], f"what the signs are is not said: {alt}")
    whole = {(w, h) for w, h, _ in images(plain)}
    cut = [(w, h) for w, h, _ in images(out) if (w, h) not in whole]
    check(len(cut) == 1, f"one photo is cut: {cut}")
    check(all(ppi >= 150 for _, _, ppi in images(out)), f"{images(out)}")
    case = copy.case.read_text()
    for bad in ("crop: [20, 10, 90, 80]", "crop: [20, 10, 60]", "marks: [{kind: arrow, at: [10, 80], to: [40, 30]}]", "marks: [{kind: star, at: [30, 80], to: [40, 30]}]"):
        key = bad.split(":")[0]
        text = case.replace("crop: [20, 10, 60, 80]", bad) if key == "crop" else case[:case.index("marks: [{kind: arrow")] + bad + case[case.index("}]}", case.index("marks: [{kind: arrow")) + 2:]
        copy.case.write_text(text)
        told = run("check", copy.folder)
        check(told.returncode == 1 and len(messages(told.stdout)) >= 1, f"{bad}: {told.stdout}")

# Papers that weigh too much: photos are stored smaller first, then it is told.
with Copy() as copy:
    looks = copy.root / "looks"
    looks.mkdir()
    template = (ROOT / "templates/packet.xml").read_text()
    limits = 'aim-kb="5000" warn-kb="7000" most-kb="10000"'
    assert limits in template
    names = sorted((copy.folder / "photos").iterdir())
    for i, name in enumerate(names):
        png_of_noise(name, 900, 600, i)

    def weighed(given, smaller=True):
        steps = template if smaller else re.sub(r'<step dpi="(?!220).*/>', "", template)
        (looks / "packet.xml").write_text(steps.replace(limits, given))
        done = run("report", copy.folder, "--templates", looks, "--replace", "-o", copy.root / "w.pdf")
        return done, messages(done.stderr)

    done, told = weighed('aim-kb="9000" warn-kb="9000" most-kb="10000"')
    check(done.returncode == 0 and told == [], done.stderr)
    free = (copy.root / "w.pdf").stat().st_size
    check(2e6 < free < 9e6, f"the noise weighs {free}")
    done, told = weighed('aim-kb="2000" warn-kb="9000" most-kb="10000"')
    small = (copy.root / "w.pdf").stat().st_size
    check(done.returncode == 0 and small < free * 0.8, f"photos are not stored smaller: {free} and {small}")
    check(all(ppi >= 150 for _, _, ppi in images(copy.root / "w.pdf")), f"{images(copy.root / 'w.pdf')}")
    done, told = weighed('aim-kb="1000" warn-kb="1000" most-kb="10000"', smaller=False)
    check(done.returncode == 0 and [m["code"] for m in told] == ["heavy-paper"], done.stderr)
    (copy.root / "w.pdf").unlink()
    done, told = weighed('aim-kb="1000" warn-kb="1000" most-kb="1000"', smaller=False)
    check(done.returncode == 1 and [m["code"] for m in told] == ["too-heavy-paper"], done.stderr)
    check(not (copy.root / "w.pdf").exists(), "a paper too heavy is written")
    done = run("check", copy.folder, "--templates", looks)
    check([m["code"] for m in messages(done.stdout)] == ["too-heavy-paper"], "`check` does not tell of the weight")
    # The page for screens carries the photos in letters, which take a third more.
    (looks / "packet.xml").write_text(template.replace(limits, f'aim-kb="{free // 1000 + 50}" warn-kb="{free // 1000 + 50}" most-kb="90000"'))
    done = run("report", copy.folder, "--templates", looks, "--format", "html", "-o", copy.root / "w.html")
    check(done.returncode == 0 and [m["code"] for m in messages(done.stderr)] == ["heavy-paper"], done.stderr)
    (looks / "paper.xml").write_text('<template kind="paper" based-on="paper"><file aim-kb="10" warn-kb="10" most-kb="10"/></template>')
    done = run("invoice", copy.folder, "--templates", looks, "-o", copy.root / "i.pdf")
    check(done.returncode == 1 and "too-heavy-paper" in [m["code"] for m in messages(done.stderr)], done.stderr)
    check(not (copy.root / "i.pdf").exists(), "an invoice too heavy is written")

# Nothing of where and when a photo was taken goes into the paper.
with Copy() as copy:
    secret = b"Exif\0\0MM\0*\0\0\0\x08" + struct.pack(">HHHI4s", 1, 0x0112, 3, 1, b"\0\6\0\0") + b"\0\0\0\0GPS 35.7796 N"
    photo = copy.folder / "photos/1-close.jpg"
    data = photo.read_bytes()
    photo.write_bytes(data[:2] + b"\xff\xe1" + struct.pack(">H", len(secret) + 2) + secret + data[2:])
    out = copy.root / "p.pdf"
    check(run("report", copy.folder, "-o", out).returncode == 0, "a photo with notes is refused")
    folder = copy.root / "images"
    folder.mkdir()
    said("pdfimages", "-all", str(out), str(folder / "i"))
    check(all(b"GPS" not in p.read_bytes() and b"Exif" not in p.read_bytes() for p in folder.iterdir()), "notes of a photo survive")
    check(any(h > w for w, h, _ in images(out)), "a lying photo is not turned upright")
finish()
