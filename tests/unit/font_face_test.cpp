#include <algorithm>
#include <catch2/catch.hpp>
#include <stdexcept>

#include "font/font.h"
#include "unit/font_files.h"

using namespace soundsill;
using font::Face;

TEST_CASE("a face tells its name and its measures") {
  const Face face("regular", test::lato());
  CHECK(face.name() == "regular");
  CHECK(face.postscript() == "Lato-Regular");
  CHECK(face.units_per_em() == 2000);
  CHECK(face.ascender() > 0);
  CHECK(face.descender() < 0);
  CHECK(face.cap_height() > face.x_height());
  CHECK(face.x_height() > 0);
  CHECK(face.italic_angle() == 0);
  CHECK(face.bounding_box().left < face.bounding_box().right);
  CHECK(face.bounding_box().bottom < face.bounding_box().top);
}

TEST_CASE("bytes that are no font are refused") {
  CHECK_THROWS_AS(Face("x", ""), std::runtime_error);
  CHECK_THROWS_AS(Face("x", "this is no font, only words"), std::runtime_error);
  CHECK_THROWS_WITH(Face("body", std::string_view(test::lato()).substr(0, 400)), "the face `body` is no TrueType font");
}

TEST_CASE("a letter is shaped to a glyph with its advance") {
  const Face face("regular", test::lato());
  const auto& glyphs = face.shape("n");
  REQUIRE(glyphs.size() == 1);
  CHECK(glyphs[0].id != 0);
  CHECK(glyphs[0].advance == face.advance(glyphs[0].id));
  CHECK(face.width("n") == glyphs[0].advance);
  CHECK(face.width("") == 0);
}

TEST_CASE("kerning moves letters together") {
  const Face face("regular", test::lato());
  CHECK(face.width("AV") < face.width("A") + face.width("V"));
  CHECK(face.width("11") == 2 * face.width("1"));
}

TEST_CASE("digits of the body face are as wide as each other") {
  const Face face("regular", test::lato());
  for (const char* digit : {"1", "2", "3", "4", "5", "6", "7", "8", "9"}) CHECK(face.width(digit) == face.width("0"));
}

TEST_CASE("a ligature is one glyph that points at its first letter") {
  const Face face("sans", test::dejavu());
  const auto& glyphs = face.shape("office");
  REQUIRE(glyphs.size() < 6);
  CHECK(glyphs[0].cluster == 0);
  CHECK(glyphs[1].cluster == 1);
  CHECK(glyphs.back().cluster == 5);
}

TEST_CASE("clusters are byte offsets") {
  const Face face("regular", test::lato());
  const auto& glyphs = face.shape("Łódź");
  REQUIRE(glyphs.size() == 4);
  CHECK(glyphs[1].cluster == 2);
  CHECK(glyphs[2].cluster == 4);
  CHECK(glyphs[3].cluster == 5);
}

TEST_CASE("a letter that the face lacks keeps glyph 0") {
  const Face regular("regular", test::lato());
  const Face sans("sans", test::dejavu());
  CHECK_FALSE(regular.has(U'☐'));
  CHECK(sans.has(U'☐'));
  CHECK(regular.has(U'½'));
  REQUIRE(regular.shape("☐").size() == 1);
  CHECK(regular.shape("☐")[0].id == 0);
}

TEST_CASE("a text is shaped once") {
  const Face face("regular", test::lato());
  const auto* first = &face.shape("twice");
  for (int i = 0; i < 1000; ++i) CHECK(face.width(std::to_string(i)) > 0);
  CHECK(&face.shape("twice") == first);
}

TEST_CASE("a soft hyphen and a joiner leave no glyph") {
  const Face face("regular", test::lato());
  CHECK(face.shape("a\u00ADb\u200Bc").size() == 3);
}

TEST_CASE("a subset is small and always the same, and tells its glyphs' numbers") {
  const Face face("regular", test::lato());
  std::vector<std::uint16_t> used;
  for (const auto& glyph : face.shape("Łódź ½ € ’ –")) used.push_back(glyph.id);
  const font::Subset small = face.subset(used);
  CHECK(small.bytes == face.subset(used).bytes);
  CHECK(small.bytes.size() < test::lato().size() / 50);
  CHECK(small.bytes.find("GPOS") == std::string::npos);
  CHECK(small.bytes.find("glyf") != std::string::npos);
  REQUIRE(small.numbers.size() == used.size());
  CHECK(std::count(small.numbers.begin(), small.numbers.end(), 0) == 0);
  CHECK(*std::max_element(small.numbers.begin(), small.numbers.end()) < 3 * used.size());  // with parts of letters
}
