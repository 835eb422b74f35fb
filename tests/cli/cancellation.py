"""The last day of cancellation, as the notice prints it, against python3-holidays: the third day that is neither a Sunday nor a
federal holiday, on 40 dates across holidays and ends of years; and what is printed where a sale cannot be canceled."""
import datetime
import re
import subprocess

import holidays

from harness import Copy, check, finish, messages, run



def told_by(*words):
    out = run(*words)
    return out.stdout + out.stderr


federal = holidays.US(years=range(2020, 2040), observed=True)
# A library older than Public Law 117-17 lacks Juneteenth; kept on the nearest weekday, as 5 U.S.C. 6103(b) has it.
for year in range(2021, 2040):
    day = datetime.date(year, 6, 19)
    shift = {5: -1, 6: 1}.get(day.weekday(), 0)
    for one in (day, day + datetime.timedelta(shift)):
        if one not in federal:
            federal[one] = "Juneteenth"


def third_business_day(sold):
    day, left = sold, 3
    while left:
        day += datetime.timedelta(1)
        if day.weekday() != 6 and day not in federal:
            left -= 1
    return day


dates = [datetime.date.fromisoformat(d) for d in """
2025-12-20 2025-12-22 2025-12-23 2025-12-24 2025-12-27 2025-12-29 2025-12-30 2025-12-31 2026-01-01 2026-01-02
2026-01-15 2026-01-16 2026-01-17 2026-02-12 2026-02-13 2026-02-14 2026-05-21 2026-05-22 2026-05-23 2026-06-16
2026-06-17 2026-06-18 2026-06-30 2026-07-01 2026-07-02 2026-07-03 2026-09-03 2026-09-04 2026-10-08 2026-10-09
2026-11-09 2026-11-10 2026-11-24 2026-11-25 2027-12-22 2027-12-29 2028-02-26 2028-02-28 2028-11-08 2032-12-30""".split()]
assert len(set(dates)) == 40


def words(pdf):
    return " ".join(subprocess.run(["pdftotext", "-layout", pdf, "-"], capture_output=True, text=True).stdout.replace("DRAFT", " ").split())


def long(day):
    return f"{day:%B} {day.day}, {day.year}"


with Copy() as copy:
    text = copy.case.read_text()
    accepted = re.search(r"^accepted: .*?on: (\d{4}-\d\d-\d\d)", text, re.M)
    if not accepted:
        text = text.rstrip("\n") + "\naccepted: {option: " + re.search(r"^  - \{id: (\w+), .*work:", text[text.index("options:"):], re.M)[1] + ", by: Somebody, on: 2026-03-06}\n"
        accepted = re.search(r"^accepted: .*?on: (\d{4}-\d\d-\d\d)", text, re.M)
    for sold in dates:
        copy.case.write_text(text[:accepted.start(1)] + sold.isoformat() + text[accepted.end(1):])
        pdf = copy.root / "agreement.pdf"
        run("agreement", copy.folder, "--draft", "--replace", "-o", pdf)
        said = words(pdf)
        last = long(third_business_day(sold))
        check(said.count(f"NOT LATER THAN MIDNIGHT OF {last}") == 2,
               f"sold on {sold}: {last}, twice; printed {re.findall('MIDNIGHT OF ([A-Z][a-z]+ [0-9]+, [0-9]+)', said)}")
        check(said.count(f"Date of transaction: {long(sold)}") == 2, f"sold on {sold}: the day of the transaction")
    check("You, the buyer, may cancel this transaction at any time prior to midnight of the third business day after the "
           "date of this transaction." in said, "the statement of 16 CFR 429.1(a), word for word")
    check("You may CANCEL this transaction, without any Penalty or Obligation, within THREE BUSINESS DAYS from the above "
           "date." in said, "the notice of 16 CFR 429.1(b), word for word")

    # In Spanish the notice is in Spanish, filled in too; nothing says that the English text counts.
    copy.case.write_text(text.replace("sold in: English", "sold in: Spanish"))
    run("agreement", copy.folder, "--draft", "--replace", "--lang", "es", "-o", pdf)
    spanish = words(pdf)
    check(spanish.count("AVISO DE CANCELACIÓN") == 2 and "NOTICE OF CANCELLATION" not in spanish, "a Spanish notice, twice")
    check("The English text" not in spanish, "no courtesy copy where the sale was in Spanish")
    told = [m for m in messages(told_by("agreement", copy.folder, "--draft", "--replace", "-o", pdf)) if m["code"] == "sale-unfit"]
    check(len(told) == 1, f"a sale in Spanish and an agreement in English: {told}")

    # Where it is not sold at home nothing is promised; where nobody says, the paper is not made.
    copy.case.write_text(text.replace("sold at: home", "sold at: our office"))
    run("agreement", copy.folder, "--draft", "--replace", "-o", pdf)
    check("CANCEL" not in words(pdf), "no notice for a sale at the office")
    copy.case.write_text(text.replace("  sold at: home\n", ""))
    told = messages(told_by("agreement", copy.folder, "--replace", "-o", pdf))
    check(any(m["code"] == "sale-unfit" and m["severity"] == "error" for m in told), "where it is sold is asked")

finish()
