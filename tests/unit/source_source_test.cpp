#include <catch2/catch.hpp>

#include "source/files.h"
#include "source/markup.h"
#include "source/source.h"
#include "support/memory_files.h"

using namespace soundsill;

namespace {
bool stands_at(const Source& source, std::size_t offset, std::size_t line, std::size_t column) {
  const auto p = source.position(offset);
  UNSCOPED_INFO(offset << " stands at " << p.line << ":" << p.column);
  return p.line == line && p.column == column;
}
}  // namespace

TEST_CASE("a position counts lines and letters from one") {
  const Source source("f", "ab\n\u00E9\u00FCx\n");
  CHECK(stands_at(source, 0, 1, 1));
  CHECK(stands_at(source, 2, 1, 3));  // the newline itself
  CHECK(stands_at(source, 3, 2, 1));
  CHECK(stands_at(source, 5, 2, 2));
  CHECK(stands_at(source, 7, 2, 3));
  CHECK(stands_at(source, 9, 3, 1));
  CHECK(stands_at(source, 1000, 3, 1));
}

TEST_CASE("a byte order mark is no letter of the first line") {
  const Source source("f",
                      "\xEF\xBB\xBF"
                      "ab\nc");
  CHECK(stands_at(source, 0, 1, 1));
  CHECK(stands_at(source, 3, 1, 1));
  CHECK(stands_at(source, 4, 1, 2));
  CHECK(source.line(1) == "ab");
  CHECK(source.line_begin(1) == 3);
  CHECK(stands_at(Source("f", "\xEF\xBB\xBF"), 3, 1, 1));
}

TEST_CASE("a line is given without its end, whichever kind it has") {
  const Source source("f", "one\r\ntwo\n\nlast");
  CHECK(source.line(1) == "one");
  CHECK(source.line(2) == "two");
  CHECK(source.line(3).empty());
  CHECK(source.line(4) == "last");
  CHECK(source.line(5).empty());
  CHECK(source.line(0).empty());
  CHECK(source.line_begin(4) == 10);
  CHECK(source.line_begin(9) == source.text().size());
}

TEST_CASE("an empty text has one empty line") {
  const Source source("f", "");
  CHECK(stands_at(source, 0, 1, 1));
  CHECK(source.line(1).empty());
}

TEST_CASE("letters are counted, not bytes") {
  CHECK(letters("") == 0);
  CHECK(letters("abc") == 3);
  CHECK(letters("\u00E9\u2032\U0001F41C") == 3);
}

TEST_CASE("sources keep their address while more are added") {
  Sources sources;
  const Source& first = sources.add("a", "1");
  for (int i = 0; i < 100; ++i) sources.add("b", "2");
  CHECK(first.text() == "1");
}

TEST_CASE("paths are taken apart and joined") {
  CHECK(folder_of("a/b/c.yaml") == "a/b");
  CHECK(folder_of("c.yaml") == ".");
  CHECK(folder_of("/c.yaml") == "/");
  CHECK(join_path("a", "b") == "a/b");
  CHECK(join_path("a/", "b") == "a/b");
  CHECK(join_path(".", "b") == "b");
}

TEST_CASE("files in memory stay inside their folder") {
  MemoryFiles files;
  files.files["case/photos/1.jpg"] = "jpg";
  CHECK(files.read_inside("case", "photos/1.jpg", 10, 10).bytes == "jpg");
  CHECK(files.read_inside("case", "photos/1.jpg", 10, 2).bytes == "jp");
  CHECK_FALSE(files.read_inside("case", "../other/1.jpg", 10, 10).bytes);
  CHECK_FALSE(files.read_inside("case", "/etc/passwd", 10, 10).bytes);
  CHECK_FALSE(files.read("case/photos/1.jpg", 2).bytes);
  CHECK(files.list("case/photos") == std::vector<std::string>{"1.jpg"});
}

TEST_CASE("two ids are never one anchor, and an anchor needs no escaping") {
  CHECK(anchor("finding-3") == "finding-3");
  CHECK(anchor("drill voids") == "drill_20voids");
  CHECK(anchor("drill voids") != anchor("drill-voids"));
  CHECK(anchor("a_20b") != anchor("a b"));
  CHECK(anchor("\"><\xC3\xB1") == "_22_3E_3C_C3_B1");
}

TEST_CASE("a link leads out only with a scheme and something behind it") {
  CHECK(is_address("https://example.com"));
  CHECK(is_address("tel:555-0142"));
  CHECK_FALSE(is_address("https://"));
  CHECK_FALSE(is_address("javascript:alert(1)"));
  CHECK_FALSE(is_address("finding: 3"));
}
