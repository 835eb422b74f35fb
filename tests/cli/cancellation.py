"""The last day of cancellation, as the notice prints it, against python3-holidays: the third (in California from 65 years of age on
the fifth) day that is neither a Sunday nor a federal holiday, on 40 dates across holidays and ends of years; and what is printed where a sale cannot be canceled."""
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


def business_day(sold, days):
    day, left = sold, days
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
        last = long(business_day(sold, 3))
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
    # The paper of this case was issued before anybody asked that: it is told, and the right is not assumed away.
    copy.case.write_text(text.replace("  sold at: home\n", ""))
    out = run("agreement", copy.folder, "--replace", "-o", pdf)
    told = [m for m in messages(out.stdout + out.stderr) if m["code"] == "sale-unfit"]
    check([m["severity"] for m in told] == ["warning"] and out.returncode == 0, f"where it is sold is asked: {told}")
    check(words(pdf).count("NOTICE OF CANCELLATION") == 2, "where nobody says it was sold, it can be canceled")

# California: five business days from 65 years of age on (Cal. Civ. Code 1689.6(a)(1), 1689.5(e) and (f), as quoted in 2026). Its own
# list of holidays is shorter than the federal one; the day that is printed is never earlier than by either.
own = {name for name in ("New Year's Day", "Washington's Birthday", "Memorial Day", "Independence Day", "Labor Day", "Columbus Day",
                         "Veterans Day", "Thanksgiving", "Christmas Day")}


def by_california(sold, days):
    day = sold
    while days:
        day += datetime.timedelta(1)
        if day.weekday() != 6 and not any(federal.get(day, "").startswith(name) for name in own):
            days -= 1
    return day


with Copy() as copy:
    text = copy.case.read_text().replace("form: us-nc", "form: us-ca").replace("state: NC,", "state: CA,")
    text = text.replace("  sold at: home\n", "  sold at: home\n  senior customer: yes\n")
    accepted = re.search(r"^accepted: .*?on: (\d{4}-\d\d-\d\d)", text, re.M)
    pdf = copy.root / "agreement.pdf"
    for senior, days, number, ordinal in (("yes", 5, "FIVE", "fifth"), ("no", 3, "THREE", "third")):
        for sold in dates[::4] if days == 5 else dates[:3]:
            copy.case.write_text((text[:accepted.start(1)] + sold.isoformat() + text[accepted.end(1):])
                                 .replace("senior customer: yes", f"senior customer: {senior}"))
            run("agreement", copy.folder, "--draft", "--replace", "-o", pdf)
            said = words(pdf)
            last = business_day(sold, days)
            check(said.count(f"NOT LATER THAN MIDNIGHT OF {long(last)}") == 2, f"California, senior {senior}, sold on {sold}: {long(last)}")
            check(last >= by_california(sold, days), f"{sold}: not earlier than by California's own holidays")
        check(said.count(f"within {number} BUSINESS DAYS from") == 2 and f"midnight of the {ordinal} business day" in said,
              f"California, senior {senior}: {number}, {ordinal}")
    # Where nobody says, the longer time is printed; a new case is asked (tests/rules/sale-unfit.txt).
    copy.case.write_text(text.replace("  senior customer: yes\n", ""))
    run("agreement", copy.folder, "--draft", "--replace", "-o", pdf)
    check(words(pdf).count("within FIVE BUSINESS DAYS from") == 2, "an unknown age counts as 65")
    run("agreement", copy.folder, "--draft", "--replace", "--lang", "es", "-o", pdf)
    check("quinto día hábil" in words(pdf) and words(pdf).count("dentro de los CINCO DÍAS HÁBILES") == 2, "the same in Spanish")

# 16 CFR 429.1(a): the statement stands in immediate proximity to the space for the buyer's signature: never on the page before.
# And no sentence ends in an empty citation.
for example in ("heron-lane", "mill-hollow", "spring-row", "stilt-court", "cedar-bend", "pine-fold", "brick-row"):
    with Copy(example) as copy:
        for language, statement, accepts in (("en", "You, the buyer, may cancel", "I accept this agreement"), ("es", "Usted, el comprador, puede cancelar", "Acepto este contrato")):
            pdf = copy.root / f"{language}.pdf"
            run("agreement", copy.folder, "--draft", "--replace", "--lang", language, "-o", pdf)
            pages = subprocess.run(["pdftotext", "-layout", pdf, "-"], capture_output=True, text=True).stdout.split("\f")
            with_statement = [i for i, page in enumerate(pages) if statement in " ".join(page.split())]
            to_sign = [i for i, page in enumerate(pages) if accepts in " ".join(page.split())]
            check(len(to_sign) == 1 and with_statement in ([], to_sign), f"{example} {language}: statement {with_statement}, line to sign {to_sign}")
            check("()" not in "".join(pages), f"{example} {language}: an empty citation")

finish()
