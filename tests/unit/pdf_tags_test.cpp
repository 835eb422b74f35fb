#include <catch2/catch.hpp>

#include "pdf/pdf.h"
#include "unit/pdf_bytes.h"
#include "unit/pdf_sample.h"

using namespace soundsill;
using test::count;
using test::has;

namespace {
std::string written(const page::Pages& pages) { return test::laid_open(pdf::write(pages, {})); }
}  // namespace

TEST_CASE("nodes without anything beneath them are left out") {
  test::Sheets s;
  s.add_page();
  s.written("P", 0, 54, 100, "here");
  s.add_node("P", s.add_node("Sect", 0));
  const std::string bytes = written(s.pages);
  CHECK(count(bytes, "/S/P/P ") == 1);
  CHECK_FALSE(has(bytes, "/S/Sect"));
}

TEST_CASE("an empty cell stays in a row that has words, and only there") {
  test::Sheets s;
  s.add_page();
  const auto table = s.add_node("Table", 0);
  const auto row = s.add_node("TR", table);
  s.add_node("TD", row);
  s.written("TD", row, 54, 100, "second");
  s.add_node("TD", s.add_node("TR", table));
  const std::string bytes = written(s.pages);
  CHECK(count(bytes, "/S/TD/P ") == 2);
  CHECK(count(bytes, "/S/TR/P ") == 1);
  CHECK(has(bytes, "/K[]>>"));
}

TEST_CASE("head cells say what they head, and cells how many columns they span") {
  const std::string bytes = written(test::sample_pages());
  CHECK(has(bytes, "/A<</O/Table/Scope/Column>>"));
  CHECK(has(bytes, "/A<</O/Table/Scope/Column/ColSpan 2>>"));
  CHECK(count(bytes, "/Scope/Row") == 3);
}

TEST_CASE("a paragraph over two pages is one element") {
  const std::string bytes = written(test::sample_pages());
  CHECK(count(bytes, "/Type/MCR") == 1);
}

TEST_CASE("figures have words and a box in the file's own direction") {
  const std::string bytes = written(test::sample_pages());
  CHECK(has(bytes, "/Alt(Mud tubes on the sill)"));
  CHECK(has(bytes, "/BBox[54 292 354 492]"));
}

TEST_CASE("another language is said where it begins") { CHECK(has(written(test::sample_pages()), "/Lang(de)")); }

TEST_CASE("a list says how its labels count, and what a label that is no text stands for") {
  test::Sheets s;
  s.add_page();
  for (const char* numbering : {"Disc", "Decimal", ""}) {
    const auto list = s.add_node("L", 0);
    s.node(list).numbering = numbering;
    const auto item = s.add_node("LI", list);
    auto dot = test::rectangle_path(test::box(54, 97, 3, 3));
    dot.fill = page::Color{0, 0, 0};
    dot.node = s.add_node("Lbl", item);
    s.node(dot.node).actual = "\u2022";
    s.add(dot);
    s.written("LBody", item, 74, 100, "words");
  }
  const std::string bytes = written(s.pages);
  CHECK(count(bytes, "/A<</O/List/ListNumbering/Disc>>") == 1);
  CHECK(count(bytes, "/A<</O/List/ListNumbering/Decimal>>") == 1);
  CHECK(count(bytes, "/ListNumbering") == 2);
  CHECK(count(bytes, std::string("/ActualText(\xFE\xFF\x20\x22)")) == 3);
}

TEST_CASE("a link is an annotation that belongs to its element") {
  const std::string bytes = written(test::sample_pages());
  CHECK(count(bytes, "/Subtype/Link") == 2);
  CHECK(count(bytes, "/Type/OBJR") == 2);
  CHECK(count(bytes, "/Border[0 0 0]") == 2);
  CHECK(has(bytes, "/Contents(Goes to the figure)"));
  CHECK(has(bytes, "/URI(https://example.com/a\\(b\\)?c=d)"));
  CHECK(has(bytes, "/XYZ null 496 null]"));
}

TEST_CASE("bookmarks nest by their level") {
  const std::string bytes = written(test::sample_pages());
  CHECK(count(bytes, "/Type /Outlines") == 1);
  CHECK(has(bytes, "/Title (What was seen) /Dest ["));
  CHECK(count(bytes, "/First ") == 2 + 1);  // and one of the packed objects
}
