// Held against Python's codec, whose answers tests/support/utf8_expected.py writes while the tests are built.
#include "source/utf8.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdint>
#include <fstream>
#include <iterator>
#include <string>

#include "source/source.h"

namespace soundsill {
namespace {

std::string bytes_of(const std::string& name) {
  std::ifstream in(SOUNDSILL_UTF8_EXPECTED "/" + name, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::u32string expected(const std::string& name) {
  const std::string bytes = bytes_of(name + ".letters");
  std::u32string letters;
  for (std::size_t i = 0; i + 3 < bytes.size(); i += 4) {
    char32_t letter = 0;
    for (std::size_t b = 0; b < 4; ++b) letter |= char32_t{static_cast<unsigned char>(bytes[i + b])} << 8 * b;
    letters += letter;
  }
  return letters;
}

}  // namespace

TEST_CASE("every letter is read and written as Python does") {
  const std::string bytes = bytes_of("all.bytes");
  const std::u32string letters = expected("all");
  REQUIRE(letters.size() == 0x110000 - 0x800);
  CHECK((utf8::decode(bytes) == letters));
  std::string written;
  for (const char32_t letter : letters) written += utf8::encode(letter);
  CHECK((written == bytes));
  CHECK(soundsill::letters(bytes) == letters.size());
}

TEST_CASE("what is broken is told byte by byte, and nothing else is") {
  const std::string bytes = bytes_of("broken.bytes");
  const std::u32string letters = expected("broken");
  REQUIRE(letters.size() > 100000);
  const std::u32string read = utf8::decode(bytes);
  REQUIRE(read.size() == letters.size());
  const auto differs = std::mismatch(read.begin(), read.end(), letters.begin()).first;
  CHECK(differs - read.begin() == static_cast<std::ptrdiff_t>(letters.size()));
}

TEST_CASE("a text ends as it ends, and no letter begins behind it") {
  CHECK(utf8::decode("").empty());
  CHECK_FALSE(utf8::letter_at("a", 1).valid);
  CHECK_FALSE(utf8::letter_at("\xE2\x82", 0).valid);
  CHECK(utf8::letter_at("\uFFFD", 0).valid);  // the sign itself, as typed
  CHECK(utf8::end_of_letter("a\u20ACb", 1) == 4);
  CHECK(utf8::end_of_letter("a", 0) == 1);
}

}  // namespace soundsill
