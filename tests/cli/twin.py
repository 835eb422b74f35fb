#!/usr/bin/env python3
"""The packet as PDF and as HTML, read by programs that know nothing of ours: poppler and Python's reader of HTML. Both
say the same words in the same order. Also: drawings alone, pictures of pages, and what is refused."""
import html.parser
import os
import pathlib
import re
import stat
import subprocess

from harness import ROOT, Copy, check, finish, run

SILENT = re.compile(r"[\s\u00ad]")


class Reader(html.parser.HTMLParser):
    """Pieces of text in <main>, as a screen reader would get them; the drawings apart, for a plan has no order."""

    VOID = {"meta", "img", "rect", "path", "br", "link"}

    def __init__(self):
        super().__init__()
        self.stack, self.pieces, self.heads, self.alts = [], [], [], []

    def handle_starttag(self, tag, attrs):
        attrs = dict(attrs)
        if tag == "img":
            self.alts.append(attrs.get("alt", ""))
        if tag not in self.VOID:
            self.stack.append((tag, attrs))

    def handle_startendtag(self, tag, attrs):
        if tag == "img":
            self.handle_starttag(tag, attrs)

    def handle_endtag(self, tag):
        while self.stack and self.stack.pop()[0] != tag:
            pass

    def handle_data(self, data):
        tags = [t for t, _ in self.stack]
        if "main" not in tags or any(a.get("aria-hidden") for _, a in self.stack) or {"svg", "caption"} & set(tags):
            return
        if data.strip():
            self.pieces.append(data)
            if tags[-1] == "th" and self.stack[-1][1].get("scope") == "col":
                self.heads.append(data)


def spoken(pdf):
    """The text of the tag tree in its order, and the heads of columns."""
    out = subprocess.run(["pdfinfo", "-struct-text", str(pdf)], capture_output=True, text=True).stdout
    words, heads, indent_of_head = [], [], None
    for line in out.splitlines():
        indent = len(line) - len(line.lstrip())
        text = line.strip()
        if text.startswith('"') and text.endswith('"'):
            words.append(text[1:-1])
            if indent_of_head is not None and indent > indent_of_head:
                heads[-1] += text[1:-1]
        elif not text.startswith("/"):
            indent_of_head = indent if text.startswith("TH") else None
            if indent_of_head is not None:
                heads.append("")
    return words, heads


examples = sorted(p.parent.name for p in ROOT.glob("examples/*/case.yaml"))
check(len(examples) >= 8, "the examples are gone")
for name in examples:
    with Copy(name) as copy:
        pdf, page = copy.root / "p.pdf", copy.root / "p.html"
        check(run("report", copy.folder, "-o", pdf).returncode == 0, f"{name}: no PDF")
        check(run("report", copy.folder, "--format", "html", "-o", page).returncode == 0, f"{name}: no HTML")
        reader = Reader()
        text = page.read_text()
        reader.feed(text)
        words, heads = spoken(pdf)
        said = SILENT.sub("", "".join(words))
        at = 0
        for piece in reader.pieces:
            wanted = SILENT.sub("", piece)
            found = said.find(wanted, at)
            check(found >= 0, f"{name}: the PDF does not say in its order: {piece}")
            at = found + len(wanted) if found >= 0 else at
        check(len(reader.pieces) > 40, f"{name}: only {len(reader.pieces)} pieces")
        columns = [SILENT.sub("", h) for h in heads]
        position = 0
        for head in reader.heads:
            try:
                position = columns.index(SILENT.sub("", head), position) + 1
            except ValueError:
                check(False, f"{name}: the PDF has no head of a column {head} in this order")
        check(all(reader.alts), f"{name}: a photo without words")
        check("<script" not in text and "http://" not in text.replace("http://www.w3.org/2000/svg", ""), f"{name}: it fetches")
        again = run("report", copy.folder, "--format", "html", "-o", "-", encoding="utf-8")
        check(again.stdout == text, f"{name}: not the same bytes again")
        plan = copy.root / "plan.svg"
        check(run("draw", copy.folder, "-o", plan).returncode == 0, f"{name}: no drawing")
        drawn = plan.read_text()
        check("<text" in drawn and "<title" in drawn and "<desc" in drawn, f"{name}: the drawing has no words")

with Copy("heron-lane") as copy:
    # The drawing as PDF is as sound as the packet.
    plan = copy.root / "plan.pdf"
    check(run("draw", copy.folder, "-o", plan).returncode == 0, "no drawing as PDF")
    check(subprocess.run(["qpdf", "--check", str(plan)], capture_output=True).returncode == 0, "qpdf: the drawing is broken")
    # What stands there stays unless it is ours.
    mine = copy.root / "mine.html"
    mine.write_text("<p>mine</p>")
    kept = run("report", copy.folder, "--format", "html", "-o", mine, "--replace")
    check(kept.returncode == 2 and mine.read_text() == "<p>mine</p>", "a stranger's file was written over")
    before = copy.case.read_text()
    case = run("draw", copy.folder, "-o", copy.case, "--format", "svg", "--replace")
    check(case.returncode == 2 and copy.case.read_text() == before, "the case was written over")
    page = copy.root / "p.html"
    run("report", copy.folder, "--format", "html", "-o", page)
    check(run("report", copy.folder, "--format", "html", "-o", page).returncode == 0, "its own revision may be written again")
    copy.edit("number: \"2026-0417\"", "number: \"2026-0418\"")
    check(run("report", copy.folder, "--format", "html", "-o", page).returncode == 2, "another case's paper gave way")
    check(run("report", copy.folder, "--format", "html", "--replace", "-o", page).returncode == 0, "--replace was of no use")
    copy.edit("number: \"2026-0418\"", "number: \"2026-0417\"")

    # What only quotes a paper of ours, or carries one, is somebody's own, --replace or not.
    whole = copy.root / "whole.pdf"
    check(run("report", copy.folder, "-o", whole).returncode == 0, "no packet")
    for name, kept in (("mail.eml", b"From: a buyer\n\n" + whole.read_bytes()),
                       ("page.saved", b"<html><!-- " + page.read_bytes() + b" --></html>"),
                       ("other.pdf", b"%PDF-1.6\n" + whole.read_bytes()[9:])):
        (copy.root / name).write_bytes(kept)
        done = run("report", copy.folder, "--replace", "-o", copy.root / name)
        check(done.returncode == 2 and "is no paper of soundsill" in done.stderr, f"{name}: {done.stderr}")
        check((copy.root / name).read_bytes() == kept, f"{name} was written over")

    # Pictures of the pages: whole or nothing.
    pictures = copy.root / "views"
    made = run("report", copy.folder, "--png", pictures)
    names = sorted(p.name for p in pictures.iterdir()) if pictures.exists() else []
    check(made.returncode == 0 and len(names) > 5 and all(n.startswith("page-") and n.endswith(".png") for n in names), f"pictures: {names} {made.stderr}")
    check(all((pictures / n).read_bytes().startswith(b"\x89PNG") for n in names), "a picture is none")
    check(not (copy.folder / "packet.pdf").exists(), "a packet was written that nobody asked for")
    check(run("report", copy.folder, "--png", pictures).returncode == 0, "pictures cannot be made anew")
    check(sorted(p.name for p in pictures.iterdir()) == names, "other pictures than before")
    for own in ("letter.txt", "front-1.png", "house-page-1.png", "page-.png"):
        (pictures / own).write_text("keep")
        refused = run("report", copy.folder, "--png", pictures)
        check(refused.returncode == 2 and own in refused.stderr and (pictures / own).exists(), f"a foreign file: {refused.stderr}")
        (pictures / own).unlink()
    kernel = pathlib.Path("/proc/sys/kernel/random/boot_id").read_text().replace("-", "")[:12]
    left = copy.root / f".views.tmp-{kernel}-0123456789abcdef"
    left.mkdir()
    (left / "page-01.png").write_text("half")
    check(run("report", copy.folder, "--png", pictures).returncode == 0 and not left.exists(), "the leftovers of a killed run stay")
    missing = run("report", copy.folder, "--png", copy.root / "none", env={**os.environ, "PATH": "/nonexistent"})
    check(missing.returncode == 2 and "poppler-utils" in missing.stderr, f"without pdftoppm: {missing.stderr}")
    broken = copy.root / "bin"
    broken.mkdir()
    (broken / "pdftoppm").write_text("#!/bin/sh\necho half > \"$5-01.png\"\nexit 3\n")
    (broken / "pdftoppm").chmod(stat.S_IRWXU)
    failed = run("report", copy.folder, "--png", copy.root / "none", env={**os.environ, "PATH": f"{broken}:{os.environ['PATH']}"})
    check(failed.returncode == 2 and not (copy.root / "none").exists(), f"half of the pictures: {failed.stderr}")
    (broken / "pdftoppm").write_text("#!/bin/sh\nexit 0\n")
    failed = run("report", copy.folder, "--png", copy.root / "none", env={**os.environ, "PATH": f"{broken}:{os.environ['PATH']}"})
    check(failed.returncode == 2 and "made no picture" in failed.stderr and not (copy.root / "none").exists(), f"no pictures: {failed.stderr}")
    check(not [p for p in copy.root.iterdir() if ".tmp-" in p.name or ".old-" in p.name], "something is left over")

    # The gate is the same for every format.
    copy.edit("signed: {name: Ana Marlow, on: 2026-03-05}\n", "")
    for words in (["--format", "html", "-o", copy.root / "x.html"], ["--png", copy.root / "x"]):
        done = run("report", copy.folder, *words)
        check(done.returncode == 1 and not pathlib.Path(words[-1]).exists(), f"a fault did not keep back {words}")
    done = run("draw", copy.folder, "-o", copy.root / "x.svg")
    check(done.returncode == 1 and not (copy.root / "x.svg").exists(), "a fault did not keep back the drawing")
    for words in (["report", copy.folder, "--format", "html", "--draft", "-o", copy.root / "d.html"],
                  ["draw", copy.folder, "--draft", "-o", copy.root / "d.svg"]):
        done = run(*words)
        check(done.returncode == 1 and "DRAFT" in pathlib.Path(words[-1]).read_text(), f"a draft that does not say so: {words}")

    # A template's fault has its place, that of a font too.
    looks = copy.root / "looks"
    looks.mkdir()
    xml = (ROOT / "templates/packet.xml").read_text()
    for old, new, what in (('file="Lato-Bold"', 'file="Lato-Bald"', "Lato-Bald"), ('size="letter"', 'size="lettre"', "lettre")):
        (looks / "packet.xml").write_text(xml.replace(old, new))
        done = run("--templates", looks, "check", copy.folder)
        check(done.returncode == 2 and re.search(rf"packet\.xml:\d+:\d+: error: .*{what}", done.stderr), f"{what}: {done.stderr}")
    # Another company's look needs no other program.
    other = run("--templates", ROOT / "tests/data/a4-two-columns", "report", copy.folder, "--draft", "-o", copy.root / "a4.pdf")
    size = subprocess.run(["pdfinfo", str(copy.root / "a4.pdf")], capture_output=True, text=True).stdout
    check("(A4)" in size, f"no A4: {other.stderr} {size}")
finish()
