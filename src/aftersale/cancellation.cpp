// Serves aftersale/after_builder.h. The right to cancel a sale made at the home: the statement, the notice in
// duplicate.
#include <algorithm>

#include "aftersale/after_builder.h"

namespace soundsill::document {

using F = Words::Fill;

namespace {

/// The least price from which a sale at its place can be canceled; nothing where it cannot. Where nobody says the place
/// it is the home: the right is never assumed away.
const Datum<Money>* from_price(const PacketInput& in) {
  const auto& rule = in.basis.form.cancellation;
  if (!rule) return nullptr;
  const SoldAt at = in.basis.resolved.facts.sold_at.value_or(SoldAt::home);
  const auto& from = at == SoldAt::home ? rule->home_from : rule->elsewhere_from;
  const bool can = at == SoldAt::home || at == SoldAt::elsewhere;
  return can && from && from->value ? &*from : nullptr;
}

/// Business days to cancel: the senior's where the customer is one, and where nobody says.
int days_to_cancel(const PacketInput& in) {
  const auto& rule = in.basis.form.cancellation;
  if (!rule) return 0;
  const int days = rule->business_days ? rule->business_days->value.value_or(0) : 0;
  const bool senior = in.basis.resolved.facts.senior.value_or(true);
  return senior && rule->senior_days ? std::max(days, rule->senior_days->value.value_or(0)) : days;
}

std::optional<Date> day_of_sale(const resolved::Resolved& house) {
  return house.accepted ? house.accepted->on : std::nullopt;
}

/// One copy, filled in as the rule asks of the seller. A day that is not known yet is a line to be filled in by hand
/// before the buyer signs: the rule forbids to hand over an empty form.
Section notice(const Builder& b, int copy) {
  Section out{"cancellation", "cancellation-" + std::to_string(copy), {}};
  const Company& company = b.in.basis.company;
  const auto sold = day_of_sale(b.house);
  const auto last = last_day_to_cancel(b.in);
  const auto day = [&](const std::optional<Date>& date) { return date ? b.words.shown(*date) : b.say(Word::wo_line); };
  out.blocks.push_back(Heading{1, out.id + "-heading", text(b.say(Word::cancel_title)), true});
  const auto say = [&](std::string said) { out.blocks.push_back(Paragraph{"body", strong(std::move(said))}); };
  say(b.say(Word::cancel_date, F{"date", day(sold)}));
  say(b.say(Word::cancel_may, F{"days", nth_word(b.say(Word::cancel_numbers), days_to_cancel(b.in))}));
  for (const Word w : {Word::cancel_returned, Word::cancel_goods, Word::cancel_pick_up, Word::cancel_fail})
    say(b.say(w));
  say(b.say(Word::cancel_how, F{"company", company.name.value_or("")}, F{"address", company.address.value_or("")},
            F{"date", day(last)}));
  Signatures s;
  s.name_label = b.say(Word::sign_name);
  s.date_label = b.say(Word::sign_date);
  s.lines.push_back({strong(b.say(Word::cancel_hereby)), b.say(Word::cancel_who), {}, {}});
  out.blocks.emplace_back(std::move(s));
  out.blocks.push_back(Paragraph{"note", text(b.say(Word::cancel_copy, F{"number", std::to_string(copy)}))});
  return out;
}

}  // namespace

bool can_be_canceled(const PacketInput& in) {
  const Datum<Money>* from = from_price(in);
  return from && !in.estimates.empty() && *from->value <= in.estimates.front().total;
}

std::optional<Date> last_day_to_cancel(const PacketInput& in) {
  const auto sold = day_of_sale(in.basis.resolved);
  const int days = days_to_cancel(in);
  if (!sold || days <= 0) return std::nullopt;
  return business_days_after(items(in.basis.trade.holidays), *sold, days);
}

void cancellation_statement(const Builder& b, std::vector<Block>& blocks) {
  if (!can_be_canceled(b.in)) return;
  const std::string day = nth_word(b.say(Word::cancel_ordinals), days_to_cancel(b.in));
  blocks.push_back(Paragraph{"before-signing", strong(b.say(Word::cancel_statement, F{"day", day}))});
}

void cancellation_notices(const Builder& b, std::vector<Section>& sections) {
  if (!can_be_canceled(b.in)) return;
  for (const int copy : {1, 2}) sections.push_back(notice(b, copy));
}

}  // namespace soundsill::document
