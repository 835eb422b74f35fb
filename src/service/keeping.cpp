// Serves service/service.h. How long the papers of a case are kept, and what keeps them longer.
#include <algorithm>

#include "service/service.h"

namespace soundsill {
namespace {

constexpr int months_a_year = 12;

bool there(const Case& c, KeptPaper paper) {
  switch (paper) {
    case KeptPaper::report:
      return static_cast<bool>(c.signature);
    case KeptPaper::agreement:
      return c.agreement || c.accepted;
    case KeptPaper::waiver: {
      const auto& work = items(c.work);
      return !items(c.waivers).empty() ||
             std::any_of(work.begin(), work.end(), [](const Work& w) { return w.waiver.written(); });
    }
    case KeptPaper::record:
      return !items(c.applied).empty();
  }
  return false;
}

std::optional<Date> day_of(const Field<Date>& day) { return day ? std::optional(*day) : std::nullopt; }

/// The day on which a paper was signed; of several waivers, the last.
std::optional<Date> issued(const Case& c, KeptPaper paper) {
  switch (paper) {
    case KeptPaper::report:
      return c.signature ? day_of(c.signature->on) : std::nullopt;
    case KeptPaper::agreement:
      return c.agreement ? day_of(c.agreement->on) : std::nullopt;
    case KeptPaper::waiver: {
      std::optional<Date> last;
      for (const WaiverSheet& sheet : items(c.waivers)) last = std::max(last, day_of(sheet.on));
      for (const Work& w : items(c.work))
        if (w.waiver) last = std::max(last, day_of(w.waiver->on));
      return last;
    }
    case KeptPaper::record:
      return finished_on(c);
  }
  return std::nullopt;
}

std::optional<Date> counted_from(const Case& c, const Keep& rule, const std::optional<Term>& term) {
  switch (*rule.from) {
    case KeptFrom::issue:
      return issued(c, *rule.paper);
    case KeptFrom::treatment:
      return finished_on(c);
    case KeptFrom::expiration:
      // Without a warranty the agreement ends with its work.
      return term ? term->until : finished_on(c);
  }
  return std::nullopt;
}

std::vector<std::string> holds_of(const Case& c, const std::optional<Term>& term, Date today) {
  std::vector<std::string> out;
  if (term && today <= term->until) out.push_back("the warranty runs until " + print(term->until));
  for (const WarrantyEvent& e : items(c.warranty)) {
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
  const Treatment* chosen = chosen_treatment(basis.c, treatments);
  const auto term = chosen ? term_of(basis, *chosen) : std::nullopt;
  for (const Keep& rule : items(basis.form.keep)) {
    if (!rule.paper || !rule.years || !rule.from || !there(basis.c, *rule.paper)) continue;
    Keeping kept;
    kept.rule = &rule;
    if (const auto day = counted_from(basis.c, rule, term)) {
      kept.until = plus_months(*day, *rule.years * months_a_year);
      if (rule.warranty_life.value_or(false) && term) kept.until = std::max(*kept.until, term->until);
    }
    kept.passed = kept.until && *kept.until < today;
    kept.holds = holds_of(basis.c, term, today);
    out.push_back(std::move(kept));
  }
  return out;
}

}  // namespace soundsill
