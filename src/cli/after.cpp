// Serves cli/commands.h. The papers after the estimate, and what comes due over many cases.
#include <algorithm>
#include <chrono>
#include <deque>
#include <map>
#include <tuple>

#include "aftersale/papers.h"
#include "cli/output.h"
#include "cli/walk.h"
#include "listing/listing.h"
#include "listing/renewals.h"

namespace soundsill::cli {
namespace {

struct AfterPaper {
  Wanted wanted;
  const char* template_name;
  const char* file;  ///< its name without an ending
  document::Document (*make)(const document::PacketInput&);
};
constexpr AfterPaper papers[] = {
    {Wanted::work_order, "work-order", "work-order", &document::work_order},
    {Wanted::agreement, "paper", "agreement", &document::agreement},
    {Wanted::record, "paper", "record", &document::record},
    {Wanted::invoice, "paper", "invoice", &document::invoice},
    {Wanted::certificate, "paper", "certificate", &document::certificate},
    {Wanted::notice, "notice", "inspection-notice", &document::inspection_notice},
};

const AfterPaper& paper_of(Wanted wanted) {
  return *std::find_if(std::begin(papers), std::end(papers), [&](const AfterPaper& p) { return p.wanted == wanted; });
}

/// What a paper is made of: the chosen option alone.
struct Chosen {
  std::vector<Treatment> treatments;
  std::vector<Estimate> estimates;
  document::PacketInput input;

  Chosen(const Loaded& loaded, const Shared& shared, const Treatment* chosen, bool draft)
      : input{*loaded.basis, treatments, estimates, *shared.words,
              loaded.photos, draft,      false,     shared.english ? &*shared.english : nullptr} {
    for (std::size_t i = 0; i < loaded.treatments.size() && i < loaded.estimates.size(); ++i)
      if (&loaded.treatments[i] == chosen) {
        treatments.push_back(loaded.treatments[i]);
        estimates.push_back(loaded.estimates[i]);
      }
  }
  Chosen(const Chosen&) = delete;
  Chosen& operator=(const Chosen&) = delete;
};

/// The option named on the command line has to be one of the case.
bool known_option(const Loaded& loaded, const std::string& option) {
  if (option.empty() || loaded.treatments.empty()) return true;
  std::vector<std::string_view> ids;
  for (const Treatment& t : loaded.treatments) ids.emplace_back(t.id);
  if (std::find(ids.begin(), ids.end(), option) != ids.end()) return true;
  put(stderr, safe_line("soundsill: `" + option + "` is no option of this case; name " + yaml::listed(ids)) + "\n");
  return false;
}

page::Milli points(const Field<Datum<Length>>& length) {
  return length && length->value ? static_cast<page::Milli>(length->value->sixteenths * 72'000 / 16) : 0;
}

/// The kind of warranty in letters as high as the form asks, the small ones too.
page::Template lettered(page::Template look, const Form& form, const font::Faces& faces) {
  const page::Milli high = form.agreement ? points(form.agreement->letters) : 0;
  for (const char* name : {"statement", "boxed"}) {
    const auto found = look.texts.find(name);
    const font::Face* face = found == look.texts.end() ? nullptr : faces.find(found->second.face);
    if (!face || face->x_height() <= 0 || high == 0) continue;
    page::TextStyle& style = found->second;
    const page::Milli size = (high * face->units_per_em() + face->x_height() - 1) / face->x_height();
    if (size <= style.size) continue;
    style.leading = style.leading * size / std::max<page::Milli>(style.size, 1);
    style.size = size;
  }
  return look;
}

/// The sheet as large as the form asks, where it asks for more than the template has.
page::Template enlarged(page::Template look, const NoticeRule* rule) {
  if (!rule) return look;
  look.sheet.width = std::max(look.sheet.width, points(rule->wide));
  look.sheet.height = std::max(look.sheet.height, points(rule->high));
  return look;
}

bool asks_notice(const Loaded& loaded) {
  return loaded.form && loaded.form->value && loaded.form->value->notice_of(NoticeOf::treatment);
}

/// Where the notice goes: as named, else beside the record where the form asks for one.
std::string notice_path(const Request& request, const Loaded& loaded, std::string record) {
  if (!request.notice.empty() || !asks_notice(loaded)) return request.notice;
  constexpr std::string_view end = ".pdf";
  if (record.ends_with(end)) record.resize(record.size() - end.size());
  return record + "-notice.pdf";
}

/// What `make` gives, set. A photo that proves broken only then is taken from the case, and the paper made anew.
template <class Make>
Made made_of(Loaded& loaded, const Shared& shared, const Make& make, const page::Template& look,
             const Request& request) {
  for (;;)
    if (auto made = set_paper(loaded, shared, make(), look, pdf_options(flavour(request)), 1)) return std::move(*made);
}

using Sheets = std::vector<std::pair<std::string, Made>>;

/// The paper and its notice, where faults do not keep them back.
Sheets made_after(const Request& request, Loaded& loaded, const Shared& shared, const AfterPaper& paper,
                  const std::pair<std::string, page::Template>& own,
                  const std::optional<std::pair<std::string, page::Template>>& notice) {
  Sheets out;
  if (!loaded.basis || !loaded.c->facts || !(request.draft || !stops(loaded.faults, request.strict))) return out;
  const Treatment* t = chosen_treatment(loaded.resolved, loaded.treatments, request.where.option);
  if (!t && paper.wanted != Wanted::invoice && paper.wanted != Wanted::notice) return out;
  const Chosen chosen(loaded, shared, t, request.draft);
  const auto make = [&] { return paper.make(chosen.input); };
  if (paper.wanted == Wanted::agreement) document::check_items(chosen.input, make(), loaded.faults);
  out.emplace_back(own.first, made_of(loaded, shared, make, own.second, request));
  if (notice)
    out.emplace_back(notice->first,
                     made_of(
                         loaded, shared, [&] { return document::posted_notice(chosen.input); },
                         enlarged(notice->second, loaded.form->value->notice_of(NoticeOf::treatment)), request));
  loaded.faults.sort();
  return out;
}

ExitStatus write_after(const Request& request, Loaded& loaded, const Shared& shared, const Files& files,
                       const Sheets& papers) {
  print_faults(stderr, loaded.faults, request.color);
  ExitStatus status = verdict(loaded, request.strict);
  if (papers.empty() || (!request.draft && status != ExitStatus::fine)) {
    put(stderr, listing::tally(loaded.faults.errors(), loaded.faults.warnings()) + "; nothing written\n");
    return status;
  }
  for (const auto& [to, made] : papers) status = worse(status, write_paper(request, made, to, shared, files, status));
  return status;
}

}  // namespace

ExitStatus after_paper(const Request& request, Wanted wanted) {
  const DiskFiles files;
  Shared shared;
  const AfterPaper& paper = paper_of(wanted);
  if (!shared_or_say(shared, request, files)) return ExitStatus::usage;
  Shelf shelf(files);
  Loaded loaded;
  Where where = request.where;
  where.wanted = wanted;
  load_case(loaded, request.cases.front(), shared, where, files, shelf, PhotoCheck::whole);
  prove_photos(loaded);
  if (!known_option(loaded, where.option)) return ExitStatus::usage;
  const std::string path = paper_path(request, loaded, shared, paper.file, "pdf");
  if (wanted == Wanted::record && path == "-" && request.notice.empty() && asks_notice(loaded)) {
    put(stderr, "soundsill: the form asks for a notice besides, and one stream takes one paper; add --notice FILE\n");
    return ExitStatus::usage;
  }
  const std::string beside = wanted == Wanted::record ? notice_path(request, loaded, path) : std::string();
  auto look = load_look(shared, where, paper.template_name, files);
  if (look && wanted == Wanted::agreement && loaded.form && loaded.form->value)
    look = lettered(std::move(*look), *loaded.form->value, shared.faces);
  if (look && wanted == Wanted::notice && loaded.form && loaded.form->value) {
    const NoticeRule* rule = loaded.form->value->notice_of(NoticeOf::inspection);
    if (!rule && !request.draft) {
      put(stderr, safe_line("soundsill: `" + loaded.form->value->id.value_or("") +
                            "` asks for no notice of an inspection; --draft writes one all the same") +
                      "\n");
      return ExitStatus::usage;
    }
    look = enlarged(std::move(*look), rule);
  }
  std::optional<std::pair<std::string, page::Template>> notice;
  if (!beside.empty())
    if (auto sheet = load_look(shared, where, "notice", files)) notice.emplace(beside, std::move(*sheet));
  if (!look || notice.has_value() == beside.empty()) {
    print_faults(stderr, shared.faults, request.color);
    return ExitStatus::usage;
  }
  const Sheets papers = made_after(request, loaded, shared, paper, {path, *look}, notice);
  return write_after(request, loaded, shared, files, papers);
}

namespace {

/// Cases of the run with what comes due in each, in the order they were found.
struct Office {
  std::deque<Loaded> cases;
  std::deque<Chosen> chosen;
  std::vector<listing::Renewal> due;
  std::vector<const Chosen*> of;  ///< alongside `due`
  std::vector<bool> sound;        ///< alongside `due`: whether its case has no errors
};

ExitStatus write_letters(const Request& request, const Office& office, Shared& shared, const Files& files, Date today,
                         ExitStatus status) {
  const auto look = load_look(shared, request.where, "letter", files);
  if (!look) {
    print_faults(stderr, shared.faults, request.color);
    return ExitStatus::usage;
  }
  std::vector<std::size_t> order;  // a day of a case that has errors is told to nobody
  for (std::size_t i = 0; i < office.due.size(); ++i)
    if (office.due[i].due.what == Due::What::filing)
      continue;  // the company's own matter
    else if (office.sound[i])
      order.push_back(i);
    else
      put(stderr, safe_for_terminal("soundsill: no letter about `" + office.due[i].path + "`: the case has errors\n"));
  if (order.empty()) {
    put(stderr,
        office.due.empty() ? "soundsill: nothing comes due; no letters written\n" : "soundsill: no letters written\n");
    return status;
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return office.due[a].due.on < office.due[b].due.on; });
  std::vector<document::Letter> all;
  std::map<std::tuple<std::string, std::string, std::string, std::chrono::sys_days>, std::size_t> written;
  for (const std::size_t i : order) {
    const listing::Renewal& due = office.due[i];
    const auto to = std::tuple(due.company, due.due.holder, due.address, std::chrono::sys_days(due.due.on.day));
    const auto [found, fresh] = written.try_emplace(to, all.size());
    if (fresh) all.emplace_back();
    all[found->second].matters.push_back({&office.of[i]->input, due.due});
  }
  const auto letters = [&] {
    return document::letters(*shared.words, office.of[order.front()]->input.basis.company, all, today);
  };
  Loaded none;  // letters belong to no case alone
  const Made made = made_of(none, shared, letters, *look, request);
  print_faults(stderr, none.faults, request.color);
  if (none.faults.errors() > 0) return worse(status, ExitStatus::faults);
  return worse(status, write_paper(request, made, request.letters, shared, files, status));
}

}  // namespace

ExitStatus renew(const Request& request) {
  const DiskFiles files;
  Shared shared;
  if (!shared_or_say(shared, request, files)) return ExitStatus::usage;
  const Date today = today_of(request.where);
  const Date from = request.from.value_or(today);
  const Date to = request.to.value_or(plus_months(from, request.months));
  if (to < from) {
    put(stderr, "soundsill: --to lies before --from\n");
    return ExitStatus::usage;
  }
  Walk walk(request.cases);
  Shelf shelf(files);
  std::size_t found = 0;
  Office office;
  ExitStatus worst = ExitStatus::fine;
  while (const auto next = walk.next()) {
    const std::string& path = *next;
    ++found;
    Loaded& loaded = office.cases.emplace_back();
    load_case(loaded, path, shared, request.where, files, shelf, PhotoCheck::none);
    if (loaded.faults.errors() > 0) print_faults(stderr, loaded.faults, request.color);
    worst = worse(worst, verdict(loaded, request.strict));
    const Treatment* t = loaded.basis ? chosen_treatment(loaded.resolved, loaded.treatments) : nullptr;
    auto due = t ? due_between(*loaded.basis, *t, from, to) : std::vector<Due>();
    if (loaded.basis)
      for (Due& one : filings_between(*loaded.basis, from, to)) due.push_back(std::move(one));
    if (due.empty()) {  // of thousands of cases only those are kept that a letter may be about
      office.cases.pop_back();
      continue;
    }
    const Chosen& chosen = office.chosen.emplace_back(loaded, shared, t, false);
    const auto& facts = loaded.c->facts;
    for (const Due& one : due) {
      office.due.push_back({facts ? facts->number.value_or("") : std::string(), loaded.c->address_line(),
                            loaded.company->value->name.value_or(""), path, one});
      office.of.push_back(&chosen);
      office.sound.push_back(loaded.faults.errors() == 0);
    }
  }
  for (const listing::NotRead& n : walk.not_read()) {
    put(stderr, "soundsill: `" + safe_line(n.path) + "` was not looked into: " + safe_line(n.why) + "\n");
    worst = worse(worst, ExitStatus::usage);
  }
  if (found == 0) {
    put(stderr, "soundsill: there is no case file below what was named\n");
    return ExitStatus::usage;
  }
  if (!request.letters.empty()) worst = write_letters(request, office, shared, files, today, worst);
  std::vector<listing::Renewal> all = office.due;
  listing::sort_by_day(all);
  std::string out;
  if (request.format == "csv")
    out = listing::renewals_csv(all);
  else if (request.format == "json")
    out = listing::renewals_json(all);
  else if (request.format == "ics")
    out = listing::renewals_ics(all, today);
  else
    out = safe_for_terminal(listing::renewals_text(all));
  return put(stdout, out) ? worst : ExitStatus::usage;
}

}  // namespace soundsill::cli
