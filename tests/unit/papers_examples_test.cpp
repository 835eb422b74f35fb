// Whole papers of all examples, in two templates: nothing lost, nothing in the way, in order, and everything reachable.
#include "support/papers.h"

#include "page/shapes.h"

using namespace soundsill;
using namespace soundsill::testing;

TEST_CASE("every example holds every invariant in the packet's template") {
  for (const std::string& name : example_names()) {
    INFO(name);
    const ExamplePaper paper(name);
    const page::Template& look = look_of(packet_look);
    CHECK(wrong(paper.document, laid_out(paper.document, look), look) == "");
  }
}

TEST_CASE("another company's template, A4 in two columns and another order, renders every example") {
  const page::Template& look = look_of(other_look);
  CHECK(look.sheet.width == 595'276);  // 210 mm, ISO 216
  CHECK(look.sheet.height == 841'890);
  for (const std::string& name : example_names()) {
    INFO(name);
    const ExamplePaper paper(name);
    const page::Pages pages = laid_out(paper.document, look);
    CHECK(wrong(paper.document, pages, look) == "");
    // The estimate stands before the drawing here.
    if (pages.destinations.contains("estimate"))
      CHECK(pages.destinations.at("estimate").page < pages.destinations.at("drawing").page);
  }
}

TEST_CASE("drafts hold the invariants too") {
  const ExamplePaper paper("heron-lane", true);
  const page::Template& look = look_of(packet_look);
  CHECK(wrong(paper.document, laid_out(paper.document, look), look) == "");
}

namespace {

struct Links {
  std::map<std::string, std::set<std::string>> by_place;  ///< what each id's block leads to

  void runs(const std::string& from, const document::Runs& all) {
    for (const document::Run& r : all)
      if (!r.link.empty()) by_place[from].insert(r.link);
  }
  void block(const std::string& from, const document::Block& b) {
    using namespace document;
    if (const auto* table = std::get_if<Table>(&b.kind))
      for (const Row& row : table->rows)
        for (const Runs& cell : row.cells) runs(row.id.empty() ? from : row.id, cell);
    if (const auto* facts = std::get_if<Facts>(&b.kind))
      for (const Fact& fact : facts->facts) runs(from, fact.value);
    if (const auto* card = std::get_if<Card>(&b.kind)) {
      runs(card->id, card->heading.runs);
      for (const Block& inner : card->blocks) block(card->id, inner);
    }
    if (const auto* drawing = std::get_if<Drawing>(&b.kind))
      for (const auto* list : {&drawing->scene.markers, &drawing->scene.aside})
        for (const Marker& m : *list)
          if (!m.link.empty()) by_place[drawing->id + "-" + m.number].insert(m.link);
  }
  [[nodiscard]] bool leads(const std::string& from, const std::string& to) const {
    const auto found = by_place.find(from);
    return found != by_place.end() && found->second.contains(to);
  }
};

}  // namespace

TEST_CASE("every finding can be reached both ways: summary, card, drawing, estimate") {
  for (const std::string& name : example_names()) {
    const ExamplePaper paper(name);
    Links links;
    for (const document::Section& s : paper.document.sections)
      for (const document::Block& b : s.blocks) links.block(s.id, b);
    const auto ids = document::ids(paper.document);
    for (const Finding& f : items(paper.run.c->findings)) {
      const std::string no = std::to_string(*f.no), row = "row-" + no, card = "card-" + no, place = "plan-1-" + no;
      INFO(name << ", finding " << no);
      CHECK(links.leads(row, card));
      CHECK(links.leads(card, row));
      CHECK(links.leads(card, place));
      CHECK(links.leads(place, card));
      // From the card to each line that answers it, from the drawing to the lines by name, and from there back to both.
      bool drawing_leads = false, any_line = false;
      for (const Work& w : items(paper.run.c->work)) {
        const auto& answers = items(w.answers);
        if (std::find(answers.begin(), answers.end(), *f.no) == answers.end() || !w.id) continue;
        const std::string line = "line-" + *w.id;
        if (!ids.contains(line)) continue;  // a line of another option than the first
        INFO(line);
        CHECK(links.leads(card, line));
        drawing_leads = drawing_leads || links.leads("drawing", line);
        any_line = true;
        CHECK(links.leads(line, "plan-1"));
        CHECK((links.leads(line, card) || links.leads("estimate", card)));
      }
      CHECK(drawing_leads == any_line);
    }
    // On paper each link has a place to go to.
    const page::Pages pages = laid_out(paper.document, look_of(packet_look));
    for (const auto& [from, all] : links.by_place)
      for (const std::string& to : all) {
        INFO(name << ": " << from << " -> " << to);
        CHECK(pages.destinations.contains(to));
      }
  }
}

TEST_CASE("a number is missing from no part of the paper") {
  for (const std::string& name : example_names()) {
    const ExamplePaper paper(name);
    std::set<std::string> drawn;
    for (const document::Section& s : paper.document.sections)
      for (const document::Block& b : s.blocks)
        if (const auto* d = std::get_if<document::Drawing>(&b.kind))
          for (const auto* list : {&d->scene.markers, &d->scene.aside})
            for (const document::Marker& m : *list) drawn.insert(m.number);
    for (const Finding& f : items(paper.run.c->findings)) {
      INFO(name << ", finding " << *f.no);
      CHECK(drawn.contains(std::to_string(*f.no)));
    }
  }
}
