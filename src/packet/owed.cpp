#include "packet/owed.h"

#include <algorithm>

#include "packet/builder.h"

namespace soundsill::document {
namespace {

bool holds_signatures(const std::vector<Block>& blocks) {
  return std::any_of(blocks.begin(), blocks.end(),
                     [](const Block& b) { return std::holds_alternative<Signatures>(b.kind); });
}

std::size_t drawings(const Document& document) {
  std::size_t count = 0;
  for (const Section& s : document.sections)
    count += static_cast<std::size_t>(std::count_if(
        s.blocks.begin(), s.blocks.end(), [](const Block& b) { return std::holds_alternative<Drawing>(b.kind); }));
  return count;
}

class Owed {
 public:
  Owed(const Document& document, const PacketInput& in)
      : document_(document), in_(in), house_(in.basis.resolved), record_(stated_in(document)) {}

  std::vector<std::string> lacking;

  void people_and_place() {
    const Company& company = in_.basis.company;
    owes("the address of the house", Topic::address, house_.address.line);
    if (company.name) owes("the company's name", Topic::company, *company.name);
    if (company.license && company.license->number)
      owes("the company's license number", Topic::license, company.license->number->text);
    owes("the inspector's name", Topic::inspector, house_.people.inspector.name);
    for (const Visit& v : house_.visits)
      if (v.date) owes("the day of a visit", Topic::visit, in_.words.shown(*v.date));
    if (std::none_of(document_.sections.begin(), document_.sections.end(),
                     [](const Section& s) { return holds_signatures(s.blocks); }))
      lacking.emplace_back("a line to sign");
  }

  void official() {
    const auto& sheet = in_.basis.form.official_sheet;
    if (Builder{in_}.asks_official_sheet() && house_.official_sheet)
      owes("the notice that it accompanies " + *sheet->name, Topic::official_sheet, *sheet->name);
  }

  void findings() {
    const Builder b{in_};
    for (const Finding& f : house_.findings) {
      if (!f.no) continue;
      const std::string number = std::to_string(*f.no);
      owes("what finding " + number + " is", Topic::finding, b.title_of(f), number);
      owes("where finding " + number + " is", Topic::place, b.place_of(f), number);
    }
    for (const Structure& s : house_.structures) {
      owes("the structure `" + s.name + "`", Topic::structure, s.name);
      if (!s.inspected) owes("why `" + s.name + "` was not inspected", Topic::why_not_inspected, s.because, s.name);
      for (const SurveyedArea& a : s.details->areas)
        if (!a.name.empty() && a.seen && *a.seen != Seen::yes)
          owes("why `" + a.name + "` was not wholly seen", Topic::why_unseen, b.why_unseen(s, a), area_of(s, a));
    }
  }

  /// A drawing of every structure with an outline, and the lengths of its outside walls on paper.
  void plans() {
    std::size_t wanted = 0;
    for (const SurveyedStructure& s : in_.basis.survey.structures) {
      if (!s.drawn()) continue;
      ++wanted;
      for (const Wall& wall : s.walls)
        if (!is_between(wall))
          owes("the length of wall " + std::to_string(wall.number) + " of `" + s.name + "`", Topic::wall,
               in_.words.shown(wall.length), wall_of(s, wall));
    }
    if (drawings(document_) < wanted) lacking.emplace_back("a drawing of every structure");
  }

  void totals() {
    for (const Estimate& e : in_.estimates)
      if (!e.lines.empty()) owes("the total of option `" + e.option + "`", Topic::total, print(e.total), e.option);
  }

 private:
  /// What is not there at all is not owed: that was reported.
  void owes(std::string what, Topic topic, const std::string& words, const std::string& of = {}) {
    if (!words.empty() && !record_.states(topic, of, words)) lacking.push_back(std::move(what));
  }

  const Document& document_;
  const PacketInput& in_;
  const resolved::Resolved& house_;
  Record record_;
};

}  // namespace

std::vector<std::string> lacking(const Document& document, const PacketInput& in, PaperKind kind) {
  Owed owed(document, in);
  owed.people_and_place();
  if (kind != PaperKind::estimate) {
    owed.official();
    owed.findings();
    owed.plans();
  }
  if (kind != PaperKind::findings) owed.totals();
  return std::move(owed.lacking);
}

}  // namespace soundsill::document
