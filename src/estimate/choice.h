// Which option a buyer can have for the money.
#pragma once

#include <deque>
#include <optional>
#include <string>

#include "estimate/estimate.h"

namespace soundsill {

/// One option with one of the company's products, planned and priced.
struct Choice {
  resolved::Option option;  ///< the treatment points to it
  Treatment treatment;
  Estimate estimate;
  Length left;                 ///< feet of soil that a full treatment would take and this one does not
  bool other_product = false;  ///< than the option names
};

/// Every option of the case with every product whose label names its work, as long as label and form allow the scope
/// and nothing is wrong with the plan; the most complete first, of equals the dearer.
[[nodiscard]] std::deque<Choice> choices(const Basis& basis);

/// The most complete choice whose total is at most `ceiling`; a complete treatment with another product comes before a
/// partial one. nullptr when none is so cheap.
[[nodiscard]] const Choice* under(const std::deque<Choice>& all, Money ceiling);

/// Whether a scope may be offered: by the label of the product and by the form. Empty, or why not.
[[nodiscard]] std::string scope_forbidden(const Form& form, Scope scope, const Product* product);

}  // namespace soundsill
