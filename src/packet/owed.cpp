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
  Owed(const Document& document, const PacketInput& in) : document_(document), in_(in) {
    for (const std::string& s : strings(document)) text_ += s + "\n";
    for (const auto& [slot, words] : document.running) text_ += words + "\n";
  }

  std::vector<std::string> lacking;

  void people_and_place() {
    const resolved::Resolved& house = in_.basis.resolved;
    const Company& company = in_.basis.company;
    const Builder b{in_};
    owes("the address of the house", b.address_line());
    if (company.name) owes("the company's name", *company.name);
    if (company.license && company.license->number) owes("the company's license number", company.license->number->text);
    owes("the inspector's name", house.people.inspector.name);
    for (const Visit& v : house.visits)
      if (v.date) owes("the day of a visit", in_.words.shown(*v.date));
    if (std::none_of(document_.sections.begin(), document_.sections.end(),
                     [](const Section& s) { return holds_signatures(s.blocks); }))
      lacking.emplace_back("a line to sign");
  }

  void official() {
    const auto& sheet = in_.basis.form.official_sheet;
    if (sheet && sheet->name && in_.basis.resolved.official_sheet)
      owes("the notice that it accompanies " + *sheet->name, *sheet->name);
  }

  void findings() {
    const Builder b{in_};
    for (const Finding& f : in_.basis.resolved.findings) {
      if (!f.no) continue;
      const std::string number = std::to_string(*f.no);
      owes("what finding " + number + " is", b.title_of(f));
      owes("where finding " + number + " is", b.place_of(f));
    }
    for (const Structure& s : in_.basis.resolved.structures) {
      owes("the structure `" + s.name + "`", s.name);
      if (!s.inspected) owes("why `" + s.name + "` was not inspected", s.because);
      for (const SurveyedArea& a : s.details->areas)
        if (!a.name.empty() && a.seen && *a.seen != Seen::yes)
          owes("why `" + a.name + "` was not wholly seen", b.why_unseen(a));
    }
  }

  /// A drawing of every structure with an outline, and the lengths of its walls on paper.
  void plans() {
    std::size_t wanted = 0;
    for (const SurveyedStructure& s : in_.basis.survey.structures) {
      if (!s.drawn()) continue;
      ++wanted;
      for (const Wall& wall : s.walls)
        owes("the length of wall " + std::to_string(wall.number) + " of `" + s.name + "`",
             in_.words.shown(wall.length));
    }
    if (drawings(document_) < wanted) lacking.emplace_back("a drawing of every structure");
  }

  void totals() {
    for (const Estimate& e : in_.estimates)
      if (!e.lines.empty()) owes("the total of option `" + e.option + "`", print(e.total));
  }

 private:
  void owes(std::string what, const std::string& text) {
    if (!text.empty() && text_.find(text) == std::string::npos) lacking.push_back(std::move(what));
  }

  const Document& document_;
  const PacketInput& in_;
  std::string text_;
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
