// Runs one case through the stages, from texts to checked papers, without a disk between them.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "casefile/case.h"
#include "company/company.h"
#include "estimate/estimate.h"
#include "jurisdiction/form.h"
#include "resolved/scopes.h"
#include "rules/rules.h"
#include "site/survey.h"

namespace soundsill::testing {

/// The text of a file of the repository, by its path from there.
inline std::string file_text(const std::string& path) {
  std::ifstream in(std::string(SOUNDSILL_ROOT) + "/" + path, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + path);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// The text with one passage exchanged. A passage that is not there, or there twice, is a mistake of the test.
inline std::string edited(std::string text, std::string_view old, std::string_view now) {
  const auto at = text.find(old);
  if (at == std::string::npos) throw std::runtime_error("not in the text: " + std::string(old));
  if (text.find(old, at + 1) != std::string::npos) throw std::runtime_error("twice in the text: " + std::string(old));
  return text.replace(at, old.size(), now);
}

/// Folders of examples/ that hold a case, in order.
inline const std::vector<std::string>& example_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const auto& entry : std::filesystem::directory_iterator(std::string(SOUNDSILL_ROOT) + "/examples"))
      if (std::filesystem::exists(entry.path() / "case.yaml")) all.push_back(entry.path().filename().string());
    std::sort(all.begin(), all.end());
    return all;
  }();
  return names;
}

/// What a run starts from. Every text may be changed before.
struct CaseTexts {
  std::string case_yaml;
  std::string company_yaml;
  std::string form_yaml = file_text("forms/us-nc.yaml");
  std::string general_yaml = file_text("forms/us-general.yaml");
  std::string trade_yaml = file_text("forms/trade.yaml");
  std::map<std::string, PhotoState> photos = {};  ///< by the path that the case gives; others are not looked at
  std::optional<Date> today = {};
  Wanted wanted = Wanted::packet;
};

/// One case, as far as its stages could take it. Stages point into each other, so it stays where it was made.
class CaseRun {
 public:
  Sources sources;
  Faults faults;
  std::optional<Case> c;
  std::optional<Company> company;
  std::optional<Form> form, general;
  std::optional<Trade> trade;
  Survey survey;
  resolved::Resolved resolved;
  std::optional<Basis> basis;  ///< none when a file could not be read at all
  std::vector<Treatment> treatments;
  std::vector<Estimate> estimates;

  /// Reads, measures, plans and prices.
  explicit CaseRun(CaseTexts texts) : photos_(std::move(texts.photos)), today_(texts.today), wanted_(texts.wanted) {
    c = read_case(sources.add("case.yaml", std::move(texts.case_yaml)), faults);
    company = read_company(sources.add("company.yaml", std::move(texts.company_yaml)), faults);
    form = read_form(sources.add("form.yaml", std::move(texts.form_yaml)), faults);
    general = read_form(sources.add("general.yaml", std::move(texts.general_yaml)), faults);
    trade = read_trade(sources.add("trade.yaml", std::move(texts.trade_yaml)), faults);
    if (!c || !company || !form || !general || !trade) return;
    if (!fill_from(*form, *general, faults)) return;
    lay_loan_over();
    if (company->limits) tighten(*form, *company->limits);
    cut_to_scope(*c, *trade);
    survey = measure(*c, faults);
    resolved = resolved::resolve(*c, *form, *trade, *company, survey, faults);
    basis.emplace(Basis{*c, *form, *trade, *company, survey, resolved});
    treatments = plan_all(*basis, faults);
    for (const Treatment& t : treatments) estimates.push_back(price(*basis, t, faults));
  }
  CaseRun(const CaseRun&) = delete;
  CaseRun& operator=(const CaseRun&) = delete;

  /// Runs every rule over the papers, and sorts what all stages had to say.
  void check_rules() {
    if (basis) check(Papers{*basis, treatments, estimates, photos_, today_, wanted_}, faults);
    faults.sort();
  }

 private:
  /// As the program does: the loan's own limits over the state's.
  void lay_loan_over() {
    if (!c->facts || !c->facts->loan || *c->facts->loan == Loan::none) return;
    std::string name(yaml::word(*c->facts->loan));
    for (char& letter : name) letter = letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter + 32) : letter;
    const auto overlay = read_form(sources.add("loan.yaml", file_text("forms/loan-" + name + ".yaml")), faults);
    if (overlay) tighten(*form, *overlay);
  }

  std::map<std::string, PhotoState> photos_;
  std::optional<Date> today_;
  Wanted wanted_;
};

/// Faults as a terminal shows them, but without numbers of lines and columns: these change with every edit above them,
/// while the line and its carets say what is meant.
inline std::string told(const Faults& faults) {
  std::string out;
  const auto drop_number = [](std::string line) {
    if (const auto bar = line.find(" | "); bar != std::string::npos && line.find_first_not_of(" 0123456789") >= bar)
      return line.substr(bar + 1);
    const auto name = line.find(".yaml:");
    if (name == std::string::npos || line.starts_with("  why:") || line.starts_with("  fix:")) return line;
    const auto end = line.find_first_not_of("0123456789:", name + 6);
    return line.substr(0, name + 5) + ":" + line.substr(end == std::string::npos ? line.size() : end);
  };
  for (const Diagnostic& d : faults.all()) {
    std::string text = render(d);
    for (std::size_t at = 0; at < text.size();) {
      const auto end = text.find('\n', at);
      out += drop_number(text.substr(at, end - at)) + "\n";
      at = end + 1;
    }
  }
  return out;
}

}  // namespace soundsill::testing
