#include <catch2/catch.hpp>

#include "diagnostics/diagnostics.h"

using namespace soundsill;

namespace {

Span span(const Source& source, std::string_view word) {
  const auto at = source.text().find(word);
  return {&source, static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(at + word.size())};
}

Diagnostic fault(Span at) {
  return {Rule::doubled_key, at, "`a` stands twice", "one would be lost", "take one out", {}};
}

std::string line(const std::string& text, int number) {
  std::size_t begin = 0;
  while (number-- > 1) begin = text.find('\n', begin) + 1;
  return text.substr(begin, text.find('\n', begin) - begin);
}

}  // namespace

TEST_CASE("a fault is printed as place, words, line, carets, why, fix and see") {
  const Source source("case.yaml", "a: 1\nb: 2\na: 3\n");
  Diagnostic d = fault({&source, 10, 11});
  d.see.push_back({span(source, "a"), "it stands here first"});
  CHECK(render(d) ==
        "case.yaml:3:1: error: `a` stands twice [doubled-key]\n"
        " 3 | a: 3\n"
        "   | ^\n"
        "  why: one would be lost\n"
        "  fix: take one out\n"
        "  see: case.yaml:1:1: it stands here first\n");
}

TEST_CASE("carets count letters, not bytes") {
  const Source source("f", "\u00E9\u00E9: \u00FCber\n");
  const std::string text = render(fault(span(source, "\u00FCber")));
  CHECK(line(text, 1) == "f:1:5: error: `a` stands twice [doubled-key]");
  CHECK(line(text, 3) == "   |     ^^^^");
}

TEST_CASE("a tab is shown as one space") {
  const Source source("f", "a:\tb\n");
  const std::string text = render(fault(span(source, "b")));
  CHECK(line(text, 2) == " 1 | a: b");
  CHECK(line(text, 3) == "   |    ^");
}

TEST_CASE("a fault over several lines is marked on its first") {
  const Source source("f", "a: [1,\n  2]\n");
  CHECK(line(render(fault(span(source, "[1,\n  2]"))), 3) == "   |    ^^^");
}

TEST_CASE("a fault without width gets one caret, also at the end of the file") {
  const Source source("f", "a: ");
  CHECK(line(render(fault({&source, 3, 3})), 3) == "   |    ^");
  CHECK(line(render(fault({&source, 3, 4})), 3) == "   |    ^");
}

namespace {

/// What stands over the carets.
std::string marked(const std::string& text) {
  const std::string carets = line(text, 3);
  std::string out;
  const std::string kept = line(text, 2);
  std::size_t column = 0;
  for (std::size_t at = 0; at < kept.size(); ++column) {
    std::size_t next = at + 1;
    while (next < kept.size() && (static_cast<unsigned char>(kept[next]) & 0xC0U) == 0x80U) ++next;
    if (column < carets.size() && carets[column] == '^') out += kept.substr(at, next - at);
    at = next;
  }
  return out;
}

}  // namespace

TEST_CASE("of a long line 200 columns are printed, with what is marked among them") {
  const std::string letter = "\u00E9";
  const auto many = [&](std::size_t count) {
    std::string out;
    while (count-- > 0) out += letter;
    return out;
  };
  constexpr std::size_t margin = 5;  // " 1 | " but for the bar's own
  for (const std::size_t before : {0U, 1U, 60U, 190U, 198U, 199U, 200U, 201U, 5000U})
    for (const std::size_t after : {0U, 1U, 60U, 195U, 196U, 197U, 198U, 199U, 5000U})
      for (const std::size_t wide : {1U, 4U, 197U, 198U, 199U, 200U, 3000U}) {
        INFO(before << " letters, " << wide << " marked, " << after << " letters");
        const std::string word(wide, 'x');
        const Source source("f", many(before) + word + many(after) + "\n");
        const auto at = static_cast<std::uint32_t>(letter.size() * before);
        const std::string text = render(fault({&source, at, static_cast<std::uint32_t>(at + wide)}));
        const std::string shown = line(text, 2);
        const std::size_t columns = letters(shown) - margin;
        const bool whole = before + wide + after <= 200;
        CHECK(columns <= 200);
        CHECK(columns >= std::min<std::size_t>(before + wide + after, 199));
        CHECK((shown.find("\u2026") == std::string::npos) == whole);
        CHECK(marked(text) == std::string(std::min<std::size_t>(wide, whole ? 200 : 198), 'x'));
        CHECK(letters(line(text, 3)) <= letters(shown));
        CHECK(shown.starts_with(" 1 | \u2026") ==
              (line(text, 2).find(many(before) + "x") == std::string::npos && before > 0));
      }
  const Source end("f", std::string(500, 'a'));
  CHECK(line(render(fault({&end, 500, 500})), 2) == " 1 | \u2026" + std::string(198, 'a'));
  CHECK(line(render(fault({&end, 500, 500})), 3) == "   | " + std::string(199, ' ') + "^");
  // A line of nothing but bytes that are no letters is cut like any other.
  const Source bytes("f", "x" + std::string(100'000, '\x80') + "y");
  CHECK(letters(line(render(fault(span(bytes, "y"))), 2)) <= 200 + margin);
}

TEST_CASE("a byte order mark moves no caret") {
  const Source source("f",
                      "\xEF\xBB\xBF"
                      "ab: c\n");
  const std::string text = render(fault(span(source, "c")));
  CHECK(line(text, 2) == " 1 | ab: c");
  CHECK(line(text, 3) == "   |     ^");
}

TEST_CASE("a fault without a place names the program") {
  CHECK(line(render(fault({})), 1) == "soundsill: error: `a` stands twice [doubled-key]");
}

TEST_CASE("color is used only when asked for") {
  const Source source("f", "a\n");
  Diagnostic d = fault(span(source, "a"));
  CHECK(render(d).find('\033') == std::string::npos);
  CHECK(render(d, {true}).find("\033[1;31merror\033[0m") != std::string::npos);
  d.rule = Rule::lapses;
  CHECK(render(d, {true}).find("\033[1;33mwarning\033[0m") != std::string::npos);
}

TEST_CASE("a file cannot drive the terminal") {
  CHECK(safe_for_terminal("a\033[31mb\x07\x7F") == "a?[31mb??");
  CHECK(safe_for_terminal("a\u0085\u009Bb") == "a??b");
  CHECK(safe_for_terminal("a\u202Eb\u2067c") == "a?b?c");
  CHECK(safe_for_terminal("caf\xE9 \xC3") == "caf? ?");
  CHECK(safe_for_terminal("\u00E9\u2032\U0001F41C\n") == "\u00E9\u2032\U0001F41C\n");
  const Source source("f\033", "x: \033[2J\n");
  CHECK(render(fault(span(source, "x"))).find('\033') == std::string::npos);
}

TEST_CASE("the first line of a fault stays one line") {
  Diagnostic d = fault({});
  d.what = "`two\nlines` is wrong";
  CHECK(line(render(d), 1) == "soundsill: error: `two lines` is wrong [doubled-key]");
}

TEST_CASE("what has to stay on its line stays there, and no file name drives a terminal") {
  CHECK(safe_line("two\nlines\033[2J\xFF\u009Bm") == "two?lines?[2J??m");
  const Source source("two\nlines\xFF", "x: 1\n");
  CHECK(render(fault(span(source, "x"))).starts_with("two?lines?:1:1: error: "));
}

// RFC 3629, 3: what is longer than need be, half of a UTF-16 pair or beyond U+10FFFF is no UTF-8.
TEST_CASE("bytes that are no UTF-8 become the sign for an unknown letter, one each") {
  CHECK(whole_letters("\xC3\xA9 \xF0\x9F\x90\x9C \n") == "\xC3\xA9 \xF0\x9F\x90\x9C \n");
  for (const char* none : {"\xFF\xFE", "\xC0\x80", "\xC3", "\xE2\x82"})
    CHECK(whole_letters(none) == (std::string(none).size() == 1 ? "\uFFFD" : "\uFFFD\uFFFD"));
  for (const char* none : {"\xE0\x80\xAF", "\xED\xA0\x80"}) CHECK(whole_letters(none) == "\uFFFD\uFFFD\uFFFD");
  for (const char* none : {"\xF0\x80\x80\xAF", "\xF4\x90\x80\x80"})
    CHECK(whole_letters(none) == "\uFFFD\uFFFD\uFFFD\uFFFD");
}
