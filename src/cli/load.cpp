#include "cli/load.h"

#include <algorithm>
#include <filesystem>

#include "cli/assets.h"
#include "service/service.h"
#include "source/most.h"

namespace soundsill::cli {
namespace {

constexpr std::size_t photo_start = 262'144;  // enough for the header of most

template <class T, class Read>
std::optional<T> read_data(Shared& shared, const std::string& option, std::string_view folder, const std::string& name,
                           const Files& files, Read read) {
  DataFile file = data_file(option, folder, name, files);
  if (file.read.bytes)
    return read(shared.sources.add(file.name, std::move(*file.read.bytes), file.tree), shared.faults);
  not_read(shared.faults, file.name, file.read);
  return std::nullopt;
}

/// Finds what a template is based on as every data file is found, so that a paper is based on the company's own packet
/// where there is one. One of the company's own that names itself means the one that it takes the place of.
page::FoundTemplate find_template(Shared& shared, const Where& where, const Files& files, std::string_view name,
                                  const Source& child) {
  const std::string file = std::string(name) + ".xml";
  const bool plain = name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos;
  const bool itself = !where.templates.empty() && child.name() == join_path(where.templates, file);
  DataFile found = plain ? data_file(itself ? std::string() : where.templates, "templates", file, files)
                         : DataFile{file, {std::nullopt, "", true}};
  if (found.read.bytes) return {&shared.sources.add(found.name, std::move(*found.read.bytes)), {}, false};
  if (!found.read.absent) {
    not_read(shared.faults, found.name, found.read);
    return {nullptr, {}, true};
  }
  std::vector<std::string> known;
  for (const Asset& a : assets("templates"))
    if (a.name.ends_with(".xml")) known.emplace_back(a.name.substr(10, a.name.size() - 14));  // no templates/, .xml
  return {nullptr, std::move(known), false};
}

std::optional<page::Template> read_look(Shared& shared, const Where& where, const std::string& kind,
                                        const Files& files) {
  return read_data<page::Template>(
      shared, where.templates, "templates", kind + ".xml", files, [&](const Source& source, Faults& faults) {
        return page::read_template(source, faults, [&](std::string_view name, const Source& child) {
          return find_template(shared, where, files, name, child);
        });
      });
}

void add_face(Shared& shared, const page::Template& look, const std::string& key, const std::string& file) {
  if (const auto bytes = asset("fonts/" + file + ".ttf")) {
    read_here_and_there(*bytes);
    shared.faces.add(key, *bytes, asset("pairs/" + file + ".pairs").value_or(""));
    return;
  }
  std::vector<std::string> names;
  for (const Asset& a : assets("fonts")) names.emplace_back(a.name.substr(6, a.name.size() - 10));  // no fonts/, .ttf
  const std::vector<std::string_view> known(names.begin(), names.end());
  shared.faults.add(Rule::bad_template, look.face_places.at(key), "no font is named \"" + file + "\"",
                    "the paper cannot be laid out", "write one of: " + yaml::listed(known));
}

/// Patterns are read only for a template that wants hyphens.
void add_hyphens(Shared& shared) {
  const auto wants = [](const auto& style) { return style.second.hyphenate; };
  const bool english = shared.words->say(document::Word::language).starts_with("en");
  if (!english || std::none_of(shared.look->texts.begin(), shared.look->texts.end(), wants)) return;
  if (const auto patterns = asset("hyphens/hyph_en_US.dic"))
    shared.hyphens = std::make_unique<const page::Hyphens>(*patterns);
}

}  // namespace

void load_shared(Shared& shared, const Where& where, const Files& files, Sharing what) {
  shared.trade = read_data<Trade>(shared, where.forms, "forms", "trade.yaml", files, read_trade);
  shared.general = read_data<Form>(shared, where.forms, "forms", "us-general.yaml", files, read_form);
  if (what == Sharing::data) return;
  const auto words_in = [&](const std::string& language, const document::Words* english) {
    return read_data<document::Words>(
        shared, where.templates, "templates", "words." + language + ".yaml", files,
        [english](const Source& source, Faults& faults) { return document::read_words(source, faults, english); });
  };
  shared.words = words_in("en", nullptr);
  if (where.language != "en" && shared.words) {
    shared.english = std::move(shared.words);
    shared.words = words_in(where.language, &*shared.english);
  }
  shared.look = read_look(shared, where, "packet", files);
  if (DataFile css = data_file(where.templates, "templates", "page.css", files); css.read.bytes)
    shared.style_sheet = std::move(*css.read.bytes);
  else
    not_read(shared.faults, css.name, css.read);
  if (shared.look) {
    for (const auto& [key, file] : shared.look->faces) add_face(shared, *shared.look, key, file);
    if (!shared.look->fallback.empty() && shared.faces.find(shared.look->fallback))
      shared.faces.set_fallback(shared.look->fallback);
    if (shared.words) add_hyphens(shared);
  }
}

std::optional<page::Template> load_look(Shared& shared, const Where& where, const std::string& kind,
                                        const Files& files) {
  auto look = read_look(shared, where, kind, files);
  if (look && shared.look)
    for (const auto& [key, file] : look->faces)
      if (!shared.look->faces.contains(key)) add_face(shared, *look, key, file);
  return look;
}

namespace {

const Source* read_text(Loaded& loaded, const std::string& path, const Files& files) {
  FileRead read = files.read(path, most::text_bytes);
  if (read.bytes) return &loaded.sources.add(path, std::move(*read.bytes));
  not_read(loaded.faults, path, read);
  loaded.unreadable = true;
  return nullptr;
}

void take_faults(Loaded& loaded, const Faults& faults) {
  for (const Diagnostic& d : faults.all()) loaded.faults.add(d);
}

void read_the_company(Loaded& loaded, Shelf& shelf) {
  const auto path = shelf.company_path(loaded.folder);
  if (!path) {
    const std::string why = "it is neither there nor in a folder above";
    not_read(loaded.faults, join_path(loaded.folder, "company.yaml"), {std::nullopt, why, true});
    loaded.unreadable = true;
    return;
  }
  loaded.company = shelf.company(*path);
  take_faults(loaded, loaded.company->faults);
  loaded.unreadable = loaded.unreadable || loaded.company->unreadable;
}

/// "fha"; empty without a loan.
std::string loan_of(const Case& c) {
  if (!c.facts || !c.facts->loan || *c.facts->loan == Loan::none) return {};
  std::string name(yaml::word(*c.facts->loan));
  for (char& letter : name) letter = letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter + 32) : letter;
  return name;
}

void no_such_form(Loaded& loaded, const std::string& id, bool plain) {
  std::vector<std::string> names;
  for (const Asset& a : assets("forms")) {
    std::string name(a.name.substr(6, a.name.size() - 11));  // without forms/ and .yaml
    if (name != "trade" && !name.starts_with("loan-")) names.push_back(std::move(name));
  }
  const std::vector<std::string_view> known(names.begin(), names.end());
  loaded.faults.add(Rule::unknown_form, loaded.c->form.at, "there is no form `" + id + "`",
                    "without a form nobody knows which state's rules and limits hold",
                    "name one of " + yaml::listed(known) + ", or put `" + (plain ? id : std::string("us-xx")) +
                        ".yaml` into a folder for --forms");
}

/// A form in the company's folder and one inside the program: the newer edition counts, and that there are two is told.
void newest_edition(Loaded& loaded, const Form& general, Shelf& shelf) {
  const std::string& id = *loaded.c->form;
  const auto inside = shelf.form(id, loan_of(*loaded.c), "", general);
  if (!inside || !inside->value || !loaded.form->value) return;
  const std::string theirs = inside->value->edition.value_or(""), own = loaded.form->value->edition.value_or("");
  if (theirs == own) return;
  const std::string path = loaded.form->path;
  if (own < theirs) loaded.form = inside;
  loaded.faults.add(Rule::edition_differs, loaded.c->form.at,
                    "edition `" + own + "` of `" + id + "` stands in the folder, and `" + theirs + "` in the program",
                    "the newer one counts, `" + std::max(own, theirs) + "`; what the other says may differ",
                    "see `soundsill forms " + id + " --diff " + path + "`");
}

void read_the_form(Loaded& loaded, const Shared& shared, const Where& where, const Files& files, Shelf& shelf) {
  if (!loaded.c->form || !shared.general) return;
  const std::string& id = *loaded.c->form;
  const bool plain = id.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos;
  const std::string beside = join_path(loaded.folder, "forms");
  const bool own = where.forms.empty() && plain && files.exists(join_path(beside, id + ".yaml"));
  if (plain) loaded.form = shelf.form(id, loan_of(*loaded.c), own ? beside : where.forms, *shared.general);
  if (own && loaded.form) newest_edition(loaded, *shared.general, shelf);
  if (!loaded.form) return no_such_form(loaded, id, plain);
  take_faults(loaded, loaded.form->faults);
  loaded.unreadable = loaded.unreadable || loaded.form->unreadable;
}

/// Photos are read once; the same path in two findings is the same photo.
std::map<std::string, PhotoState> read_photos(Loaded& loaded, const Files& files, PhotoCheck how) {
  std::map<std::string, PhotoState> states;
  for (const PhotoUse& use : photos_of(*loaded.c)) {
    const PhotoFile& p = *use.photo;
    if (!p.file || states.count(*p.file)) continue;
    PhotoState& state = states[*p.file];
    const bool start = how != PhotoCheck::whole;
    FileRead read =
        files.read_inside(loaded.folder, *p.file, most::photo_bytes, start ? photo_start : most::photo_bytes);
    state.trouble = read.trouble;
    if (!read.bytes) continue;
    auto header = photo::read_header(*read.bytes);
    if (!header && start && read.bytes->size() == photo_start) {  // a long thumbnail stands before the size
      read = files.read_inside(loaded.folder, *p.file, most::photo_bytes, most::photo_bytes);
      if (read.bytes) header = photo::read_header(*read.bytes);
    }
    state.header = header.value;
    state.damage = header.trouble;
    if (header && how == PhotoCheck::whole && header.value->kind == photo::Header::Kind::heic) {
      // Slow to decode: once here, and from then on it is a JPEG that another decoder reads.
      auto decoded = photo::as_jpeg(*read.bytes);
      state.damage = decoded.trouble;
      if (decoded) read.bytes = std::move(decoded.value->jpeg);
    }
    if (state.damage.empty() && how == PhotoCheck::whole) loaded.photos[*p.file] = std::move(*read.bytes);
  }
  return states;
}

}  // namespace

void prove_photos(Loaded& loaded) {
  if (loaded.proved || !loaded.basis) return;
  std::map<std::string, std::string> troubles;
  for (const auto& [file, bytes] : loaded.photos)
    if (std::string trouble = photo::damage(bytes); !trouble.empty()) troubles.emplace(file, std::move(trouble));
  loaded.proved = true;
  tell_broken(loaded, troubles);
}

void tell_broken(Loaded& loaded, const std::map<std::string, std::string>& troubles) {
  if (troubles.empty()) return;
  Papers papers{*loaded.basis, loaded.treatments, loaded.estimates, {}, {}};
  for (const auto& [file, trouble] : troubles) {
    papers.photos[file].damage = trouble;
    loaded.photos.erase(file);
  }
  check_photos(papers, loaded.faults);
  loaded.faults.sort();
}

void load_case(Loaded& loaded, const std::string& argument, const Shared& shared, const Where& where,
               const Files& files, Shelf& shelf, PhotoCheck photos) {
  loaded.path = is_folder(argument) ? join_path(argument, "case.yaml") : argument;
  loaded.folder = folder_of(loaded.path);
  if (const Source* source = read_text(loaded, loaded.path, files)) loaded.c = read_case(*source, loaded.faults);
  if (!loaded.c) return;
  read_the_company(loaded, shelf);
  read_the_form(loaded, shared, where, files, shelf);
  if (!loaded.company || !loaded.company->value || !loaded.form || !loaded.form->value || !shared.trade) return;
  loaded.survey = measure(*loaded.c, loaded.faults);
  const Company& company = *loaded.company->value;
  if (company.limits) {
    loaded.own_form = *loaded.form->value;
    tighten(*loaded.own_form, *company.limits);
  }
  const Form& form = loaded.own_form ? *loaded.own_form : *loaded.form->value;
  loaded.resolved = resolved::resolve(*loaded.c, form, *shared.trade, company, loaded.survey, loaded.faults);
  loaded.basis.emplace(Basis{*loaded.c, form, *shared.trade, company, loaded.survey, loaded.resolved});
  loaded.treatments = plan_all(*loaded.basis, loaded.faults);
  for (const Treatment& t : loaded.treatments) loaded.estimates.push_back(price(*loaded.basis, t, loaded.faults));
  const Papers papers{*loaded.basis,
                      loaded.treatments,
                      loaded.estimates,
                      read_photos(loaded, files, photos),
                      where.today,
                      where.wanted,
                      chosen_treatment(loaded.resolved, loaded.treatments, where.option),
                      where.language};
  check(papers, loaded.faults);
  // No paper will be made that would find them.
  if (photos == PhotoCheck::whole && loaded.faults.errors() > 0) prove_photos(loaded);
  loaded.faults.sort();
}

}  // namespace soundsill::cli
