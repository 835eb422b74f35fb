#!/usr/bin/env python3
"""The data inside a packet, and the schemas: read back and judged by programs that know nothing of ours."""
import datetime
import json
import re
import subprocess

import jsonschema
import yaml
from harness import ROOT, Copy, check, finish, messages, run


def said(*words):
    return subprocess.run(words, capture_output=True)


class Core(yaml.SafeLoader):
    """YAML 1.2 as editors read it: only true and false are booleans, days and times stay text."""


Core.yaml_implicit_resolvers = {}
for tag, pattern, first in (("bool", r"^(?:true|True|TRUE|false|False|FALSE)$", "tTfF"), ("int", r"^[-+]?[0-9]+$", "-+0123456789"),
                            ("float", r"^[-+]?(?:\.[0-9]+|[0-9]+\.[0-9]*)$", "-+.0123456789"), ("null", r"^(?:~|null|)$", "~n")):
    Core.add_implicit_resolver("tag:yaml.org,2002:" + tag, re.compile(pattern), list(first))


def schema(of):
    made = json.loads(run("schema", "--of", of).stdout)
    jsonschema.Draft202012Validator.check_schema(made)
    return jsonschema.Draft202012Validator(made, format_checker=jsonschema.FormatChecker())


def faults(validator, value):
    return [f"{'/'.join(map(str, e.absolute_path))}: {e.message}"[:300] for e in validator.iter_errors(value)]


case_schema, packet_schema = schema("case"), schema("packet")
for of in ("case", "packet"):
    published = (ROOT / f"examples/{of}.schema.json").read_text()
    check(published == run("schema", "--of", of).stdout, f"examples/{of}.schema.json is not what `schema --of {of}` prints")
check(json.loads(run("schema").stdout)["$schema"] == "https://json-schema.org/draft/2020-12/schema", "not the draft that is promised")


def taken_out(pdf, scratch):
    """The data as two programs take it out."""
    first = scratch / "packet.json"
    said("pdfdetach", "-savefile", "packet.json", "-o", str(first), str(pdf))
    second = said("qpdf", "--show-attachment=packet.json", str(pdf)).stdout
    check(first.read_bytes() == second, "two readers take out different bytes")
    return json.loads(second)


def leaves(value, path=""):
    if isinstance(value, dict):
        for key, one in value.items():
            yield from leaves(one, f"{path}/{key}")
    elif isinstance(value, list):
        for one in value:
            yield from leaves(one, path)
    else:
        yield path, value


MONTHS = "January February March April May June July August September October November December".split()
# Names of the data and choices, which the paper says in phrases; how a paper is made.
WORDS = ("/language", "/purpose", "/loan", "/kind", "/organism", "/condition", "/state", "/seen", "/work", "/unit", "/by", "/for")


def printed_as(path, value):
    if isinstance(value, bool) or (isinstance(value, int) and not path.endswith("_cents")):
        return None
    if path.endswith("_cents"):
        return f"${abs(value) / 100:,.2f}"
    if re.fullmatch(r"\d{4}-\d\d-\d\d", value):
        day = datetime.date.fromisoformat(value)
        return f"{MONTHS[day.month - 1]} {day.day}, {day.year}"
    if path.endswith("/visits/from") or path.endswith("/visits/to"):
        hour, minute = value.split(":")
        return f"{(int(hour) + 11) % 12 + 1}:{minute} {'am' if int(hour) < 12 else 'pm'}"
    if path.endswith("/options/lines/state") or any(path.endswith(w) for w in WORDS) and not path.startswith("/address"):
        return None
    return value


def squeezed(text):
    return re.sub(r"\s+", "", text).lower()


def body(pdf):
    """The words of the pages without running heads and feet, so that a text may go on over a page."""
    text = said("pdftotext", "-y", "60", "-H", "675", "-x", "0", "-W", "612", str(pdf), "-").stdout.decode()
    whole = said("pdftotext", str(pdf), "-").stdout.decode()
    return squeezed(text) + squeezed(whole)


examples = sorted(p.parent for p in (ROOT / "examples").glob("*/case.yaml"))
check(len(examples) >= 8, "too few examples")
for example in examples:
    case = yaml.load((example / "case.yaml").read_text(), Core)
    check(faults(case_schema, case) == [], f"{example.name}: {faults(case_schema, case)}")
    with Copy(example.name) as copy:
        for words in ([], ["--apart"]):
            out = copy.root / "p.pdf"
            wrote = run("report", copy.folder, "-o", out, "--replace", *words)
            check(wrote.returncode == 0, wrote.stderr)
            for pdf in sorted(copy.root.glob("p*.pdf")):
                data = taken_out(pdf, copy.root)
                check(faults(packet_schema, data) == [], f"{example.name} {pdf.name}: {faults(packet_schema, data)}")
                text = body(pdf)
                for path, value in leaves(data):
                    shown = printed_as(path, value)
                    # Figures with a thousand and more may have a comma, and no needless zero.
                    ways = [shown, re.sub(r"\.0$", "", str(shown))]
                    ways += [re.sub(r"(?<=\d)(?=(\d{3})+(\.|$))", ",", w) for w in ways if path.endswith("/measure")]
                    check(shown is None or any(squeezed(str(w)) in text for w in ways), f"{example.name} {pdf.name}: {path} {value!r} is not printed there")
                if pdf.name == "p.pdf" and words:
                    check("options" not in data and "$" not in json.dumps(data), "findings alone tell a price")
                if pdf.name == "p-estimate.pdf":
                    check("findings" not in data and "structures" not in data, "the estimate alone tells the findings")

# A case with something private in every place that is not printed.
PRIVATE = {
    "  inspector: {name: Ana Marlow}": "  inspector: {name: Ana Marlow, phone: 555-PRIV1, email: priv2@example.com, address: PRIV3 Lane}",
    "  buyer: {name: Jo Abernethy-Łódź}": "  buyer: {name: Jo Abernethy-Łódź, phone: 555-PRIV4, email: priv5@example.com, address: PRIV6 Lane}",
    "  lender: {name: Example Lending}": "  lender: {name: Example Lending, phone: 555-PRIV7, email: priv8@example.com}\n  payer: {name: PRIV9 Payer}",
    "city: Wrenfield, state": "city: Wrenfield, county: PRIV10, state",
    "  - {id: first, date: 2026-03-05": "  - {id: priv11, date: 2026-03-05",
    "  - {id: scraps, answers: [3]": "  - {id: priv13, answers: [3]",
    "done: [scraps": "done: [priv13",
    "      kind: single-family": "      kind: priv14",
    "photos/1-close.jpg": "photos/priv15.jpg",
}
with Copy() as copy:
    (copy.folder / "photos/1-close.jpg").rename(copy.folder / "photos/priv15.jpg")
    for old, new in PRIVATE.items():
        copy.edit(old, new)
    out = copy.root / "p.pdf"
    wrote = run("report", copy.folder, "-o", out)
    check(wrote.returncode == 0, wrote.stderr)
    data = taken_out(out, copy.root)
    told = json.dumps(data, ensure_ascii=False).lower()
    check("priv" not in told, f"private: {re.findall('.{20}priv.{10}', told)}")
    for word in ("555-", "@", str(copy.root).lower(), ".jpg", "margin", "cost", "overhead"):
        check(word not in told, f"the data tells {word}")
    listed = said("pdfdetach", "-list", str(out)).stdout.decode()
    check(re.search(r"^1: packet\.json$", listed, re.M), listed)
    objects = json.loads(said("qpdf", "--json=2", "--json-key=qpdf", str(out)).stdout)["qpdf"][1]
    root = objects["trailer"]["value"]["/Root"]
    catalog = objects["obj:" + root]["value"]
    specification = objects["obj:" + catalog["/AF"][0]]["value"]
    check(specification["/AFRelationship"] == "/Source" and specification["/UF"] == "u:packet.json", f"{specification}")
    stream = objects["obj:" + specification["/EF"]["/F"]]["stream"]["dict"]
    check(stream["/Subtype"] == "/application/json", f"{stream}")
    # --bare and PDF/A-1 carry nothing.
    for words in (["--bare"], ["--pdfa", "1a"]):
        run("report", copy.folder, "-o", out, "--replace", *words)
        check(said("pdfdetach", "-list", str(out)).stdout.strip() == b"0 embedded files", f"{words}: a file is inside")
    # A draft tells that it is one.
    copy.edit("signed: {name: Ana Marlow, on: 2026-03-05}\n", "")
    run("report", copy.folder, "--draft", "-o", copy.root / "d.pdf")
    check(taken_out(copy.root / "d.pdf", copy.root)["draft"] is True, "the data of a draft does not say so")

# Of the many cases on which the rules are tried, the schema refuses none that the reader takes.
reading = {code.rstrip("_").replace("_", "-") for code in re.findall(r"^RULE\((\w+), reading,", (ROOT / "src/diagnostics/catalogue.def").read_text(), re.M)}
BASE = (ROOT / "tests/rules/base.yaml").read_text()


def rule_cases():
    for path in sorted((ROOT / "tests/rules").glob("*.txt")):
        for part in re.split(r"^CASE ", path.read_text(), flags=re.M)[1:]:
            text, edits = BASE, part.split("\nSAYS")[0]
            if re.search(r"^IN (?!base)", edits, re.M):
                continue
            for change in re.findall(r"((?:^- .*\n)+)((?:^\+ .*(?:\n|$))*)", edits + "\n", re.M):
                old, new = ("\n".join(line[2:] for line in side.splitlines()) for side in change)
                assert text.count(old) == 1, (path.name, old)
                text = text.replace(old, new)
            yield path.name, text


tried = 0
with Copy() as copy:
    copy.company.write_text((ROOT / "tests/rules/company.yaml").read_text())
    for name, text in rule_cases():
        copy.case.write_text(text)
        told = {f["rule"] for f in json.loads(run("check", copy.folder, "--format", "json").stdout)["faults"]}
        if told & reading:
            continue
        tried += 1
        refused = faults(case_schema, yaml.load(text, Core))
        check(refused == [], f"{name}: the schema refuses what the reader takes: {refused}")
check(tried > 100, f"only {tried} cases were tried")

# Broken cases are refused by both: schema and reader.
BROKEN = [
    ("  number: \"2026-0417\"\n", ""),
    ("  purpose: sale", "  purpose: gift"),
    ("  closing: 2026-03-31", "  closing: March 31"),
    ("organism: subterranean termites\n    state: active", "organsim: subterranean termites\n    state: active"),
    ("          crawl height: 26\"", "          crawl height: about two feet"),
    ("{at: joist under the tub, percent: 24}", "{at: joist under the tub, percent: 240}"),
    ("zip: \"27000\"", "zip: 27000"),
    ("count: [4, 1]", "count: [4]"),
    ("        cistern: none", "        cistern: no"),
    ("    at: pier 3\n", "    at: piller 3\n"),
    ("E 40', S 16'", "EE 40', S 16'"),
    ("from: \"9:10\"", "from: early"),
    ("format: 1\n", "format: 2\n"),
]
for old, new in BROKEN:
    with Copy() as copy:
        copy.edit(old, new)
        value = yaml.load(copy.case.read_text(), Core)
        check(faults(case_schema, value) != [], f"the schema takes {new!r}")
        check(run("check", copy.folder).returncode == 1, f"the reader takes {new!r}")
finish()
