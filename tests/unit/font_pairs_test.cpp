#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <set>
#include <sstream>
#include <stdexcept>

#include "font/pack.h"
#include "font/pairs.h"
#include "unit/font_files.h"

using namespace soundsill;
using font::Face;

namespace {

/// "id+advance@cluster" for each glyph.
std::string told(const std::vector<font::Glyph>& glyphs) {
  std::ostringstream out;
  for (const font::Glyph& g : glyphs) out << g.id << '+' << g.advance << '@' << g.cluster << ' ';
  return out.str();
}

/// Every word of the papers' sentences and of the examples, with the space that follows it.
std::set<std::string> words_of_the_papers() {
  std::set<std::string> out;
  for (const char* folder : {"/templates", "/examples"})
    for (const auto& entry : std::filesystem::recursive_directory_iterator(std::string(SOUNDSILL_ROOT) + folder)) {
      if (entry.path().extension() != ".yaml") continue;
      std::ifstream in(entry.path());
      for (std::string word; in >> word;) {
        out.insert(word);
        out.insert(word + " ");
      }
    }
  return out;
}

std::vector<std::string> made_up(unsigned count) {
  std::mt19937 random(20);
  std::vector<std::string> out;
  for (unsigned i = 0; i < count; ++i) {
    std::string text;
    for (auto letters = 1 + random() % 12; letters > 0; --letters) text += static_cast<char>(' ' + random() % 95);
    out.push_back(text);
  }
  return out;
}

}  // namespace

TEST_CASE("texts shaped by pairs stand as HarfBuzz sets them") {
  const auto words = words_of_the_papers();
  const auto others = made_up(2000);
  REQUIRE(words.size() > 3000);
  for (const char* name :
       {"lato/Lato-Regular", "lato/Lato-Bold", "lato/Lato-Light", "lato/Lato-Black", "dejavu/DejaVuSans"}) {
    const std::string bytes = test::read_font(std::string(name) + ".ttf");
    const Face shaper(name, bytes);
    const std::string packed = pack_pairs(shaper);
    const font::Pairs pairs(packed);
    std::size_t by_pairs = 0;
    std::string wrong;
    const auto compare = [&](const std::string& text) {
      const auto glyphs = pairs.shape(text);
      if (!glyphs) return;
      ++by_pairs;
      if (told(*glyphs) != told(shaper.shape(text))) wrong += "`" + text + "` ";
    };
    for (const std::string& text : words) compare(text);
    for (const std::string& text : others) compare(text);
    INFO(name);
    CHECK(wrong.empty());
    CHECK(by_pairs > (words.size() + others.size()) * 8 / 10);
    CHECK(told(Face(name, bytes, packed).shape("piers, \u201Csills\u201D \u2013 1\u00BD in")) ==
          told(shaper.shape("piers, \u201Csills\u201D \u2013 1\u00BD in")));
  }
}

TEST_CASE("what needs the shaper is left to it") {
  const Face shaper("sans", test::dejavu());
  const std::string packed = pack_pairs(shaper);
  const font::Pairs pairs(packed);
  CHECK(pairs.shape("shelter"));
  CHECK(pairs.shape("office"));                     // no ligature
  CHECK_FALSE(pairs.shape("e\u0301"));              // an accent apart
  CHECK_FALSE(pairs.shape("\u0141\u00F3d\u017A"));  // a letter that is not common
  CHECK_FALSE(pairs.shape("\xFF"));
  CHECK(told(Face("sans", test::dejavu(), packed).shape("e\u0301")) == told(shaper.shape("e\u0301")));
}

TEST_CASE("bytes that are no pairs are refused") {
  const std::string packed = pack_pairs(Face("regular", test::lato()));
  CHECK_THROWS_AS(font::Pairs(""), std::invalid_argument);
  CHECK_THROWS_AS(font::Pairs(packed.substr(0, packed.size() - 1)), std::invalid_argument);
  CHECK_THROWS_AS(font::Pairs(std::string(400, '\xFF')), std::invalid_argument);
}

TEST_CASE("what is drawn from the part of a font is what the whole draws") {
  const std::string bytes = test::read_font("lato/Lato-Regular.ttf");
  const Face whole("regular", bytes);
  const std::string packed = pack_pairs(whole);
  const Face both("regular", bytes, packed);
  CHECK(font::Pairs(packed).part().size() < bytes.size() / 5);
  CHECK(both.postscript() == whole.postscript());
  CHECK(both.units_per_em() == whole.units_per_em());
  CHECK(both.ascender() == whole.ascender());
  CHECK(both.descender() == whole.descender());
  CHECK(both.cap_height() == whole.cap_height());
  CHECK(both.x_height() == whole.x_height());
  CHECK(both.italic_angle() == whole.italic_angle());
  CHECK(both.bounding_box().left == whole.bounding_box().left);
  CHECK(both.bounding_box().top == whole.bounding_box().top);
  std::vector<std::uint16_t> glyphs;
  for (const char* text : {"Wood damaged", "8 1\u00BD ft \u2013 \u00F1"})
    for (const font::Glyph& glyph : whole.shape(text)) {
      glyphs.push_back(glyph.id);
      CHECK(both.advance(glyph.id) == whole.advance(glyph.id));
    }
  CHECK(both.subset(glyphs).bytes == whole.subset(glyphs).bytes);
  CHECK(both.subset(glyphs).numbers == whole.subset(glyphs).numbers);
  glyphs.push_back(whole.shape("\u1E9E")[0].id);  // a letter that no paper is expected to have
  CHECK(both.subset(glyphs).bytes == whole.subset(glyphs).bytes);
}

TEST_CASE("a packed font sets and draws what the whole one does, and weighs less") {
  auto words = made_up(500);
  for (const char* text : {"\u0141\u00F3d\u017A", "e\u0301", "office AVATAR", "\u0416\u0443\u043A\u0438"})
    words.emplace_back(text);
  for (const char* name : {"lato/Lato-Regular", "lato/Lato-Black", "dejavu/DejaVuSans"}) {
    INFO(name);
    const std::string bytes = test::read_font(std::string(name) + ".ttf");
    const std::string packed = font::pack_face(bytes, name);
    CHECK(packed.size() < bytes.size() * 4 / 5);
    const Face whole(name, bytes), face(name, packed);
    std::set<std::uint16_t> glyphs;
    for (const std::string& text : words) {
      CHECK(told(face.shape(text)) == told(whole.shape(text)));
      for (const font::Glyph& glyph : whole.shape(text)) glyphs.insert(glyph.id);
    }
    const std::vector<std::uint16_t> used(glyphs.begin(), glyphs.end());
    CHECK(face.subset(used).bytes == whole.subset(used).bytes);
  }
  CHECK_THROWS_AS(font::pack_face("no font", "made up"), std::runtime_error);
}
