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

/// Takes a text out of every string of a document.
struct Eraser {
  std::string gone;

  void from(std::string& s) const {
    for (auto at = s.find(gone); at != std::string::npos; at = s.find(gone)) s.erase(at, gone.size());
  }
  void from(Runs& runs) const {
    for (document::Run& r : runs) from(r.text);
  }
  void from(std::vector<Block>& blocks) const {
    for (Block& b : blocks) std::visit([this](auto& kind) { of(kind); }, b.kind);
  }
  void of(Heading& h) const { from(h.runs); }
  void of(Paragraph& p) const { from(p.runs); }
  void of(List& l) const {
    for (Runs& item : l.items) from(item);
  }
  void of(Table& t) const {
    for (Row& r : t.rows)
      for (Runs& cell : r.cells) from(cell);
  }
  void of(Facts& f) const {
    for (Fact& fact : f.facts) from(fact.value);
  }
  void of(Photos& p) const {
    for (Photo& photo : p.photos) from(photo.caption);
  }
  void of(Drawing& d) const {
    for (document::Label& l : d.scene.labels) from(l.words);
    from(d.caption);
  }
  void of(Signatures& s) const {
    for (Signature& line : s.lines) {
      from(line.statement);
      if (line.name) from(*line.name);
      if (line.date) from(*line.date);
    }
  }
  void of(Card& c) const {
    of(c.heading);
    from(c.blocks);
  }
  void of(Bars& b) const {
    for (Bar& bar : b.bars) from(bar.value);
  }
  void of(Figures& f) const {
    for (Figure& figure : f.figures) from(figure.large);
  }
};

Document without(Document d, std::string text) {
  const Eraser eraser{std::move(text)};
  for (Section& s : d.sections) eraser.from(s.blocks);
  for (auto& [slot, words] : d.running) eraser.from(words);
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
  const std::pair<const char*, Lacks> taken[] = {
      // NC-01b (02 NCAC 34 .0602(a); the notice is our design): page 1 does not say that it is not the official paper
      {"WDIR 100", {"the notice that it accompanies WDIR 100"}},
      // X-07a (02 NCAC 34 .0605(a)(5); 16 CCR 1990(a)): the license number
      {"0000", {"the company's license number"}},
      // X-07b (the same, (a)(1)): the inspector's full name
      {"Ann Poole", {"the inspector's name"}},
      // X-07d (the same, (a)(4)): the company
      {"Sample Pest Control", {"the company's name"}},
      // X-05a, WA-01d (WAC 16-228-2045(4)): the full address
      {"12 Alder Way", {"the address of the house"}},
      // NC-10.01, WA-01b: the day of the inspection
      {"March 5, 2026", {"the day of a visit"}},
      // OK-01b (OAC 35:30-17-105(c)): a structure that was not inspected is named
      {"shed", {"the structure `shed`"}},
      {"not ordered", {"why `shed` was not inspected"}},
      // FL-02a (F.S. 482.226(2)(a), reprint), X-03a: what was not seen, with its reason
      {"insulation covers the joists", {"why `attic` was not wholly seen"}},
      // X-06a (02 NCAC 34 .0605(a)(12)): the total
      {"$1,703.50", {"the total of option `full`"}},
  };
  for (const auto& [text, lacks] : taken) {
    INFO(text);
    CHECK(lacking(without(whole, text), made.input, PaperKind::packet) == lacks);
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
  CHECK(lacking(without(whole, "Formosan termites"), made.input, PaperKind::packet) == Lacks{"what finding 1 is"});
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
  Document unmeasured = whole;
  for (Section& s : unmeasured.sections)
    if (s.name == "drawing") Eraser{"52 ft"}.from(s.blocks);
  CHECK(lacking(unmeasured, made.input, PaperKind::packet) == Lacks{"the length of wall 5 of `house`"});
}
