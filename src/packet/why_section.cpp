// Serves packet/builder.h. Why it costs this, what an option leaves alone, and what stands between the lines and the
// total.
#include <algorithm>

#include "packet/builder.h"

namespace soundsill::document {

using F = Words::Fill;

namespace {

/// What work of one name takes, in one unit.
struct Part {
  std::string label;
  Ratio value;
};

/// One part for each name, so that lines of one kind stand once.
std::vector<Part> parts_of(const Builder& b, const Treatment& t, const auto& value) {
  std::vector<Part> out;
  for (const Task& task : t.tasks) {
    const Ratio sum = value(task);
    if (sum <= Ratio(0)) continue;
    const std::string label = b.work_short(*task.line);
    const auto same = std::find_if(out.begin(), out.end(), [&](const Part& p) { return p.label == label; });
    if (same == out.end())
      out.push_back({label, sum});
    else
      same->value += sum;
  }
  return out;
}

Ratio over_runs(const Treatment& t, const Task& task, const auto& of) {
  Ratio sum;
  for (const std::size_t i : task.runs) sum += of(t.runs[i]);
  return sum;
}

}  // namespace

std::vector<std::pair<std::string, std::string>> Builder::settling(const Estimate& e) const {
  std::vector<std::pair<std::string, std::string>> out;
  const auto money = [](Money m) { return m.cents < 0 ? "-" + print(Money{-m.cents}) : print(m); };
  for (const AdjustedLine& a : e.adjustments) {
    const std::string kind = capitalized(words.name(yaml::word(a.of->kind)));
    const std::string because = stated(Topic::adjusted_because, a.of->because, e.option);
    (void)stated(Topic::adjusted, print(Money{std::abs(a.amount.cents)}), e.option);
    out.emplace_back(a.of->percent ? say(Word::adjusted_percent, F{"kind", kind}, F{"because", because},
                                         F{"percent", shortest(a.of->percent->value, 4)}, F{"base", print(a.base)})
                                   : say(Word::adjusted, F{"kind", kind}, F{"because", because}),
                     money(a.amount));
  }
  if (e.to_minimum)
    out.emplace_back(capitalized(say(Word::minimum_line)), stated(Topic::to_minimum, print(*e.to_minimum), e.option));
  for (const TaxLine& tax : e.taxes)
    out.emplace_back(
        say(Word::sales_tax, F{"percent", stated(Topic::tax_percent, shortest(tax.percent.value, 4), e.option)},
            F{"base", stated(Topic::tax_base, print(tax.base), e.option)}),
        stated(Topic::tax, print(tax.amount), e.option));
  return out;
}

std::string Builder::stretch_words(const SurveyedStructure& s, const std::vector<Stretch>& all) const {
  std::vector<std::string> list;
  for (const Stretch& one : all) {
    const Wall* wall = s.wall(one.wall);
    const bool whole = wall && one.a == Length{} && one.b == wall->length;
    list.push_back(words.name("wall") + " " + std::to_string(one.wall) +
                   (whole ? std::string()
                          : " " + words.name("from") + " " + words.shown(one.a) + " " + words.name("to") + " " +
                                words.shown(one.b)));
  }
  return in_words(words, list);
}

std::vector<std::string> Builder::left_words(const Treatment& t) const {
  std::vector<std::string> out;
  for (const LeftOut& one : t.left_out) {
    const SurveyedStructure* s = in.basis.survey.find(one.structure);
    if (!s) continue;
    const std::string prefix = structure_prefix(one.structure);
    if (!one.outside.empty())
      out.push_back(prefix + say(Word::left_outside, F{"list", stretch_words(*s, one.outside)}));
    if (!one.inside.empty()) out.push_back(prefix + say(Word::left_inside, F{"list", stretch_words(*s, one.inside)}));
    if (!one.below.empty()) out.push_back(prefix + say(Word::left_below, F{"list", stretch_words(*s, one.below)}));
    if (!one.paved.empty()) out.push_back(prefix + say(Word::left_paved, F{"list", stretch_words(*s, one.paved)}));
    std::vector<std::string> things;
    for (const int n : one.piers) things.push_back(words.name("pier") + " " + std::to_string(n));
    things.insert(things.end(), one.named.begin(), one.named.end());
    if (!things.empty()) out.push_back(prefix + say(Word::left_things, F{"list", in_words(words, things)}));
  }
  return out;
}

/// Why it costs this: what the work takes as a picture, and a few sentences from its numbers.
Section Builder::why() const {
  Section out{"why", "why", {}};
  const Builder b = noting(out.record);
  const std::size_t i = reasoned();
  if (i >= in.estimates.size() || i >= in.treatments.size()) return out;
  const Estimate* e = &in.estimates[i];
  const Treatment* t = &in.treatments[i];
  out.blocks.push_back(Heading{2, "why-heading", text(say(Word::why_heading)), true});
  if (in.estimates.size() > 1)
    out.blocks.push_back(Paragraph{"body", text(say(Word::option_heading, F{"option", b.option_name(*t)}))});
  std::string said;
  const auto add = [&](const std::string& sentence) { said += (said.empty() ? "" : " ") + sentence; };
  const auto money = parts_of(*this, *t, [&](const Task& task) { return Ratio(amount_of(*e, *task.line).cents); });
  const auto most =
      std::max_element(money.begin(), money.end(), [](const Part& a, const Part& b) { return a.value < b.value; });
  if (most != money.end() && money.size() > 1)
    add(say(Word::why_most, F{"amount", print(Money{most->value.rounded()})}, F{"total", print(e->lines_total)},
            F{"work", uncapitalized(most->label)}));
  Length feet;
  for (const auto& run : t->runs)
    if (is_soil(run.kind)) feet += run.length;
  if (const auto& rate = house.limits.soil_rate; feet > Length{} && rate)
    add(say(Word::why_gallons, F{"rate", shortest(rate->value, 2)}, F{"feet", decimal(feet.in_feet(), 1)},
            F{"gallons", decimal(t->gallons, 1)}));
  if (t->holes > 0) add(say(Word::why_holes, F{"holes", grouped(t->holes)}));
  if (t->timed)
    add(say(Word::why_hours, F{"hours", decimal(t->crew_hours, 1)},
            F{"people", std::to_string(in.basis.company.crew->people.value_or(1))}));
  out.blocks.push_back(Paragraph{"lead", text(said)});
  const auto picture = [&](Word heading, std::string id, const std::vector<Part>& parts, const auto& value) {
    if (parts.size() < 2) return;  // one bar beside nothing tells nothing
    out.blocks.push_back(Heading{3, std::move(id), text(say(heading)), false});
    Bars bars;
    Ratio whole(1);
    for (const Part& p : parts) whole = std::max(whole, p.value);
    bars.whole = 1000;
    for (const Part& p : parts)
      bars.bars.push_back({p.label, value(p.value), (p.value / whole * Ratio(1000)).rounded()});
    out.blocks.emplace_back(std::move(bars));
  };
  picture(
      Word::why_feet, "why-feet",
      parts_of(*this, *t,
               [&](const Task& task) { return over_runs(*t, task, [](const auto& r) { return r.length.in_feet(); }); }),
      [&](const Ratio& v) {
        return say(Word::measure_ft, F{"n", decimal(v, 1)});
      });
  picture(Word::column_gallons, "why-gallons",
          parts_of(*this, *t,
                   [&](const Task& task) { return over_runs(*t, task, [](const auto& r) { return r.gallons; }); }),
          [&](const Ratio& v) {
            return say(Word::measure_gal, F{"n", decimal(v, 1)});
          });
  picture(Word::column_holes, "why-holes",
          parts_of(*this, *t,
                   [&](const Task& task) { return over_runs(*t, task, [](const auto& r) { return Ratio(r.holes); }); }),
          [&](const Ratio& v) { return grouped(v.rounded()); });
  if (t->timed)
    picture(Word::why_time, "why-time",
            parts_of(*this, *t,
                     [&](const Task& task) {
                       return task.minutes + over_runs(*t, task, [](const auto& r) { return r.minutes; });
                     }),
            [&](const Ratio& v) {
              return say(Word::why_person_hours, F{"hours", decimal(v / 60, 1)});
            });
  would_change(*t, *e, out.blocks);
  return out;
}

}  // namespace soundsill::document
