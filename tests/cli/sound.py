#!/usr/bin/env python3
"""Whether papers keep what they claim to be: PDF/A (ISO 19005-1 and -3, level A) and PDF/UA-1 (ISO 14289-1).

Every kind of paper of every example is read with programs of others: rapper, qpdf and poppler have to be there. What
is asked comes from the standards named beside it. A whole validator knows more; none is packaged in Debian."""
import concurrent.futures
import os
import re
import subprocess

from harness import Copy, check, finish, run
from pdf_objects import Pdf, Triples, TrueType, text_of

TODAY = "--today", "2026-06-20"
UNTREATED = ["quarry-row"]
TREATED = ["brick-row", "cedar-bend", "heron-lane", "mill-hollow", "pine-fold", "spring-row", "stilt-court"]
AFTER = "work-order", "agreement", "record", "invoice", "certificate"
# Types that a reader of the format knows. ISO 32000-1 14.8.4; of those PDF 1.4 (PDF Reference, 9.7.4) lacks these four.
STANDARD_1_4 = set("""Document Part Art Sect Div BlockQuote Caption TOC TOCI Index NonStruct Private P H H1 H2 H3 H4 H5 H6 L
  LI Lbl LBody Table TR TH TD Span Quote Note Reference BibEntry Code Figure Formula Form Link""".split())
STANDARD_1_7 = STANDARD_1_4 | {"THead", "TBody", "TFoot", "Annot"}
DC, XMP = "http://purl.org/dc/elements/1.1/", "http://ns.adobe.com/xap/1.0/"
PDFA, PDFUA = "http://www.aiim.org/pdfa/ns/id/", "http://www.aiim.org/pdfua/ns/id/"
EXTENSION, SCHEMA, PROPERTY = (f"http://www.aiim.org/pdfa/ns/{name}" for name in ("extension/", "schema#", "property#"))


def metadata(pdf, name, part):
    """ISO 19005-1 6.7 and 19005-3 6.6: RDF that says what the file is, its title as elsewhere, and a description of every
    property that XMP itself does not know. ISO 14289-1 clause 5: the part of PDF/UA."""
    try:
        triples = Triples(pdf.bytes_of(pdf.catalog["/Metadata"]))
    except subprocess.CalledProcessError as error:
        return check(False, f"{name}: its metadata is no RDF: {error.stderr.decode()}")
    of = lambda predicate: triples.of("<urn:paper>", predicate)
    check(of(PDFA + "part") == [part] and of(PDFA + "conformance") == ["A"], f"{name}: it does not say which PDF/A it is")
    # PDF/UA-1 builds on ISO 32000-1, which is PDF 1.7: a PDF/A-1 is PDF 1.4.
    check(of(PDFUA + "part") == (["1"] if part == "3" else []), f"{name}: PDF/UA is claimed by {of(PDFUA + 'part')}")
    title = [words for node in of(DC + "title") for words in triples.items(node)]
    info = pdf.follow(pdf.objects["trailer"]["value"]["/Info"])
    check(title == [text_of(info["/Title"])] and title[0] != "", f"{name}: titles differ: {title}, {info.get('/Title')}")
    check(of(XMP + "CreatorTool") == [text_of(info["/Creator"])], f"{name}: creators differ")
    described = {}
    for schema in [item for bag in of(EXTENSION + "schemas") for item in triples.items(bag)]:
        one = lambda key: triples.of(schema, SCHEMA + key)
        check(len(one("schema")) == 1 and len(one("prefix")) == 1, f"{name}: a schema without its name or prefix")
        properties = [item for listed in one("property") for item in triples.items(listed)]
        described[one("namespaceURI")[0]] = [[triples.of(item, PROPERTY + key) for key in ("name", "valueType", "category")]
                                            for item in properties]
        check(all(triples.of(item, PROPERTY + "description") for item in properties), f"{name}: a property without words")
    wanted = {PDFUA: [[["part"], ["Integer"], ["internal"]]]} if part == "3" else {}
    check(described == wanted, f"{name}: the schemas described are {described}")


def roles(pdf, name, standard):
    """ISO 19005-1 6.8.3.4 and 14289-1 7.1: every type of the tree is one that the version of the format has, or is mapped to
    one, and none that it has is mapped away."""
    mapped = pdf.follow(pdf.follow(pdf.catalog["/StructTreeRoot"]).get("/RoleMap", {}))
    used = {element["/S"][1:] for element in pdf.elements()}
    check(len(used) > 3, f"{name}: a tree of {used}")
    unknown = {role for role in used if role not in standard and mapped.get("/" + role, "/")[1:] not in standard}
    check(not unknown, f"{name}: types that the format does not have: {unknown}")
    check(not any(role[1:] in standard for role in mapped), f"{name}: a type of the format is mapped: {mapped}")


def fonts(pdf, name, with_sets):
    """ISO 19005-1 6.3.5: a subset of a CID font lists the characters that are in it, all of them and no other: those that its
    map leads to a glyph of the face. Every glyph of the face is reached, by a character or as a part of another glyph."""
    seen = 0
    for font in pdf.dictionaries():
        if font.get("/Subtype") != "/CIDFontType2":
            continue
        seen += 1
        described = pdf.follow(font["/FontDescriptor"])
        face = TrueType(pdf.bytes_of(described["/FontFile2"]))
        to_glyphs = pdf.bytes_of(font["/CIDToGIDMap"])
        glyphs = {i // 2: int.from_bytes(to_glyphs[i:i + 2], "big") for i in range(0, len(to_glyphs), 2)}
        check(all(glyph < face.count for glyph in glyphs.values()), f"{name}: a code of a glyph that is not there")
        reached = set(glyphs.values())
        while more := {part for glyph in reached for part in face.parts(glyph)} - reached:
            reached |= more
        check(reached | {0} == set(range(face.count)), f"{name}: a face with glyphs that nothing uses")
        check(("/CIDSet" in described) == with_sets, f"{name}: the list of characters of a face")
        if with_sets:
            bits = pdf.bytes_of(described["/CIDSet"])
            listed = {8 * i + bit for i, byte in enumerate(bits) for bit in range(8) if byte & 0x80 >> bit}
            check(listed == set(glyphs), f"{name}: {listed ^ set(glyphs)} are in the face or in its list, and not in both")
    check(seen > 1, f"{name}: {seen} faces")


def struct_text(path):
    """What poppler reads in the tree of meaning: (depth, an element or its attribute, or None; what is read, or None)."""
    done = subprocess.run(["pdfinfo", "-struct-text", str(path)], capture_output=True, text=True)
    for line in done.stdout.splitlines():
        words = line.lstrip(" ")
        read = re.fullmatch('"(.*)"', words)
        yield len(line) - len(words), (None if read else words), (read.group(1) if read else None)


def reading(path, name):
    """ISO 14289-1 7.2: what is read is in words as they stand on the page. pdftotext tells words by their places alone, so
    that two which are read as one are found in none of its own."""
    laid = subprocess.run(["pdftotext", "-raw", str(path), "-"], capture_output=True, text=True).stdout
    laid = laid.replace("\xad\n", "").replace("-\n", "-")  # broken at a soft hyphen, or at the hyphen of a compound
    words = {word for _, _, read in struct_text(path) if read for word in read.split()}
    check(len(words) > 10, f"{name}: only {words} are read")
    glued = {word for word in words if word not in laid and word != "•"}
    check(not glued, f"{name}: read as one word, and printed apart: {sorted(glued)}")


def lists(pdf, path, name):
    """ISO 32000-1 table 347: a list says what kind of labels it has, and they are of that kind. Table 336: LI has Lbl, LBody."""
    shapes = {"Decimal": r"\d+\.", "None": r"(?!\d+\.$)[^•]+"}
    numbering, in_label, element = [], None, 0
    for depth, tag, read in struct_text(path):
        numbering = [(d, n) for d, n in numbering if d < depth]
        if in_label is not None and depth <= in_label:
            in_label = None
        if tag and tag.startswith("/ListNumbering"):
            numbering.append((element, tag.split("/")[-1]))
        elif tag and not tag.startswith("/"):
            element = depth
            if tag.split()[0] == "Lbl":
                in_label = depth
        elif read and in_label is not None:
            kind = numbering[-1][1] if numbering else "nothing"
            shape = shapes.get(kind)
            check(read == "•" if kind == "Disc" else shape and re.fullmatch(shape, read.strip()),
                  f"{name}: the label {read!r} of a list of {kind}")
    for element in pdf.elements():
        if element["/S"] != "/L":
            continue
        kind = pdf.attributes(element).get("/ListNumbering")
        check(kind in ("/None", "/Disc", "/Decimal"), f"{name}: a list numbered by {kind}")
        for item in pdf.kids(element):
            parts = pdf.kids(item)
            check([part["/S"] for part in parts] in (["/Lbl", "/LBody"], ["/Lbl"]), f"{name}: an item of {parts}")
            check((parts[0].get("/ActualText") == "u:•") == (kind == "/Disc"), f"{name}: a dot where {kind} is said, or none")


def captions(pdf, name):
    """ISO 14289-1 7.3: a figure has words in its place, and its caption is a Caption. The caption is read before its figure and
    stands beside it, not within: what stands within is replaced by the figure's words (ISO 32000-1 14.9.3)."""
    for element in pdf.elements():
        kids = pdf.kids(element)
        below = [kid["/S"] for kid in kids if isinstance(kid, dict) and "/S" in kid]
        if element["/S"] == "/Figure":
            check(text_of(element.get("/Alt", "u:")).strip() and len(pdf.attributes(element).get("/BBox", [])) == 4,
                  f"{name}: a figure without words or place")
        if "/Caption" in below:
            check(element["/S"] == "/Div" and below == ["/Caption", "/Figure"], f"{name}: a caption in {element['/S']} of {below}")


def sound(path, name, part):
    pdf = Pdf(path)
    reading(path, name)
    lists(pdf, path, name)
    captions(pdf, name)
    metadata(pdf, name, part)
    roles(pdf, name, STANDARD_1_4 if part == "1" else STANDARD_1_7)
    fonts(pdf, name, part == "1")


def papers(copy, example):
    """Commands and the files they write: (words, [(file, name, part)])."""
    out = lambda *words: copy.root / ("-".join((example, *words)) + ".pdf")
    # One language of each flavor: what the two do to a paper has nothing to do with each other.
    for language, flavor, part in (("en", "3a", "3"), ("es", "1a", "1")):
        for paper in ("report", *(AFTER if example in TREATED else ())):
            made = [out(paper, language, flavor)] + ([out("notice", language, flavor)] if paper == "record" else [])
            more = ["--notice", made[1]] if paper == "record" else []
            yield ([paper, copy.root / example, "--lang", language, "--pdfa", flavor, "-o", made[0], *more],
                   [(file, part) for file in made])
    if example in ("heron-lane", "quarry-row"):
        whole = out("apart")
        parts = [whole] + ([out("apart", "estimate")] if example in TREATED else [])
        yield ["report", copy.root / example, "--apart", "-o", whole], [(file, "3") for file in parts]
        yield ["draw", copy.root / example, "-o", out("draw")], [(out("draw"), "3")]
        yield ["report", copy.root / example, "--draft", "-o", out("draft")], [(out("draft"), "3")]
    if example == "heron-lane":
        yield ["estimate", copy.root / example, "-o", out("estimate")], [(out("estimate"), "3")]
        yield (["renew", copy.root, "--from", "2026-01-01", "--to", "2028-12-31", "--letters", out("letters")],
               [(out("letters"), "3")])


with Copy() as copy:
    def make(work):
        done = run(*TODAY, *work[0])
        return done, work

    works = [work for example in UNTREATED + TREATED for work in papers(copy, example)]
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        for done, (words, made) in pool.map(make, works):
            check(done.returncode == 0, f"{words}: {done.stderr}")
            for file, part in made:
                check(file.exists(), f"{words} wrote no {file.name}")
                if file.exists():
                    sound(file, file.stem, part)
finish()
