// An agreement holds every item of the form's list: whatever is taken out of the paper is missed, and nothing else.
#include <algorithm>
#include <catch2/catch.hpp>

#include "aftersale/papers.h"
#include "support/case_harness.h"
#include "support/words.h"

using namespace soundsill;
using namespace soundsill::testing;
using namespace soundsill::document;

namespace {

struct MadePaper {
  CaseRun run;
  std::map<std::string, std::string> photos;
  std::optional<PacketInput> in;
  Document made;
  explicit MadePaper(CaseTexts texts) : run(std::move(texts)) {
    INFO(told(run.faults));
    REQUIRE(run.basis);
    REQUIRE(run.treatments.size() == 1);
    in.emplace(PacketInput{*run.basis, run.treatments, run.estimates, english_words(), photos, false, false});
    made = agreement(*in);
  }
  [[nodiscard]] std::vector<AgreementItem> missing(const Document& paper) const {
    std::vector<AgreementItem> out;
    for (const MissingItem& m : missing_items(*in, paper)) out.push_back(*m.rule->item);
    return out;
  }
};

/// The paper without an item: its heading with all that stands under it, or its row.
Document without(Document paper, AgreementItem item) {
  const std::string id = item_id(item);
  for (Section& s : paper.sections) {
    std::vector<Block> kept;
    bool drop = false;
    for (Block& block : s.blocks) {
      if (const auto* heading = std::get_if<Heading>(&block.kind)) drop = heading->id == id;
      if (drop) continue;
      if (auto* table = std::get_if<Table>(&block.kind))
        std::erase_if(table->rows, [&](const Row& row) { return row.id == id; });
      kept.push_back(std::move(block));
    }
    s.blocks = std::move(kept);
  }
  return paper;
}

/// The paper with an item's heading, and nothing under it.
Document emptied(Document paper, AgreementItem item) {
  const std::string id = item_id(item);
  for (Section& s : paper.sections) {
    std::vector<Block> kept;
    bool drop = false;
    for (Block& block : s.blocks) {
      const auto* heading = std::get_if<Heading>(&block.kind);
      if (heading) drop = heading->id == id;
      if (drop && !heading) continue;
      kept.push_back(std::move(block));
    }
    s.blocks = std::move(kept);
  }
  return paper;
}

void missed_when_taken_out(const MadePaper& paper, std::initializer_list<AgreementItem> items) {
  CHECK(paper.missing(paper.made).empty());
  for (const AgreementItem item : items) {
    INFO(yaml::word(item));
    const auto missing = paper.missing(without(paper.made, item));
    // What stands in the diagram's table goes with its heading.
    CHECK(std::find(missing.begin(), missing.end(), item) != missing.end());
    if (item != AgreementItem::diagram) CHECK(missing.size() == 1);
  }
}

CaseTexts base() { return {file_text("tests/rules/base.yaml"), file_text("tests/rules/company.yaml")}; }

std::string words_of(const Document& d) {
  std::string out;
  for (const std::string& s : strings(d)) out += s + "\n";
  return out;
}

CaseTexts with_items(const std::string& items, CaseTexts texts = base()) {
  const std::string form = texts.form_yaml;
  const auto at = form.find("  items:\n");
  texts.form_yaml = form.substr(0, at) + "  items: " + items + form.substr(form.find("\nbeetle retreatment:"));
  return texts;
}

}  // namespace

TEST_CASE("each item that North Carolina asks is missed when it is not there") {
  using enum AgreementItem;
  // 02 NCAC 34 .0605(a), text current to 16 Sep 2024
  missed_when_taken_out(MadePaper(base()), {
                                               inspection,          // NC-10.01
                                               location,            // NC-10.02
                                               owner,               // NC-10.03
                                               company,             // NC-10.04
                                               license,             // NC-10.05
                                               signature,           // NC-10.06
                                               diagram,             // NC-10.07
                                               period,              // NC-10.08
                                               organism,            // NC-10.09
                                               reinspection,        // NC-10.10
                                               retreatment,         // NC-10.11
                                               price,               // NC-10.12
                                               water_sources,       // NC-10.07A
                                               visible_evidence,    // NC-10.07B
                                               active_or_inactive,  // NC-10.07C
                                               damaged_timbers,     // NC-10.07D
                                               treated_and_not,     // NC-10.07E
                                           });
}

TEST_CASE("Georgia's statements stand word for word in a box, that of the warranty before all else") {
  CaseTexts texts = base();  // Ga. Comp. R. & Regs. 620-6-.02(1)(e) and (3)
  texts.case_yaml = edited(edited(texts.case_yaml, "state: NC", "state: GA"), "form: us-nc", "form: us-ga");
  texts.case_yaml =
      edited(texts.case_yaml, "{id: soil, answers: [1], do: treat soil, walls: all, sides: both, piers: all}",
             "{id: soil, answers: [1], do: set bait stations}");
  texts.form_yaml = file_text("forms/us-ga.yaml");
  const MadePaper paper(std::move(texts));
  std::vector<std::string> boxed;
  for (const Section& s : paper.made.sections)
    for (const Block& block : s.blocks)
      if (const auto* p = std::get_if<Paragraph>(&block.kind); p && p->style == "boxed")
        boxed.push_back(p->runs.front().text);
  REQUIRE(boxed.size() == 2);
  CHECK(boxed[0] ==
        "This contract provides for retreatment of a structure and the repair of damages caused by wood destroying "
        "organisms within the limits stated in this contract.");
  CHECK(boxed[1] == "The removal of the bait or baiting system may result in a lack of termite protection");
  CHECK(strings(paper.made).front() == boxed[0]);
  const auto missing = paper.missing(paper.made);
  CHECK(std::find(missing.begin(), missing.end(), AgreementItem::warranty_kind) == missing.end());
  CHECK(std::find(missing.begin(), missing.end(), AgreementItem::bait_statement) == missing.end());
}

TEST_CASE("a heading with nothing under it is no item") {
  const MadePaper paper(base());
  using enum AgreementItem;
  for (const AgreementItem item : {inspection, owner, company, license, location, period, organism, retreatment, price})
    CHECK(paper.missing(emptied(paper.made, item)) == std::vector{item});
}

TEST_CASE("bait stations with count and places where bait is set") {
  CaseTexts texts = base();  // NC-10.07F
  texts.case_yaml =
      edited(texts.case_yaml, "{id: soil, answers: [1], do: treat soil, walls: all, sides: both, piers: all}",
             "{id: soil, answers: [1], do: set bait stations}");
  const MadePaper paper(std::move(texts));
  missed_when_taken_out(paper, {AgreementItem::bait_devices});
  const MadePaper none(base());
  CHECK(none.missing(without(none.made, AgreementItem::bait_devices)).empty());
}

namespace {
CaseTexts against(const std::string& organism, const std::string& more) {
  CaseTexts texts = base();
  texts.case_yaml = edited(texts.case_yaml,
                           "organism: subterranean termites\n    state: active\n    live seen: yes\n    basis: [live "
                           "workers in a broken tube]\n    signs: [shelter tube]",
                           "organism: " + organism + "\n    state: active\n    live seen: no\n" + more);
  texts.case_yaml =
      edited(texts.case_yaml, "{id: soil, answers: [1], do: treat soil, walls: all, sides: both, piers: all}",
             "{id: soil, answers: [1], do: treat wood with borate, sq ft: 120}");
  texts.case_yaml =
      edited(texts.case_yaml, "  - {id: voids, answers: [1], do: drill and treat voids, near: [1]}\n", "");
  texts.company_yaml =
      edited(texts.company_yaml, "label: {soil depth: 0\"}", "label: {soil depth: 0\", sq ft per gal: 200}");
  texts.company_yaml =
      edited(texts.company_yaml, "{do: treat wood with borate, per: job,", "{do: treat wood with borate, per: sq ft,");
  return texts;
}
}  // namespace

TEST_CASE("moisture readings with place and value where a fungus is treated") {
  // NC-10.07G, NC-15b (02 NCAC 34 .0605(a)(7)(G), text current to 16 Sep 2024)
  missed_when_taken_out(
      MadePaper(against("decay fungi", "    basis: [mycelium]\n    moisture: [{at: sill, percent: 31 %}]")),
      {AgreementItem::moisture_readings});
  CaseTexts none = against("decay fungi", "    basis: [mycelium]");
  none.case_yaml = edited(none.case_yaml, "    moisture: [{at: band joist, percent: 24 %}]\n", "");
  const MadePaper paper(std::move(none));
  CHECK(paper.missing(paper.made) == std::vector{AgreementItem::moisture_readings});
}

TEST_CASE("a proposal against beetles names the part covered and why they are active or not") {
  // NC-20a, NC-20b (02 NCAC 34 .0501(a), copy of 2016)
  for (const char* organism : {"old house borers", "anobiid beetles"})
    missed_when_taken_out(MadePaper(against(organism, "    basis: [fresh frass]")),
                          {AgreementItem::covered_part, AgreementItem::basis});
  const MadePaper unsaid(against("anobiid beetles", "    wood: pine"));
  CHECK(unsaid.missing(unsaid.made) == std::vector{AgreementItem::basis});
}

TEST_CASE("the kind of warranty stands on page 1") {
  const std::string ga = "[{item: warranty kind, cite: \"Ga. Comp. R. & Regs. 620-6-.02(1)(e)\", status: published}]\n";
  CaseTexts retreat = with_items(ga);
  retreat.case_yaml = edited(retreat.case_yaml, "warranty: repair-1", "warranty: retreat-1");
  const MadePaper only(std::move(retreat));  // GA-01a
  CHECK(only.missing(only.made).empty());
  CHECK(words_of(only.made).find("RETREATMENT ONLY") < words_of(only.made).find("Owner"));
  const MadePaper repair(with_items(ga));  // GA-01b
  CHECK(repair.missing(repair.made).empty());
  CHECK(words_of(repair.made).find("RETREATMENT AND REPAIR") < words_of(repair.made).find("Owner"));
  // GA-01c: not stated
  CHECK(only.missing(without(only.made, AgreementItem::warranty_kind)) == std::vector{AgreementItem::warranty_kind});
  CHECK(only.made.sections.front().name == "head");
}

TEST_CASE("a contract says whether Formosan termites are covered") {
  // SC-03b (S.C. Code Regs. 27-1085(B)(4), 2024)
  CaseTexts texts =
      with_items("[{item: Formosan coverage, cite: \"S.C. Code Regs. 27-1085(B)(4)\", status: published}]\n");
  const MadePaper unsaid(texts);
  CHECK(unsaid.missing(unsaid.made) == std::vector{AgreementItem::formosan});
  texts.company_yaml = edited(texts.company_yaml, "{id: repair-1,", "{id: repair-1, Formosan termites: no,");
  const MadePaper said(std::move(texts));
  CHECK(said.missing(said.made).empty());
  CHECK(words_of(said.made).find("Formosan termites are not covered.") != std::string::npos);
}

TEST_CASE("visible damage that is left is said in the contract") {
  // OK-01a (OAC 35:30-17-20(b), 2024)
  const MadePaper paper(with_items("[{item: damage left, cite: \"OAC 35:30-17-20(b)\", status: published}]\n"));
  missed_when_taken_out(paper, {AgreementItem::damage_left});
  CHECK(words_of(paper.made).find("Visible damage is left as it is and is not part of this work: no. 2") !=
        std::string::npos);
}

TEST_CASE("preventive work is called so, and the owner signs it") {
  // WA-02a, WA-02b (WAC 16-228-2050(3))
  CaseTexts texts = with_items(
      "\n    - {item: preventive statement, cite: \"WAC 16-228-2050(3)\", status: published}\n"
      "    - {item: owner signature, cite: \"WAC 16-228-2050(3)\", status: published}\n");
  texts.case_yaml = edited(texts.case_yaml, "{id: soil, answers: [1], do: treat soil,",
                           "{id: soil, preventive: yes, do: treat soil,");
  texts.case_yaml =
      edited(texts.case_yaml, "  - {id: voids, answers: [1], do: drill and treat voids, near: [1]}\n", "");
  const MadePaper paper(std::move(texts));
  missed_when_taken_out(paper, {AgreementItem::preventive, AgreementItem::owner_signature});
}

TEST_CASE("the right to cancel is said where the sale is made at the home, and only there") {
  // GA-03b (Ga. Comp. R. & Regs. 620-6-.02(2), which refers to 16 CFR 429.1): three business days, in words prescribed
  // there
  CaseTexts texts = base();
  texts.form_yaml = file_text("forms/us-ga.yaml");
  const auto at = texts.form_yaml.find("form: us-ga");
  REQUIRE(at != std::string::npos);
  texts.form_yaml.replace(at, 11, "form: us-nc");
  CaseTexts office = texts;
  office.case_yaml = edited(std::move(office.case_yaml), "sold at: home", "sold at: our office");
  const MadePaper paper(std::move(texts));
  missed_when_taken_out(paper, {AgreementItem::cancellation});
  CHECK(words_of(paper.made)
            .find("You, the buyer, may cancel this transaction at any time prior to midnight of the third "
                  "business day after the date of this transaction.") != std::string::npos);
  const auto notices = std::count_if(paper.made.sections.begin(), paper.made.sections.end(),
                                     [](const Section& s) { return s.name == "cancellation"; });
  CHECK(notices == 2);
  const MadePaper at_office(std::move(office));
  CHECK(words_of(at_office.made).find("CANCEL") == std::string::npos);
  CHECK(at_office.missing(at_office.made).empty());
}

TEST_CASE("a state's own words on the kind of warranty stand as it prescribes them") {
  // Ga. Comp. R. & Regs. 620-6-.02(1)(e)2
  CaseTexts texts = base();
  texts.form_yaml = edited(file_text("forms/us-ga.yaml"), "form: us-ga", "form: us-nc");
  const MadePaper paper(std::move(texts));
  CHECK(words_of(paper.made)
            .find("This contract provides for retreatment of a structure and the repair of damages caused by "
                  "wood destroying organisms within the limits stated in this contract.") != std::string::npos);
}

TEST_CASE("an item that is missing is one message with its citation") {
  CaseTexts texts = base();
  const MadePaper paper(std::move(texts));
  Faults faults;
  check_items(*paper.in, without(paper.made, AgreementItem::price), faults);
  REQUIRE(faults.all().size() == 1);
  CHECK(faults.all().front().rule == Rule::agreement_item);
  CHECK(faults.all().front().what == "the agreement does not hold `price`");
  CHECK(faults.all().front().why.find("02 NCAC 34 .0605(a)(12)") != std::string::npos);
  CHECK(faults.all().front().at);
}

TEST_CASE("the worksheet lists what is left out with its reason") {
  CaseTexts texts = base();
  texts.company_yaml =
      edited(texts.company_yaml, "label: {soil depth: 0\"}", "label: {soil depth: 0\", scopes: [evidence only]}");
  texts.case_yaml = edited(texts.case_yaml, "warranty: repair-1}",
                           "warranty: retreat-1, scope: evidence only, because: the owner asks for it}");
  const MadePaper paper(std::move(texts));
  const std::string words = words_of(paper.made);
  CHECK(words.find("Worksheet for the waiver") != std::string::npos);
  CHECK(words.find("Not treated outside") != std::string::npos);
  CHECK(words.find("The owner asks for it") != std::string::npos);
}

TEST_CASE("a run whose danger is not known is no work") {
  CaseTexts texts = base();
  texts.case_yaml = edited(texts.case_yaml, "plenum: none", "plenum: not known");
  MadePaper paper(std::move(texts));
  const Document order = work_order(*paper.in);
  const std::string words = words_of(order);
  CHECK(words.find("house: not to be treated.") != std::string::npos);
  CHECK(words.find("Outside walls") == std::string::npos);
  const MadePaper known(base());
  CHECK(words_of(work_order(*known.in)).find("Outside walls") != std::string::npos);
}
