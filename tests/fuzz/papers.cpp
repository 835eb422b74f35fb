// The whole way: a case in memory is read, checked and made into a paper, a draft whatever is wrong with it. Which
// paper, page or list depends on the bytes, or is said in the first line (`# way 6`; from 14 on the same in Spanish).
// After a line `=== company` comes another company than the examples', after
// `=== photo` the bytes of every photo.
#include <algorithm>

#include "aftersale/papers.h"
#include "cli/paper.h"
#include "cli/twin.h"
#include "fuzz/fuzz.h"
#include "fuzz/yaml_mutator.h"
#include "listing/listing.h"
#include "listing/renewals.h"
#include "listing/review.h"
#include "support/memory_files.h"
#include "support/pages_check.h"
#include "svg/svg.h"

using namespace soundsill;
using fuzzing::must;

namespace {

/// The texts of one input, where the program looks for them. Every photo that a case names is there.
class InputFiles : public MemoryFiles {
 public:
  explicit InputFiles(std::string_view input) {
    static const std::string company = fuzzing::file_text("examples/company.yaml");
    static const std::string photo = fuzzing::file_text("tests/fuzz/corpus/photo/small.jpg");
    photo_ = cut(input, "\n=== photo\n").value_or(photo);
    files["case/company.yaml"] = cut(input, "\n=== company\n").value_or(company);
    files["case/case.yaml"] = std::string(input);
  }

  [[nodiscard]] FileRead read_inside(const std::string&, const std::string& relative, std::size_t,
                                     std::size_t) const override {
    if (relative.starts_with("/") || relative.find("..") != std::string::npos)
      return {std::nullopt, "it lies outside the folder of the file that names it"};
    return {photo_, {}};
  }

 private:
  /// What stands behind a line of its own; the rest stays.
  static std::optional<std::string> cut(std::string_view& input, std::string_view line) {
    const auto at = input.find(line);
    if (at == std::string_view::npos) return std::nullopt;
    std::string behind(input.substr(at + line.size()));
    input = input.substr(0, at + 1);
    return behind;
  }

  std::string photo_;
};

/// One paper after the estimate, with its template.
struct After {
  Wanted wanted;
  const char* look;
  document::Document (*make)(const document::PacketInput&);
};
constexpr After after[] = {
    {Wanted::work_order, "work-order", &document::work_order},
    {Wanted::agreement, "paper", &document::agreement},
    {Wanted::record, "paper", &document::record},
    {Wanted::record, "notice", &document::posted_notice},
    {Wanted::invoice, "paper", &document::invoice},
    {Wanted::certificate, "paper", &document::certificate},
};

/// Words, looks and faces of one language, read once for all inputs.
struct Office {
  cli::Where where;
  cli::Shared shared;
  std::vector<page::Template> looks;  ///< alongside `after`
  std::optional<page::Template> letter;

  explicit Office(const std::string& language) {
    using namespace std::chrono;
    where.language = language;
    where.today = Date{2026y / March / 9d};
    const MemoryFiles none;
    cli::load_shared(shared, where, none);
    for (const After& one : after)
      if (auto look = cli::load_look(shared, where, one.look, none)) looks.push_back(std::move(*look));
    letter = cli::load_look(shared, where, "letter", none);
    must(shared.faults.errors() == 0 && letter && looks.size() == std::size(after), "what is built in can be read");
  }
};

const Office& office(bool spanish) {
  static const Office english("en"), other("es");
  return spanish ? other : english;
}

void must_be_pdf(const std::string& bytes) {
  must(bytes.starts_with("%PDF-") && bytes.find("%%EOF", bytes.size() - 16) != std::string::npos, "a draft is a PDF");
}

void write(cli::Loaded& loaded, const document::Document& paper, const page::Template& look,
           const cli::Shared& shared) {
  const page::Pages pages = page::lay_out(paper, look, shared.faces, loaded.faults, shared.hyphens.get());
  must(page::off_sheet(pages).empty() && page::broken_tree(pages).empty(), "pages are whole");
  const auto& faults = loaded.faults.all();
  const auto no_letter = [](const Diagnostic& d) { return d.rule == Rule::no_letter; };
  const std::vector<std::string> lost = page::lost_strings(paper, pages);
  must(lost.empty() || std::any_of(faults.begin(), faults.end(), no_letter),
       "no word of a paper is lost: " + (lost.empty() ? "" : lost.front()));
  const auto made = cli::set_paper(loaded, shared, paper, look, {}, 1);
  must(made.has_value(), "photos that were proved can be printed");
  must_be_pdf(made->bytes);
}

void lists(const cli::Loaded& loaded) {
  const listing::Measures all{*loaded.basis, loaded.treatments, loaded.estimates};
  must(listing::measures_json(all).starts_with("{") && listing::estimate_json(all).starts_with("{"),
       "JSON is an object");
  must(!listing::measures_text(all, true).empty() && !listing::estimate_text(all, true).empty(), "lists say something");
  must(!listing::estimate_csv(all).empty() && !listing::owner_text(all, Money{120'000}).empty(),
       "sheets say something");
  const auto found = choices(*loaded.basis);
  (void)listing::ceiling_text(*loaded.basis, found, Money{100'000});
}

void letters(cli::Loaded& loaded, const Office& at) {
  const Treatment* chosen = chosen_treatment(loaded.resolved, loaded.treatments);
  if (!chosen) return;
  const auto due = due_between(*loaded.basis, *chosen, *at.where.today, plus_months(*at.where.today, 24));
  const document::PacketInput in{*loaded.basis, loaded.treatments, loaded.estimates, *at.shared.words, loaded.photos};
  std::vector<document::Letter> all;
  std::vector<listing::Renewal> rows;
  for (const Due& one : due) {
    all.push_back({{{&in, one}}});
    rows.push_back({"1", loaded.c->address_line(), "", "case.yaml", one});
  }
  must(listing::renewals_ics(rows, *at.where.today).starts_with("BEGIN:VCALENDAR\r\n"), "a calendar begins as one");
  (void)listing::renewals_csv(rows);
  if (!all.empty())
    write(loaded, document::letters(*at.shared.words, loaded.basis->company, all, *at.where.today), *at.letter,
          at.shared);
}

void paper_after(cli::Loaded& loaded, const Office& at, std::size_t which) {
  const Treatment* chosen = chosen_treatment(loaded.resolved, loaded.treatments);
  if (!chosen && after[which].wanted != Wanted::invoice) return;
  std::vector<Treatment> treatments;
  std::vector<Estimate> estimates;
  for (std::size_t i = 0; i < loaded.treatments.size(); ++i)
    if (&loaded.treatments[i] == chosen) {
      treatments.push_back(loaded.treatments[i]);
      estimates.push_back(loaded.estimates[i]);
    }
  const document::PacketInput in{
      *loaded.basis, treatments, estimates, *at.shared.words,
      loaded.photos, true,       false,     at.shared.english ? &*at.shared.english : nullptr};
  const document::Document paper = after[which].make(in);
  if (after[which].wanted == Wanted::agreement) document::check_items(in, paper, loaded.faults);
  write(loaded, paper, at.looks[which], at.shared);
}

/// Ways that an input may go: the four papers of the packet, pages for screens, lists, letters, and what comes after.
constexpr std::size_t lists_way = 6, after_begins = 8;
constexpr std::size_t ways = after_begins + std::size(after);

/// Which way an input goes: as its first line says (`# way 6`), else some way, always the same.
std::uint64_t way_number(std::string_view input) {
  constexpr std::string_view said = "# way ";
  if (!input.starts_with(said)) return fuzzing::number_of(input);
  std::uint64_t number = 0;
  for (std::size_t i = said.size(); i < input.size() && input[i] >= '0' && input[i] <= '9'; ++i)
    number = number * 10 + static_cast<std::uint64_t>(input[i] - '0');
  return number;
}

void make(cli::Loaded& loaded, const Office& at, std::size_t way) {
  using cli::Paper;
  if (way > static_cast<std::size_t>(Paper::drawing)) cli::prove_photos(loaded);
  switch (way) {
    case 0:
    case 1:
    case 2:
    case 3:
      return must_be_pdf(cli::make_paper(loaded, at.shared, static_cast<Paper>(way), {.draft = true}).bytes);
    case 4:
      return must(cli::html_paper(loaded, at.shared, Paper::packet, true).bytes.starts_with("<!DOCTYPE html"),
                  "a page for screens begins as one");
    case 5:
      return must(cli::svg_drawing(loaded, at.shared, true).bytes.find("<svg") != std::string::npos,
                  "a drawing is an SVG");
    case lists_way:
      return lists(loaded);
    case 7:
      return letters(loaded, at);
    default:
      return paper_after(loaded, at, way - after_begins);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view input = fuzzing::text_of(data, size);
  const std::uint64_t number = way_number(input);
  const std::size_t way = number % ways;
  const Office& at = office(number / ways % 4 == 1);
  const InputFiles files(input);
  cli::Where where = at.where;
  if (way >= after_begins) where.wanted = after[way - after_begins].wanted;
  cli::Shelf shelf(files);
  cli::Loaded loaded;
  cli::load_case(loaded, "case/case.yaml", at.shared, where, files, shelf, cli::PhotoCheck::whole);
  must(loaded.basis || loaded.faults.errors() > 0, "what cannot be worked out is told");
  if (loaded.basis && loaded.c->facts) make(loaded, at, way);
  fuzzing::must_be_whole(loaded.faults);
  (void)fuzzing::told(loaded.faults);
  if (way == lists_way) {
    must(listing::faults_json(loaded.faults).starts_with("{"), "faults are an object");
    must(listing::faults_sarif(loaded.faults, "0").starts_with("{"), "faults are a log");
  }
  return 0;
}
