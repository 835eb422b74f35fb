#!/usr/bin/env python3
"""Takes one needed thing away from a clean example: exit status 1, one message that names it, and no packet."""
from harness import Copy, check, finish, messages, run

# what is taken away, how, the code, and words that the message must hold
COMPANY = "company.yaml"
TAKEN = [
    ("the only answer of a finding", "answers: [3], do: remove wood scraps", "preventive: yes, do: remove wood scraps", "unanswered", "answers finding 3"),
    ("the only answer of damage", "  - {id: sill, answers: [5], do: repair wood, in: house, by: contractor, asked of: seller}\n", "", "unanswered", "answers finding 5"),
    ("the reason of an area", 'region: [], because: the pull-down stair was blocked by stored goods}', "region: []}", "no-reason", "`attic` was not seen"),
    ("the reason of a structure", "      because: it was not part of the order\n", "", "no-reason", "`detached garage` was not inspected"),
    ("a danger's answer", "        plenum: none\n", "", "danger-unsaid", "`plenum` is not answered"),
    ("the place of evidence", "    at: pier 3\n", "", "no-place", "finding 1 is evidence without a place"),
    ("the organism of evidence", "    organism: subterranean termites\n    state: active\n", "    state: active\n", "no-organism", "finding 1 is evidence without an organism"),
    ("the basis of an active call", "    basis: [live workers in a broken tube]\n", "", "no-basis", "finding 1 is called active"),
    ("the signature", "signed: {name: Ana Marlow, on: 2026-03-05}\n", "", "unsigned", "`signed`"),
    ("the official sheet", "official sheet: {signed: 2026-03-05, by: Ana Marlow}\n", "", "no-official-sheet", "WDIR 100"),
    ("the order of dates", "  - {id: first, date: 2026-03-05,", "  - {id: first, date: 2026-03-06,", "dates-out-of-order", "comes before `first` on 2026-03-06"),
    ("a reference that exists", "near: [1, 2]", "near: [1, 2, 9]", "unknown-reference", "finding no. 9"),
    ("a method that fits", "answers: [3], do: remove wood scraps", "answers: [3], do: look again", "unfit-method", "`look again` does not put right `wood scraps` of finding 3"),
    ("who does nothing, and why", "do: repair wood, in: house, by: contractor, asked of: seller}", "do: none, in: house}", "does-nothing", "`sill` does nothing"),
    ("a closed outline", "W 52', N 28'", "W 50', N 28'", "outline-open", "`main` ends 2' east"),
    ("the license", 'license:\n  number: "0000PW"\n  phases: [P, W]\n  holder: R. Dean\n  expires: 2026-06-30\n', "", "missing-key", "`license`", COMPANY),
    ("a valid license", "expires: 2026-06-30", "expires: 2026-02-28", "license-lapsed", "license ends before the visit on 2026-03-05", COMPANY),
    ("the right phase", "phases: [P, W]", "phases: [P]", "wrong-phase", "inspecting needs `W`", COMPANY),
    ("a rate", "  - {do: remove wood scraps, per: job, price: $120.00}\n", "", "no-price", "`remove wood scraps` has no rate", COMPANY),
    ("the label's depth", '      soil depth: 30"\n      finished percent from: 0.06\n      finished percent to: 0.125', '      finished percent from: 0.06\n      finished percent to: 0.125', "missing-key", "`soil depth`", COMPANY),
    ("a photo", "photos/3-close.jpg", "photos/3-clse.jpg", "photo-missing", "3-clse.jpg"),
]

for name, old, new, code, word, *where in TAKEN:
    assert len(word) > 6, f"{name}: `{word}` tells nothing"
    with Copy() as copy:
        copy.edit(old, new, copy.company if where else None)
        checked = run("check", copy.folder)
        errors = [m for m in messages(checked.stdout) if m["severity"] == "error"]
        check(checked.returncode == 1, f"{name}: exit status {checked.returncode}")
        check(len(errors) == 1, f"{name}: {len(errors)} errors\n{checked.stdout}")
        check(any(m["code"] == code and word in m["what"] for m in errors), f"{name}: no [{code}] that names `{word}`\n{checked.stdout}")
        reported = run("report", copy.folder)
        check(reported.returncode == 1 and not (copy.folder / "packet.pdf").exists(), f"{name}: a packet was written")
        drafted = run("report", copy.folder, "--draft")
        check(drafted.returncode == 1 and (copy.folder / "packet-draft.pdf").exists(), f"{name}: no draft\n{drafted.stderr}")
finish()
