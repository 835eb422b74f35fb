"""The objects of a PDF as qpdf reads them, its metadata as raptor's rapper does: neither knows anything of our code."""
import base64
import json
import re
import struct
import subprocess


class Pdf:
    def __init__(self, path):
        done = subprocess.run(["qpdf", "--json=2", "--json-key=qpdf", "--json-stream-data=inline",
                               "--decode-level=generalized", str(path)], capture_output=True, text=True, check=True)
        self.objects = json.loads(done.stdout)["qpdf"][1]
        self.catalog = self.follow(self.objects["trailer"]["value"]["/Root"])

    def follow(self, value):
        """The value behind a reference; a value that is none, as it is. Of a stream, its dictionary."""
        if isinstance(value, str) and re.fullmatch(r"\d+ \d+ R", value):
            found = self.objects["obj:" + value]
            return found["value"] if "value" in found else found["stream"]["dict"]
        return value

    def bytes_of(self, reference):
        return base64.b64decode(self.objects["obj:" + reference]["stream"]["data"])

    def dictionaries(self):
        """Every object of the table that is a dictionary."""
        for key in self.objects:
            if key.startswith("obj:"):
                value = self.follow(key[4:])
                if isinstance(value, dict):
                    yield value

    def kids(self, element):
        """What hangs below an element of the tree of meaning, in order: elements, numbers of pieces, references."""
        below = self.follow(element.get("/K", []))
        return [self.follow(kid) for kid in (below if isinstance(below, list) else [below])]

    def elements(self, element=None):
        """The elements of the tree of meaning in the order of reading, each before what is within it."""
        if element is None:
            element = self.catalog["/StructTreeRoot"]
        element = self.follow(element)
        if "/S" in element:
            yield element
        for kid in self.kids(element):
            if isinstance(kid, dict) and ("/S" in kid):
                yield from self.elements(kid)

    def attributes(self, element):
        return self.follow(element.get("/A", {}))


def text_of(value):
    """A text string as qpdf's JSON has it ("u:..."), as a name ("/...") or as bytes."""
    return value[2:] if value.startswith("u:") else value


class Triples:
    """The statements of an XMP packet. Raises CalledProcessError when the packet is not RDF/XML."""

    def __init__(self, packet):
        done = subprocess.run(["rapper", "-q", "-f", "scanForRDF", "-i", "rdfxml", "-o", "ntriples", "-I", "urn:paper", "-"],
                              input=packet, capture_output=True, check=True)
        self.all = []
        for line in done.stdout.decode().splitlines():
            subject, predicate, thing = re.fullmatch(r"(\S+) <(\S+)> (.*) \.", line).groups()
            literal = re.fullmatch(r'"(.*)"(?:@\S+|\^\^\S+)?', thing)
            self.all.append((subject, predicate, json.loads(f'"{literal.group(1)}"') if literal else thing))

    def of(self, subject, predicate):
        return [thing for s, p, thing in self.all if (s, p) == (subject, predicate)]

    def items(self, node):
        """The members of a list, whatever its kind."""
        member = "http://www.w3.org/1999/02/22-rdf-syntax-ns#_"
        return [thing for s, p, thing in self.all if s == node and p.startswith(member)]


class TrueType:
    """As much of an embedded face as says which glyphs it has (OpenType specification: maxp, head, loca, glyf)."""

    def __init__(self, data):
        self.tables = {}
        for i in range(struct.unpack_from(">H", data, 4)[0]):
            tag, _, start, length = struct.unpack_from(">4sIII", data, 12 + 16 * i)
            self.tables[tag.decode()] = data[start:start + length]
        self.count = struct.unpack_from(">H", self.tables["maxp"], 4)[0]

    def outline(self, glyph):
        long = struct.unpack_from(">h", self.tables["head"], 50)[0]
        size, scale = (4, 1) if long else (2, 2)
        ends = struct.unpack_from(">2I" if long else ">2H", self.tables["loca"], glyph * size)
        return self.tables["glyf"][ends[0] * scale:ends[1] * scale]

    def parts(self, glyph):
        """The glyphs that a composed one is made of."""
        data, found = self.outline(glyph), set()
        if len(data) < 10 or struct.unpack_from(">h", data)[0] >= 0:
            return found
        at, more = 10, True
        while more:
            flags, part = struct.unpack_from(">HH", data, at)
            found.add(part)
            at += 4 + (4 if flags & 1 else 2) + (2 if flags & 8 else 4 if flags & 0x40 else 8 if flags & 0x80 else 0)
            more = flags & 0x20
        return found
