#include "estimate/choice.h"

#include <algorithm>

#include "treatment/scopes.h"

namespace soundsill {
namespace {

bool names(const ListOf<std::string>& list, std::string_view word) {
  return list && std::find(list->begin(), list->end(), word) != list->end();
}

/// Whether a product's label names all that an option's lines do with the option's product.
bool fits(const Basis& basis, const OptionFacts& option, const Product& product) {
  if (!product.label) return false;
  for (const Work* line : lines_of(basis.c, option)) {
    const Method* method = line->does ? basis.trade.method(*line->does) : nullptr;
    if (!method || !method->uses_product.value_or(false) || line->who() != By::us || line->product) continue;
    if (product.label->sites && !names(product.label->sites, *method->name)) return false;
  }
  return true;
}

}  // namespace

std::string scope_forbidden(const Form& form, const OptionFacts& option, const Product* product) {
  if (!option.scope || *option.scope == Scope::full) return {};
  const std::string scope(yaml::word(*option.scope));
  if (form.partial && form.partial->value && *form.partial->value == Partial::forbidden)
    return "the state allows no partial treatment";
  if (*option.scope == Scope::bait || !product) return {};
  if (product->label && names(product->label->scopes, scope)) return {};
  return "the label of `" + product->id.value_or("") + "` does not name `" + scope + "`";
}

std::deque<Choice> choices(const Basis& basis) {
  std::deque<Choice> all;
  const auto& products = items(basis.company.products);
  for (const OptionFacts& option : items(basis.c.options)) {
    std::vector<const Product*> with;
    if (!option.product) with.push_back(nullptr);
    for (const Product& p : products)
      if (option.product && p.id && fits(basis, option, p)) with.push_back(&p);
    for (const Product* product : with) {
      if (!scope_forbidden(basis.form, option, product).empty()) continue;
      Choice& made = all.emplace_back();
      made.option = option;
      if (product) made.option.product.set(*product->id);
      made.other_product = product && *product->id != *option.product;
      Faults faults;
      made.treatment = plan(basis, made.option, faults);
      made.estimate = price(basis, made.treatment, faults);
      made.left = feet_left(basis, made.treatment);
      if (faults.errors() > 0 || made.estimate.lines.empty()) all.pop_back();
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const Choice& a, const Choice& b) {
    return a.left != b.left ? a.left < b.left : a.estimate.total > b.estimate.total;
  });
  for (Choice& c : all) c.treatment.option = &c.option;  // sorting moved what they point to
  return all;
}

const Choice* under(const std::deque<Choice>& all, Money ceiling) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const Choice& c) { return c.estimate.total <= ceiling; });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace soundsill
