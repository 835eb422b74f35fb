#include "pdf/file.h"

#include <catch2/catch.hpp>
#include <stdexcept>

#include "unit/pdf_bytes.h"

using namespace soundsill;
using pdf::File;
using test::has;

TEST_CASE("entries are added to objects as they are written") {
  File file(File::Version::v1_4);
  const pdf::Id page = file.add_page(612'345, 792'000);
  const pdf::Id mine = file.add();
  file.append(mine, "/A 1");
  file.append(mine, "/B [.5 (x)]");
  file.append(page, "/Mine " + pdf::reference(mine));
  file.append_to_info("/Title (T)");
  const std::string bytes = file.save();
  CHECK(has(bytes, "/MediaBox [0 0 612.345 792]"));
  CHECK(has(bytes, std::to_string(mine) + " 0 obj\n<<\n/A 1\n/B [.5 (x)]\n>>"));
  CHECK(has(bytes, "/Title (T)"));
}

TEST_CASE("streams keep their bytes, packed or not") {
  File file(File::Version::v1_7);
  file.add_page(100'000, 100'000);
  const std::string long_text(10'000, 'x');
  file.add_stream("/Kind /Plain", std::string("a\0b\r\n", 5), File::Packing::none);
  file.add_stream("/Kind /Packed", long_text, File::Packing::deflate);
  const std::string bytes = file.save();
  CHECK(has(bytes, std::string("stream\r\na\0b\r\n\nendstream", 23)));
  CHECK(has(test::unpacked(bytes), long_text));
  CHECK(bytes.size() < 4'000);
}

TEST_CASE("a font has one name on a page, however often it is asked for") {
  File file(File::Version::v1_4);
  const pdf::Id page = file.add_page(100'000, 100'000);
  const pdf::Id first = file.add_dictionary("/Type /Font");
  const pdf::Id second = file.add_dictionary("/Type /Font");
  CHECK(file.font_name(page, first) == file.font_name(page, first));
  CHECK(file.font_name(page, first) != file.font_name(page, second));
  CHECK_FALSE(file.image_name(page, first).empty());
}

TEST_CASE("numbers of objects that are not there, or of another kind, are refused") {
  File file(File::Version::v1_7);
  const pdf::Id page = file.add_page(100'000, 100'000);
  const pdf::Id other = file.add();
  CHECK_THROWS_AS(file.append(0, "/A 1"), std::logic_error);
  CHECK_THROWS_AS(file.append(999, "/A 1"), std::logic_error);
  CHECK_THROWS_AS(file.font_name(other, page), std::logic_error);
  CHECK_THROWS_AS(file.set_contents(other, ""), std::logic_error);
}

TEST_CASE("an error of the library becomes an exception, and nothing is lost") {
  File file(File::Version::v1_7);
  const pdf::Id page = file.add_page(100'000, 100'000);
  CHECK_THROWS_AS(file.add_bookmark(page, "/Title (T)"), std::runtime_error);
  CHECK_THROWS_AS(file.save(), std::runtime_error);  // its errors stick
}

TEST_CASE("small objects share packs, and their places are in the table") {
  File file(File::Version::v1_7);
  file.add_page(100'000, 100'000);
  for (int i = 0; i < 4500; ++i) file.add_dictionary("/Number " + std::to_string(i));
  const std::string bytes = file.save();
  CHECK(test::count(bytes, "/Type /ObjStm") == 3);  // of 2,000 at most
  CHECK(test::count(bytes, "/Type /XRef") == 1);
  CHECK(bytes.size() < 40'000);
  const std::string open = test::unpacked(bytes);
  for (const int i : {0, 1999, 2000, 4499}) CHECK(has(open, "<</Number " + std::to_string(i) + ">>"));
  const auto start = bytes.rfind("startxref\n");
  REQUIRE(start != std::string::npos);
  const std::size_t at = std::stoul(bytes.substr(start + 10));
  CHECK(has(bytes.substr(at, 80), " 0 obj\n<</Type /XRef"));
}
