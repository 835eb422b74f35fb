// The last look at a finished paper, on documents from which one thing was taken away: what no file can bring about.
#include <catch2/catch.hpp>

#include "packet/owed.h"
#include "support/case_harness.h"
#include "support/words.h"

using namespace soundsill;
using namespace soundsill::testing;
using namespace soundsill::document;

namespace {

struct Made {
  explicit Made(CaseTexts texts = {file_text("tests/rules/base.yaml"), file_text("tests/rules/company.yaml")})
      : run(std::move(texts)),
        input{*run.basis, run.treatments, run.estimates, english_words(), photos, false, false} {}
  CaseRun run;
  std::map<std::string, std::string> photos;
  PacketInput input;
};

/// The document without what it states of a topic.
Document without(Document d, Topic topic, std::string_view words = {}) {
  const auto less = [&](Record& record) {
    Record left;
    for (const Statement& s : record.all())
      if (s.topic != topic || (!words.empty() && s.words != words)) left.note(s.topic, s.of, s.words);
    record = std::move(left);
  };
  less(d.record);
  for (Section& s : d.sections) less(s.record);
  return d;
}

Document without_section(Document d, std::string_view name) {
  std::erase_if(d.sections, [&](const Section& s) { return s.name == name; });
  return d;
}

template <class T>
Document without_blocks(Document d) {
  for (Section& s : d.sections)
    std::erase_if(s.blocks, [](const Block& b) { return std::holds_alternative<T>(b.kind); });
  return d;
}

using Lacks = std::vector<std::string>;

}  // namespace

TEST_CASE("a whole packet lacks nothing, nor do its halves") {
  Made made;
  CHECK(lacking(packet(made.input), made.input, PaperKind::packet) == Lacks{});
  CHECK(lacking(estimate_paper(made.input), made.input, PaperKind::estimate) == Lacks{});
  made.input.apart = true;
  CHECK(lacking(packet(made.input), made.input, PaperKind::findings) == Lacks{});
}

TEST_CASE("whatever a paper owes is missed when it is not there") {
  Made made;
  const Document whole = packet(made.input);
  struct Taken {
    Topic topic;
    Lacks lacks;
  };
  const Taken taken[] = {
      // NC-01b (02 NCAC 34 .0602(a); the notice is our design): page 1 does not say that it is not the official paper
      {Topic::official_sheet, {"the notice that it accompanies WDIR 100"}},
      // X-07a (02 NCAC 34 .0605(a)(5); 16 CCR 1990(a)): the license number
      {Topic::license, {"the company's license number"}},
      // X-07b (the same, (a)(1)): the inspector's full name
      {Topic::inspector, {"the inspector's name"}},
      // X-07d (the same, (a)(4)): the company
      {Topic::company, {"the company's name"}},
      // X-05a, WA-01d (WAC 16-228-2045(4)): the full address
      {Topic::address, {"the address of the house"}},
      // NC-10.01, WA-01b: the day of the inspection
      {Topic::visit, {"the day of a visit"}},
      // OK-01b (OAC 35:30-17-105(c)): a structure that was not inspected is named
      {Topic::structure, {"the structure `house`", "the structure `shed`"}},
      {Topic::why_not_inspected, {"why `shed` was not inspected"}},
      // FL-02a (F.S. 482.226(2)(a), reprint), X-03a: what was not seen, with its reason
      {Topic::why_unseen, {"why `attic` was not wholly seen"}},
      // X-06a (02 NCAC 34 .0605(a)(12)): the total
      {Topic::total, {"the total of option `full`"}},
  };
  for (const auto& [topic, lacks] : taken) {
    INFO(lacks.front());
    CHECK(lacking(without(whole, topic), made.input, PaperKind::packet) == lacks);
  }
}

TEST_CASE("an organism that is active is told by its name") {
  // SC-03a (S.C. Code Regs. 27-1085(B)(4)): active Formosan termites are disclosed
  CaseTexts texts{file_text("tests/rules/base.yaml"), file_text("tests/rules/company.yaml")};
  texts.case_yaml = edited(texts.case_yaml, "organism: subterranean termites\n    state: active",
                           "organism: Formosan termites\n    damage seen: no\n    state: active");
  Made made(std::move(texts));
  const Document whole = packet(made.input);
  CHECK(lacking(whole, made.input, PaperKind::packet) == Lacks{});
  CHECK(stated_in(whole).states(Topic::finding, "1", "Live Formosan termites"));
  CHECK(lacking(without(whole, Topic::finding, "Live Formosan termites"), made.input, PaperKind::packet) ==
        Lacks{"what finding 1 is"});
}

TEST_CASE("what a section states goes with it") {
  Made made;
  const Document whole = packet(made.input);
  // The total stands on page 1 and in the estimate, the places of findings on cards, page 1 and beside the drawing.
  CHECK(lacking(without_section(whole, "estimate"), made.input, PaperKind::packet) == Lacks{});
  CHECK(lacking(without_section(without_section(whole, "estimate"), "summary"), made.input, PaperKind::packet) ==
        Lacks{"the notice that it accompanies WDIR 100", "the total of option `full`"});
}

TEST_CASE("a line to sign, and a drawing with its measures, are missed") {
  Made made;
  const Document whole = packet(made.input);
  // X-07c (02 NCAC 34 .0605(a)(6)): a signature, or the line for it
  CHECK(lacking(without_blocks<Signatures>(whole), made.input, PaperKind::packet) == Lacks{"a line to sign"});
  // X-08 (02 NCAC 34 .0605(a)(7); COMAR 15.05.01.14), MD-01a: a diagram
  const Lacks no_drawing = lacking(without_blocks<Drawing>(whole), made.input, PaperKind::packet);
  REQUIRE_FALSE(no_drawing.empty());
  CHECK(no_drawing.back() == "a drawing of every structure");
  // TX-02a (4 TAC 7.174): the diagram carries the measures of the perimeter
  const Document unmeasured = without(whole, Topic::wall, "52 ft");
  CHECK(lacking(unmeasured, made.input, PaperKind::packet) == Lacks{"the length of wall 5 of `house`"});
}

TEST_CASE("a wall between two parts has no length on paper, and owes none") {
  // common practice, no source: the perimeter is measured, and a wall that two parts share is none of it
  CaseTexts texts{file_text("examples/cedar-bend/case.yaml"), file_text("examples/company.yaml"),
                  file_text("forms/us-ga.yaml")};
  Made made(std::move(texts));
  bool any = false;
  const Document whole = packet(made.input);
  const Record record = stated_in(whole);
  for (const SurveyedStructure& s : made.run.survey.structures)
    for (const Wall& wall : s.walls) {
      const bool between = wall.shared && !wall.beside_neighbor;
      any = any || between;
      CHECK(record.states(Topic::wall, s.name + "/" + std::to_string(wall.number)) != between);
    }
  CHECK(any);
  CHECK(lacking(whole, made.input, PaperKind::packet) == Lacks{});
}

namespace {

/// Without letters that differ at the beginning of a sentence.
std::string in_small(std::string text) {
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c;
  return text;
}

void check_stated(const Record& record, const std::string& printed) {
  for (const Statement& s : record.all()) {
    INFO(static_cast<int>(s.topic) << " of " << s.of << ": " << s.words);
    CHECK(printed.find(in_small(s.words)) != std::string::npos);
  }
}

/// Nothing is stated that is not printed there.
void check_honest(const Document& paper) {
  std::string running;
  for (const auto& [slot, words] : paper.running) running += in_small(words) + "\n";
  check_stated(paper.record, running);
  for (const Section& s : paper.sections) {
    Document alone;
    alone.sections.push_back(s);
    std::string printed;
    for (const std::string& words : strings(alone)) printed += in_small(words) + "\n";
    INFO(s.name);
    check_stated(s.record, printed);
  }
}

}  // namespace

TEST_CASE("what a paper states is printed where it is stated") {
  for (const std::string& name : example_names()) {
    INFO(name);
    CaseTexts texts{file_text("examples/" + name + "/case.yaml"), file_text("examples/company.yaml")};
    const auto at = texts.case_yaml.find("form: ") + 6;
    texts.form_yaml = file_text("forms/" + texts.case_yaml.substr(at, texts.case_yaml.find('\n', at) - at) + ".yaml");
    Made made(std::move(texts));
    REQUIRE(made.run.c);
    for (const PhotoUse& use : photos_of(*made.run.c)) made.photos[use.photo->file.value_or("")] = "a photo";
    const Document whole = packet(made.input);
    const Record record = stated_in(whole);
    CHECK(record.all().size() > 25);
    check_honest(whole);
    check_honest(estimate_paper(made.input));
    made.input.apart = true;
    check_honest(packet(made.input));
    const Record findings = stated_in(packet(made.input));
    for (const Statement& s : findings.all())
      CHECK_FALSE((s.topic == Topic::total || s.topic == Topic::amount || s.topic == Topic::rate));
  }
}
