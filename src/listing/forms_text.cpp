// Serves listing/catalogue.h. A form as its data: each with value, source, how far it was verified, and the file it
// came from.
#include <fmt/format.h>

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
      Limits::each(
          [&](auto member, Limits::Stricter, Limits::Need, const char* key) { datum(key, (*form.limits).*member); });
    datum("partial treatment", form.partial);
    datum("estimate apart", form.estimate_apart);
    datum("cancellation", form.cancellation);
    datum("cancellation, days", form.cancellation_days);
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
      for (const ItemRule& one : list(rule->items))
        put("agreement holds", typed(one.item.at), one.cite, one.status, one.at);
    }
    if (const auto& notice = form.notice) {
      datum("posted notice, wide", notice->wide);
      datum("posted notice, high", notice->high);
      datum("posted notice, years", notice->years);
      datum("posted notice, where", notice->where);
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
  void put(std::string key, std::string value, const Field<std::string>& cite, const Field<Status>& status, Span at) {
    all.push_back(
        {std::move(key), std::move(value), cite.value_or(""), status ? std::optional(*status) : std::nullopt, at});
  }
  template <class T>
  void datum(const char* key, const Field<Datum<T>>& field) {
    if (field && field->value) put(key, typed(field->value.at), field->cite, field->status, field->at);
  }
};

}  // namespace

std::string form_text(const FormFile& file) {
  const Form& form = *file.form;
  std::string out =
      fmt::format("{}: {}, edition {}\n\n", form.id.value_or(""), form.name.value_or(""), form.edition.value_or(""));
  for (const Row& row : Rows(form).all)
    out += fmt::format("{:<26}  {}\n{:<26}  {}; {}\n{:<26}  {}\n", row.key, row.value, "",
                       row.status ? yaml::word(*row.status) : "status not read", row.cite, "", origin(row.at));
  if (!form.unread || form.unread->empty()) return out;
  out += "\nNot read, and so never said to be met or final:\n";
  for (const Unread& part : *form.unread)
    out +=
        fmt::format("  of the {:<10}  {}\n", part.matter ? yaml::word(*part.matter) : "form", part.what.value_or(""));
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
