// Serves resolved/resolved.h: everything is looked up in this order.
#include <algorithm>

#include "resolved/fill.h"

namespace soundsill::resolved {

Limits limits_of(const Form& form) {
  Limits out;
  if (!form.limits) return out;
  const auto take = [](auto& limit, const auto& datum) {
    if (!datum || !datum->value) return;
    limit.emplace();
    limit->value = *datum->value;
    if (datum->cite) limit->cite = *datum->cite;
    if (datum->status) limit->status = *datum->status;
    limit->at = datum->value.at;
  };
#define LIMIT(member, type, stricter, need, key, doc) take(out.member, form.limits->member);
#include "jurisdiction/limits.def"
#undef LIMIT
  return out;
}

Resolved resolve(const Case& c, const Form& form, const Trade& trade, const Company& company, const Survey& survey,
                 Faults& faults) {
  Resolved out;
  out.limits = limits_of(form);
  fill_facts(c, survey, out);
  fill_findings(c, trade, survey, out);
  fill_options(c, trade, company, survey, out, faults);
  return out;
}

const Option* Resolved::option(std::string_view id) const {
  const auto found = std::find_if(options.begin(), options.end(), [&](const Option& o) { return o.id == id; });
  return found == options.end() ? nullptr : &*found;
}

const Structure* Resolved::structure(std::string_view name) const {
  const auto found = std::find_if(structures.begin(), structures.end(), [&](const auto& s) { return s.name == name; });
  return found == structures.end() ? nullptr : &*found;
}

Option with_product(const Resolved& all, const Option& option, const Product& product) {
  Option out = option;
  out.product = &product;
  out.product_id = product.id.value_or("");
  Faults told;  // when the option was resolved
  for (Line& line : out.lines) {
    if (!line.product || line.own_product) continue;
    line.product = &product;
    if (line.structure && line.structure->drawn() && measured(line.takes)) cover(line, all, told);
  }
  return out;
}

}  // namespace soundsill::resolved
