#include "cli/paper.h"

#include <set>

#include "listing/data.h"

namespace soundsill::cli {
namespace {

document::PaperKind kind_of(Paper which) {
  return which == Paper::estimate   ? document::PaperKind::estimate
         : which == Paper::findings ? document::PaperKind::findings
                                    : document::PaperKind::packet;
}

/// A last look at what is about to be printed, whatever words and template it was made with.
void check_paper(Loaded& loaded, const document::Document& paper, const document::PacketInput& input, Paper which) {
  for (const std::string& item : document::lacking(paper, input, kind_of(which)))
    loaded.faults.add(Rule::item_missing, {}, "the paper lacks " + item, "a paper that lacks an item is sent back",
                      "look at the words that come before the built-in ones, or report this as a fault of the program");
}

void check_type(Loaded& loaded, const page::Pages& pages) {
  const auto& limits = loaded.basis->form.limits;
  if (!limits || !limits->least_type || !limits->least_type->value) return;
  page::Milli least = 0;
  for (const page::Page& page : pages.pages)
    for (const page::Mark& mark : page.marks)
      if (const auto* text = std::get_if<page::TextMark>(&mark); text && (least == 0 || text->size < least))
        least = text->size;
  const auto& asked = limits->least_type;
  if (least == 0 || Ratio(least, 1000) >= *asked->value) return;
  loaded.faults.add(Rule::small_type, {},
                    "the smallest letters are " + shortest(Ratio(least, 1000), 2) + " points, and " +
                        shortest(*asked->value, 2) + " are asked",
                    "what nobody can read is not told (" + asked->cite.value_or("") + ")",
                    "set the styles of the template larger", rests_on(*asked));
}

/// Words of the data that the translation has no phrase for: the paper says them in English.
void untranslated(Loaded& loaded, const Shared& shared) {
  if (!shared.english) return;
  std::set<std::string> told;
  const auto need = [&](const yaml::Field<std::string>& field, const std::string& word) {
    if (word.empty() || shared.words->has_name(word) || !told.insert(word).second) return;
    loaded.faults.add(Rule::untranslated, field.at, "`" + word + "` has no phrase in this language",
                      "the paper says it in English", "add it under `names:` of the words file");
  };
  const auto of = [&](const yaml::Field<std::string>& field) {
    if (field) need(field, *field);
  };
  of(loaded.basis->form.title);
  for (const Finding& f : items(loaded.c->findings)) {
    of(f.condition);
    const Organism* organism = f.organism ? loaded.basis->trade.organism(*f.organism) : nullptr;
    if (f.organism) need(f.organism, organism ? organism->plural.value_or(*f.organism) : *f.organism);
  }
  for (const Work& w : items(loaded.c->work)) of(w.does);
}

document::PacketInput input_of(const Loaded& loaded, const Shared& shared, Paper which, bool draft) {
  return {*loaded.basis,
          loaded.treatments,
          loaded.estimates,
          *shared.words,
          loaded.photos,
          draft,
          which == Paper::findings,
          shared.english ? &*shared.english : nullptr};
}

std::string megabytes(std::size_t bytes, int decimals) {
  return shortest(Ratio(static_cast<std::int64_t>(bytes), 1'000'000), decimals) + " MB";
}

}  // namespace

void weigh(Loaded& loaded, const page::FileStyle& limits, std::size_t weight) {
  if (weight <= limits.warn) return;
  const bool refused = weight > limits.most;
  Span at = loaded.c ? loaded.c->at : Span();
  if (loaded.c)
    for (const PhotoUse& use : photos_of(*loaded.c))
      if (use.photo->file) {
        at = use.photo->file.at;
        break;
      }
  loaded.faults.add(refused ? Rule::too_heavy_paper : Rule::heavy_paper, at,
                    "the paper weighs " + megabytes(weight, 1) + " with all its photos; " +
                        megabytes(refused ? limits.most : limits.warn, 2) + (refused ? " is the most" : " mails well"),
                    refused ? "mail boxes and portals send it back, and nobody reads it"
                            : "some mail boxes send it back, since mail adds a third",
                    "take out photos that show nothing new, or show less of them with `crop:`");
}

document::Document paper_document(const Loaded& loaded, const Shared& shared, Paper which, bool draft) {
  const document::PacketInput input = input_of(loaded, shared, which, draft);
  if (which == Paper::drawing) return document::drawing_paper(input);
  return which == Paper::estimate ? document::estimate_paper(input) : document::packet(input);
}

namespace {

/// Decodes the photos of laid-out pages. A broken one is a fault of the case and is taken from it: false says that the
/// paper has to be made again without it.
bool develop(Loaded& loaded, page::Pages& pages, const document::Document& paper, const page::Template& look,
             unsigned threads) {
  page::PhotoTroubles troubles = page::develop(pages, paper, look, 0, threads);
  // What this paper does not show is part of the case all the same.
  for (const auto& [file, bytes] : loaded.photos)
    if (!loaded.proved && !paper.photos.contains(file))
      if (std::string trouble = photo::damage(bytes); !trouble.empty()) troubles.emplace(file, std::move(trouble));
  loaded.proved = true;
  tell_broken(loaded, troubles);
  return troubles.empty();
}

/// Writes pages, with ever lighter photos until the template's aim is met.
std::string write_light(page::Pages& pages, const document::Document& paper, const page::Template& look,
                        const pdf::Options& options, unsigned threads) {
  std::string bytes = pdf::write(pages, options);
  for (std::size_t step = 1; bytes.size() > look.file.aim && step < look.photos.steps.size(); ++step) {
    if (pages.photos.empty() || !page::develop(pages, paper, look, step, threads).empty()) break;
    bytes = pdf::write(pages, options);
  }
  return bytes;
}

}  // namespace

std::optional<Made> set_paper(Loaded& loaded, const Shared& shared, const document::Document& paper,
                              const page::Template& look, const pdf::Options& options, unsigned threads) {
  page::Pages pages = page::lay_out(paper, look, shared.faces, loaded.faults, shared.hyphens.get());
  if (!develop(loaded, pages, paper, look, threads)) return std::nullopt;
  if (loaded.basis) {  // letters belong to no case alone
    check_type(loaded, pages);
    untranslated(loaded, shared);
  }
  Made made{pages.subject, write_light(pages, paper, look, options, threads)};
  weigh(loaded, look.file, made.bytes.size());
  loaded.faults.sort();
  return made;
}

pdf::Options pdf_options(pdf::Flavour flavour) {
  pdf::Options options;
  options.producer = std::string("soundsill ") + SOUNDSILL_VERSION;
  options.flavour = flavour;
  return options;
}

Made make_paper(Loaded& loaded, const Shared& shared, Paper which, const Making& making) {
  const document::Document paper = paper_document(loaded, shared, which, making.draft);
  if (which != Paper::drawing) check_paper(loaded, paper, input_of(loaded, shared, which, making.draft), which);
  pdf::Options options = pdf_options(making.flavour);
  if (!making.bare && which != Paper::drawing && making.flavour != pdf::Flavour::pdfa_1a)
    options.attachment = {
        "packet.json", listing::packet_json({*loaded.basis, loaded.treatments, loaded.estimates, paper, *shared.words}),
        shared.words->say(document::Word::data_description), "application/json"};
  if (auto made = set_paper(loaded, shared, paper, *shared.look, options, making.threads)) return std::move(*made);
  return make_paper(loaded, shared, which, making);
}

}  // namespace soundsill::cli
