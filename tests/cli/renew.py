#!/usr/bin/env python3
"""What comes due: lists, calendars as another program reads them, letters; months and leap years as dateutil counts them."""
import csv
import io
import json
import os
import re
import subprocess
import sys

from harness import PROGRAM, Copy, check, finish, run

# The reader of calendars is Debian's python3-icalendar; where this interpreter lacks it, Debian's own has it.
try:
    import icalendar
    from dateutil.relativedelta import relativedelta
except ModuleNotFoundError:
    if sys.executable == "/usr/bin/python3":
        raise
    os.execv("/usr/bin/python3", ["/usr/bin/python3", *sys.argv])
import datetime


def events(text):
    return {str(e["uid"]): e for e in icalendar.Calendar.from_ical(text).walk("VEVENT")}


with Copy() as copy:
    window = ("--from", "2027-01-01", "--to", "2027-12-31", "--today", "2026-11-27")
    listed = run("renew", copy.root, *window, "--format", "json")
    check(listed.returncode == 0, listed.stderr)
    due = json.loads(listed.stdout)["due"]
    check(len([d for d in due if d["what"] == "renewal"]) == 7, f"not seven renewals: {due}")
    heron = next(d for d in due if d["case"] == "2026-0417" and d["what"] == "renewal")
    check(heron["due"] == "2027-03-12" and heron["fee"] == "195.00" and heron["holder"] == "Jo Abernethy-Łódź"
          and heron["address"] == "118 Heron Lane, Wrenfield, NC 27000" and heron["last_look"] == "2026-03-05", str(heron))
    rows = list(csv.DictReader(io.StringIO(run("renew", copy.root, *window, "--format", "csv").stdout)))
    check([(r["due"], r["what"], r["case"]) for r in rows] == [(d["due"], d["what"], d["case"]) for d in due], "csv and json differ")
    check([d["due"] for d in due] == sorted(d["due"] for d in due), "not by day")

    raw = subprocess.run([PROGRAM, "renew", str(copy.root), *window, "--format", "ics"], capture_output=True).stdout
    check(raw.count(b"\n") == raw.count(b"\r\n") and raw.endswith(b"END:VCALENDAR\r\n"), "lines do not end in CRLF")
    check(all(len(line) <= 75 for line in raw.split(b"\r\n")), "a line is longer than 75 octets")
    check(all(not line or line.decode("utf-8") is not None for line in raw.split(b"\r\n")), "a letter is torn by folding")
    read = events(raw)
    check(len(read) == len(due), f"{len(read)} events of {len(due)}")
    for one in due:
        same = [e for e in read.values() if e["dtstart"].dt.isoformat() == one["due"] and one["case"] in str(e["description"])
                and one["what"] in str(e["uid"])]
        check(len(same) == 1, f"no event for {one}")
        for e in same:
            check(type(e["dtstart"].dt) is datetime.date and e["dtend"].dt == e["dtstart"].dt + datetime.timedelta(1), "not one whole day")
            check(str(e["location"]) == one["address"], f"the address is {e['location']}")
            check(one["holder"] in str(e["description"]), f"the holder is lost in {e['description']}")
            check("dtstamp" in e, "no DTSTAMP")
    elsewhere = subprocess.run([PROGRAM, "renew", str(copy.root), *window, "--format", "ics"], capture_output=True,
                               env={**os.environ, "TZ": "Pacific/Kiritimati", "LC_ALL": "de_DE.UTF-8"}).stdout
    check(elsewhere == raw, "a time zone changes the calendar")
    later = events(run("renew", copy.root, "--from", "2027-01-01", "--to", "2027-12-31", "--today", "2026-12-24", "--format", "ics").stdout)
    check(set(later) == set(read), "the UIDs change from day to day")

    out = copy.root / "letters.pdf"
    done = run("renew", copy.root, *window, "--letters", out)
    check(done.returncode == 0, done.stderr)
    info = subprocess.run(["pdfinfo", str(out)], capture_output=True, text=True).stdout
    # What is due to one holder at one address on one day is one letter, a page each.
    letters = len({(d["holder"], d["address"], d["due"]) for d in due})
    check(letters < len(due), "no two matters of one day: the next line would show nothing")
    check(int(re.search(r"Pages:\s+(\d+)", info).group(1)) == letters, f"not {letters} letters: {info}")
    said = " ".join(subprocess.run(["pdftotext", str(out), "-"], capture_output=True, text=True).stdout.split())
    check(said.count("The fee for another period is") == 7 and said.count("Dear ") == letters and "The fee for another period is $195.00." in said, "the letters say something else")

    # A case with errors gets no letter, and two cases that cannot be told apart have entries of their own.
    twin = copy.root / "twin"
    twin.mkdir()
    (twin / "case.yaml").write_text((copy.root / "stilt-court/case.yaml").read_text())
    doubled = icalendar.Calendar.from_ical(run("renew", twin, copy.root / "stilt-court", *window, "--format", "ics").stdout).walk("VEVENT")
    check(len(doubled) == len({str(e["uid"]) for e in doubled}) == 4, f"entries of two equal cases: {[str(e['uid']) for e in doubled]}")
    (twin / "case.yaml").write_text((copy.root / "stilt-court/case.yaml").read_text().replace("accepted: {option: piers", "accepted: {total: $1.00, option: piers"))
    none = run("renew", twin, *window, "--letters", copy.root / "none.pdf")
    check(none.returncode == 1 and "no letters written" in none.stderr and not (copy.root / "none.pdf").exists(), f"a letter about a case with errors: {none.stderr}")

    # What a paper must not do: signs that a calendar or a spreadsheet would take for its own.
    copy.edit("  buyer: {name: Jo Abernethy-Łódź}\n", "  buyer: {name: \"=Ödön, B; C\\\\D " + "é" * 60 + "\"}\n")
    odd = events(run("renew", copy.folder, *window, "--format", "ics").stdout)
    check(all("=Ödön, B; C\\D " + "é" * 60 in str(e["description"]) for e in odd.values()), "escaping loses letters")
    check(",\"'=Ödön, B" in run("renew", copy.folder, *window, "--format", "csv").stdout, "a cell begins like a formula")

    check(run("renew", copy.root, "--from", "2027-02-30").returncode == 2, "a day that does not exist")
    check(run("renew", copy.root, "--from", "2027-02-02", "--to", "2027-02-01").returncode == 2, "a window that ends before it begins")
    check(run("renew", copy.root / "nowhere").returncode == 2, "a folder that is not there")

# Ends of months and leap years, as another program counts them.
with Copy("stilt-court") as copy:
    text = copy.case.read_text().replace("accepted: {option: piers, by: Otis Fenn, on: 2026-04-13}", "accepted: {option: piers, by: Otis Fenn, on: 2026-04-08}")
    head, tail = text.split("job:\n")[0], text[text.index("applied:\n"):text.index("invoice:\n")]
    company = copy.company.read_text()
    for treated, months in (("2027-01-31", 1), ("2028-01-31", 1), ("2028-02-29", 12), ("2028-02-29", 48), ("2027-08-31", 6),
                            ("2027-12-31", 2), ("2026-10-31", 13), ("2031-05-30", 9), ("2027-11-30", 3)):
        copy.company.write_text(company.replace("months: 12", f"months: {months}").replace("reinspect every: 12\n", f"reinspect every: {months}\n"))
        copy.case.write_text(head + tail.replace("on: 2026-04-17", f"on: {treated}"))
        start = datetime.date.fromisoformat(treated)
        for renewals in range(3):
            events_of = "".join(f"  - {{event: renewed, on: {treated}, paid: $140.00}}\n" for _ in range(renewals))
            if renewals:
                copy.case.write_text(head + tail.replace("on: 2026-04-17", f"on: {treated}") + "warranty:\n" + events_of)
            wanted = start + relativedelta(months=months * (renewals + 1))
            got = run("renew", copy.folder, "--from", treated, "--to", "2099-12-31", "--today", treated, "--format", "ics")
            found = [e["dtstart"].dt for e in events(got.stdout).values() if "renewal" in str(e["uid"])]
            check(found == [wanted], f"{treated} + {months} months, renewed {renewals} times: {found}, not {wanted}\n{got.stderr}")
finish()
