#include "cli/catalogue.h"

#include <algorithm>
#include <cstdio>
#include <set>

#include "cli/assets.h"
#include "cli/output.h"
#include "diagnostics/names.h"
#include "listing/catalogue.h"
#include "source/most.h"

namespace soundsill::cli {
namespace {

ExitStatus show(const std::string& text) { return put(stdout, text) ? ExitStatus::fine : ExitStatus::usage; }

ExitStatus tell(const Shelved<Form>& form) {
  print_faults(stderr, form.faults, false);
  if (form.unreadable) return ExitStatus::usage;
  return form.faults.errors() > 0 ? ExitStatus::faults : ExitStatus::fine;
}

/// Names of every form that can be named: inside the program, and in the folder of --forms. Loans come last.
std::vector<std::string> form_names(const CatalogueRequest& request, const Files& files) {
  std::set<std::string> states, loans;
  const auto take = [&](std::string name) {
    if (!name.ends_with(".yaml")) return;
    name.resize(name.size() - 5);
    if (name != "trade") (name.starts_with("loan-") ? loans : states).insert(name);
  };
  for (const Asset& a : assets("forms")) take(std::string(a.name.substr(6)));
  if (!request.where.forms.empty())
    for (const std::string& name : files.list(request.where.forms)) take(name);
  std::vector<std::string> out(states.begin(), states.end());
  out.insert(out.end(), loans.begin(), loans.end());
  return out;
}

/// A form as its file says, without what is taken from others.
std::shared_ptr<Shelved<Form>> plain_form(const std::string& name, const CatalogueRequest& request,
                                          const Files& files) {
  auto made = std::make_shared<Shelved<Form>>();
  DataFile file = data_file(request.where.forms, "forms", name + ".yaml", files);
  made->path = file.name;
  made->value = shelve_form(*made, std::move(file));
  return made;
}

std::string unknown_form(const std::string& name, const std::vector<std::string>& names) {
  const std::vector<std::string_view> known(names.begin(), names.end());
  return "there is no form `" + name + "`; " + did_you_mean(name, known, "the forms are " + yaml::listed(known, "and"));
}

/// A form filled and tightened as a case would get it.
std::shared_ptr<const Shelved<Form>> whole_form(const CatalogueRequest& request, Shared& shared, Shelf& shelf,
                                                const Files& files) {
  load_shared(shared, request.where, files, Sharing::data);
  if (!shared.general) return nullptr;
  return shelf.form(request.name, request.loan, request.where.forms, *shared.general);
}

}  // namespace

ExitStatus list_rules(const CatalogueRequest& request) {
  const DiskFiles files;
  if (request.name.empty()) return show(listing::rules_list(nullptr, request.format));
  const auto names = form_names(request, files);
  if (std::find(names.begin(), names.end(), request.name) == names.end())
    return refuse(unknown_form(request.name, names));
  const auto form = plain_form(request.name, request, files);
  const ExitStatus told = tell(*form);
  if (!form->value) return told;
  return worse(told, show(listing::rules_list(&*form->value, request.format)));
}

ExitStatus explain_rule(const CatalogueRequest& request) {
  const DiskFiles files;
  const RuleInfo* rule = rule_of(request.name);
  if (!rule) {
    std::vector<std::string_view> known;
    for (const RuleInfo& one : catalogue()) known.push_back(one.code);
    return refuse("there is no rule `" + request.name + "`; " +
                  did_you_mean(request.name, known, "`soundsill rules` lists them"));
  }
  std::vector<listing::AskedBy> asked_by;
  ExitStatus told = ExitStatus::fine;
  for (const std::string& name : form_names(request, files)) {
    const auto form = plain_form(name, request, files);
    if (form->unreadable) told = tell(*form);
    if (!form->value) continue;
    if (const RuleUse* use = form->value->uses(rule->code)) asked_by.push_back({name, use->cite.value_or("")});
  }
  const auto cases = asset("rules/" + std::string(rule->code) + ".txt");
  return worse(told, show(safe_for_terminal(listing::explained(*rule, asked_by, cases.value_or(std::string_view())))));
}

namespace {

/// What another edition of a form, in a file of the person's own, says otherwise than the one that counts.
ExitStatus diff_forms(const CatalogueRequest& request, const Files& files) {
  const auto now = plain_form(request.name, request, files);
  Shelved<Form> other;
  DataFile file{request.diff, files.read(request.diff, most::text_bytes)};
  other.value = shelve_form(other, std::move(file));
  const ExitStatus told = worse(tell(*now), tell(other));
  if (!now->value || !other.value) return told;
  // The older edition stands first, whichever of the two was named.
  const bool newer = other.value->edition.value_or("") > now->value->edition.value_or("");
  const listing::FormFile built{now->path, &*now->value}, own{request.diff, &*other.value};
  return worse(told,
               show(safe_for_terminal(newer ? listing::forms_diff(built, own) : listing::forms_diff(own, built))));
}

}  // namespace

ExitStatus list_forms(const CatalogueRequest& request) {
  const DiskFiles files;
  const auto names = form_names(request, files);
  if (!request.name.empty()) {
    if (std::find(names.begin(), names.end(), request.name) == names.end())
      return refuse(unknown_form(request.name, names));
    if (!request.diff.empty()) return diff_forms(request, files);
    if (request.open) {
      const auto plain = plain_form(request.name, request, files);
      const ExitStatus told = tell(*plain);
      if (!plain->value) return told;
      return worse(told, show(safe_for_terminal(listing::open_text({{plain->path, &*plain->value}}))));
    }
    Shared shared;
    Shelf shelf(files);
    const auto form = whole_form(request, shared, shelf, files);
    if (!form) {
      print_faults(stderr, shared.faults, false);
      return ExitStatus::usage;
    }
    const ExitStatus told = tell(*form);
    if (!form->value) return told;
    return worse(told, show(safe_for_terminal(listing::form_text({form->path, &*form->value}))));
  }
  if (!request.diff.empty()) return refuse("--diff compares one form; name it");
  std::vector<std::shared_ptr<Shelved<Form>>> kept;
  std::vector<listing::FormFile> all;
  ExitStatus told = ExitStatus::fine;
  for (const std::string& name : names) {
    kept.push_back(plain_form(name, request, files));
    told = worse(told, tell(*kept.back()));
    if (kept.back()->value) all.push_back({kept.back()->path, &*kept.back()->value});
  }
  return worse(told, show(safe_for_terminal(request.open ? listing::open_text(all) : listing::forms_list(all))));
}

}  // namespace soundsill::cli
