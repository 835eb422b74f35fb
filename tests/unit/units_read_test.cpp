#include <catch2/catch.hpp>

#include "units/units.h"

using namespace soundsill;

namespace {

struct Spelling {
  std::string text;
  std::int64_t feet, inches, sixteenths;
};

// A lone sixteenth counts 1, so 30'6 1/2" is {30, 6, 8}.
const Spelling kLengths[] = {
    {"30'6\"", 30, 6, 0},
    {"30' 6\"", 30, 6, 0},
    {"30'-6\"", 30, 6, 0},
    {"30\u20196\u201D", 30, 6, 0},
    {"30\u2032 6\u2033", 30, 6, 0},
    {"30\u2018 6\u201C", 30, 6, 0},
    {"30'6''", 30, 6, 0},
    {"30''", 0, 30, 0},
    {"30 ft 6 in", 30, 6, 0},
    {"30ft 6in", 30, 6, 0},
    {"30 ft. 6 in.", 30, 6, 0},
    {"30 FT 6 IN", 30, 6, 0},
    {"30 feet 6 inches", 30, 6, 0},
    {"1 foot 1 inch", 1, 1, 0},
    {"30 feet", 30, 0, 0},
    {"30'", 30, 0, 0},
    {"30", 30, 0, 0},
    {"30.5", 30, 6, 0},
    {"30.5'", 30, 6, 0},
    {"30.5 ft", 30, 6, 0},
    {"6\"", 0, 6, 0},
    {"6 in", 0, 6, 0},
    {"18\"", 0, 18, 0},
    {"6 1/2\"", 0, 6, 8},
    {"6\u00BD\"", 0, 6, 8},
    {"\u00BD\"", 0, 0, 8},
    {"1/2\"", 0, 0, 8},
    {"3/16 in", 0, 0, 3},
    {"6.5\"", 0, 6, 8},
    {"30'6 1/16\"", 30, 6, 1},
    {"30' 1/2\"", 30, 0, 8},
    {"30'0\"", 30, 0, 0},
    {"0", 0, 0, 0},
    {"0.01", 0, 0, 2},    // 1.92 sixteenths
    {"0.0026", 0, 0, 0},  // 0.4992 of a sixteenth

    {"0.015625", 0, 0, 3},
    {"30\u00A0ft", 30, 0, 0},
    {"999999999.999999999", 1000000000, 0, 0},
};

const char* const kNoLengths[] = {
    "",           " ",
    "ft",         "'",
    "\"",         "30'12\"",
    "30'13\"",    "3e2",
    "1,200",      "-3",
    "+3",         "30 - 6",
    "2 x 4",      "30'6",
    "30' 6",      "6\" 30'",
    "30'6\"x",    "30.5' 6\"",
    "30'-",       "30'--6\"",
    "6 1/3\"",    "6 0/2\"",
    "6 2/2\"",    "1/2",
    "6 1/32\"",   "6.3\"",
    ".5",         "5.",
    "1.2.3",      "30'''",
    "30''6\"",    "six ft",
    "30 meters",  "1/0\"",
    "0x10",       " 30'",
    "30' ",       "30 ft 6 in deep",
    "1234567890", "6 1/2",
    "30'6\"\n",   "\xff'",
    "30 ' 6 ' ",
};

std::string chars(std::uint64_t& seed, std::string_view alphabet) {
  std::string text;
  seed = seed * 6364136223846793005ULL + 1442695040888963407ULL;
  for (std::uint64_t n = (seed >> 33U) % 14; n != 0; --n) {
    seed = seed * 6364136223846793005ULL + 1442695040888963407ULL;
    text += alphabet[(seed >> 33U) % alphabet.size()];
  }
  return text;
}

}  // namespace

TEST_CASE("a length is read in every spelling that people use") {
  for (const Spelling& s : kLengths) {
    INFO(s.text);
    const auto length = read_length(s.text);
    REQUIRE(length);
    const auto expected = Length::feet(s.feet) + Length::inches(s.inches) + Length{s.sixteenths};
    CHECK(length->sixteenths == expected.sixteenths);
  }
}

TEST_CASE("decimal feet are rounded to the nearest sixteenth, halves up") {
  CHECK(read_length("0.002604166")->sixteenths == 0);  // just under half a sixteenth
  CHECK(read_length("0.002604167")->sixteenths == 1);  // just over
  CHECK(read_length("0.0078125")->sixteenths == 2);    // exactly one and a half
}

TEST_CASE("what is not exactly one length is refused") {
  for (const char* text : kNoLengths) {
    INFO(text);
    CHECK_FALSE(read_length(text));
  }
}

TEST_CASE("a coordinate may lie west or north of the first corner") {
  CHECK(read_coordinate("-3'6\"") == -(Length::feet(3) + Length::inches(6)));
  CHECK(read_coordinate("\u22126\"") == -Length::inches(6));
  CHECK(read_coordinate("3") == Length::feet(3));
  CHECK(read_coordinate("-0") == Length{});
  CHECK_FALSE(read_coordinate("--3"));
  CHECK_FALSE(read_coordinate("- 3"));
  CHECK_FALSE(read_coordinate("-"));
}

TEST_CASE("money is read in dollars and whole cents") {
  CHECK(read_money("1250")->cents == 125000);
  CHECK(read_money("1250.00")->cents == 125000);
  CHECK(read_money("$1250.5")->cents == 125050);
  CHECK(read_money("$1,250.05")->cents == 125005);
  CHECK(read_money("$1,234,567.89")->cents == 123456789);
  CHECK(read_money("0")->cents == 0);
  for (const char* text : {"", "$", "-5", "1.234", "1.", ".50", "12,50", "1,25", "1,2500", "1250,000", ",250", "1,250,",
                           "$ 5", "5$", "1e3", "5 USD", "1234567890123", "$1,25O", "1,,250"}) {
    INFO(text);
    CHECK_FALSE(read_money(text));
  }
}

TEST_CASE("a date is a day that exists") {
  using namespace std::chrono;
  CHECK(read_date("2026-03-05")->day == 2026y / March / 5);
  CHECK(read_date("2024-02-29"));
  CHECK(read_date("2000-02-29"));
  for (const char* text :
       {"2026-02-29", "1900-02-29", "2026-04-31", "2026-00-10", "2026-13-01", "2026-01-00", "2026-1-5", "3/5/2026",
        "2026/03/05", "20260305", "2026-03-05 ", "", "abcd-ef-gh", "+026-03-05", "2026-03-5x"}) {
    INFO(text);
    CHECK_FALSE(read_date(text));
  }
}

TEST_CASE("a time of day is read with one or two digits of the hour") {
  CHECK(read_time("9:10")->minutes == 550);
  CHECK(read_time("09:10")->minutes == 550);
  CHECK(read_time("0:00")->minutes == 0);
  CHECK(read_time("23:59")->minutes == 1439);
  for (const char* text :
       {"", ":", "24:00", "9:60", "9:1", "9:100", "009:10", "9.10", "9:10 am", "-1:00", ":10", "9:"}) {
    INFO(text);
    CHECK_FALSE(read_time(text));
  }
}

TEST_CASE("a number is digits with at most one dot") {
  CHECK(read_number("12") == Ratio(12));
  CHECK(read_number("0.06") == Ratio(6, 100));
  CHECK(read_number("02134") == Ratio(2134));
  CHECK(read_number("999999999.999999999") == Ratio(999999999999999999, 1000000000));
  for (const char* text : {"", ".", "-1", "+1", "1e3", "0x1F", "0o12", "1_000", "1,200", "1:30", "1.2.3", ".5", "5.",
                           "1234567890", "0.1234567890", " 1", "1 ", "\xc2\xb2"}) {
    INFO(text);
    CHECK_FALSE(read_number(text));
  }
}

TEST_CASE("a percentage lies between 0 and 100, with or without its sign") {
  CHECK(read_percent("0.06")->value == Ratio(6, 100));
  CHECK(read_percent("24 %")->value == Ratio(24));
  CHECK(read_percent("24%")->value == Ratio(24));
  CHECK(read_percent("100")->value == Ratio(100));
  for (const char* text : {"", "%", "100.01", "-1", "24 percent", "24%%", "% 24"}) {
    INFO(text);
    CHECK_FALSE(read_percent(text));
  }
}

TEST_CASE("yes and no are read in any case, and nothing else is") {
  CHECK(read_yes_no("yes") == true);
  CHECK(read_yes_no("Yes") == true);
  CHECK(read_yes_no("TRUE") == true);
  CHECK(read_yes_no("no") == false);
  CHECK(read_yes_no("False") == false);
  for (const char* text : {"", "y", "n", "on", "off", "1", "0", "yes ", "nope", "falsey"}) {
    INFO(text);
    CHECK_FALSE(read_yes_no(text));
  }
}

TEST_CASE("no text makes a reader fall over") {
  std::uint64_t seed = 20260305;
  for (int i = 0; i < 20000; ++i) {
    const std::string text = chars(seed, "0123456789.,'\"/-$%: ftin\xC2\xBD\xE2\x80\x99\x00");
    (void)read_length(text);
    (void)read_coordinate(text);
    (void)read_money(text);
    (void)read_date(text);
    (void)read_time(text);
    (void)read_number(text);
    (void)read_percent(text);
    (void)read_yes_no(text);
  }
  const std::string longest(100000, '9');
  CHECK_FALSE(read_length(longest));
  CHECK_FALSE(read_money(longest));
  CHECK_FALSE(read_number(longest));
}
