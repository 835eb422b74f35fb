// Names and numbers that stand for one thing only.
#include <map>

#include "rules/look.h"

namespace soundsill::rules {
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
    once(items(s.slabs), &Slab::name, "slabs", "name", faults);
    once(items(s.wood), &WoodContact::name, "wood contacts", "name", faults);
  }
  once(items(papers.basis.company.products), &Product::id, "products", "id", faults);
  once(items(papers.basis.company.warranties), &WarrantyFacts::id, "warranties", "id", faults);
}

}  // namespace soundsill::rules
