// Serves listing/catalogue.h. A form as its data: each with value, source, how far it was verified, and the file it
// came from.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "listing/catalogue.h"

namespace soundsill::listing {
namespace {

std::string typed(const Span& at) {
  return at ? std::string(at.source->text().substr(at.begin, at.end - at.begin)) : std::string();
}

std::string origin(const Span& at) {
  if (!at) return {};
  return at.source->name() + ":" + std::to_string(at.source->position(at.begin).line);
}

struct Row {
  std::string key, value, cite;
  std::optional<Status> status;
  Span at;
  bool insisted = false;
};

class Rows {
 public:
  explicit Rows(const Form& form) {
    if (const auto& sheet = form.official_sheet)
      put("official sheet", typed(sheet->name.at), sheet->cite, sheet->status, sheet->at);
    if (const auto& license = form.license) {
      if (license->inspect_phase)
        put("license to inspect", "phase " + *license->inspect_phase, license->cite, license->status, license->at);
      if (license->person_license.value_or(false))
        put("license of the person", "its number is asked", license->cite, license->status, license->at);
    }
    if (form.limits)
      Limits::each([&](auto member, Limits::Stricter, Limits::Need, const char* key) {
        const auto& all = (*form.limits).*member;
        const auto& firm = form.firm.*member;
        datum(key, all);
        // A stricter number that nobody has read only warns: what may stop a paper stands beside it.
        if (firm && firm->value && (!all || all->at != firm->at)) datum(key, firm);
      });
    datum("partial treatment", form.partial);
    datum("estimate apart", form.estimate_apart);
    if (const auto& rule = form.cancellation) {
      datum("cancellation, business days", rule->business_days);
      datum("cancellation, business days of a senior", rule->senior_days);
      datum("cancellation, age of a senior", rule->senior_age);
      datum("cancellation, sale at home", rule->home_from);
      datum("cancellation, sale elsewhere", rule->elsewhere_from);
    }
    if (const auto& rule = form.report) {
      datum("report delivered, days", rule->deliver_within);
      datum("report has a number", rule->control_number);
    }
    for (const Filing& filing : list(form.filings))
      datum(("file the " + filing.paper.value_or("") + ", days from " +
             std::string(filing.from ? yaml::word(*filing.from) : "?"))
                .c_str(),
            filing.within);
    after_signature(form);
    for (const ActiveTest& test : list(form.active_tests))
      put("test for active", typed(test.organisms.at), test.cite, test.status, test.at);
    if (const auto& sheet = form.lender_sheet)
      put("lender sheet", typed(sheet->name.at) + " of " + typed(sheet->edition.at), sheet->cite, sheet->status,
          sheet->at);
    for (const LooseWord& loose : list(form.loose_words))
      put("word not to be used", typed(loose.word.at), loose.cite, loose.status, loose.at);
    for (const RuleUse& use : list(form.rules)) put("rule", use.rule.value_or(""), use.cite, use.status, use.at);
  }
  std::vector<Row> all;

 private:
  /// What the papers after the estimate rest on.
  void after_signature(const Form& form) {
    for (const Keep& keep : list(form.keep))
      put("keep the " + typed(keep.paper.at), typed(keep.years.at) + " years from " + typed(keep.from.at), keep.cite,
          keep.status, keep.at);
    if (const auto& rule = form.agreement) {
      datum("agreement within, days", rule->within_days);
      datum("agreement with the report", rule->with_report);
      datum("notice before a fungicide", rule->fungus_notice);
      datum("height of its letters", rule->letters);
      datum("statement, retreatment", rule->retreatment_statement);
      datum("statement, repair", rule->repair_statement);
      datum("statement, bait", rule->bait_statement);
      datum("addendum on changes", rule->addendum);
      datum("statements in a box", rule->statements_boxed);
      datum("statement first on page 1", rule->statement_first);
      for (const ItemRule& one : list(rule->items))
        put("agreement holds", typed(one.item.at), one.cite, one.status, one.at);
    }
    for (const NoticeRule& notice : list(form.notices)) {
      const std::string of = "notice of " + std::string(yaml::word(notice.of.value_or(NoticeOf::treatment)));
      datum((of + ", wide").c_str(), notice.wide);
      datum((of + ", high").c_str(), notice.high);
      datum((of + ", years").c_str(), notice.years);
      datum((of + ", where").c_str(), notice.where);
      for (const NoticeItemRule& one : list(notice.holds)) put(of, typed(one.item.at), one.cite, one.status, one.at);
    }
    if (const auto& promise = form.free_treatment)
      put("free treatment", typed(promise->days.at) + " days from " + typed(promise->from.at), promise->cite,
          promise->status, promise->at);
    if (const auto& beetles = form.beetles) {
      datum("beetles, months", beetles->months);
      datum("beetles, days", beetles->days);
    }
    if (const auto& invoice = form.invoice) {
      datum("invoice names the veteran", invoice->names_veteran);
      datum("veteran pays from", invoice->veteran_pays_from);
    }
    datum("poison center", form.poison_center);
    datum("locate line", form.locate_line);
  }

  template <class T>
  static const std::vector<T>& list(const yaml::Field<std::vector<T>>& field) {
    static const std::vector<T> nothing;
    return field ? *field : nothing;
  }
  void put(std::string key, std::string value, const Field<std::string>& cite, const Field<Status>& status, Span at,
           bool insisted = false) {
    all.push_back({std::move(key), std::move(value), cite.value_or(""), status ? std::optional(*status) : std::nullopt,
                   at, insisted});
  }
  template <class T>
  void datum(const char* key, const Field<Datum<T>>& field) {
    if (field && field->value)
      put(key, typed(field->value.at), field->cite, field->status, field->at, field->insist.value_or(false));
  }
};

}  // namespace

std::string form_text(const FormFile& file) {
  const Form& form = *file.form;
  std::string out =
      fmt::format("{}: {}, edition {}\n\n", form.id.value_or(""), form.name.value_or(""), form.edition.value_or(""));
  for (const Row& row : Rows(form).all)
    out += fmt::format("{:<26}  {}\n{:<26}  {}{}; {}\n{:<26}  {}\n", row.key, row.value, "",
                       row.status ? yaml::word(*row.status) : "status not read", row.insisted ? ", insisted on" : "",
                       row.cite, "", origin(row.at));
  if (!form.unread || form.unread->empty()) return out;
  out += "\nNot read, and so never said to be met or final:\n";
  for (const Unread& part : *form.unread)
    out +=
        fmt::format("  of the {:<10}  {}\n", part.matter ? yaml::word(*part.matter) : "form", part.what.value_or(""));
  return out;
}

namespace {

std::string status_of(const Row& row) { return std::string(row.status ? yaml::word(*row.status) : "status not read"); }

/// A datum as one line, without where it stands.
std::string in_a_line(const Row& row) { return fmt::format("{} ({}; {})", row.value, status_of(row), row.cite); }

}  // namespace

std::string open_text(const std::vector<FormFile>& forms) {
  std::string out;
  for (const FormFile& file : forms) {
    const Form& form = *file.form;
    std::string mine;
    for (const Row& row : Rows(form).all)
      if (!row.status || !was_read(*row.status))
        mine += fmt::format("  {:<26}  {}\n  {:<26}  {}{}; {}\n", row.key, row.value, "", status_of(row),
                            row.insisted ? ", insisted on" : "", row.cite);
    const std::vector<Unread> none;
    for (const Unread& part : form.unread ? *form.unread : none)
      mine += fmt::format("  {:<26}  {}\n", "of the " + std::string(part.matter ? yaml::word(*part.matter) : "form"),
                          part.what.value_or(""));
    if (!mine.empty())
      out += fmt::format("{}{}: {}, edition {}\n{}", out.empty() ? "" : "\n", form.id.value_or("?"),
                         form.name.value_or(""), form.edition.value_or(""), mine);
  }
  return out.empty() ? "nothing is left to read\n" : out;
}

std::string forms_diff(const FormFile& before, const FormFile& after) {
  const auto was = Rows(*before.form).all, is = Rows(*after.form).all;
  // A key may stand several times; the value tells its rows apart where both editions have it.
  const auto like = [](const std::vector<Row>& all, const Row& row, bool value_too) {
    return std::find_if(all.begin(), all.end(), [&](const Row& other) {
      return other.key == row.key && (!value_too || in_a_line(other) == in_a_line(row));
    });
  };
  const auto once = [](const std::vector<Row>& all, const std::string& key) {
    return std::count_if(all.begin(), all.end(), [&](const Row& row) { return row.key == key; }) == 1;
  };
  std::string out =
      fmt::format("{}: edition {} ({}) -> {} ({})\n\n", after.form->id.value_or(""), before.form->edition.value_or(""),
                  before.file, after.form->edition.value_or(""), after.file);
  const std::size_t head = out.size();
  for (const Row& row : was) {
    if (like(is, row, true) != is.end()) continue;
    const auto changed = once(was, row.key) && once(is, row.key) ? like(is, row, false) : is.end();
    out += fmt::format("{}  {:<26}  {}\n", changed == is.end() ? "-" : "<", row.key, in_a_line(row));
    if (changed != is.end()) out += fmt::format(">  {:<26}  {}\n", row.key, in_a_line(*changed));
  }
  for (const Row& row : is)
    if (like(was, row, true) == was.end() && !(once(was, row.key) && once(is, row.key)))
      out += fmt::format("+  {:<26}  {}\n", row.key, in_a_line(row));
  if (out.size() == head) out += "no datum differs\n";
  return out;
}

std::string forms_list(const std::vector<FormFile>& forms) {
  std::string out;
  for (const FormFile& file : forms) {
    const Form& form = *file.form;
    std::map<Status, int> counts;
    for (const Row& row : Rows(form).all)
      if (row.status) ++counts[*row.status];
    std::string data;
    for (const auto& [status, count] : counts)
      data += fmt::format("{}{} {}", data.empty() ? "" : ", ", count, yaml::word(status));
    const std::size_t unread = form.unread ? form.unread->size() : 0;
    const bool sheet = form.official_sheet && form.official_sheet->name;
    out += fmt::format("{:<18}  {}, edition {}\n", form.id.value_or("?"), form.name.value_or(""),
                       form.edition.value_or(""));
    if (sheet) out += fmt::format("{:<18}  prescribes {}\n", "", *form.official_sheet->name);
    out +=
        fmt::format("{:<18}  {}{}\n{:<18}  {}\n", "", data.empty() ? "no data" : data,
                    unread ? fmt::format("; {} {} of its rules not read", unread, unread == 1 ? "part" : "parts") : "",
                    "", file.file);
  }
  return out;
}

}  // namespace soundsill::listing
