// What the packet says, before any paper: the same numbers everywhere, live and past apart, nothing invented.
#include <catch2/catch.hpp>
#include <set>

#include "packet/packet.h"
#include "support/case_harness.h"
#include "support/words.h"

using namespace soundsill;
using namespace soundsill::testing;
using namespace soundsill::document;

namespace {

Document packet_of(const CaseRun& run, bool draft = false) {
  static const std::map<std::string, std::string> no_photos;
  REQUIRE(run.basis);
  return packet({*run.basis, run.treatments, run.estimates, english_words(), no_photos, draft});
}

CaseTexts base() { return {file_text("tests/rules/base.yaml"), file_text("tests/rules/company.yaml")}; }

const Section* section(const Document& d, std::string_view name) {
  for (const Section& s : d.sections)
    if (s.name == name) return &s;
  return nullptr;
}

std::string all_words(const std::vector<Block>& blocks) {
  Document d;
  d.sections.push_back({"x", "x", blocks});
  std::string out;
  for (const std::string& s : strings(d)) out += s + "\n";
  return out;
}

template <class T>
std::vector<const T*> blocks_of(const Section& s) {
  std::vector<const T*> out;
  for (const Block& b : s.blocks)
    if (const auto* t = std::get_if<T>(&b.kind)) out.push_back(t);
  return out;
}

}  // namespace

TEST_CASE("every finding number stands on page 1, on its card, on the drawing and in the estimate") {
  const CaseRun run(base());
  const Document d = packet_of(run);
  for (const std::string number : {"1", "2", "3"}) {
    INFO("finding " << number);
    std::set<std::string> rows, links, markers, cards;
    for (const Table* t : blocks_of<Table>(*section(d, "summary")))
      for (const Row& r : t->rows) rows.insert(r.cells.front().empty() ? "" : r.cells.front().front().text);
    for (const Card* c : blocks_of<Card>(*section(d, "cards"))) cards.insert(c->number);
    for (const Drawing* p : blocks_of<Drawing>(*section(d, "drawing")))
      for (const Marker& m : p->scene.markers) markers.insert(m.number);
    for (const Table* t : blocks_of<Table>(*section(d, "estimate")))
      for (const Row& r : t->rows)
        for (const Runs& cell : r.cells)
          for (const document::Run& piece : cell) links.insert(piece.link);
    CHECK(rows.count(number) == 1);
    CHECK(cards.count(number) == 1);
    CHECK(markers.count(number) == 1);
    CHECK(links.count("card-" + number) == 1);
  }
}

TEST_CASE("live is said only where live insects were seen, and never beside past signs") {
  CaseTexts texts = base();
  texts.case_yaml =
      edited(texts.case_yaml, "state: active\n    live seen: yes\n    basis: [live workers in a broken tube]",
             "state: past\n    live seen: no\n    earlier treatment: {visible: yes}");
  const CaseRun run(std::move(texts));
  const Document d = packet_of(run);
  for (const char* name : {"summary", "cards"}) {
    const std::string words = all_words(section(d, name)->blocks);
    CHECK(words.find("ive subterranean") == std::string::npos);
    CHECK(words.find("Past signs of subterranean termites") != std::string::npos);
  }
}

TEST_CASE("the total on page 1 is the total of the estimate") {
  const CaseRun run(base());
  const Document d = packet_of(run);
  const std::string total = print(run.estimates.front().total);
  CHECK(all_words(section(d, "summary")->blocks).find(total) != std::string::npos);
  CHECK(all_words(section(d, "estimate")->blocks).find(total) != std::string::npos);
}

TEST_CASE("a draft says so, and its subject differs from the final paper's") {
  const CaseRun run(base());
  CHECK(packet_of(run).draft.empty());
  CHECK(packet_of(run, true).draft == "DRAFT");
  CHECK(packet_of(run, true).subject != packet_of(run).subject);
}

TEST_CASE("without findings there is no estimate and no line to accept, and nothing is promised") {
  CaseTexts texts = base();
  const auto at = texts.case_yaml.find("findings:");
  texts.case_yaml = texts.case_yaml.substr(0, at) + "findings: []\nsigned: {name: Ann Poole, on: 2026-03-05}\n";
  const CaseRun run(std::move(texts));
  const Document d = packet_of(run);
  CHECK(section(d, "estimate") == nullptr);
  REQUIRE(blocks_of<Signatures>(*section(d, "signatures")).size() == 1);
  CHECK(blocks_of<Signatures>(*section(d, "signatures")).front()->lines.size() == 1);
  const std::string words = all_words(section(d, "summary")->blocks);
  CHECK(words.find("Not seen does not mean not there") != std::string::npos);
  CHECK(words.find("free of") == std::string::npos);
}

TEST_CASE("two options each stand with their own lines and total") {
  CaseTexts texts = base();
  texts.case_yaml = edited(texts.case_yaml, "  - {id: full, work: all, product: example-a, warranty: repair-1}",
                           "  - {id: full, work: all, product: example-a, warranty: repair-1}\n"
                           "  - {id: less, work: [soil, sill, dry], product: example-a, warranty: retreat-1}");
  const CaseRun run(std::move(texts));
  REQUIRE(run.estimates.size() == 2);
  CHECK(run.estimates[1].total < run.estimates[0].total);
  const std::string words = all_words(section(packet_of(run), "estimate")->blocks);
  CHECK(words.find(print(run.estimates[0].total)) != std::string::npos);
  CHECK(words.find(print(run.estimates[1].total)) != std::string::npos);
}

TEST_CASE("sentences are short enough to read") {
  Sources sources;
  Faults faults;
  const auto tree = yaml::read(sources.add("words", file_text("templates/words.en.yaml")), faults);
  REQUIRE(tree);
  const auto too_long = [](const std::string& sentence) {
    std::size_t words = 0;
    for (const char c : sentence + " ") {
      if (c == ' ') ++words;
      if (c == '.' || c == ':' || c == ';') words = 0;
      if (words > 25) return true;
    }
    return false;
  };
  for (const auto& entry : tree->entries) {
    if (entry.key.starts_with("cancel_")) continue;  // 16 CFR 429.1 prescribes these, word for word
    INFO(entry.key << ": " << entry.value.text);
    CHECK_FALSE(too_long(entry.value.text));
  }
}

TEST_CASE("a sentence that lacks a name, offers a wrong one or is missing is refused with its place") {
  Sources sources;
  const std::string good = file_text("templates/words.en.yaml");
  const auto faults_of = [&](const std::string& text) {
    Faults faults;
    CHECK_FALSE(read_words(sources.add("words.yaml", text), faults));
    return told(faults);
  };
  CHECK(faults_of(edited(good, "page_of: \"Page {page} of {pages}\"", "page_of: \"Page {page}\""))
            .find("leaves out `{pages}`") != std::string::npos);
  CHECK(faults_of(edited(good, "draft: \"DRAFT\"", "draft: \"DRAFT {x}\"")).find("`{x}` is not a name") !=
        std::string::npos);
  CHECK(faults_of(edited(good, "draft: \"DRAFT\"\n", "")).find("there is no sentence `draft`") != std::string::npos);
  CHECK(faults_of(edited(good, "draft: \"DRAFT\"", "drafft: \"DRAFT\"")).find("did you mean") != std::string::npos);
}

TEST_CASE("the Spanish words are whole, and dates, times, lengths and lists are written as readers write them") {
  Sources sources;
  Faults faults;
  const auto spanish =
      read_words(sources.add("words.es.yaml", file_text("templates/words.es.yaml")), faults, &english_words());
  INFO(told(faults));
  REQUIRE(spanish);
  const Date day = *read_date("2026-03-05");
  CHECK(english_words().shown(day) == print_long(day));
  CHECK(spanish->shown(day) == "5 de marzo de 2026");
  for (const char* time : {"0:05", "9:10", "12:00", "13:45"})
    CHECK(english_words().shown(*read_time(time)) == print_long(*read_time(time)));
  CHECK(spanish->shown(*read_time("13:45")) == "1:45 p. m.");
  for (const Length length : {Length{}, Length::inches(6), Length::feet(30), Length::feet(30) + Length{104},
                              Length::feet(1), -Length::inches(3)})
    CHECK(english_words().shown(length) == print_long(length));
  CHECK(spanish->shown(Length::feet(1)) == "1 pie");
  CHECK(spanish->shown(Length::feet(30) + Length{104}) == "30 pies 6 1/2 pulg");
  CHECK(in_words(*spanish, {"hormigas", "insectos"}) == "hormigas e insectos");
  CHECK(in_words(*spanish, {"agua", "hielo", "hongos"}) == "agua, hielo y hongos");
  CHECK(in_words(english_words(), {"ants", "insects"}) == "ants and insects");
  CHECK(capitalized("ácido") == "Ácido");
  CHECK(uncapitalized("Área") == "área");
  CHECK(capitalized("÷") == "÷");
}

TEST_CASE("a working is said in the words of its reader") {
  using W = WorkingWord;
  Sources sources;
  Faults faults;
  const auto spanish =
      read_words(sources.add("words.es.yaml", file_text("templates/words.es.yaml")), faults, &english_words());
  REQUIRE(spanish);
  for (const std::string_view word : working_words) {
    INFO(word);
    CHECK(english_words().name("working: " + std::string(word)) == word);
    CHECK(spanish->has_name("working: " + std::string(word)));
  }
  const Working per_ten_ft = Working(4).in(W::gal) / Working(10).in(W::ft);
  const Working drilled =
      (Working(Length::feet(44)) * Working(Length::inches(6)).in(W::deep)*per_ten_ft).shared_by(12, Length::inches(16));
  CHECK(drilled.in_english() == "44' x 6\" deep x 4 gal / 10 ft, shared by 12 holes at most 1'4\" apart");
  CHECK(english_words().shown(drilled) == drilled.in_english());
  CHECK(spanish->shown(drilled) ==
        "44' x 6\" de hondo x 4 gal / 10 pies, repartidos en 12 perforaciones separadas a lo más 1'4\" entre sí");
  CHECK((Working(2) * (Working(Length::feet(1)) + Working(3)).bracketed()).in_english() == "2 x (1' + 3)");
  CHECK((Working() + Working(1)).in_english() == "1");
  CHECK((Working(1) / Working(W::cu_ft)).shared_by(1, {}).in_english() == "1 / cu ft, shared by 1 hole");
}

TEST_CASE("a paper in another language says that English counts, and marks what people wrote") {
  Sources sources;
  Faults faults;
  const auto spanish =
      read_words(sources.add("words.es.yaml", file_text("templates/words.es.yaml")), faults, &english_words());
  REQUIRE(spanish);
  const CaseRun run(base());
  static const std::map<std::string, std::string> no_photos;
  const Document d =
      packet({*run.basis, run.treatments, run.estimates, *spanish, no_photos, false, false, &english_words()});
  CHECK(d.language == "es-US");
  const std::string words = all_words(section(d, "summary")->blocks);
  CHECK(words.find(english_words().say(Word::english_counts)) != std::string::npos);
  CHECK(words.find(spanish->say(Word::english_counts)) != std::string::npos);
  std::size_t marked = 0;
  for (const Table* t : blocks_of<Table>(*section(d, "areas")))
    for (const Row& r : t->rows)
      for (const Runs& cell : r.cells)
        for (const document::Run& piece : cell) marked += piece.lang == "en-US";
  CHECK(marked > 0);
}

TEST_CASE("braces in what a person typed stay as typed") {
  CHECK(english_words().say(Word::in_number, {{"number", "{number} {x}"}}) == "with no. {number} {x}");
}

TEST_CASE("every statement says on which visit it was seen") {
  CaseTexts texts = base();
  const std::string first =
      "  - {id: visit 1, date: 2026-03-05, from: \"9:10\", to: \"10:35\", weather: dry, tools: [probe, moisture "
      "meter]}\n";
  texts.case_yaml = edited(texts.case_yaml, first,
                           first +
                               "  - {id: visit 2, date: 2026-04-02, for: reinspection, weather: dry}\n"
                               "  - {id: visit 3, date: 2026-05-04, for: reinspection, weather: dry}\n");
  texts.case_yaml =
      edited(texts.case_yaml, "    condition: damp wood\n", "    condition: damp wood\n    seen on: visit 2\n");
  const CaseRun run(std::move(texts));
  const std::string words = all_words(section(packet_of(run), "summary")->blocks);
  CHECK(words.find("On March 5, 2026 we saw live subterranean termites in 1 place and damaged wood in 1 place.") !=
        std::string::npos);
  CHECK(words.find("On April 2, 2026 we saw 1 condition that invites insects or decay.") != std::string::npos);
  CHECK(words.find("On May 4, 2026 we looked again and wrote down no new finding.") != std::string::npos);
  CHECK(words.find("seen on April 2, 2026") != std::string::npos);
  CHECK(words.find("seen on May 4, 2026") == std::string::npos);
}
