// Serves rules/each.h. Whatever is referred to exists, and is there once.
#include <algorithm>
#include <map>
#include <set>

#include "rules/cover.h"

namespace soundsill::rules {
namespace {

struct Known {
  std::vector<std::string_view> words;
  std::string_view thing;  ///< with its article: "a method"
  std::string_view why;
};

bool has(const Known& known, std::string_view word) {
  return std::find(known.words.begin(), known.words.end(), word) != known.words.end();
}

std::string one_of(const Known& known) {
  if (known.words.empty()) return "none is listed yet";
  return "name one of " + yaml::listed(known.words);
}

void unknown(const Known& known, std::string_view word, const Span& at, Faults& faults) {
  if (has(known, word)) return;
  faults.add(Rule::unknown_reference, at, quoted(word) + " is not " + std::string(known.thing), std::string(known.why),
             did_you_mean(word, known.words, one_of(known)));
}

void unknown(const Known& known, const Field<std::string>& field, Faults& faults) {
  if (field) unknown(known, *field, field.at, faults);
}

Known methods(const Papers& papers) {
  return {all_of(items(papers.basis.trade.methods), &Method::name), "a method",
          "what nobody knows can be neither measured, priced nor judged"};
}

void words_of_the_trade(const Papers& papers, Faults& faults) {
  const Trade& trade = papers.basis.trade;
  const char* why = "no method could be matched with it, and the reader would not know what is meant";
  const Known organisms{all_of(items(trade.organisms), &Organism::name), "an organism", why};
  const Known conditions{all_of(items(trade.conditions), &Condition::name), "a condition", why};
  for (const Finding& f : items(papers.basis.c.findings)) {
    unknown(organisms, f.organism, faults);
    unknown(conditions, f.condition, faults);
  }
  for (const Work& w : items(papers.basis.c.work)) unknown(methods(papers), w.does, faults);
  for (const Rate& r : items(papers.basis.company.rates)) unknown(methods(papers), r.does, faults);
}

void answered_findings(const Papers& papers, Faults& faults) {
  const auto& findings = papers.basis.c.findings;
  if (!findings || items_lost(papers, faults)) return;
  std::vector<std::string> numbers;
  for (const Finding& f : *findings) {
    if (!f.no) return;  // the one that is meant may be the one without a readable number
    numbers.push_back(std::to_string(*f.no));
  }
  for (const Work& w : items(papers.basis.c.work))
    for (const int no : std::set<int>(items(w.answers).begin(), items(w.answers).end())) {
      const std::string number = std::to_string(no);
      if (finding_of(papers, no)) continue;
      faults.add(Rule::unknown_reference, item(w.answers.at, number),
                 said(w) + " answers finding " + number + ", which is not there",
                 "a buyer would read it as work against something that was seen",
                 numbers.empty()
                     ? "write `preventive: yes` on " + said(w)
                     : "name one of " + listed(numbers, "or") + ", or write `preventive: yes` on " + said(w));
    }
}

void lines_of_options(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  const auto& lines = items(c.work);
  const Known known{all_of(lines, &Work::id), "a work line", "the option would promise work that nothing describes"};
  if (c.work.unread() || items_lost(papers, faults) || known.words.size() < lines.size()) return;
  for (const OptionFacts& option : items(c.options)) {
    const auto& wanted = items(option.work);
    if (wanted.size() == 1 && wanted.front() == "all") continue;
    for (const std::string& id : wanted) unknown(known, id, item(option.work.at, id), faults);
  }
}

void warranties_of_options(const Papers& papers, Faults& faults) {
  const auto& list = papers.basis.company.warranties;
  if (!list) return;
  Known known{all_of(*list, &WarrantyFacts::id), "a warranty of the company's file",
              "the buyer would be promised terms that nobody has written"};
  known.words.emplace_back("none");
  for (const OptionFacts& option : items(papers.basis.c.options)) unknown(known, option.warranty, faults);
}

void people_and_visits(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  if (c.visits) {
    const Known visits{all_of(*c.visits, &Visit::id), "a visit", "the reader could not tell on which day it was seen"};
    if (visits.words.size() == c.visits->size())
      for (const Finding& f : items(c.findings)) unknown(visits, f.visit, faults);
  }
  const auto& inspectors = papers.basis.company.inspectors;
  if (!inspectors) return;
  Known known{all_of(*inspectors, &Inspector::name), "an inspector of the company's file",
              "the regulator asks who inspected, and under which license"};
  if (c.people && c.people->inspector) unknown(known, c.people->inspector->name, faults);
  for (const Visit& v : items(c.visits)) unknown(known, v.by, faults);
}

void lost_place(const std::string& what, const Span& at, Faults& faults) {
  if (what.empty()) return;
  faults.add(Rule::unknown_reference, at, what, "nobody could find it on the drawing",
             "name a place that is on the plan");
}

void places_of_findings(const Papers& papers, Faults& faults) {
  for (const Finding& f : items(papers.basis.c.findings)) {
    const SurveyedStructure* s = f.in ? papers.basis.survey.find(*f.in) : nullptr;
    if (!f.place || !s || !s->drawn()) continue;
    lost_place(missing(*s, *f.place), f.place.at, faults);
    if (f.place->kind != Place::Kind::near || items_lost(papers, faults)) continue;
    const std::string number = std::to_string(f.place->number);
    if (f.no && *f.no == f.place->number)
      lost_place("finding " + number + " cannot lie near itself", f.place.at, faults);
    else if (!finding_of(papers, f.place->number))
      lost_place("there is no finding " + number, f.place.at, faults);
  }
}

// Planning reports the walls, piers and chimneys of the lines it plans; what it takes no notice of is left to here.
void places_of_lines(const Papers& papers, Faults& faults) {
  for (const Work& w : items(papers.basis.c.work)) {
    const SurveyedStructure* s = papers.basis.survey.find(structure_of(papers, w));
    if (!s || !s->drawn()) continue;
    for (const Place& place : items(w.places)) {
      using Kind = Place::Kind;
      const bool left = place.kind == Kind::wood || place.kind == Kind::slab || place.kind == Kind::area;
      if (left || !planned(papers, w)) lost_place(missing(*s, place), place.at, faults);
    }
  }
}

}  // namespace

void unknown_reference(const Papers& papers, Faults& faults) {
  words_of_the_trade(papers, faults);
  answered_findings(papers, faults);
  lines_of_options(papers, faults);
  warranties_of_options(papers, faults);
  people_and_visits(papers, faults);
  places_of_findings(papers, faults);
  places_of_lines(papers, faults);
}

namespace {

std::string called(const std::string& name) { return " are called " + quoted(name); }
std::string called(int number) { return " have the number " + std::to_string(number); }

/// Reports each value of a key that an earlier item of the list has already.
template <class S, class T>
void once(const std::vector<S>& list, Field<T> S::*key, std::string_view things, std::string_view calls,
          Faults& faults) {
  std::map<T, Span> seen;
  for (const S& one : list) {
    const Field<T>& field = one.*key;
    if (!field) continue;
    const auto [first, fresh] = seen.emplace(*field, field.at);
    if (fresh) continue;
    faults.add({Rule::doubled_name,
                field.at,
                "two " + std::string(things) + called(*field),
                "whatever names it on paper could mean either",
                "give one of them another " + std::string(calls),
                {{first->second, "the first one"}}});
  }
}

}  // namespace

void doubled_name(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  once(items(c.findings), &Finding::no, "findings", "number", faults);
  once(items(c.work), &Work::id, "work lines", "id", faults);
  once(items(c.options), &OptionFacts::id, "options", "id", faults);
  once(items(c.visits), &Visit::id, "visits", "id", faults);
  once(c.structures(), &Structure::name, "structures", "name", faults);
  for (const Structure& s : c.structures()) {
    once(items(s.parts), &Part::name, "parts", "name", faults);
    once(items(s.areas), &Area::name, "areas", "name", faults);
    once(items(s.chimneys), &Chimney::name, "chimneys", "name", faults);
    once(items(s.partitions), &Partition::name, "partitions", "name", faults);
    once(items(s.pilasters), &Pilaster::name, "pilasters", "name", faults);
    once(items(s.marks), &Mark::name, "marks", "name", faults);
    once(items(s.slabs), &Slab::name, "slabs", "name", faults);
    once(items(s.wood), &WoodContact::name, "wood contacts", "name", faults);
  }
  once(items(papers.basis.company.inspectors), &Inspector::name, "inspectors", "name", faults);
  once(items(papers.basis.company.products), &Product::id, "products", "id", faults);
  once(items(papers.basis.company.warranties), &WarrantyFacts::id, "warranties", "id", faults);
  once(items(papers.basis.trade.methods), &Method::name, "methods", "name", faults);
  once(items(papers.basis.trade.organisms), &Organism::name, "organisms", "name", faults);
  once(items(papers.basis.trade.conditions), &Condition::name, "conditions", "name", faults);
  once(items(papers.basis.trade.woods), &Wood::name, "woods", "name", faults);
}

}  // namespace soundsill::rules
