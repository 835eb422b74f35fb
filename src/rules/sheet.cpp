// Serves rules/each.h. The form of the state and the sheet that it prescribes, and whether case and address agree with
// them.
#include <algorithm>

#include "rules/look.h"

namespace soundsill::rules {
namespace {

bool sheet_needed(const Papers& papers) {
  const Case& c = papers.basis.c;
  const auto& rule = papers.basis.form.official_sheet;
  if (!rule || !rule->name || !c.facts || !c.facts->purpose) return false;
  const auto& purposes = items(rule->needed_for);
  return std::find(purposes.begin(), purposes.end(), yaml::word(*c.facts->purpose)) != purposes.end();
}

/// Small letters, one space between words, no commas and dots: how two people type one address.
std::string plain(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool gap = c == ' ' || c == ',' || c == '.' || c == '\t';
    if (!gap)
      out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    else if (!out.empty() && out.back() != ' ')
      out += ' ';
  }
  while (out.ends_with(' ')) out.pop_back();
  return out;
}

}  // namespace

void no_official_sheet(const Papers& papers, Faults& faults) {
  // What the crew works by, what is billed and what is put up states nothing on insects.
  if (papers.wanted == Wanted::work_order || papers.wanted == Wanted::invoice || papers.wanted == Wanted::notice)
    return;
  const Case& c = papers.basis.c;
  if (c.official_sheet.written() || !sheet_needed(papers)) return;
  const auto& rule = papers.basis.form.official_sheet;
  faults.add(Rule::no_official_sheet, c.facts->purpose.at,
             "a " + quoted(yaml::word(*c.facts->purpose)) + " needs the state's own sheet, signed (" + *rule->name +
                 "), and none is named",
             "the state takes statements on insects only on its own sheet; without it no final paper is printed" +
                 cited(rule->cite),
             "write `official sheet: {signed: ..., by: ...}` once it is signed", rests_on(*rule));
}

void wrong_sheet(const Papers& papers, Faults& faults) {
  const auto& sheet = papers.basis.c.official_sheet;
  const auto& rule = papers.basis.form.official_sheet;
  if (!sheet || !sheet->name || !sheet_needed(papers) || *sheet->name == *rule->name) return;
  faults.add(Rule::wrong_sheet, sheet->name.at,
             quoted(*sheet->name) + " is named, and the state takes " + quoted(*rule->name) + " alone",
             "a lender sends back what stands on the wrong sheet" + cited(rule->cite),
             "write the findings on " + quoted(*rule->name) + ", and take `name:` out", rests_on(*rule));
}

void superseded_sheet(const Papers& papers, Faults& faults) {
  const auto& sheet = papers.basis.c.official_sheet;
  const auto& taken = papers.basis.form.lender_sheet;
  if (!sheet || !taken || !taken->name || !taken->edition || !taken->since) return;
  if (!sheet->name || *sheet->name != *taken->name || sheet->edition.unread()) return;
  if (!sheet->edition) {
    faults.add(Rule::superseded_sheet, sheet->name.at, quoted(*sheet->name) + " is named without its edition",
               "a lender takes the edition of " + print(*taken->edition) + " alone" + cited(taken->cite),
               "write `edition:` with the day printed on it", rests_on(*taken));
    return;
  }
  if (!sheet->signed_on || *sheet->signed_on < *taken->since || *sheet->edition >= *taken->edition) return;
  faults.add({Rule::superseded_sheet,
              sheet->edition.at,
              quoted(*sheet->name) + " of " + print(*sheet->edition) + " is superseded",
              "since " + print(*taken->since) + " a lender takes the edition of " + print(*taken->edition) + " alone" +
                  cited(taken->cite),
              "write the findings on the edition of " + print(*taken->edition),
              {{sheet->signed_on.at, "signed on this day"}},
              rests_on(*taken)});
}

void address_differs(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  if (!c.official_sheet || !c.official_sheet->address || !c.property || !c.property->address) return;
  const auto& street = c.property->address->street;
  const auto& typed = c.official_sheet->address;
  if (!street || plain(*typed) == plain(*street)) return;
  faults.add({Rule::address_differs,
              typed.at,
              "the sheet says " + quoted(*typed) + ", and this case " + quoted(*street),
              "two addresses are two houses to a lender, and neither paper counts",
              "correct whichever of the two was mistyped",
              {{street.at, "the address of this case"}}});
}

void wrong_state(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  const Form& form = papers.basis.form;
  if (!form.state || !c.property || !c.property->address || !c.property->address->state) return;
  const auto& state = c.property->address->state;
  if (*state == *form.state) return;
  faults.add({Rule::wrong_state,
              state.at,
              "the house stands in " + quoted(*state) + ", and the form is that of " + quoted(*form.state),
              "rules, limits and sheet of another state would be applied",
              "name the form of that state after `form:`, or `us-general`",
              {{c.form.at, "the form"}}});
}

void edition_differs(const Papers& papers, Faults& faults) {
  const auto& made = papers.basis.c.edition;
  const auto& now = papers.basis.form.edition;
  if (!made || !now || *made == *now) return;
  faults.add({Rule::edition_differs,
              made.at,
              "the case was made under edition " + quoted(*made) + ", and " + quoted(*now) + " counts now",
              "what that edition asks otherwise was not looked at when the case was made",
              "see `soundsill forms " + papers.basis.form.id.value_or("") +
                  " --diff OLD.yaml`, then write `edition: \"" + *now + "\"`",
              {{now.at, "the form's edition"}}});
}

}  // namespace soundsill::rules
