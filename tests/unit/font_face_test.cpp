#include <algorithm>
#include <catch2/catch.hpp>
#include <stdexcept>

#include "font/font.h"
#include "font/handles.h"
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

TEST_CASE("letters stay letters where a face has ligatures") {
  const Face face("sans", test::dejavu());
  const auto& glyphs = face.shape("office");
  REQUIRE(glyphs.size() == 6);
  for (std::uint32_t i = 0; i < 6; ++i) CHECK(glyphs[i].cluster == i);
  CHECK(glyphs[1].id == glyphs[2].id);
}

// What the font file says is asked of HarfBuzz, which shapes by the OpenType specification.
TEST_CASE("kerning is the font's own, in whole fiftieths of an em") {
  const Face face("regular", test::lato());
  const font::Blob blob(hb_blob_create(test::lato().data(), static_cast<unsigned>(test::lato().size()),
                                       HB_MEMORY_MODE_READONLY, nullptr, nullptr));
  const font::FaceHandle opened(hb_face_create(blob.get(), 0));
  const font::FontHandle font(hb_font_create(opened.get()));
  const font::BufferHandle buffer(hb_buffer_create());
  int kerned = 0;
  for (const char* pair : {"AV", "Te", "ry", "wa", "11", "on", "L'", "P.", "ff", "fi", "we", "Wo"}) {
    hb_buffer_reset(buffer.get());
    hb_buffer_add_utf8(buffer.get(), pair, -1, 0, -1);
    hb_buffer_guess_segment_properties(buffer.get());
    const hb_feature_t letters_apart{HB_TAG('l', 'i', 'g', 'a'), 0, 0, 2};
    hb_shape(font.get(), buffer.get(), &letters_apart, 1);
    const int whole = hb_buffer_get_glyph_positions(buffer.get(), nullptr)[0].x_advance;
    const font::Glyph& ours = face.shape(pair)[0];
    INFO(pair);
    CHECK((ours.advance - face.advance(ours.id)) % (face.units_per_em() / 50) == 0);
    CHECK(std::abs(ours.advance - whole) <= face.units_per_em() / 100);
    if (ours.advance != face.advance(ours.id)) ++kerned;
  }
  CHECK(kerned > 4);
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
