#include <catch2/catch.hpp>

#include "pdf/syntax.h"

using namespace soundsill;

TEST_CASE("numbers are thousandths with as few digits as they need") {
  CHECK(pdf::number(0) == "0");
  CHECK(pdf::number(9500) == "9.5");
  CHECK(pdf::number(612'000) == "612");
  CHECK(pdf::number(-250) == "-.25");
  CHECK(pdf::number(7) == ".007");
  CHECK(pdf::number(-1'001) == "-1.001");
  CHECK(pdf::number(1'230) == "1.23");
}

TEST_CASE("division goes to the nearest whole number") {
  CHECK(pdf::divide(7, 2) == 4);
  CHECK(pdf::divide(-7, 2) == -4);
  CHECK(pdf::divide(1, 3) == 0);
  CHECK(pdf::divide(-2, 3) == -1);
}

TEST_CASE("a box is turned to the corner that PDF counts from") {
  CHECK(pdf::rectangle({54'000, 100'500, 20'000, 10'000}, 792'000) == "[54 681.5 74 691.5]");
}

TEST_CASE("a literal string brings every byte through") {
  CHECK(pdf::literal("a(b)\\c") == "(a\\(b\\)\\\\c)");
  CHECK(pdf::literal("a\rb\nc") == "(a\\rb\nc)");
  CHECK(pdf::literal(std::string_view("\0x", 2)) == std::string("(\0x)", 4));
}

TEST_CASE("texts are ASCII or marked UTF-16") {
  CHECK(pdf::text_string("plain") == "(plain)");
  CHECK(pdf::text_string("Ł") == "(\xFE\xFF\x01\x41)");
  CHECK(pdf::utf16_hex(U"A€\U0001D54A") == "004120ACD835DD4A");
}

TEST_CASE("names escape what they may not hold") {
  CHECK(pdf::name("TD") == "/TD");
  CHECK(pdf::name("application/json") == "/application#2Fjson");
  CHECK(pdf::name("a b#") == "/a#20b#23");
}

TEST_CASE("XML text is escaped and free of control letters") {
  CHECK(pdf::xml_text("a & <b> \x01Ł") == "a &amp; &lt;b&gt; Ł");
}
