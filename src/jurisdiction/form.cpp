#include "jurisdiction/form.h"

#include "diagnostics/names.h"

#include <algorithm>
#include <functional>

namespace soundsill {

const RuleUse* Form::uses(std::string_view rule_code) const {
  if (rules)
    for (const RuleUse& use : *rules)
      if (use.rule && *use.rule == rule_code) return &use;
  return nullptr;
}

namespace {

bool holds(const ListOf<std::string>& list, std::string_view word) {
  return list && std::find(list->begin(), list->end(), word) != list->end();
}
template <class T>
const T* named(const ListOf<T>& list, std::string_view name) {
  if (list)
    for (const T& item : *list)
      if (item.name && *item.name == name) return &item;
  return nullptr;
}
template <class T>
const T& number_of(const T& value) {
  return value;
}
const Ratio& number_of(const Percent& percent) { return percent.value; }

template <class T>
std::optional<T> read_whole(const Source& source, Faults& faults) {
  const auto tree = yaml::read(source, faults);
  if (!tree) return std::nullopt;
  yaml::Reader reader(faults);
  std::optional<T> made(std::in_place);
  if (!yaml::Reading<T>::fill(reader, *tree, *made)) made.reset();
  return made;
}

}  // namespace

bool Method::is_against(std::string_view organism) const { return holds(against, organism); }
bool Method::does_correct(std::string_view condition) const { return holds(corrects, condition); }
const Method* Trade::method(std::string_view name) const { return named(methods, name); }
const Organism* Trade::organism(std::string_view name) const { return named(organisms, name); }
const Condition* Trade::condition(std::string_view name) const { return named(conditions, name); }
bool Trade::in_group(const Field<std::string>& name, OrganismGroup group) const {
  const Organism* found = name ? organism(*name) : nullptr;
  return found && found->group && *found->group == group;
}

namespace {

/// Rules that a form names must wait for a form; a slip would leave a rule of the state unchecked.
void check_rules(const Form& form, Faults& faults) {
  std::vector<std::string_view> known;
  for (const RuleInfo& rule : catalogue())
    if (rule.kind == RuleKind::asked) known.push_back(rule.code);
  for (const RuleUse& use : form.rules ? *form.rules : std::vector<RuleUse>()) {
    if (!use.rule || std::find(known.begin(), known.end(), *use.rule) != known.end()) continue;
    faults.add(Rule::bad_form, use.rule.at, "`" + *use.rule + "` is no rule that a form can switch on",
               "a rule that the state asks for would never be checked",
               did_you_mean(*use.rule, known, "name one of " + yaml::listed(known)));
  }
}

}  // namespace

std::optional<Form> read_form(const Source& source, Faults& faults) {
  auto form = read_whole<Form>(source, faults);
  if (!form) return form;
  check_rules(*form, faults);
  if (form->limits)
    Limits::each([&](auto member, Limits::Stricter, Limits::Need, const char*) {
      const auto& datum = (*form->limits).*member;
      if (!datum || !datum->value) return;
      if (datum->status && *datum->status != Status::memory) form->told.*member = datum;
      if (rests_on(*datum) == Rests::read) form->firm.*member = datum;
    });
  return form;
}
std::optional<Trade> read_trade(const Source& source, Faults& faults) { return read_whole<Trade>(source, faults); }

const NoticeRule* Form::notice_of(NoticeOf what) const {
  if (notices)
    for (const NoticeRule& one : *notices)
      if (one.of.value_or(NoticeOf::treatment) == what) return &one;
  return nullptr;
}

bool Form::has_read(Matter matter) const {
  return !unread || std::none_of(unread->begin(), unread->end(),
                                 [&](const Unread& u) { return !u.matter || *u.matter == matter; });
}

namespace {

/// A state's list of items, with what is asked everywhere besides.
AgreementRule with_items(AgreementRule mine, const AgreementRule& base) {
  std::vector<ItemRule> all = mine.items ? *mine.items : std::vector<ItemRule>();
  for (const ItemRule& theirs : base.items ? *base.items : std::vector<ItemRule>()) {
    const bool there = std::any_of(all.begin(), all.end(),
                                   [&](const ItemRule& i) { return i.item && theirs.item && *i.item == *theirs.item; });
    if (!there) all.push_back(theirs);
  }
  if (base.items) mine.items.set(std::move(all));
  return mine;
}

/// A state's days of cancellation, with the federal ones for what it leaves unsaid.
CancellationRule filled(CancellationRule mine, const CancellationRule& base) {
  const auto fill = [](auto& own, const auto& theirs) {
    if (!own) own = theirs;
  };
  fill(mine.business_days, base.business_days);
  fill(mine.senior_days, base.senior_days);
  fill(mine.senior_age, base.senior_age);
  fill(mine.home_from, base.home_from);
  fill(mine.elsewhere_from, base.elsewhere_from);
  return mine;
}

}  // namespace

bool fill_from(Form& form, const Form& base, Faults& faults) {
  const auto fill = [](auto& mine, const auto& theirs) {
    if (!mine) mine = theirs;
  };
  fill(form.partial, base.partial);
  fill(form.estimate_apart, base.estimate_apart);
  fill(form.cancellation, base.cancellation);
  if (form.cancellation && base.cancellation) form.cancellation.set(filled(*form.cancellation, *base.cancellation));
  fill(form.agreement, base.agreement);
  if (form.agreement && base.agreement) form.agreement.set(with_items(*form.agreement, *base.agreement));
  fill(form.poison_center, base.poison_center);
  fill(form.locate_line, base.locate_line);
  fill(form.active_tests, base.active_tests);
  fill(form.loose_words, base.loose_words);
  fill(form.lender_sheet, base.lender_sheet);
  Limits limits = form.limits ? *form.limits : Limits();
  bool whole = true;
  Limits::each([&](auto member, Limits::Stricter, Limits::Need need, const char* key) {
    const auto known = [&] { return limits.*member && (limits.*member)->value; };
    if (!known() && base.limits) limits.*member = (*base.limits).*member;
    fill(form.told.*member, base.told.*member);
    fill(form.firm.*member, base.firm.*member);
    if (need == Limits::Need::optional || known()) return;
    whole = false;
    faults.add(Rule::bad_form, form.limits.at ? form.limits.at : form.at,
               "the limit `" + std::string(key) + "` is set neither here nor in the general form",
               "what rests on it could be neither planned nor checked",
               "write `" + std::string(key) + ": {value: ..., cite: ..., status: ...}`");
  });
  form.limits.set(std::move(limits));
  return whole;
}

namespace {

/// Of two numbers the one that `stricter` prefers, with its own citation; of one, that one.
template <class T, class Stricter>
void tighter(Field<Datum<T>>& mine, const Field<Datum<T>>& theirs, Stricter stricter) {
  if (!theirs || !theirs->value) return;
  if (!mine || !mine->value || stricter(*theirs->value, *mine->value)) mine = theirs;
}

/// Of every limit the stricter one.
Limits tightened(Limits mine, const Limits& theirs) {
  Limits::each([&](auto member, Limits::Stricter stricter, Limits::Need, const char*) {
    tighter(mine.*member, theirs.*member, [stricter](const auto& a, const auto& b) {
      if (stricter == Limits::Stricter::first) return false;
      return stricter == Limits::Stricter::greater ? number_of(b) < number_of(a) : number_of(a) < number_of(b);
    });
  });
  return mine;
}

/// What a loan asks of an agreement besides.
AgreementRule tightened(AgreementRule mine, const AgreementRule& theirs) {
  tighter(mine.within_days, theirs.within_days, std::less<>());
  tighter(mine.with_report, theirs.with_report, std::greater<>());
  tighter(mine.fungus_notice, theirs.fungus_notice, std::greater<>());
  tighter(mine.letters, theirs.letters, std::greater<>());
  tighter(mine.addendum, theirs.addendum, std::greater<>());
  tighter(mine.statements_boxed, theirs.statements_boxed, std::greater<>());
  tighter(mine.statement_first, theirs.statement_first, std::greater<>());
  if (theirs.retreatment_statement) mine.retreatment_statement = theirs.retreatment_statement;
  if (theirs.repair_statement) mine.repair_statement = theirs.repair_statement;
  if (theirs.bait_statement) mine.bait_statement = theirs.bait_statement;
  return with_items(std::move(mine), theirs);
}

CancellationRule tightened(CancellationRule mine, const CancellationRule& theirs) {
  tighter(mine.business_days, theirs.business_days, std::greater<>());
  tighter(mine.senior_days, theirs.senior_days, std::greater<>());
  tighter(mine.senior_age, theirs.senior_age, std::less<>());
  tighter(mine.home_from, theirs.home_from, std::less<>());
  tighter(mine.elsewhere_from, theirs.elsewhere_from, std::less<>());
  return mine;
}

ReportRule tightened(ReportRule mine, const ReportRule& theirs) {
  tighter(mine.deliver_within, theirs.deliver_within, std::less<>());
  tighter(mine.control_number, theirs.control_number, std::greater<>());
  return mine;
}

template <class T>
void lay_over(Field<T>& mine, const Field<T>& theirs) {
  if (!theirs) return;
  if (mine)
    mine.set(tightened(*mine, *theirs));
  else
    mine = theirs;
}

}  // namespace

void tighten(Form& form, const Form& overlay) {
  if (form.limits && overlay.limits) form.limits.set(tightened(*form.limits, *overlay.limits));
  form.told = tightened(form.told, overlay.told);
  form.firm = tightened(form.firm, overlay.firm);
  const auto append = [](auto& mine, const auto& theirs) {
    if (!theirs) return;
    auto all = mine ? *mine : *theirs;
    if (mine) all.insert(all.end(), theirs->begin(), theirs->end());
    mine.set(std::move(all));
  };
  tighter(form.partial, overlay.partial, std::greater<>());  // allowed, with a waiver, forbidden
  tighter(form.estimate_apart, overlay.estimate_apart, std::greater<>());
  lay_over(form.cancellation, overlay.cancellation);
  lay_over(form.report, overlay.report);
  lay_over(form.agreement, overlay.agreement);
  // Of what cannot be compared, the loan's own word counts.
  const auto instead = [](auto& mine, const auto& theirs) {
    if (theirs) mine = theirs;
  };
  instead(form.official_sheet, overlay.official_sheet);
  instead(form.license, overlay.license);
  instead(form.free_treatment, overlay.free_treatment);
  instead(form.beetles, overlay.beetles);
  instead(form.poison_center, overlay.poison_center);
  instead(form.locate_line, overlay.locate_line);
  instead(form.invoice, overlay.invoice);
  instead(form.lender_sheet, overlay.lender_sheet);
  append(form.filings, overlay.filings);
  append(form.keep, overlay.keep);
  append(form.notices, overlay.notices);
  append(form.rules, overlay.rules);
  append(form.unread, overlay.unread);
  append(form.active_tests, overlay.active_tests);
  append(form.loose_words, overlay.loose_words);
}

}  // namespace soundsill
