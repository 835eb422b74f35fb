// Serves packet/estimate_pages.h. What an option leaves, promises and asks: scope, waivers, warranty, terms, cautions,
// and the choices side by side.
#include <algorithm>

#include "packet/estimate_pages.h"

namespace soundsill::document {

using F = Words::Fill;

namespace {

constexpr std::initializer_list<Takes> in_soil{Takes::soil,       Takes::backfill,   Takes::voids,     Takes::slab,
                                               Takes::under_slab, Takes::bath_traps, Takes::crawl_area};
constexpr std::initializer_list<Takes> on_wood{Takes::wood_surface, Takes::wood_volume};

}  // namespace

void EstimatePages::waivers(std::vector<Block>& blocks) const {
  std::vector<std::string> told;  // a line cut in two by its scope has one waiver
  for (const Task& task : t.tasks) {
    const auto& w = task.line->waiver;
    if (!w || w->by.empty() || !w->on || w->because.empty()) continue;
    const std::string& id_of = task.line->id;
    if (std::find(told.begin(), told.end(), id_of) != told.end()) continue;
    told.push_back(id_of);
    if (told.size() == 1) blocks.push_back(Heading{sub(), id("waived"), text(b.say(Word::waived_heading)), true});
    Facts facts;
    facts.facts.push_back({b.say(Word::waived_what), text(capitalized(b.work_short(*task.line)))});
    facts.facts.push_back({b.say(Word::waived_by), b.typed(w->by)});
    facts.facts.push_back({b.say(Word::waived_on), text(b.words.shown(*w->on))});
    facts.facts.push_back({b.say(Word::waived_because), b.typed(w->because)});
    blocks.emplace_back(std::move(facts));
  }
  if (!told.empty()) blocks.push_back(Paragraph{"caution", text(b.say(Word::waived_means))});
}

void EstimatePages::warranty(std::vector<Block>& blocks) const {
  blocks.push_back(Heading{sub(), id("warranty"), text(b.say(Word::warranty_heading)), true});
  const WarrantyFacts* w = warranty_of(t);
  if (!w || !w->kind || *w->kind == WarrantyKind::none) {
    blocks.push_back(Paragraph{"body", text(b.say(Word::warranty_none))});
    return;
  }
  const std::string months = std::to_string(w->months.value_or(0));
  std::string kind = b.say(*w->kind == WarrantyKind::retreatment ? Word::warranty_retreatment : Word::warranty_repair,
                           F{"months", months});
  if (w->renewal)
    kind += " " + b.say(Word::warranty_renewal, F{"fee", b.stated(Topic::renewal, print(*w->renewal), t.id)});
  blocks.push_back(Paragraph{"body", text(kind)});
  const auto list = [&](Word heading, Topic topic, const ListOf<std::string>& of) {
    if (!of || of->empty()) return;
    blocks.push_back(Paragraph{"body", text(b.say(heading))});
    List out;
    for (const std::string& s : *of) out.items.push_back(b.typed(b.stated(topic, s, t.id)));
    blocks.emplace_back(std::move(out));
  };
  list(Word::warranty_conditions, Topic::comes_back_when, w->conditions);
  list(Word::warranty_voided, Topic::ends_when, w->voided_by);
  if (w->transfer)
    blocks.push_back(Paragraph{
        "body", text(b.say(Word::warranty_transfer, F{"transfer", b.stated(Topic::transfer, *w->transfer, t.id)}))});
  const bool partial = t.of->partial();
  if (partial && w->partial_because && *w->kind == WarrantyKind::retreatment_and_repair)
    blocks.push_back(Paragraph{"body", text(b.say(Word::warranty_partial, F{"because", *w->partial_because}))});
  if (*w->kind == WarrantyKind::retreatment_and_repair) stood_before(blocks);
}

void EstimatePages::stood_before(std::vector<Block>& blocks) const {
  List out;
  for (const Finding& f : b.house.findings)
    if (f.no && f.is(FindingKind::damage))
      out.items.push_back(
          text(b.say(Word::repair_not_damage, F{"number", std::to_string(*f.no)}, F{"where", b.place_of(f)})));
  for (const SurveyedStructure& s : b.in.basis.survey.structures) {
    std::vector<std::string> hidden;
    if (!s.walls_not_seen.empty()) hidden.push_back(b.stretch_words(s, s.walls_not_seen));
    for (const int n : s.piers_not_seen) hidden.push_back(b.words.name("pier") + " " + std::to_string(n));
    if (!hidden.empty())
      out.items.push_back(
          text(b.say(Word::repair_not_seen, F{"structure", s.name}, F{"list", in_words(b.words, hidden)})));
  }
  for (const std::string& one : b.left_words(t)) out.items.push_back(text(one));
  if (out.items.empty()) return;
  blocks.push_back(Paragraph{"body", text(b.say(Word::repair_not))});
  blocks.emplace_back(std::move(out));
}

void EstimatePages::limits_of_price(std::vector<Block>& blocks) const {
  const auto& terms = b.in.basis.company.terms;
  const auto list = [&](std::string id_, Word heading, std::vector<Runs> of) {
    if (of.empty()) return;
    blocks.push_back(Heading{3, std::move(id_), text(b.say(heading)), true});
    List out;
    out.items = std::move(of);
    blocks.emplace_back(std::move(out));
  };
  std::vector<Runs> included, paying, prepare;
  if (any_takes(in_soil))
    for (const Word w : {Word::prepare_animals, Word::prepare_air, Word::prepare_goods})
      prepare.push_back(text(b.say(w)));
  if (any_air(false)) prepare.push_back(text(b.say(Word::prepare_heat)));
  if (any_takes(on_wood)) prepare.push_back(text(b.say(Word::prepare_wood)));
  if (terms && terms->included)
    for (const std::string& one : *terms->included) included.push_back(b.typed(one));
  if (terms && terms->prepare)
    for (const std::string& one : *terms->prepare) prepare.push_back(b.typed(one));
  list("included", Word::included_heading, std::move(included));
  list("not-included", Word::not_included_heading,
       {text(b.say(Word::not_included_repairs)), text(b.say(Word::not_included_hidden))});
  list("prepare", Word::prepare_heading, std::move(prepare));
  if (terms && terms->deposit)
    paying.push_back(text(b.say(Word::deposit, F{"percent", shortest(terms->deposit->value, 2)})));
  if (e.holds_until) paying.push_back(text(b.say(Word::price_holds, F{"date", b.holds_until(e)})));
  const auto& sold_at = b.house.facts.sold_at;
  const bool elsewhere = sold_at == SoldAt::office || sold_at == SoldAt::afar;
  if (const auto& rule = b.in.basis.form.cancellation; rule && rule->business_days && !elsewhere)
    canceling(*rule, paying);
  list("paying", Word::paying_heading, std::move(paying));
}

void EstimatePages::canceling(const CancellationRule& rule, std::vector<Runs>& out) const {
  const std::string ordinals = b.say(Word::cancel_ordinals);
  const auto day = [&](const Datum<int>& days) { return nth_word(ordinals, days.value.value_or(0)); };
  out.push_back(text(
      b.say(Word::cancellation, F{"day", day(*rule.business_days)}, F{"cite", printed_cite(*rule.business_days)})));
  const bool senior = b.house.facts.senior.value_or(true);
  if (senior && rule.senior_days && rule.senior_age && rule.senior_age->value)
    out.push_back(text(b.say(Word::cancellation_senior, F{"age", std::to_string(*rule.senior_age->value)},
                             F{"day", day(*rule.senior_days)}, F{"cite", printed_cite(*rule.senior_days)})));
}

void EstimatePages::would_change(std::vector<Block>& blocks, int level) const {
  const bool soil = std::any_of(t.runs.begin(), t.runs.end(), [](const auto& run) { return is_soil(run.kind); });
  if (!soil) return;  // nothing depends on a depth
  blocks.push_back(Heading{level, id("would-change"), text(b.say(Word::would_change_heading)), true});
  std::vector<std::string> assumed;
  for (const auto& run : t.runs)
    if (run.footing_known_by && *run.footing_known_by == KnownBy::assumed)
      assumed.push_back(std::to_string(run.number));
  blocks.push_back(Paragraph{
      "body", text(assumed.empty() ? b.say(Word::would_change_none)
                                   : b.say(Word::would_change_assumed, F{"numbers", in_words(b.words, assumed)}))});
  List list;
  for (const Otherwise& other : otherwise(b.in.basis, t, e))
    list.items.push_back(text(capitalized(b.otherwise_words(other))));
  if (!list.items.empty()) blocks.emplace_back(std::move(list));
}

void EstimatePages::cautions(std::vector<Block>& blocks) const {
  blocks.push_back(Heading{3, "cautions", text(b.say(Word::cautions_heading)), true});
  List list;
  list.items.push_back(text(b.say(Word::caution_label)));
  const auto put = [&](bool there, Word w) {
    if (there) list.items.push_back(text(b.say(w)));
  };
  put(any_takes(in_soil), Word::caution_dry);
  put(any_takes(in_soil), Word::caution_vents);
  put(any_takes(in_soil) || any_takes({Takes::stations, Takes::soil_removal}), Word::caution_drill);
  put(any_takes({Takes::stations}), Word::caution_bait);
  put(any_takes(on_wood), Word::caution_wood);
  put(any_air(false), Word::caution_heat);
  put(any_air(true), Word::caution_tent);
  for (const Structure& s : b.house.structures)
    for (const SurveyedDanger& danger : s.details->dangers)
      if (danger.answer && danger.answer->kind == Answer::Kind::there)
        list.items.push_back(text(b.say(Word::danger_there, F{"danger", b.words.name(danger.key)},
                                        F{"places", in_words(b.words, danger.answer->places)})));
  blocks.emplace_back(std::move(list));
}

bool EstimatePages::any_takes(std::initializer_list<Takes> kinds) const {
  const auto does = [&](const Task& task) {
    return task.method && task.method->takes &&
           std::find(kinds.begin(), kinds.end(), *task.method->takes) != kinds.end();
  };
  return std::any_of(b.in.treatments.begin(), b.in.treatments.end(),
                     [&](const Treatment& one) { return std::any_of(one.tasks.begin(), one.tasks.end(), does); });
}

// The air of a house is heated, or a named firm fills it with gas under a tent.
bool EstimatePages::any_air(bool by_a_named_firm) const {
  const auto does = [&](const Task& task) {
    return task.method && task.method->takes && *task.method->takes == Takes::air_volume &&
           task.method->names_firm.value_or(false) == by_a_named_firm;
  };
  return std::any_of(b.in.treatments.begin(), b.in.treatments.end(),
                     [&](const Treatment& one) { return std::any_of(one.tasks.begin(), one.tasks.end(), does); });
}

const WarrantyFacts* EstimatePages::warranty_of(const Treatment& other) const {
  return other.of ? other.of->warranty : nullptr;
}

std::string EstimatePages::warranty_short(const Treatment& other) const {
  const WarrantyFacts* w = warranty_of(other);
  if (!w || !w->kind || *w->kind == WarrantyKind::none) return b.say(Word::short_none);
  return b.say(*w->kind == WarrantyKind::retreatment ? Word::short_retreatment : Word::short_repair,
               F{"months", std::to_string(w->months.value_or(0))});
}

void EstimatePages::scope(std::vector<Block>& blocks) const {
  const Scope scope = t.of ? t.of->scope : Scope::full;
  constexpr Word gives_up[] = {Word::scope_full, Word::scope_outside, Word::scope_evidence, Word::scope_bait};
  const auto left = b.left_words(t);
  const bool partial = scope != Scope::full;
  if (!partial && left.empty()) return;
  if (partial) {
    blocks.push_back(Paragraph{"body", text(b.say(gives_up[static_cast<std::size_t>(scope)]))});
    if (!t.of->because.empty())
      blocks.push_back(Paragraph{"body", text(b.say(Word::scope_because, F{"because", t.of->because}))});
  }
  for (const std::string& one : left) blocks.push_back(Paragraph{"body", text(one)});
  const auto& rule = b.in.basis.form.partial;
  const bool signed_already = std::any_of(t.tasks.begin(), t.tasks.end(),
                                          [](const Task& task) { return task.line->waiver && task.line->waiver->on; });
  if (partial && !signed_already && rule && rule->value && *rule->value == Partial::waiver)
    blocks.push_back(Paragraph{"caution", text(b.say(Word::scope_waiver, F{"cite", printed_cite(*rule)}))});
}

void EstimatePages::other_options(std::vector<Block>& blocks) const {
  if (b.in.treatments.size() < 2) return;
  blocks.push_back(Heading{3, "options", text(b.say(Word::other_options_heading)), true});
  Table out;
  out.style = "priced";
  out.caption = b.say(Word::other_options_caption);
  out.row_heads = true;
  out.columns = {{b.say(Word::column_option), Column::Align::left, 4, false},
                 {b.say(Word::column_gallons), Column::Align::right, 1, true},
                 {b.say(Word::column_holes), Column::Align::right, 1, true},
                 {b.say(Word::column_hours), Column::Align::right, 1, true},
                 {b.say(Word::column_warranty), Column::Align::left, 3, false},
                 {b.say(Word::column_amount), Column::Align::right, 1, true}};
  for (std::size_t i = 0; i < b.in.treatments.size() && i < b.in.estimates.size(); ++i) {
    const Treatment& other = b.in.treatments[i];
    out.rows.push_back(
        {"",
         {text(b.option_name(other)), text(other.gallons > Ratio(0) ? decimal(other.gallons, 1) : std::string()),
          text(other.holes ? grouped(other.holes) : std::string()),
          text(other.timed && other.minutes > Ratio(0) ? decimal(other.crew_hours, 1) : std::string()),
          text(warranty_short(other)),
          text(b.in.estimates[i].lines.empty() ? b.say(Word::not_our_price) : b.total_of(b.in.estimates[i]))}});
  }
  blocks.emplace_back(std::move(out));
}

}  // namespace soundsill::document
