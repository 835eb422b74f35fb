// Serves rules/each.h. Who inspects, signs and treats, whether the license says so, and what interest they have.
#include <algorithm>
#include <map>

#include "rules/look.h"

namespace soundsill::rules {
namespace {

const Field<Person>* inspector_of(const Papers& papers) {
  const Case& c = papers.basis.c;
  return c.people ? &c.people->inspector : nullptr;
}

const License* license_of(const Papers& papers) {
  const Company& company = papers.basis.company;
  return company.license ? &*company.license : nullptr;
}

std::string letters_of(const License& license) {
  std::vector<std::string> letters;
  for (const std::string& phase : *license.phases) letters.push_back(quoted(phase));
  return listed(letters);
}

}  // namespace

void unsigned_(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  const Field<Person>* inspector = inspector_of(papers);
  if (!c.signature.written()) {
    const Span at = first_of({inspector ? inspector->key : Span{}, c.people.key, c.at});
    return faults.add(Rule::unsigned_, at, "nobody has signed: the case has no `signed` block",
                      "a paper without the inspector's name and day is sent back by lender and regulator",
                      "write `signed: {name: ..., on: ...}` once the inspector has signed");
  }
  if (!c.signature || !c.signature->name || !inspector || !*inspector || !(*inspector)->name) return;
  const auto& signer = c.signature->name;
  const auto& name = (*inspector)->name;
  if (*signer == *name) return;
  faults.add({Rule::unsigned_,
              signer.at,
              quoted(*signer) + " has signed, but the inspector is " + quoted(*name),
              "the reader would not know who answers for the findings",
              "write the same name in both places",
              {{name.at, "the inspector is named here"}}});
}

namespace {

void no_person_license(const Papers& papers, Faults& faults) {
  const auto& rule = papers.basis.form.license;
  const Field<Person>* inspector = inspector_of(papers);
  if (!rule || !rule->person_license.value_or(false) || !inspector || !*inspector) return;
  const Person& person = **inspector;
  if (!person.name || person.license.written()) return;
  for (const Inspector& i : items(papers.basis.company.inspectors))
    if (i.name && *i.name == *person.name && i.license.written()) return;
  faults.add(Rule::no_license, person.name.at, "no license number of " + quoted(*person.name) + " is given",
             "the state asks for the inspector's own number beside the company's" + cited(rule->cite),
             "write `license: \"...\"` under `inspector:`", rests_on(*rule));
}

}  // namespace

// A company without a license, or a license without a number, is reported while the company's file is read.
void no_license(const Papers& papers, Faults& faults) {
  const License* license = license_of(papers);
  if (license && license->phases && license->phases->empty() && !misread(license->phases.at, faults))
    faults.add(Rule::no_license, license->phases.at, "the company's license has no phases",
               "nobody could tell whether it covers inspecting or treating", "write its letters: `phases: [...]`");
  no_person_license(papers, faults);
}

namespace {

/// Lines of ours by the phase that they need and the license lacks.
std::map<std::string, std::vector<const Work*>> uncovered(const Papers& papers, const License& license) {
  std::map<std::string, std::vector<const Work*>> out;
  for (const Work& work : items(papers.basis.c.work)) {
    const Method* method = method_of(papers, work);
    const bool ours = method && method->phase && !work.by.unread() && work.who() == By::us;
    if (ours && !license.covers(*method->phase)) out[*method->phase].push_back(&work);
  }
  return out;
}

void inspects_without_phase(const Papers& papers, const License& license, std::vector<Note> lines, Faults& faults) {
  const auto& rule = papers.basis.form.license;
  const std::string phase = quoted(*rule->inspect_phase);
  faults.add({Rule::wrong_phase, license.phases.at,
              "the license covers " + letters_of(license) + ", and inspecting needs " + phase,
              "the state accepts no report from a company without that phase" + cited(rule->cite),
              "add " + phase + " to `phases:` if the license carries it", std::move(lines), rests_on(*rule)});
}

void treats_without_phase(const Papers& papers, const License& license, const Work& work, Faults& faults) {
  const Method& method = *method_of(papers, work);
  faults.add(
      {Rule::wrong_phase,
       work.does.at,
       quoted(*work.does) + " needs phase " + quoted(*method.phase) + ", and the license covers " + letters_of(license),
       "the company would sell work that its license does not cover" + cited(method.cite),
       "write `by: other company` if one with that phase does it",
       {{license.phases.at, "the phases of the company's license"}},
       // Its letters are those of the tool until the form says that the state has them.
       papers.basis.form.license ? rests_on(*papers.basis.form.license) : Rests::unread});
}

}  // namespace

// A phase that the license lacks is one message, however many lines need it.
void wrong_phase(const Papers& papers, Faults& faults) {
  const License* license = license_of(papers);
  if (!license || !license->phases || license->phases->empty() || misread(license->phases.at, faults)) return;
  auto lines = uncovered(papers, *license);
  const auto& rule = papers.basis.form.license;
  if (rule && rule->inspect_phase && !license->covers(*rule->inspect_phase)) {
    std::vector<Note> notes;
    for (const Work* work : lines[*rule->inspect_phase])
      notes.push_back({work->does.at, said(*work) + " needs it too"});
    inspects_without_phase(papers, *license, std::move(notes), faults);
    lines.erase(*rule->inspect_phase);
  }
  for (const auto& [phase, needing] : lines) treats_without_phase(papers, *license, *needing.front(), faults);
}

void license_lapsed(const Papers& papers, Faults& faults) {
  const License* license = license_of(papers);
  if (!license || !license->expires) return;
  const Field<Date>* last = nullptr;
  std::string what;
  const auto consider = [&](const Field<Date>& day, const char* words) {
    if (!day || (last && *day <= **last)) return;
    last = &day;
    what = words;
  };
  const Case& c = papers.basis.c;
  for (const Visit& visit : items(c.visits)) consider(visit.date, "the visit");
  if (c.signature) consider(c.signature->on, "the signature");
  if (!last || **last <= *license->expires) return;
  faults.add({Rule::license_lapsed,
              license->expires.at,
              "the company's license ends before " + what + " on " + print(**last),
              "inspecting and signing on a day without a license makes the papers worthless",
              "write the new day under `expires:` once the license is renewed",
              {{last->at, "the day of " + what}}});
}

void same_license(const Papers& papers, Faults& faults) {
  const Company& company = papers.basis.company;
  if (!company.license || !company.license->number) return;
  const auto compare = [&](const Field<Code>& number, const Field<std::string>& name) {
    if (!number || number->text != company.license->number->text) return;
    faults.add({Rule::same_license,
                number.at,
                "the own number of " + (name ? quoted(*name) : std::string("the inspector")) + " is the company's",
                "where both are asked, one number in both places is sent back",
                "write the number of the person's own license or card, or leave `license:` out",
                {{company.license->number.at, "the company's number"}}});
  };
  for (const Inspector& i : items(company.inspectors)) compare(i.license, i.name);
  if (const auto& people = papers.basis.c.people; people && people->inspector)
    compare(people->inspector->license, people->inspector->name);
}

void interest_unsaid(const Papers& papers, const RuleUse& use, Faults& faults) {
  const auto& signature = papers.basis.c.signature;
  if (!signature || signature->interest.written()) return;
  faults.add(Rule::interest_unsaid, signature.key,
             "nothing says whether inspector or company has an interest in the sale",
             "the buyer is to know whether whoever inspects gains by what is found" + cited(use.cite),
             "write `interest: none` under `signed:`, or say which");
}

}  // namespace soundsill::rules
