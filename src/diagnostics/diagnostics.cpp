#include "diagnostics/diagnostics.h"

#include <algorithm>
#include <array>
#include <functional>
#include <map>
#include <numeric>

namespace soundsill {
namespace {

std::string hyphenated(std::string_view name) {
  std::string code(name);
  std::replace(code.begin(), code.end(), '_', '-');
  if (code.ends_with('-')) code.pop_back();  // unsigned_ : the bare word belongs to the language
  return code;
}

struct Table {
  std::vector<std::string> codes;
  std::vector<RuleInfo> rows;
};

std::chrono::sys_days ymd(int year, unsigned month, unsigned day) {
  return std::chrono::year(year) / std::chrono::month(month) / std::chrono::day(day);
}

Table read_catalogue() {
  using enum Severity;
  using namespace stops_words;  // NOLINT: the column is written in them
  struct Row {
    Rule rule;
    std::string_view name, section;
    Severity severity;
    std::string_view doc, why;
    RuleKind kind;
    Stage stage;
    PaperSet stops;
  };
  std::vector<Row> rows;
  std::string_view section;
#define RULE_SECTION(name, title) section = #name;
#define RULE(name, who, severity, stage, stops, holds, why) \
  rows.push_back({Rule::name, #name, section, severity, holds, why, RuleKind::who, Stage::stage, stops});
#include "diagnostics/catalogue.def"
  std::map<Rule, std::chrono::sys_days> since;
#define SINCE(name, year, month, day) since[Rule::name] = ymd(year, month, day);
#include "diagnostics/since.def"
  const auto came = [&](Rule rule) {
    const auto found = since.find(rule);
    return found == since.end() ? std::nullopt : std::optional(found->second);
  };
  Table t;
  t.codes.reserve(rows.size());
  for (const Row& r : rows) {
    t.codes.push_back(hyphenated(r.name));
    t.rows.push_back(
        {r.rule, t.codes.back(), r.section, r.severity, r.doc, r.why, r.kind, r.stage, r.stops, came(r.rule)});
  }
  return t;
}

const Table& table() {
  static const Table made = read_catalogue();
  return made;
}

}  // namespace

std::span<const RuleInfo> catalogue() { return table().rows; }
const RuleInfo& info(Rule rule) { return table().rows[static_cast<std::size_t>(rule)]; }
const RuleInfo* rule_of(std::string_view code) {
  const auto& rows = table().rows;
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const RuleInfo& r) { return r.code == code; });
  return found == rows.end() ? nullptr : &*found;
}

Severity severity(Rule rule, Rests rests) { return rests == Rests::read ? info(rule).severity : Severity::warning; }
Severity severity(const Diagnostic& d) { return severity(d.rule, d.rests); }

void Faults::add(Diagnostic d) {
  const auto& since = info(d.rule).since;
  if (issued_ && since && *issued_ < *since) d.rests = Rests::later;
  all_.push_back(std::move(d));
}

void Faults::rest(std::size_t first, Rests rests) {
  for (std::size_t i = first; i < all_.size(); ++i)
    if (all_[i].rests != Rests::later) all_[i].rests = rests;
}

bool stops(Rule rule, Paper paper) { return info(rule).stops.has(paper); }

std::size_t Faults::errors() const {
  return static_cast<std::size_t>(
      std::count_if(all_.begin(), all_.end(), [](const auto& d) { return severity(d) == Severity::error; }));
}
std::size_t Faults::warnings() const { return all_.size() - errors(); }
bool Faults::reached(Stage stage) const {
  return std::none_of(all_.begin(), all_.end(), [&](const Diagnostic& d) {
    return severity(d) == Severity::error && info(d.rule).stage < stage;
  });
}

void Faults::sort() {
  // Files keep the order in which their first fault was found; that order is the order of reading.
  std::vector<const Source*> order;
  for (const auto& d : all_)
    if (std::find(order.begin(), order.end(), d.at.source) == order.end()) order.push_back(d.at.source);
  const auto rank = [&](const Diagnostic& d) { return std::find(order.begin(), order.end(), d.at.source); };
  std::stable_sort(all_.begin(), all_.end(), [&](const Diagnostic& a, const Diagnostic& b) {
    if (a.at.source != b.at.source) return rank(a) < rank(b);
    return std::tie(a.at.begin, a.at.end, a.rule, a.what) < std::tie(b.at.begin, b.at.end, b.rule, b.what);
  });
  const auto same = [](const Diagnostic& a, const Diagnostic& b) {
    return a.rule == b.rule && a.at == b.at && a.what == b.what;
  };
  all_.erase(std::unique(all_.begin(), all_.end(), same), all_.end());
}

namespace {

/// Letters put in, left out, changed, or swapped with their neighbor.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before_last.swap(last);
    last.swap(row);
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
  }
  return row[b.size()];
}

using Letters = std::array<int, 256>;

Letters letters_of(std::string_view word) {
  Letters count{};
  for (const char c : word) ++count[static_cast<unsigned char>(c)];
  return count;
}

/// Two words are at least as far apart as one has letters that the other lacks: most need not be compared.
std::size_t least_distance(Letters more, std::string_view word, std::string_view other) {
  std::size_t shared = 0;
  for (const char c : other)
    if (more[static_cast<unsigned char>(c)]-- > 0) ++shared;
  return std::max(word.size(), other.size()) - shared;
}

}  // namespace

std::string nearest(std::string_view word, std::span<const std::string_view> known) {
  const Letters letters = letters_of(word);
  std::string_view best;
  std::size_t least = 2 + word.size() / 3;
  for (const std::string_view candidate : known) {
    if (candidate == word || least_distance(letters, word, candidate) >= least) continue;
    const std::size_t distance = edit_distance(word, candidate);
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return std::string(best);
}

}  // namespace soundsill
