// Serves service/service.h. How long the papers of a case are kept, and what keeps them longer.
#include <algorithm>

#include "service/service.h"

namespace soundsill {
namespace {

constexpr int months_a_year = 12;

bool there(const resolved::Resolved& house, KeptPaper paper) {
  switch (paper) {
    case KeptPaper::report:
      return house.signature.has_value();
    case KeptPaper::agreement:
      return house.agreement || house.accepted;
    case KeptPaper::waiver:
      return !house.waivers.empty() || !house.line_waivers.empty();
    case KeptPaper::record:
      return !house.applied.empty();
  }
  return false;
}

/// The day on which a paper was signed; of several waivers, the last.
std::optional<Date> issued(const resolved::Resolved& house, KeptPaper paper) {
  switch (paper) {
    case KeptPaper::report:
      return house.signature ? house.signature->on : std::nullopt;
    case KeptPaper::agreement:
      return house.agreement ? house.agreement->on : std::nullopt;
    case KeptPaper::waiver: {
      std::optional<Date> last;
      for (const resolved::WaiverSheet& sheet : house.waivers) last = std::max(last, sheet.on);
      for (const resolved::Waiver& waiver : house.line_waivers) last = std::max(last, waiver.on);
      return last;
    }
    case KeptPaper::record:
      return finished_on(house);
  }
  return std::nullopt;
}

std::optional<Date> counted_from(const resolved::Resolved& house, const Keep& rule, const std::optional<Term>& term) {
  switch (*rule.from) {
    case KeptFrom::issue:
      return issued(house, *rule.paper);
    case KeptFrom::treatment:
      return finished_on(house);
    case KeptFrom::expiration:
      // Without a warranty the agreement ends with its work.
      return term ? term->until : finished_on(house);
  }
  return std::nullopt;
}

std::vector<std::string> holds_of(const resolved::Resolved& house, const std::optional<Term>& term, Date today) {
  std::vector<std::string> out;
  if (term && today <= term->until) out.push_back("the warranty runs until " + print(term->until));
  for (const resolved::WarrantyEvent& e : house.warranty) {
    const bool open =
        e.did && (*e.did == WarrantyDid::claim || *e.did == WarrantyDid::complaint || *e.did == WarrantyDid::notice);
    if (open && e.on && !e.settled)
      out.push_back("the " + std::string(yaml::word(*e.did)) + " of " + print(*e.on) + " is open");
  }
  return out;
}

}  // namespace

std::vector<Keeping> keeping(const Basis& basis, const std::vector<Treatment>& treatments, Date today) {
  std::vector<Keeping> out;
  const Treatment* chosen = chosen_treatment(basis.resolved, treatments);
  const auto term = chosen ? term_of(basis, *chosen) : std::nullopt;
  for (const Keep& rule : items(basis.form.keep)) {
    if (!rule.paper || !rule.years || !rule.from || !there(basis.resolved, *rule.paper)) continue;
    Keeping kept;
    kept.rule = &rule;
    if (const auto day = counted_from(basis.resolved, rule, term)) {
      kept.until = plus_months(*day, *rule.years * months_a_year);
      if (rule.warranty_life.value_or(false) && term) kept.until = std::max(*kept.until, term->until);
    }
    kept.passed = kept.until && *kept.until < today;
    kept.holds = holds_of(basis.resolved, term, today);
    out.push_back(std::move(kept));
  }
  return out;
}

}  // namespace soundsill
