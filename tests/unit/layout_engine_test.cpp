// Columns, hyphens, numbers by their point, rows that split, sections that stay together, and crowded plans.
#include <catch2/catch.hpp>

#include "drawing/placer.h"
#include "pages/shapes.h"
#include "setting/hyphens.h"
#include "unit/layout_sample.h"

using namespace page_sample;

namespace {

const page::Hyphens& english_hyphens() {
  static const page::Hyphens made(slurp("/usr/share/hyphen/hyph_en_US.dic"));
  return made;
}

page::Pages laid_with(const Document& d, const std::string& xml, const page::Hyphens* hyphens = nullptr) {
  Faults faults;
  const page::Template look = template_of(xml);
  page::Pages pages = page::lay_out(d, look, faces(), faults, hyphens);
  CHECK(faults.all().empty());
  CHECK(wrong(d, pages).empty());
  CHECK(page::leaving_texts(pages, look.sheet) == std::vector<std::string>{});
  return pages;
}

std::string packet_with(const std::string& what, const std::string& with) { return replaced(packet_xml(), what, with); }

const page::TextMark& mark_of(const page::Pages& pages, const std::string& words) {
  for (const page::Page& p : pages.pages)
    for (const page::Mark& m : p.marks)
      if (const auto* t = std::get_if<page::TextMark>(&m); t && t->text.find(words) == 0) return *t;
  throw std::runtime_error("not on the pages: " + words);
}

}  // namespace

TEST_CASE("words are broken where the dictionary says, names and short words never") {
  // Webster's: ta-ble, in-spec-tion, foun-da-tion, per-im-e-ter (Liang's patterns leave some breaks out, put in none)
  using At = std::vector<std::size_t>;
  CHECK(english_hyphens().breaks("foundation") == At{4, 6});
  CHECK(english_hyphens().breaks("inspection") == At{2, 6});
  CHECK(english_hyphens().breaks("table").empty());
  CHECK(english_hyphens().breaks("Abernethy").empty());
  CHECK(english_hyphens().breaks("02NCAC34").empty());
  CHECK(english_hyphens().breaks("łódźłódźłódź").empty());
  CHECK(english_hyphens().breaks("").empty());
  CHECK_THROWS(page::Hyphens(""));
}

namespace {

std::string long_words() {
  std::string all;
  for (int i = 0; i < 12; ++i)
    all += "Subterranean termites are described separately, inspection and treatment recommendations accordingly. ";
  return all;
}

}  // namespace

TEST_CASE("hyphens stand only where the template wants them, and readers find the words whole") {
  const Document d = document_of({Paragraph{"lead", text(long_words())}});
  const std::string narrow = replaced(packet_with("right=\"0.75in\"", "right=\"5.7in\""), "<text-style name=\"lead\"",
                                      "<text-style hyphenate=\"yes\" name=\"lead\"");
  const auto hyphens = [](const page::Pages& pages) {
    int count = 0;
    for (const page::Page& p : pages.pages)
      for (const page::TextMark& t : texts(p))
        if (t.text.find("\u00AD") != std::string::npos) ++count;
    return count;
  };
  CHECK(hyphens(laid_with(d, narrow, &english_hyphens())) > 2);
  CHECK(hyphens(laid_with(d, narrow)) == 0);
  CHECK(hyphens(laid_with(d, packet_with("right=\"0.75in\"", "right=\"5.7in\""), &english_hyphens())) == 0);
  // A word that stays whole is shaped as one: the same width with and without the dictionary.
  const Document one = document_of({Paragraph{"lead", text("foundation")}});
  CHECK(mark_of(
            laid_with(
                one, replaced(packet_xml(), "<text-style name=\"lead\"", "<text-style hyphenate=\"yes\" name=\"lead\""),
                &english_hyphens()),
            "foundation")
            .width == mark_of(laid_with(one, packet_xml()), "foundation").width);
}

TEST_CASE("numbers stand point under point, with their units behind") {
  Table t;
  t.columns = {{"Work", Column::Align::left, 1, false}, {"Measure", Column::Align::number, 1, true}};
  for (const char* n : {"136.0 ft", "9", "1,204.5 ft", "13 holes", "none"})
    t.rows.push_back({"", {text("Line"), text(n)}});
  const page::Pages pages = laid_with(document_of({t}), packet_xml());
  // Where the whole part ends: the width of the head in the same face and size.
  const auto point = [&](const std::string& whole, const std::string& head) {
    const page::TextMark& m = mark_of(pages, whole);
    return m.at.x + page::milli(page::scaled(m.size, m.face->width(head), m.face->units_per_em()));
  };
  const page::Milli at = point("136.0 ft", "136");
  CHECK(std::abs(point("9", "9") - at) < 300);
  CHECK(std::abs(point("1,204.5 ft", "1,204") - at) < 300);
  CHECK(std::abs(point("13 holes", "13") - at) < 300);
  // What is no number stands at the right edge.
  const page::TextMark &none = mark_of(pages, "none"), &holes = mark_of(pages, "13 holes");
  CHECK(std::abs(none.at.x + none.width - holes.at.x - holes.width) < 300);
}

TEST_CASE("a tall row goes on over the page with two lines at least on either side") {
  Table t;
  t.columns = {{"No.", Column::Align::left, 1, true}, {"Words", Column::Align::left, 1, false}};
  for (int i = 0; i < 6; ++i) t.rows.push_back({"", {text(std::to_string(i)), text(many_words(400))}});
  const page::Pages pages = laid_with(document_of({t}), packet_xml());
  REQUIRE(pages.pages.size() >= 2);
  // No page but the last ends with more white than two lines and what a row takes.
  for (std::size_t p = 0; p + 1 < pages.pages.size(); ++p) {
    page::Milli lowest = 0;
    for (const page::TextMark& m : texts(pages.pages[p]))
      if (m.node >= 0) lowest = std::max(lowest, m.at.y);
    CHECK(lowest > 792'000 - page::points(58) - page::points(60));
  }
}

TEST_CASE("what stays together goes to the next page whole, unless no page can hold it") {
  const auto begins = [](int lines) {
    Document d = document_of({Paragraph{"body", text(many_words(560))}});
    d.sections.push_back({"terms", "terms", {Heading{2, "here", text("Terms"), true}}});
    for (int i = 0; i < lines; ++i) d.sections.back().blocks.push_back(Paragraph{"body", text("Line.")});
    const page::Pages pages = laid_with(d, packet_xml());
    return pages.destinations.at("here").page;
  };
  CHECK(begins(2) == 0);
  CHECK(begins(18) == 1);
  CHECK(begins(90) == 0);
}

TEST_CASE("a last page with next to nothing is spared by less white") {
  const auto pages = [](int paragraphs) {
    std::vector<Block> blocks;
    for (int i = 0; i < paragraphs; ++i) blocks.push_back(Paragraph{"body", text("One line of words.")});
    return laid_with(document_of(std::move(blocks)), packet_xml()).pages.size();
  };
  // Alone a page holds as many lines as fit with all of their white; one more is squeezed in, many more are not.
  int most = 1;
  while (pages(most + 1) == 1) ++most;
  const int with_white = static_cast<int>((792'000 - 64'800 - 57'600 + 7'000) / (14'200 + 7'000));
  CHECK(most > with_white);
  CHECK(most < with_white + 8);
  CHECK(pages(most + 1) == 2);
}

TEST_CASE("in two columns headings and tables stand across, with what they head") {
  std::string xml = replaced(packet_xml(), "<section name=\"areas\"/>",
                             "<section name=\"areas\" columns=\"2\" across=\"headings tables\"/>");
  Document d =
      document_of({Heading{2, "h", text("Across"), true}, Paragraph{"body", text(many_words(200))},
                   Heading{3, "t", text("A table"), true}, rows_table(5), Paragraph{"body", text("End of it.")}},
                  "areas");
  const page::Pages pages = laid_with(d, xml);
  page::Milli leftmost = 999'000, rightmost = 0;
  for (const page::TextMark& m : texts(pages.pages[0])) {
    if (m.text.find("Row ") == 0) CHECK(m.at.x > 54'000);
    if (m.node < 0) continue;
    leftmost = std::min(leftmost, m.at.x);
    rightmost = std::max(rightmost, m.at.x);
  }
  CHECK(leftmost == 54'000);
  CHECK(rightmost > 320'000);  // words in the second column
  CHECK(mark_of(pages, "A table").at.x == 54'000);
  CHECK(mark_of(pages, "A table").at.y < mark_of(pages, "Row 1").at.y);
}

TEST_CASE("a crowded part of a plan is drawn again, larger, with all of its words") {
  Drawing d{"plan", house(), "A plan", text("Plan.")};
  d.scene.detail_words = "Detail {letter}";
  for (int i = 0; i < 30; ++i)
    d.scene.labels.push_back({at(30 + i % 3, 4 + i % 2), {}, "joist number " + std::to_string(i), "name"});
  const Document doc = document_of({d});
  const page::Pages pages = laid_with(doc, packet_xml());
  CHECK_NOTHROW(mark_of(pages, "Detail A"));
  int figures = 0;
  for (const page::Node& n : pages.nodes) figures += n.role == "Figure";
  CHECK(figures >= 2);
  // Nothing is drawn larger where there is room enough, nor in a drawing that is one of several.
  Drawing roomy{"plan", house(), "A plan", text("Plan.")};
  roomy.scene.detail_words = "Detail {letter}";
  CHECK_THROWS(mark_of(laid_with(document_of({roomy}), packet_xml()), "Detail"));
  d.lesser = true;
  CHECK_THROWS(mark_of(laid_with(document_of({d}), packet_xml()), "Detail"));
}

TEST_CASE("numbers without a place on the plan stand beside it and can be led to") {
  Drawing d{"plan", house(), "A plan", text("Plan.")};
  for (int i = 40; i < 75; ++i) d.scene.aside.push_back({{}, std::to_string(i), "finding", "", "off the plan"});
  d.scene.aside_words = "Not here:";
  const page::Pages pages = laid_with(document_of({d}), packet_xml());
  for (int i = 40; i < 75; ++i) CHECK(pages.destinations.contains("plan-" + std::to_string(i)));
}

TEST_CASE("a number of three digits takes its room on a card") {
  const Document d = document_of({Card{"c", "128", "Tag", "damage", {3, "", text("A heading"), true}, {}}});
  const page::Pages pages = laid_with(d, packet_xml());
  const page::TextMark& number = mark_of(pages, "128");
  CHECK(number.at.x + number.width < mark_of(pages, "A heading").at.x);
}

TEST_CASE("the checks of boxes and of order see what is wrong") {
  const Document d = document_of(
      {Paragraph{"caution", text("First words.")}, Paragraph{"body", text("Second words.")}, rows_table(2)});
  const page::Pages pages = laid(d);
  CHECK(page::leaving_texts(pages, packet().sheet).empty());
  CHECK(page::out_of_order(d, pages).empty());
  const auto with = [&](const std::string& words, page::Milli dx, page::Milli dy) {
    page::Pages changed = pages;
    for (page::Mark& m : changed.pages[0].marks)
      if (auto* t = std::get_if<page::TextMark>(&m); t && t->text.find(words) == 0) page::shift(m, dx, dy);
    return page::leaving_texts(changed, packet().sheet).size();
  };
  CHECK(with("First", 0, 16'000) == 1);   // out of its tint
  CHECK(with("First", 470'000, 0) >= 1);  // over the margin
  CHECK(with("Row 1", 0, 12'000) == 1);   // onto the rule below its row
  Document turned = d;
  std::swap(turned.sections[0].blocks[0], turned.sections[0].blocks[1]);
  CHECK(page::out_of_order(turned, pages).size() == 1);
  Document more = d;
  more.sections[0].blocks.push_back(Paragraph{"body", text("Words that no page says.")});
  CHECK(page::out_of_order(more, pages) == std::vector<std::string>{"Words that no page says."});
}

namespace {

/// The leaders of a drawing, from the box of the words to their point.
std::vector<std::pair<page::At, page::At>> leaders(const page::Pages& pages, const page::Template& look) {
  std::vector<std::pair<page::At, page::At>> all;
  for (const page::Page& p : pages.pages)
    for (const page::Mark& m : p.marks)
      if (const auto* path = std::get_if<page::PathMark>(&m);
          path && path->pieces.size() == 2 && path->stroke == look.drawing.leader &&
          path->line_width == look.drawing.leader_width && path->dash.empty())
        all.emplace_back(path->pieces[0].to[0], path->pieces[1].to[0]);
  return all;
}

}  // namespace

TEST_CASE("leaders of findings do not cross, however the findings crowd") {
  int seen = 0;
  for (int seed = 1; seed <= 40; ++seed) {
    Drawing d{"plan", house(), "A plan", text("Plan.")};
    d.scene.labels.clear();
    d.scene.markers.clear();
    const int count = 4 + seed % 24;
    for (int i = 0; i < count; ++i)
      d.scene.markers.push_back(
          {{Length::inches(150 + (i * 37 * seed) % 90), Length::inches(90 + (i * 53 + seed) % 60)},
           std::to_string(10 + i),
           "finding",
           "",
           "x"});
    const auto all = leaders(laid_with(document_of({d}), packet_xml()), packet());
    seen += static_cast<int>(all.size());
    for (std::size_t i = 0; i < all.size(); ++i)
      for (std::size_t k = i + 1; k < all.size(); ++k) {
        INFO("seed " << seed << ", leaders " << i << " and " << k);
        CHECK_FALSE(page::cross(all[i].first, all[i].second, all[k].first, all[k].second));
      }
  }
  CHECK(seen > 300);
}

TEST_CASE("letter, legal and A4 are what their standards say") {
  // ASME Y14.1 and ANSI: 8.5 x 11 in and 8.5 x 14 in; ISO 216: 210 x 297 mm
  const auto sheet = [](const std::string& size) {
    return template_of(packet_with("size=\"letter\"", "size=\"" + size + "\"")).sheet;
  };
  CHECK(sheet("letter").height == 11 * 72'000);
  CHECK(sheet("legal").height == 14 * 72'000);
  CHECK(sheet("legal").width == 17 * 36'000);
  CHECK(sheet("a4").width == (210 * 720'000 + 127) / 254);
  CHECK(sheet("a4").height == (297 * 720'000 + 127) / 254);
}
