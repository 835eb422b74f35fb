// Serves listing/listing.h.
#include <fmt/core.h>

#include <algorithm>

#include "listing/csv.h"
#include "listing/listing.h"

namespace soundsill::listing {
namespace {

std::string measure_of(const PricedLine& line) {
  if (line.per == Per::job) return "1 job";
  return decimal(line.measure, decimals(line.per)) + " " + std::string(yaml::word(line.per));
}

std::string signed_(Money m) { return m.cents < 0 ? "-" + print(Money{-m.cents}) : print(m); }

void row(std::string& out, const std::string& what, const std::string& measure, const std::string& rate, Money amount) {
  out += fmt::format("  {:<34} {:>18} {:>22} {:>12}\n", what, measure, rate, signed_(amount));
}

std::string what_of(const Treatment& t, const PricedLine& line) {
  std::string out = line.line->id;
  if (line.run) out += fmt::format(", run {}", t.runs[*line.run].number);
  return out;
}

void explain_line(std::string& out, const Treatment& t, const PricedLine& line) {
  out += fmt::format("      {} x {} = {}\n", decimal(line.measure, decimals(line.per)), print(line.rate),
                     print(line.amount));
  if (!line.run) return;
  const Run& run = t.runs[*line.run];
  out += fmt::format("      {}{}\n", run.working.in_english(),
                     run.gallons > Ratio(0) ? " = " + decimal(run.gallons, 1) + " gal" : "");
}

void settle(std::string& out, const Estimate& e) {
  row(out, "sum of the lines", "", "", e.lines_total);
  for (const AdjustedLine& a : e.adjustments)
    row(out, std::string(yaml::word(a.of->kind)) + ": " + a.of->because, a.of->percent ? print(a.base) : "",
        a.of->percent ? shortest(a.of->percent->value, 4) + " %" : "", a.amount);
  if (e.to_minimum) row(out, "up to the minimum charge", "", "", *e.to_minimum);
  for (const TaxLine& tax : e.taxes)
    row(out, "sales tax", print(tax.base), shortest(tax.percent.value, 4) + " %", tax.amount);
  row(out, "total", "", "", e.total);
}

void one(std::string& out, const Treatment& t, const Estimate& e, bool explain) {
  out += fmt::format("option {}{}\n", t.id, e.way == Way::cost ? " (priced by cost)" : "");
  if (e.lines.empty()) out += "  nothing of ours to price\n";
  for (const PricedLine& line : e.lines) {
    row(out, what_of(t, line), measure_of(line), print(line.rate) + " / " + std::string(yaml::word(line.per)),
        line.amount);
    if (explain) explain_line(out, t, line);
  }
  if (!e.lines.empty()) settle(out, e);
  for (const OtherLine& other : e.others)
    out += fmt::format("  {}: {}, not ours\n", other.line->id, yaml::word(other.line->who));
  if (e.holds_until) out += fmt::format("  holds until {}\n", print(*e.holds_until));
  out += "\n";
}

std::string plain(Money m) {
  return fmt::format("{}{}.{:02}", m.cents < 0 ? "-" : "", std::abs(m.cents) / 100, std::abs(m.cents) % 100);
}

}  // namespace

std::string estimate_text(const Measures& m, bool explain) {
  std::string out;
  for (std::size_t i = 0; i < m.treatments.size() && i < m.estimates.size(); ++i)
    one(out, m.treatments[i], m.estimates[i], explain);
  return out.empty() ? "there is no work to price\n" : out;
}

std::string estimate_csv(const Measures& m) {
  std::string out = "option,line,run,method,measure,unit,rate,amount\r\n";
  const auto put = [&](const std::vector<std::string>& cells) { out += csv_row(cells); };
  for (std::size_t i = 0; i < m.treatments.size() && i < m.estimates.size(); ++i) {
    const Treatment& t = m.treatments[i];
    const Estimate& e = m.estimates[i];
    for (const PricedLine& line : e.lines)
      put({t.id, line.line->id, line.run ? std::to_string(t.runs[*line.run].number) : "", *line.method->name,
           decimal(line.measure, decimals(line.per)), std::string(yaml::word(line.per)), plain(line.rate),
           plain(line.amount)});
    for (const AdjustedLine& a : e.adjustments)
      put({t.id, "adjustment", "", std::string(yaml::word(a.of->kind)), "", "",
           a.of->percent ? shortest(a.of->percent->value, 4) + " %" : "",
           a.amount.cents < 0 ? "(" + plain(Money{-a.amount.cents}) + ")" : plain(a.amount)});
    if (e.to_minimum) put({t.id, "minimum charge", "", "", "", "", "", plain(*e.to_minimum)});
    for (const TaxLine& tax : e.taxes)
      put({t.id, "sales tax", "", "", plain(tax.base), "dollars", shortest(tax.percent.value, 4) + " %",
           plain(tax.amount)});
    put({t.id, "total", "", "", "", "", "", plain(e.total)});
  }
  return out;
}

std::string ceiling_text(const Basis& basis, const std::deque<Choice>& all, Money ceiling) {
  const Choice* best = under(all, ceiling);
  if (!best) {
    const Money minimum = basis.company.minimum_charge.value_or(Money{});
    std::string out = fmt::format("no option costs {} or less", print(ceiling));
    if (ceiling < minimum) return out + fmt::format("; the company's minimum charge is {}\n", print(minimum));
    const auto least = std::min_element(
        all.begin(), all.end(), [](const Choice& a, const Choice& b) { return a.estimate.total < b.estimate.total; });
    if (least != all.end())
      out += fmt::format("; the least is {} for option {}{}", print(least->estimate.total), least->treatment.id,
                         least->option.product_id.empty() ? std::string() : " with " + least->option.product_id);
    else
      return "there is no work of ours to price\n";
    return out + "\n";
  }
  std::string out = fmt::format("{} or less: option {}{}, {}\n", print(ceiling), best->treatment.id,
                                best->option.product_id.empty() ? std::string() : " with " + best->option.product_id,
                                print(best->estimate.total));
  out += best->left == Length{} ? "  it leaves no soil untreated that a full treatment takes\n"
                                : fmt::format("  it leaves {} ft of soil untreated that a full treatment takes\n",
                                              decimal(best->left.in_feet(), 1));
  for (const Choice& c : all) {
    if (&c == best) break;
    out += fmt::format("  {}{} is more complete or dearer, and costs {}\n", c.treatment.id,
                       c.option.product_id.empty() ? std::string() : " with " + c.option.product_id,
                       print(c.estimate.total));
  }
  if (best->other_product) out += "  chosen: a complete treatment with another product comes before a partial one\n";
  return out;
}

}  // namespace soundsill::listing
