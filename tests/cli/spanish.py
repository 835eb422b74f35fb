#!/usr/bin/env python3
"""Every example in Spanish: whole sentences, the same facts and figures, and English says on paper that it counts."""
import json
import re
import subprocess

import yaml
from harness import ROOT, Copy, check, finish, messages, run


def said(*words):
    return subprocess.run(words, capture_output=True, text=True)


def text(pdf):
    return " ".join(said("pdftotext", str(pdf), "-").stdout.split())


def words(language):
    return yaml.load((ROOT / f"templates/words.{language}.yaml").read_text(), yaml.BaseLoader)


english, spanish = words("en"), words("es")
same = set(spanish.pop("same as English"))
check("not yet read by a native speaker of the trade" in (ROOT / "templates/words.es.yaml").read_text()[:400], "the head does not say who has not read it")
check(english.keys() == spanish.keys(), f"other keys: {english.keys() ^ spanish.keys()}")
check(english["names"].keys() == spanish["names"].keys(), f"other phrases: {english['names'].keys() ^ spanish['names'].keys()}")


def forms(sentence):
    return [sentence["one"], sentence["other"]] if isinstance(sentence, dict) else [sentence]


def names(sentence):
    return set(re.findall(r"{(\w+)}", "".join(forms(sentence))))


for group, other in ((english, spanish), (english["names"], spanish["names"])):
    for key in group:
        if key == "names":
            continue
        check((forms(group[key])[-1] == forms(other[key])[-1]) == (key in same), f"{key}: {group[key]!r} and {other[key]!r}")
        check(names(group[key]) == names(other[key]), f"{key}: other names in braces")
# A sentence is no longer than an English one may be, and a quarter.
for key, sentence in spanish.items():
    if key.startswith("cancel_"):  # what 16 CFR 429.1 prescribes, in the language of the sale
        continue
    for form in forms(sentence) if key != "names" else []:
        for part in re.split(r"[.:;]", form):
            check(len(part.split()) <= 31, f"{key} is too long: {part}")

# Fixed sentences that stand in every English paper and would be noticed in a Spanish one.
fixed = [s for k, s in english.items() if isinstance(s, str) and "{" not in s and len(s.split()) >= 4 and k not in same | {"english_counts"}]
check(len(fixed) > 60, "too few fixed sentences to look for")
figures = re.compile(r"\$[\d,]+\.\d\d")
for example in sorted(p.parent.name for p in (ROOT / "examples").glob("*/case.yaml")):
    with Copy(example) as copy:
        wrote = run("report", copy.folder, "--lang", "es")
        check(wrote.returncode == 0 and messages(wrote.stderr) == [], f"{example}: {wrote.stderr}")
        paper = copy.folder / "packet-es.pdf"
        check(paper.exists(), "a Spanish packet has no name of its own")
        run("invoice", copy.folder, "--lang", "es", "--draft")
        check((copy.folder / "invoice-es-draft.pdf").exists(), f"{example}: a draft in Spanish has no name of its own")
        run("report", copy.folder)
        first, second = text(paper), text(copy.folder / "packet.pdf")
        check(said("qpdf", "--check", str(paper)).returncode == 0, f"{example}: qpdf finds fault")
        check(english["english_counts"] in first and spanish["english_counts"] in first, f"{example}: which text counts is not said in both languages")
        check(english["english_counts"] not in second, f"{example}: the English paper speaks of a copy")
        check(sorted(figures.findall(first)) == sorted(figures.findall(second)), f"{example}: other amounts than in English")
        left = [s for s in fixed if s in first]
        check(left == [], f"{example}: English sentences in the Spanish paper: {left}")
        used = [s for s in fixed if s in second]
        check(len(used) >= 12, f"{example}: hardly a sentence of the words file is in the English paper")
        objects = json.loads(said("qpdf", "--json=2", "--json-key=qpdf", str(paper)).stdout)["qpdf"][1]
        catalog = objects["obj:" + objects["trailer"]["value"]["/Root"]]["value"]
        check(catalog["/Lang"] == "u:es-US", f"{example}: {catalog['/Lang']}")
        spans = [o for o in objects.values() if isinstance(o.get("value"), dict) and o["value"].get("/Lang") == "u:en-US"]
        check(len(spans) >= 3, f"{example}: what people wrote in English is not marked as English")
        estimate = copy.root / "e.pdf"
        run("estimate", copy.folder, "--lang", "es", "-o", estimate)
        check(spanish["estimate_title"] in text(estimate) and spanish["english_counts"] in text(estimate), f"{example}: the estimate alone")

with Copy() as copy:
    check(run("report", copy.folder, "--lang", "xx").returncode == 2, "a language without words is taken")
    check(run("estimate", copy.folder, "--lang", "es").returncode == 2, "a list for terminals takes a language and leaves it")
    check(run("report", copy.folder, "--lang", "../es").returncode == 2, "a path is taken for a language")
    looks = copy.root / "looks"
    looks.mkdir()
    whole = (ROOT / "templates/words.es.yaml").read_text()

    def refused(old, new, what):
        assert whole.count(old) == 1, old
        (looks / "words.es.yaml").write_text(whole.replace(old, new))
        told = run("report", copy.folder, "--lang", "es", "--templates", looks)
        check(told.returncode == 2 and [m["code"] for m in messages(told.stderr)] == ["bad-words"] and what in told.stderr, told.stderr)

    refused('cards_heading: "Lo que encontramos"\n', "", "no sentence `cards_heading`")
    refused('cards_heading: "Lo que encontramos"', 'cards_heading: "What we found"', "stands here in English")
    refused('  "damp wood": madera húmeda\n', "", "no phrase `damp wood`")
    refused("[seen_no, ", "[seen_no, seen_yes, ", "is not the same as in English")
    # A word of the data that nobody has translated is told, and the paper is made all the same.
    forms_folder = copy.root / "rules"
    forms_folder.mkdir()
    for name in ("trade", "us-general", "us-nc"):
        (forms_folder / f"{name}.yaml").write_text((ROOT / f"forms/{name}.yaml").read_text().replace("title: Inspection findings and treatment estimate", "title: Findings and estimate"))
    told = run("report", copy.folder, "--lang", "es", "--forms", forms_folder)
    check(told.returncode == 0 and [m["code"] for m in messages(told.stderr)] == ["untranslated"], told.stderr)
finish()
