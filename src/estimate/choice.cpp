#include "estimate/choice.h"

#include <algorithm>

namespace soundsill {
namespace {

bool names(const ListOf<std::string>& list, std::string_view word) {
  return list && std::find(list->begin(), list->end(), word) != list->end();
}

/// Whether a product's label names all that an option's lines do with the option's product.
bool fits(const resolved::Option& option, const Product& product) {
  if (!product.label) return false;
  for (const resolved::Line& line : option.lines) {
    const bool uses = line.method && line.method->uses_product.value_or(false);
    if (!uses || !line.ours() || !line.product_id.empty()) continue;
    if (product.label->sites && !names(product.label->sites, *line.method->name)) return false;
  }
  return true;
}

}  // namespace

std::string scope_forbidden(const Form& form, Scope which, const Product* product) {
  if (which == Scope::full) return {};
  const std::string scope(yaml::word(which));
  if (form.partial && form.partial->value && *form.partial->value == Partial::forbidden)
    return "the state allows no partial treatment";
  if (which == Scope::bait || !product) return {};
  if (product->label && names(product->label->scopes, scope)) return {};
  return "the label of `" + product->id.value_or("") + "` does not name `" + scope + "`";
}

std::deque<Choice> choices(const Basis& basis) {
  std::deque<Choice> all;
  const auto& products = items(basis.company.products);
  for (const resolved::Option& option : basis.resolved.options) {
    if (option.all_work) continue;
    std::vector<const Product*> with;
    if (option.product_id.empty()) with.push_back(nullptr);
    for (const Product& p : products)
      if (!option.product_id.empty() && p.id && fits(option, p)) with.push_back(&p);
    for (const Product* product : with) {
      if (!scope_forbidden(basis.form, option.scope, product).empty()) continue;
      Choice& made = all.emplace_back();
      made.option = product ? with_product(basis.resolved, option, *product) : option;
      made.other_product = product && *product->id != option.product_id;
      Faults faults;
      made.treatment = plan(basis, made.option, faults);
      made.estimate = price(basis, made.treatment, faults);
      made.left = feet_left(left_by(basis.survey, made.treatment));
      if (faults.errors() > 0 || made.estimate.lines.empty()) all.pop_back();
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const Choice& a, const Choice& b) {
    return a.left != b.left ? a.left < b.left : a.estimate.total > b.estimate.total;
  });
  for (Choice& c : all) c.treatment.of = &c.option;  // sorting moved what they point to
  return all;
}

const Choice* under(const std::deque<Choice>& all, Money ceiling) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const Choice& c) { return c.estimate.total <= ceiling; });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace soundsill
