// From each clean example every single field is taken away or changed. What a required key says is never missed; every
// other change is told as a fault or is seen in a paper, but for the keys listed here with the reason.
#include <catch2/catch.hpp>
#include <set>

#include "aftersale/papers.h"
#include "listing/listing.h"
#include "support/case_harness.h"
#include "support/mutations.h"
#include "support/words.h"

using namespace soundsill;
using namespace soundsill::testing;

namespace {

struct Harmless {
  const char *block, *keys, *why;
};

/// Keys of which some change may pass unseen, and why that does no harm.
constexpr Harmless harmless[] = {
    {"a case", "form", "the test gives each case its form; an unknown one is told (unknown-form.txt)"},
    {"a work line", "id", "a name that only the file uses; whoever refers to it is told"},
    {"a visit", "id", "a name that only the file uses; whoever refers to it is told"},
    {"a work line", "in", "with one structure to treat there is no other"},
    {"a work line", "sides", "both sides when not said; inside a slab there is but one"},
    {"a work line", "by", "us when not said"},
    {"a work line", "count", "how many things somebody else does is theirs to say"},
    {"the `case` block", "ordered, due diligence", "they put days in order and are printed nowhere"},
    {"the `case` block", "sold at, sold in",
     "asked for when an agreement is made (sale-unfit.txt); home and elsewhere come to the same notice"},
    {"a finding", "live seen", "past evidence that says nothing was not seen alive"},
    {"an option", "warranty", "an option that applies nothing promises nothing"},
    {"wall facts", "kind", "voids matter only where the method drills"},
    {"a group of piers", "kind", "voids matter only where the method drills"},
    {"a pilaster", "kind", "pilaster and step buttress are treated alike"},
    {"a `footing` block", "known by", "dug or drawing: both are known; what is assumed is told"},
    {"a group of piers", "known by", "dug or drawing: both are known; what is assumed is told"},
    {"a slab or porch", "known by", "dug or drawing: both are known; what is assumed is told"},
    {"a pilaster", "known by", "dug or drawing: both are known; what is assumed is told"},
    {"a partition", "known by", "dug or drawing: both are known; what is assumed is told"},
    {"a chimney base", "known by", "dug or drawing: both are known; what is assumed is told"},
    {"a group of piers", "footing", "where the label asks less depth than either footing lies at"},
    {"a part of a structure", "crawl height", "a height within the same step of the crew's pace"},
    {"a part of a structure", "start", "[0, 0] when not said"},
    {"a structure", "soil", "where nothing is dug"},
    {"a slab or porch", "fill", "where nothing below it is treated"},
    {"a `locate` block", "called", "the days from and until are what the crew needs"},
    {"a waiver sheet", "option, on, leaves out, by", "a waiver of an option that was not taken"},
    {"the `dangers` block",
     "well, cistern, ducts in slab, plenum, radon pipe, drain, lines, post-tension slab, heated slab, pond, edible "
     "beds, "
     "blooming plants, sensitive occupants",
     "where nothing is applied"},
    {"a person", "email", "never printed; the office alone uses it"},
};

std::size_t keys_in(std::string_view list) {
  return 1 + static_cast<std::size_t>(std::count(list.begin(), list.end(), ','));
}

bool may_pass(const std::string& block, const std::string& key) {
  return std::any_of(std::begin(harmless), std::end(harmless), [&](const Harmless& h) {
    return block == h.block && (", " + std::string(h.keys) + ",").find(", " + key + ",") != std::string::npos;
  });
}

struct Outcome {
  std::size_t errors = 0;
  std::string faults, papers;
};

/// What no string says: the lines of a drawing, which part of a photo is shown, and what is drawn over it.
void pictures_in(const std::vector<document::Block>& blocks, std::string& out) {
  for (const document::Block& b : blocks) {
    if (const auto* card = std::get_if<document::Card>(&b.kind)) pictures_in(card->blocks, out);
    if (const auto* drawing = std::get_if<document::Drawing>(&b.kind))
      for (const document::Shape& shape : drawing->scene.shapes) {
        out += shape.style;
        for (const Point& p : shape.points) out += " " + print(p.x) + " " + print(p.y);
      }
    if (const auto* photos = std::get_if<document::Photos>(&b.kind))
      for (const document::Photo& p : photos->photos) {
        out += p.key + p.alt + std::to_string(p.part.width) + " x " + std::to_string(p.part.height) + "\n";
        for (const document::PhotoSign& sign : p.signs) out += std::to_string(static_cast<int>(sign.kind));
      }
  }
}

void words_of(const document::Document& paper, std::string& out) {
  for (const std::string& s : document::strings(paper)) out += s + "\n";
  for (const auto& [slot, words] : paper.running) out += words + "\n";
  for (const document::Section& s : paper.sections) pictures_in(s.blocks, out);
  out += paper.subject + paper.created + paper.author;
}

/// What is told of a case, and every string that its papers and its measures hold.
Outcome outcome(const CaseTexts& texts, const std::set<std::string>& photos) {
  CaseRun run(texts);
  run.check_rules();
  Outcome out{run.faults.errors(), told(run.faults), {}};
  if (!run.basis || out.errors > 0) return out;
  std::map<std::string, std::string> bytes;
  for (const std::string& path : photos) bytes[path] = "a photo";
  const document::PacketInput input{*run.basis, run.treatments, run.estimates, english_words(), bytes, false, false};
  words_of(document::packet(input), out.papers);
  out.papers += listing::measures_text({*run.basis, run.treatments, run.estimates}, true);
  const Treatment* chosen = chosen_treatment(run.resolved, run.treatments);
  std::vector<Treatment> treatments;
  std::vector<Estimate> estimates;
  for (std::size_t i = 0; i < run.treatments.size() && i < run.estimates.size(); ++i)
    if (&run.treatments[i] == chosen) treatments.push_back(run.treatments[i]), estimates.push_back(run.estimates[i]);
  const document::PacketInput one{*run.basis, treatments, estimates, english_words(), bytes, false, false};
  for (const auto make : {document::work_order, document::agreement, document::record, document::invoice,
                          document::certificate, document::posted_notice})
    words_of(make(one), out.papers);
  return out;
}

CaseTexts example(const std::string& name) {
  CaseTexts texts{file_text("examples/" + name + "/case.yaml"), file_text("examples/company.yaml")};
  const auto at = texts.case_yaml.find("form: ") + 6;
  texts.form_yaml = file_text("forms/" + texts.case_yaml.substr(at, texts.case_yaml.find('\n', at) - at) + ".yaml");
  return texts;
}

std::size_t count_keys(const yaml::Block& block, std::set<const yaml::Block*>& seen) {
  if (!seen.insert(&block).second) return 0;
  std::size_t keys = block.keys.size();
  for (const yaml::Key& key : block.keys)
    if (key.shape.block) keys += count_keys(key.shape.block(), seen);
  return keys;
}

}  // namespace

TEST_CASE("every field of every example counts") {
  for (const std::string& name : example_names()) {
    const CaseTexts clean = example(name);
    std::set<std::string> photos;
    {
      const CaseRun run(clean);
      REQUIRE(run.c);
      for (const PhotoUse& use : photos_of(*run.c)) photos.insert(use.photo->file.value_or(""));
    }
    const Outcome before = outcome(clean, photos);
    INFO(name);
    CHECK(before.faults == "");
    const Mutations mutations(clean.case_yaml);
    CHECK(mutations.all.size() > 100);
    for (const Mutation& one : mutations.all) {
      INFO(one.block << ": " << one.key << " " << one.how);
      CaseTexts texts = clean;
      texts.case_yaml = one.text;
      const Outcome after = outcome(texts, photos);
      if (one.required && one.how == "removed") CHECK(after.errors > 0);
      const bool seen = after.faults != before.faults || after.papers != before.papers;
      if (!seen && !may_pass(one.block, one.key))
        FAIL_CHECK(one.block << ": " << one.key << " " << one.how << " and nobody would notice");
    }
  }
}

TEST_CASE("the keys that may change unseen are few") {
  std::set<const yaml::Block*> seen;
  const std::size_t keys = count_keys(Case::block(), seen);
  CHECK(keys > 150);
  std::size_t listed = 0;
  for (const Harmless& h : harmless) listed += keys_in(h.keys);
  INFO(listed << " of " << keys << " keys");
  CHECK(listed * 100 <= keys * 15);
}
