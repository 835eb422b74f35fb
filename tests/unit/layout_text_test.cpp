#include <catch2/catch.hpp>

#include "unit/layout_sample.h"

using namespace page_sample;

namespace {

// Texts of the body: no running heads.
std::vector<page::TextMark> body(const page::Page& page) {
  std::vector<page::TextMark> all = texts(page);
  std::erase_if(all, [](const page::TextMark& t) { return t.node < 0; });
  return all;
}

page::Milli ink_right(const page::TextMark& t) { return t.at.x + t.width; }

}  // namespace

TEST_CASE("an empty document is one page with its running heads") {
  Document d = document_of({});
  const page::Pages pages = laid(d);
  REQUIRE(pages.pages.size() == 1);
  CHECK(says(pages.pages[0], "12 Test Street"));
  CHECK(says(pages.pages[0], "Page 1 of 1"));
  CHECK(wrong(d, pages).empty());
  d.sections.clear();
  CHECK(laid(d).pages.size() == 1);
}

TEST_CASE("lines break between words and end with a space inside a paragraph") {
  const Document d = document_of({Paragraph{"body", text(many_words(120))}});
  const page::Pages pages = laid(d);
  CHECK(wrong(d, pages).empty());
  const auto lines = body(pages.pages[0]);
  REQUIRE(lines.size() > 3);
  std::string joined;
  for (const auto& line : lines) joined += line.text;
  CHECK(joined == many_words(120));
  for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
    CHECK(lines[i].text.back() == ' ');
    CHECK(lines[i + 1].at.y - lines[i].at.y == packet().texts.at("body").leading);
    CHECK(ink_right(lines[i]) <= 612'000 - 54'000 + 4'000);
  }
}

TEST_CASE("a word of 300 letters is broken at the edge") {
  for (const std::string& letter : {std::string("m"), std::string("é"), std::string("W")}) {
    std::string word;
    for (int i = 0; i < 300; ++i) word += letter;
    const Document d = document_of({Paragraph{"body", text("see " + word + " there")}, Heading{2, "", text(word)},
                                    Facts{3, {{"Name", text(word)}, {word, text("x")}}}, rows_table(2)});
    const page::Pages pages = laid(d);
    CHECK(wrong(d, pages).empty());
    for (const auto& line : body(pages.pages[0])) CHECK(ink_right(line) <= 612'000 - 54'000 + 4'000);
  }
}

TEST_CASE("letters of other languages and signs are set, from the fallback face where needed") {
  const std::string words = "Łódź ñ é ½ ° × € ’ “ ” ″ ′ → ✓ · – — ² ≈";
  const Document d = document_of({Paragraph{"body", text(words)}});
  const page::Pages pages = laid(d);
  CHECK(wrong(d, pages).empty());
  bool fallback = false;
  for (const auto& t : body(pages.pages[0])) {
    fallback = fallback || t.face->name() == "symbols";
    for (const auto& g : t.glyphs) CHECK(g.id != 0);
  }
  CHECK(fallback);
}

TEST_CASE("a letter that no face has is a fault, said once") {
  Faults faults;
  const Document d = document_of({Paragraph{"body", text("a \U00013000 and \U00013000")}});
  const page::Pages pages = page::lay_out(d, packet(), faces(), faults);
  REQUIRE(faults.all().size() == 1);
  CHECK(info(faults.all()[0].rule).code == "no-letter");
  CHECK(faults.all()[0].what == "no typeface has the letter U+13000");
  for (const auto& t : body(pages.pages[0]))
    for (const auto& g : t.glyphs) CHECK(g.id != 0);
}

TEST_CASE("strong and quiet runs keep their looks, and links lead both ways") {
  Document d = document_of(
      {Paragraph{"body",
                 {{"One ", Run::Look::plain, ""},
                  {"bold", Run::Look::strong, ""},
                  {" to ", Run::Look::quiet, ""},
                  {"the card", Run::Look::plain, "card-1"},
                  {" or ", Run::Look::plain, ""},
                  {"call", Run::Look::plain, "tel:5550100"},
                  {" or nowhere", Run::Look::plain, "nothing"}}},
       Card{"card-1", "1", "Live insects seen", "active", {2, "", {{"Back ", Run::Look::plain, "summary"}}}, {}}});
  const page::Pages pages = laid(d);
  CHECK(wrong(d, pages).empty());
  std::vector<std::string> targets;
  for (const auto& mark : pages.pages[0].marks)
    if (const auto* l = std::get_if<page::LinkMark>(&mark)) targets.push_back(l->target);
  CHECK(targets == std::vector<std::string>{"card-1", "tel:5550100", "summary"});
  const auto all = body(pages.pages[0]);
  CHECK(all[1].face->name() == "bold");
  CHECK(all[2].color == packet().texts.at("body").quiet);
}

TEST_CASE("a paragraph leaves no single line behind at the end of a page") {
  for (int filler = 0; filler < 40; ++filler) {
    std::vector<Block> blocks;
    for (int i = 0; i < filler; ++i) blocks.emplace_back(Paragraph{"body", text("x")});
    for (int i = 0; i < 12; ++i) blocks.emplace_back(Paragraph{"body", text(many_words(60 + i, i))});
    const Document d = document_of(std::move(blocks));
    const page::Pages pages = laid(d);
    CHECK(wrong(d, pages).empty());
    std::map<page::NodeId, std::map<std::size_t, int>> lines;
    for (std::size_t p = 0; p < pages.pages.size(); ++p)
      for (const auto& t : body(pages.pages[p])) ++lines[t.node][p];
    for (const auto& [node, on_pages] : lines)
      if (on_pages.size() > 1)
        for (const auto& [page, count] : on_pages) CHECK(count >= 2);
  }
}

TEST_CASE("a framed paragraph has a line on all four sides, and is not cut") {
  const page::Template look = template_of(
      replaced(packet_xml(), "<text-style name=\"small\"",
               "<text-style name=\"boxed\" face=\"bold\" size=\"18pt\" leading=\"23pt\" "
               "color=\"ink\" frame=\"3pt\" frame-color=\"ghost\" inset=\"12pt\"/><text-style name=\"small\""));
  std::vector<Block> blocks;
  for (int i = 0; i < 40; ++i) blocks.push_back(Paragraph{"body", text(many_words(20))});
  for (int i = 0; i < 6; ++i) blocks.push_back(Paragraph{"boxed", text(many_words(60))});
  const Document d = document_of(std::move(blocks));
  const page::Pages pages = laid(d, look);
  CHECK(wrong(d, pages).empty());
  int framed = 0;
  for (const page::Page& page : pages.pages) {
    int across = 0, upright = 0;
    for (const page::Mark& mark : page.marks) {
      const auto* path = std::get_if<page::PathMark>(&mark);
      if (!path || !path->fill || !(*path->fill == look.texts.at("boxed").frame_color)) continue;
      page::Milli left = 1 << 30, right = 0, top = 1 << 30, bottom = 0;
      for (const auto& piece : path->pieces)
        if (piece.kind != page::PathMark::Piece::Kind::close) {
          left = std::min(left, piece.to[0].x), right = std::max(right, piece.to[0].x);
          top = std::min(top, piece.to[0].y), bottom = std::max(bottom, piece.to[0].y);
        }
      CHECK(std::min(right - left, bottom - top) == 3'000);
      (right - left > bottom - top ? across : upright) += 1;
    }
    CHECK(across % 2 == 0);  // each box begins and ends on the same page
    CHECK(upright % 2 == 0);
    framed += across / 2;
  }
  CHECK(framed == 6);
}

TEST_CASE("a heading stays with what follows") {
  for (int filler = 20; filler < 45; ++filler) {
    std::vector<Block> blocks;
    for (int i = 0; i < filler; ++i) blocks.emplace_back(Paragraph{"body", text("line " + std::to_string(i))});
    blocks.emplace_back(Heading{2, "h", text("Heading")});
    blocks.emplace_back(Paragraph{"body", text("after " + many_words(30))});
    const page::Pages pages = laid(document_of(std::move(blocks)));
    std::size_t heading = 99, after = 98;
    for (std::size_t p = 0; p < pages.pages.size(); ++p)
      for (const auto& t : body(pages.pages[p])) {
        if (t.text == "Heading") heading = p;
        if (t.text.rfind("after", 0) == 0) after = p;
      }
    CHECK(heading == after);
  }
}

TEST_CASE("heading levels never skip one") {
  const Document d = document_of(
      {Heading{3, "", text("a")}, Heading{1, "", text("b")}, Heading{3, "", text("c")}, Heading{6, "", text("d")}});
  const page::Pages pages = laid(d);
  CHECK(wrong(d, pages).empty());
  std::string roles;
  for (const auto& node : pages.nodes)
    if (node.role[0] == 'H') roles += node.role + " ";
  CHECK(roles == "H1 H1 H2 H3 ");
  REQUIRE(pages.bookmarks.size() == 4);
  CHECK(pages.bookmarks[3].level == 3);
}

TEST_CASE("every page of a draft says so, twice") {
  Document d = document_of({Paragraph{"body", text(many_words(2000))}});
  CHECK_FALSE(says(laid(d).pages[0], "DRAFT"));
  d.draft = "DRAFT";
  const page::Pages pages = laid(d);
  REQUIRE(pages.pages.size() > 2);
  CHECK(wrong(d, pages).empty());
  for (const page::Page& page : pages.pages) {
    bool large = false, small = false;
    for (const auto& t : texts(page)) {
      if (t.text != "DRAFT") continue;
      CHECK(t.node == page::artifact_header);
      (t.size > 60'000 ? large : small) = true;
    }
    CHECK(large);
    CHECK(small);
  }
  CHECK(says(pages.pages[1], "Page 2 of " + std::to_string(pages.pages.size())));
}

TEST_CASE("lists have their marks at the left and their numbers in the text") {
  const Document d = document_of({List{List::Marker::number, "body", {text(many_words(40)), text("two")}},
                                  List{List::Marker::bullet, "body", {text(many_words(40)), text("two")}}});
  const page::Pages pages = laid(d);
  CHECK(wrong(d, pages).empty());
  CHECK(says(pages.pages[0], "2."));
  std::string labels, kinds;
  for (const auto& node : pages.nodes) {
    if (node.role == "Lbl") labels += "[" + node.actual + "]";
    if (node.role == "L") kinds += node.numbering + " ";
  }
  CHECK(labels == "[][][\u2022][\u2022]");
  CHECK(kinds == "Decimal Disc ");
}

TEST_CASE("lines to sign show who, what and when") {
  const Document d = document_of({Signatures{"Name and signature",
                                             "Date",
                                             {{text("I saw this."), "Inspector", "Ana Núñez", "March 5, 2026"},
                                              {text("I agree."), "Owner", {}, {}}}},
                                  Signatures{"Name", "Date", {}}});
  CHECK(wrong(d, laid(d)).empty());
}
