#include "cli/load.h"

#include <algorithm>
#include <filesystem>

#include "cli/assets.h"

namespace soundsill::cli {
namespace {

constexpr std::size_t text_limit = 4'000'000;
constexpr std::size_t photo_limit = 60'000'000;

/// A data file from the folder that was named, or from inside the program. The name says which.
std::optional<std::pair<std::string, std::string>> data_file(const std::string& folder_option, std::string_view folder,
                                                             const std::string& name, const Files& files) {
  if (!folder_option.empty()) {
    const std::string path = join_path(folder_option, name);
    if (FileRead read = files.read(path, text_limit); read.bytes) return {{path, std::move(*read.bytes)}};
  }
  const std::string inside = std::string(folder) + "/" + name;
  if (const auto bytes = asset(inside)) return {{"built-in " + inside, std::string(*bytes)}};
  return std::nullopt;
}

void no_file(Faults& faults, const std::string& path, const std::string& trouble) {
  faults.add(Rule::unreadable_file, Span{}, "`" + path + "` cannot be read: " + trouble,
             "no paper can be made without it", "check the name, or put the file there");
}

template <class T, class Read>
std::optional<T> read_data(Shared& shared, const std::string& option, std::string_view folder, const std::string& name,
                           const Files& files, Read read) {
  const auto file = data_file(option, folder, name, files);
  if (!file) {
    no_file(shared.faults, name, "there is no such file");
    return std::nullopt;
  }
  return read(shared.sources.add(file->first, file->second), shared.faults);
}

void add_face(Shared& shared, const std::string& key, const std::string& file) {
  if (const auto bytes = asset("fonts/" + file + ".ttf")) {
    shared.faces.add(key, *bytes);
    return;
  }
  std::vector<std::string> names;
  for (const Asset& a : assets("fonts")) names.emplace_back(a.name.substr(6, a.name.size() - 10));  // no fonts/, .ttf
  const std::vector<std::string_view> known(names.begin(), names.end());
  shared.faults.add(Rule::bad_template, shared.look->face_places.at(key), "no font is named \"" + file + "\"",
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

void load_shared(Shared& shared, const Where& where, const Files& files) {
  shared.trade = read_data<Trade>(shared, where.forms, "forms", "trade.yaml", files, read_trade);
  shared.general = read_data<Form>(shared, where.forms, "forms", "us-general.yaml", files, read_form);
  shared.words =
      read_data<document::Words>(shared, where.templates, "templates", "words.en.yaml", files, document::read_words);
  shared.look =
      read_data<page::Template>(shared, where.templates, "templates", "packet.xml", files, page::read_template);
  if (const auto css = data_file(where.templates, "templates", "page.css", files)) shared.style_sheet = css->second;
  if (shared.look) {
    for (const auto& [key, file] : shared.look->faces) add_face(shared, key, file);
    if (!shared.look->fallback.empty() && shared.faces.find(shared.look->fallback))
      shared.faces.set_fallback(shared.look->fallback);
    if (shared.words) add_hyphens(shared);
  }
}

namespace {

/// company.yaml beside the case, or in a folder above it.
std::optional<std::string> company_path(const std::string& folder, const Files& files) {
  std::error_code failed;
  std::filesystem::path at = std::filesystem::absolute(folder, failed);
  std::string shown = folder == "." ? "" : folder + "/";
  for (int up = 0; up < 64; ++up) {
    const std::string path = shown + "company.yaml";
    if (files.exists(path)) return path;
    if (at == at.root_path() || at.empty()) break;
    at = at.parent_path();
    shown = (up == 0 && shown.empty() ? "" : shown) + "../";
  }
  return std::nullopt;
}

const Source* read_text(Loaded& loaded, const std::string& path, const Files& files) {
  FileRead read = files.read(path, text_limit);
  if (read.bytes) return &loaded.sources.add(path, std::move(*read.bytes));
  no_file(loaded.faults, path, read.trouble);
  loaded.unreadable = true;
  return nullptr;
}

void read_the_company(Loaded& loaded, const Files& files) {
  const auto path = company_path(loaded.folder, files);
  if (!path) {
    no_file(loaded.faults, join_path(loaded.folder, "company.yaml"), "it is neither there nor in a folder above");
    loaded.unreadable = true;
    return;
  }
  // "a/b/../../company.yaml" reads badly in a message.
  const std::string shown = std::filesystem::path(*path).lexically_normal().string();
  if (const Source* source = read_text(loaded, shown, files)) loaded.company = read_company(*source, loaded.faults);
}

/// A loan has rules of its own, which are laid over the state's where a form for it is installed.
void tighten_by_loan(Loaded& loaded, const std::string& folder, const Files& files) {
  const auto& facts = loaded.c->facts;
  if (!facts || !facts->loan || *facts->loan == Loan::none || *facts->loan == Loan::conventional) return;
  std::string name = "loan-" + std::string(yaml::word(*facts->loan)) + ".yaml";
  for (char& c : name) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c;
  const auto file = data_file(folder, "forms", name, files);
  if (!file) return;
  if (const auto overlay = read_form(loaded.sources.add(file->first, file->second), loaded.faults))
    tighten(*loaded.form, *overlay);
}

void read_the_form(Loaded& loaded, const Shared& shared, const Where& where, const Files& files) {
  if (!loaded.c || !loaded.c->form || !shared.general) return;
  const std::string& id = *loaded.c->form;
  const bool plain = id.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos;
  const std::string beside = join_path(loaded.folder, "forms");
  const std::string option =
      where.forms.empty() && files.exists(join_path(beside, id + ".yaml")) ? beside : where.forms;
  const auto file = plain ? data_file(option, "forms", id + ".yaml", files) : std::nullopt;
  if (!file) {
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
    return;
  }
  loaded.form = read_form(loaded.sources.add(file->first, file->second), loaded.faults);
  if (!loaded.form) return;
  fill_from(*loaded.form, *shared.general);
  tighten_by_loan(loaded, option, files);
}

/// Photos are read once; the same path in two findings is the same photo.
std::map<std::string, PhotoState> read_photos(Loaded& loaded, const Files& files, PhotoCheck how) {
  std::map<std::string, PhotoState> states;
  for (const PhotoUse& use : photos_of(*loaded.c)) {
    const PhotoFile& p = *use.photo;
    if (!p.file || states.count(*p.file)) continue;
    PhotoState& state = states[*p.file];
    FileRead read = files.read_inside(loaded.folder, *p.file, photo_limit);
    state.trouble = read.trouble;
    if (!read.bytes) continue;
    auto header = photo::read_header(*read.bytes);
    state.header = header.value;
    state.damage = header.trouble;
    if (header && how == PhotoCheck::whole) state.damage = photo::damage(*read.bytes);
    if (state.damage.empty()) loaded.photos[*p.file] = std::move(*read.bytes);
  }
  return states;
}

}  // namespace

void load_case(Loaded& loaded, const std::string& argument, const Shared& shared, const Where& where,
               const Files& files, PhotoCheck photos) {
  loaded.path = is_folder(argument) ? join_path(argument, "case.yaml") : argument;
  loaded.folder = folder_of(loaded.path);
  if (const Source* source = read_text(loaded, loaded.path, files)) loaded.c = read_case(*source, loaded.faults);
  if (!loaded.c) return;
  read_the_company(loaded, files);
  read_the_form(loaded, shared, where, files);
  if (!loaded.company || !loaded.form || !shared.trade) return;
  cut_to_scope(*loaded.c, *shared.trade);
  loaded.survey = measure(*loaded.c, loaded.faults);
  loaded.basis.emplace(Basis{*loaded.c, *loaded.form, *shared.trade, *loaded.company, loaded.survey});
  loaded.treatments = plan_all(*loaded.basis, loaded.faults);
  for (const Treatment& t : loaded.treatments) loaded.estimates.push_back(price(*loaded.basis, t, loaded.faults));
  const Papers papers{*loaded.basis, loaded.treatments, loaded.estimates, read_photos(loaded, files, photos),
                      where.today};
  check(papers, loaded.faults);
  loaded.faults.sort();
}

document::Document paper_document(const Loaded& loaded, const Shared& shared, Paper which, bool draft) {
  const document::PacketInput input{*loaded.basis,           loaded.treatments, loaded.estimates,
                                    *shared.words,           loaded.photos,     draft,
                                    which == Paper::findings};
  if (which == Paper::drawing) return document::drawing_paper(input);
  return which == Paper::estimate ? document::estimate_paper(input) : document::packet(input);
}

page::Pages paper_pages(Loaded& loaded, const Shared& shared, Paper which, bool draft) {
  const document::Document paper = paper_document(loaded, shared, which, draft);
  page::Pages pages = page::lay_out(paper, *shared.look, shared.faces, loaded.faults, shared.hyphens.get());
  loaded.faults.sort();
  return pages;
}

}  // namespace soundsill::cli
