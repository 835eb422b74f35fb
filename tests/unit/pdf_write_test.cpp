#include <catch2/catch.hpp>

#include "pdf/pdf.h"
#include "unit/pdf_bytes.h"
#include "unit/pdf_sample.h"

using namespace soundsill;
using test::count;
using test::has;

namespace {

std::string written(const page::Pages& pages) { return pdf::write(pages, {}); }

/// One page with one paragraph, painted by `paint`.
template <class Paint>
page::Pages one_page(Paint paint) {
  test::Sheets s;
  s.add_page();
  paint(s, s.add_node("P", 0));
  return s.pages;
}

std::string operators_of(const std::string& words, const std::string& face = "regular") {
  return test::unpacked(written(one_page([&](test::Sheets& s, int node) { s.text(node, 54, 100, words, face); })));
}

}  // namespace

TEST_CASE("the same pages give the same bytes") {
  CHECK(written(test::sample_pages()) == written(test::sample_pages()));
}

TEST_CASE("where the faces lie in memory makes no difference") {
  page::Pages pages = test::sample_pages();
  font::Faces others;
  others.add("sans", test::dejavu());
  others.add("bold", test::lato_bold());
  others.add("regular", test::lato());
  for (page::Page& page : pages.pages)
    for (page::Mark& mark : page.marks)
      if (auto* text = std::get_if<page::TextMark>(&mark)) text->face = others.find(text->face->name());
  CHECK(written(pages) == written(test::sample_pages()));
}

TEST_CASE("the flavour decides the version, and what the file says it is") {
  const std::string third = written(test::sample_pages());
  CHECK(third.starts_with("%PDF-1.7\n"));
  CHECK(has(third, "<pdfaid:part>3</pdfaid:part>"));
  CHECK_FALSE(has(third, "/CIDSet"));
  const std::string first = pdf::write(test::sample_pages(), {pdf::Flavour::pdfa_1a, "soundsill", {}});
  CHECK(first.starts_with("%PDF-1.4\n"));
  CHECK(has(first, "<pdfaid:part>1</pdfaid:part>"));
  CHECK(count(first, "/CIDSet") == 3);
}

TEST_CASE("the identifier follows the content") {
  page::Pages pages = test::sample_pages();
  const auto identifier = [](const std::string& bytes) { return bytes.substr(bytes.rfind("/ID"), 40); };
  const std::string before = identifier(written(pages));
  pages.title += "!";
  CHECK(identifier(written(pages)) != before);
}

TEST_CASE("no library's name and no clock is in the file") {
  const std::string bytes = test::laid_open(written(test::sample_pages()));
  CHECK_FALSE(has(bytes, "Haru"));
  CHECK(count(bytes, "(D:") == 2);
  page::Pages undated = test::sample_pages();
  undated.created.clear();
  CHECK_FALSE(has(test::laid_open(written(undated)), "Date"));
}

TEST_CASE("y runs down on our pages and up in the file") { CHECK(has(operators_of("x"), "\n54 692 Td\n")); }

TEST_CASE("letters are set without shifts unless the pen moves otherwise") {
  CHECK(count(operators_of("1111"), ")]TJ") == 1);
  const std::string kerned = operators_of("AV");
  const auto begin = kerned.find("[(");
  const std::string shown = kerned.substr(begin, kerned.find("TJ", begin) - begin);
  CHECK(count(shown, "(") == 2);
}

TEST_CASE("a stretched advance becomes a shift") {
  const auto pages = one_page([](test::Sheets& s, int node) {
    s.text(node, 54, 100, "11");
    std::get<page::TextMark>(s.pages.pages[0].marks[0]).glyphs[0].advance += 200;  // a tenth of an em
  });
  CHECK(has(test::unpacked(written(pages)), ")-100("));
}

TEST_CASE("a ligature stands for all of its letters") {
  const auto pages = one_page([](test::Sheets& s, int node) {
    s.text(node, 54, 100, "fin");
    auto& glyphs = std::get<page::TextMark>(s.pages.pages[0].marks[0]).glyphs;
    glyphs.erase(glyphs.begin() + 1);  // the first glyph stands for two letters
  });
  CHECK(has(test::unpacked(written(pages)), "> <00660069>\n"));
}

TEST_CASE("a letter's code is its own number in every face, so that a word is searched in the bytes") {
  CHECK(has(operators_of("sill (5)"), "(sill \\(5\\)"));
  CHECK(has(operators_of("sill (5)"), "<20> <73> <0020>\n"));
}

TEST_CASE("letters beyond one byte get codes that are free") {
  const std::string bytes = operators_of("\u00FFaz\u0142\u2212", "sans");  // the last code is taken by its letter
  CHECK(has(bytes, "<FE> <0142>\n"));
  CHECK(has(bytes, "<FD> <2212>\n"));
  CHECK(has(bytes, "<61> <7A> <0061>\n"));
  CHECK(has(bytes, "<FF> <00FF>\n"));
}

TEST_CASE("a letter beyond the first plane is mapped as a pair") {
  CHECK(has(operators_of("\U0001D54A", "sans"), "> <D835DD4A>\n"));
}

TEST_CASE("letters that share a glyph are written beside it") {
  const std::string bytes = operators_of("\u03A9 \u2126", "sans");
  CHECK(count(bytes, "/ActualText") ==
        (test::sample_faces().fallback().shape("\u03A9")[0].id == test::sample_faces().fallback().shape("\u2126")[0].id
             ? 1
             : 0));
  CHECK(has(operators_of("a\u00A0b c"), "/ActualText <FEFF0020>"));
}

TEST_CASE("a hyphen where a word was broken is painted and not read") {
  const auto pages = one_page([](test::Sheets& s, int node) {
    s.text(node, 54, 100, "in\u00AD");
    auto& broken = std::get<page::TextMark>(s.pages.pages[0].marks[0]);
    broken.glyphs.push_back(broken.face->shape("-")[0]);
    broken.glyphs.back().cluster = 2;
    s.text(node, 54, 114, "spection-free");
  });
  const std::string operators = test::unpacked(written(pages));
  CHECK(count(operators, "/ActualText <FEFF>") == 1);
  CHECK(count(operators, "/ActualText") == 1);
  CHECK(has(operators, "> <002D>\n"));
}

TEST_CASE("a line whose last space was not shaped gets it") {
  const auto pages = one_page([](test::Sheets& s, int node) {
    s.text(node, 54, 100, "end ");
    std::get<page::TextMark>(s.pages.pages[0].marks[0]).glyphs.pop_back();
  });
  const auto whole = one_page([](test::Sheets& s, int node) { s.text(node, 54, 100, "end "); });
  CHECK(written(pages) == written(whole));
}

TEST_CASE("neighbouring marks of a node share one marked piece") {
  const auto pages = one_page([](test::Sheets& s, int node) {
    s.text(node, 54, 100, "one ");
    s.text(node, 54, 114, "two ");
    s.text(page::artifact_footer, 54, 700, "Page 1");
    s.text(node, 54, 128, "three ");
  });
  const std::string operators = test::unpacked(written(pages));
  CHECK(count(operators, "/P<</MCID") == 2);
  CHECK(count(operators, "/Artifact<</Type/Pagination/Subtype/Footer>>BDC") == 1);
  CHECK(count(operators, "BDC") == count(operators, "EMC"));
}

TEST_CASE("colours, lines and faces are stated only when they change") {
  const auto pages = one_page([](test::Sheets& s, int node) {
    auto path = test::rectangle_path(test::box(54, 54, 100, 100));
    path.stroke = page::Color{255, 0, 51};
    path.line_width = 2500;
    path.dash = {2500, 1250};
    path.node = node;
    s.add(path);
    s.add(path);
    s.text(node, 54, 300, "a");
    s.text(node, 54, 320, "b");
  });
  const std::string operators = test::unpacked(written(pages));
  CHECK(count(operators, "1 0 .2 RG\n") == 1);
  CHECK(count(operators, "2.5 w\n") == 1);
  CHECK(count(operators, "[2.5 1.25 ] 0 d\n") == 1);
  CHECK(count(operators, " re\nS\n") == 2);
  CHECK(count(operators, " Tf\n") == 1);
}

TEST_CASE("what a clip changed is stated again after it") {
  const auto pages = one_page([](test::Sheets& s, int node) {
    auto path = test::rectangle_path(test::box(54, 54, 100, 100));
    path.fill = page::Color{255, 0, 0};
    path.even_odd = true;
    path.node = node;
    path.clip = test::box(60, 60, 20, 30);
    s.add(path);
    path.clip.reset();
    s.add(path);
  });
  const std::string operators = test::unpacked(written(pages));
  CHECK(has(operators, "q\n60 702 20 30 re W n\n1 0 0 rg\n"));
  CHECK(count(operators, "1 0 0 rg\n") == 2);
  CHECK(count(operators, "\nf*\n") == 2);
}

TEST_CASE("a photo that is shown twice is stored once") {
  const auto pages = one_page([](test::Sheets& s, int) {
    const int figure = s.add_node("Figure", 0);
    s.node(figure).alt = "Stripes";
    s.pages.photos["a"] = {40, 30, false, test::small_jpeg(40, 30, false)};
    s.pages.photos["unused"] = {40, 30, false, test::small_jpeg(40, 30, false)};
    s.add(page::ImageMark{test::box(54, 54, 40, 30), "a", figure});
    s.add(page::ImageMark{test::box(154, 54, 40, 30), "a", figure});
  });
  CHECK(count(written(pages), "/DCTDecode") == 1);
}

TEST_CASE("a file is carried and named in the catalog") {
  pdf::Options options;
  options.attachment = pdf::Attachment{"case.json", "{}", "Data of the case", "application/json"};
  const std::string bytes = test::laid_open(pdf::write(test::sample_pages(), options));
  CHECK(has(bytes, "/AFRelationship /Source"));
  CHECK(has(bytes, "/Subtype /application#2Fjson"));
  CHECK(has(bytes, "/AF ["));
}
