// Whole papers of all examples, in two templates: nothing lost, nothing in the way, in order, and everything reachable.
#include "support/papers.h"

#include "pages/shapes.h"

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

namespace {

std::string said_in(const ExamplePaper& paper) {
  std::string all;
  for (const std::string& s : document::strings(paper.document)) all += s + "\n";
  return all;
}

}  // namespace

TEST_CASE("terms, cautions and columns follow the methods that are used") {
  const std::string wood = said_in(ExamplePaper("pine-fold"));  // a tent, heat, or work on the wood
  for (const char* soil : {"footing\n", "void\n", "treated soil", "Clear 3 ft", "air handler", "Depth\n"})
    CHECK(wood.find(soil) == std::string::npos);
  for (const char* own :
       {"while it is heated", "tented house", "treated wood until it is dry", "How the measures were reached"})
    CHECK(wood.find(own) != std::string::npos);
  const std::string liquid = said_in(ExamplePaper("heron-lane"));
  for (const char* soil : {"footing\n", "void\n", "treated soil", "Clear 3 ft", "How the gallons were reached"})
    CHECK(liquid.find(soil) != std::string::npos);
  for (const char* other : {"while it is heated", "tented house", "bait stations in the soil, and keep"})
    CHECK(liquid.find(other) == std::string::npos);
  CHECK(said_in(ExamplePaper("brick-row")).find("bait stations in the soil, and keep") != std::string::npos);
}

TEST_CASE("every option that a plan can show has its drawing, and the others say so") {
  for (const std::string& name : example_names()) {
    const ExamplePaper paper(name);
    INFO(name);
    std::vector<const document::Drawing*> drawings;
    std::string said;
    for (const document::Section& s : paper.document.sections)
      if (s.name == "drawing")
        for (const document::Block& b : s.blocks) {
          if (const auto* d = std::get_if<document::Drawing>(&b.kind)) drawings.push_back(d);
          if (const auto* p = std::get_if<document::Paragraph>(&b.kind)) said += p->runs[0].text + "\n";
        }
    for (std::size_t i = 1; i < paper.run.treatments.size(); ++i) {
      const std::string end = "-option-" + std::to_string(i + 1),
                        option = paper.run.treatments[i].option->name.value_or("");
      const bool drawn = std::any_of(drawings.begin(), drawings.end(),
                                     [&](const document::Drawing* d) { return d->id.ends_with(end); });
      INFO(option);
      CHECK(drawn != (said.find("“" + option + "” treats") != std::string::npos));
    }
  }
  const auto count = [](const std::string& name) {
    const ExamplePaper paper(name);
    int drawings = 0;
    for (const document::Section& s : paper.document.sections)
      for (const document::Block& b : s.blocks) drawings += std::holds_alternative<document::Drawing>(b.kind);
    return drawings;
  };
  CHECK(count("mill-hollow") == 3);
  CHECK(count("pine-fold") == 1);
}

TEST_CASE("what treats soil or air differently is drawn differently, and each pattern has its letter") {
  // No two styles of treatment share line, dash and hatch, so that a copier keeps them apart.
  const auto& shapes = look_of(packet_look).drawing.shapes;
  const std::vector<std::string> styles{"treated-soil", "backfill", "drilled", "not-treated",
                                        "treated-area", "cover",    "not-seen"};
  for (std::size_t i = 0; i < styles.size(); ++i)
    for (std::size_t k = i + 1; k < styles.size(); ++k) {
      const auto &a = shapes.at(styles[i]), &b = shapes.at(styles[k]);
      INFO(styles[i] << " and " << styles[k]);
      CHECK((a.width != b.width || a.dash != b.dash || a.hatch != b.hatch));
    }
  for (const std::string& name : example_names()) {
    const ExamplePaper paper(name);
    for (const document::Section& s : paper.document.sections)
      for (const document::Block& b : s.blocks)
        if (const auto* d = std::get_if<document::Drawing>(&b.kind))
          for (const document::Shape& shape : d->scene.shapes) {
            INFO(name << ": " << shape.style);
            CHECK(shapes.contains(shape.style));  // no style goes without a look
            const auto in_legend = std::any_of(d->scene.legend.begin(), d->scene.legend.end(),
                                               [&](const document::LegendEntry& e) { return e.style == shape.style; });
            const bool unnamed = shape.style == "inside" || shape.style == "partition" || shape.style == "wall";
            CHECK((in_legend || unnamed));
          }
  }
}
