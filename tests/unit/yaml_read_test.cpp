#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

#include "yaml/tree.h"
#include "yaml/words.h"

using namespace soundsill;
using namespace soundsill::yaml;

namespace {

/// A text, read. `source` must outlive the tree.
struct Reading {
  explicit Reading(std::string text) : source("f.yaml", std::move(text)), tree(read(source, faults)) { faults.sort(); }
  Source source;
  Faults faults;
  std::optional<Node> tree;

  /// "2:5 code: what" for each fault, a line each.
  [[nodiscard]] std::string told() const {
    std::string out;
    for (const Diagnostic& d : faults.all()) {
      const auto p = source.position(d.at.begin);
      out += std::to_string(p.line) + ":" + std::to_string(p.column) + " " + std::string(info(d.rule).code) + ": " +
             d.what + "\n";
    }
    return out;
  }
};

std::string written(const Span& at) { return std::string(at.source->text().substr(at.begin, at.end - at.begin)); }

std::string place(const Span& at) {
  const auto p = at.source->position(at.begin);
  return std::to_string(p.line) + ":" + std::to_string(p.column);
}

const Node& value(const Node& node, std::string_view key) {
  const Entry* entry = node.find(key);
  REQUIRE(entry != nullptr);
  return entry->value;
}

std::string slurp(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  REQUIRE(file);
  std::ostringstream all;
  all << file.rdbuf();
  return all.str();
}

struct Trap {
  const char* text;
  const char* told;
};

const Trap kTraps[] = {
    // quotes
    {"notes: 'crawl\nb: 1\n", "1:8 open-quote: the quote ' that opens here does not close on its line\n"},
    {"b: 1\nnotes: \"crawl\n  space\nc: 2\n",
     "2:8 open-quote: the quote \" that opens here does not close on its line\n"},
    {"{a: 'x, b: 1}\n", "1:5 open-quote: the quote ' that opens here does not close on its line\n"},
    {"p: \"C:\\\"\n", "1:4 open-quote: the quote \" that opens here does not close on its line\n"},
    {"a: \"6\" wide\n", "1:8 bad-yaml: `wide` stands after the closing quote of `\"6\"`\n"},
    {"a: 'isn't it'\n", "1:9 bad-yaml: `t it'` stands after the closing quote of `'isn'`\n"},
    {"p: \"photos\\kitchen\"\n", "1:11 bad-yaml: `\\k` in double quotes stands for no letter\n"},
    {"p: \"\\uD800\"\n", "1:5 bad-yaml: `\\uD800` in double quotes stands for no letter\n"},
    {"p: \"a\\0b\"\n", "1:6 bad-encoding: `\\0` in double quotes stands for a control character\n"},
    // keys
    {"a: 1\nb: 2\na: 3\n", "3:1 doubled-key: `a` stands in this block already\n"},
    {"x: {a: 1, \"a\": 2}\n", "1:11 doubled-key: `a` stands in this block already\n"},
    {"a: 1\nc:3", "2:1 missing-space: `c:3` has no space after its colon\n"},
    {"c:3\nb: 1\n", "1:1 missing-space: `c:3` has no space after its colon\n"},
    {"a:\n  c:3\n  d: 1\n", "2:3 missing-space: `c:3` has no space after its colon\n"},
    {"a:\n  d: 1\n  c:3\nb: 1\n", "3:3 missing-space: `c:3` has no space after its colon\n"},
    {"c:3\n", "1:1 missing-space: `c:3` has no space after its colon\n"},
    {"a: {c:3, b: 1}\n", "1:5 missing-space: `c:3` has no space after its colon\n"},
    {"a: {c:[3], b: 1}\n", "1:5 missing-space: `c:[` has no space after its colon\n"},
    {"\"a\":1\nb: 2\n", "1:1 missing-space: `\"a\":1` has no space after its colon\n"},
    {"a: x: y: z\n", "1:4 bad-yaml: `x` is followed by a second colon\n"},
    {"a: {x: b: c}\n", "1:8 bad-yaml: `b` is followed by a second colon\n"},
    {"a: 1\nb\nc: 2\n", "2:1 bad-yaml: `b` has no colon, and stands where a key belongs\n"},
    {"structures\n  - name: house\n    kind: x\n",
     "1:1 bad-yaml: `structures` has no colon, and stands where a key belongs\n"},
    {": x\n", "1:1 bad-yaml: there is no key before this colon\n"},
    {"? a\n: b\n", "1:1 bad-yaml: a `?` with a space begins a key here\n"},
    {"[a]: b\n", "1:1 bad-yaml: `[a]` stands where a key belongs\n"},
    // values that are not there
    {"note: #3 pier\nb: 1\n", "1:1 empty-value: `note` has no value: `#3 pier` is a comment\n"},
    {"a:\nb: 1\n", "1:1 empty-value: `a` has no value\n"},
    {"b: 1\na:", "2:1 empty-value: `a` has no value\n"},
    {"a: {b: , c: 1}\n", "1:5 empty-value: `b` has no value\n"},
    {"a:\n  -\n  - x\n", "2:3 empty-value: this item of the list is empty\n"},
    {"a:\n  - #3 pier\n  - x\n", "2:3 empty-value: this item of the list is empty: `#3 pier` is a comment\n"},
    {"a: [1,,2]\n", "1:7 empty-value: there is nothing before this comma\n"},
    {"a: ~\nb: null\n", "1:4 empty-value: `~` stands for no value\n2:4 empty-value: `null` stands for no value\n"},
    {"a: {b}\n", "1:5 empty-value: `b` has no colon and no value inside { }\n"},
    {"", "1:1 empty-value: the file holds nothing but blank lines and comments\n"},
    {"# nothing\n\n", "1:1 empty-value: the file holds nothing but blank lines and comments\n"},
    {"---\n", "1:1 empty-value: the file holds nothing but blank lines and comments\n"},
    {"at: pier #3 east\n", "1:10 bad-yaml: `#3 east` is left out as a comment\n"},
    {"at: [pier #3, x]\n", "1:11 bad-yaml: `#3` is left out as a comment\n"},
    // commas
    {"a: {because: repaired in 2019, receipt seen, by: us}\n",
     "1:14 split-by-comma: the comma splits `repaired in 2019, receipt seen` inside { }\n"},
    {"a: {because: one, two, three}\n", "1:14 split-by-comma: the comma splits `one, two, three` inside { }\n"},
    {"a: {renewal: $1,250.00}\n", "1:14 split-by-comma: the comma splits `$1,250.00` inside { }\n"},
    {"a: [$1,250.00, 4]\n", "1:5 split-by-comma: the comma splits `$1,250.00` inside [ ]\n"},
    {"a: [4, $1,250,000]\n", "1:8 split-by-comma: the comma splits `$1,250,000` inside [ ]\n"},
    {"a: [1,250.00]\n", "1:5 split-by-comma: the comma splits `1,250.00` inside [ ]\n"},
    {"a: [\"x\" \"y\"]\n", "1:9 bad-yaml: `\"y\"` stands behind a value without a comma between them\n"},
    // documents
    {"a: 1\n---\nb: 2\n", "2:1 several-documents: a second document begins here\n"},
    {"a: 1\n...\nb: 2\n", "3:1 several-documents: a second document begins here\n"},
    {"---\na: 1\n---\n", "3:1 several-documents: a second document begins here\n"},
    {"- a\nb: c\n", "2:1 several-documents: `b` is a key at the margin of a list\n"},
    {"{a: 1}\nb: 2\n", "2:1 several-documents: a second document begins here\n"},
    {"%YAML 2.0\n---\na: 1\n", "1:1 bad-yaml: `%YAML 2.0` is neither `%YAML 1.1` nor `%YAML 1.2`\n"},
    // repetition
    {"a: &x 1\nb: *x\n",
     "1:4 alias-used: `&x` names a value to be repeated elsewhere\n"
     "2:4 alias-used: `*x` repeats a value from elsewhere in the file\n"},
    {"a: &x {b: *x}\n",
     "1:4 alias-used: `&x` names a value to be repeated elsewhere\n"
     "1:11 alias-used: `*x` repeats a value from elsewhere in the file\n"},
    {"a:\n  <<: *base\n", "2:3 alias-used: `<<` merges keys from elsewhere in the file\n"},
    {"a: [*x, 1]\n", "1:5 alias-used: `*x` repeats a value from elsewhere in the file\n"},
    // marks
    {"a: @home\n", "1:4 bad-yaml: `@home` starts with `@`, which is a YAML mark\n"},
    {"a: `x`\n", "1:4 bad-yaml: this text starts with a backtick, which is a YAML mark\n"},
    {"a: %5\n", "1:4 bad-yaml: `%5` starts with `%`, which is a YAML mark\n"},
    {"a: 1\n%b: 2\n", "2:1 bad-yaml: `%b` starts with `%`, which is a YAML mark\n"},
    {"%a: 1\n", "1:1 bad-yaml: `%a: 1` starts with `%`, which is a YAML mark\n"},
    {"a: !urgent\n", "1:4 bad-yaml: `!urgent` starts with `!`, which is a YAML mark\n"},
    {"a: >6\"\n", "1:4 bad-yaml: `>6\"` starts with `>`, which is a YAML mark\n"},
    {"a: & sons\n", "1:4 bad-yaml: `& sons` starts with `&`, which is a YAML mark\n"},
    {"a: , b\n", "1:4 bad-yaml: `, b` starts with `,`, which is a YAML mark\n"},
    {"a: [seen?]\n", "1:9 bad-yaml: `seen?` has a question mark inside [ ] or { }\n"},
    // indentation
    {"a:\n\tb: 1\n\tc: 1\n", "2:1 tab-indent: a tab indents this line, and 1 more line\n"},
    {"a: [\n\t1]\n", "2:1 tab-indent: a tab indents this line\n"},
    {"a: |\n\tx\n", "2:1 tab-indent: a tab indents this line\n"},
    {"a:\n  b: 1\n   c: 1\n", "3:4 bad-yaml: `c` is indented below a line that has its value already\n"},
    {"a:\n    b: 1\n  c: 1\n", "3:3 bad-yaml: `c` is indented like no line above it\n"},
    {"  a: 1\n b: 2\n", "2:2 bad-yaml: `b` stands further left than the first line of the file\n"},
    {"a: b\n- c\n", "2:1 bad-yaml: `- c` is a list item at the margin of keys\n"},
    {"a: b\n  - c\n", "2:3 bad-yaml: `- c` is a list item below a line that has its value already\n"},
    {"a: - b\n", "1:4 bad-yaml: `- b` is a list item on the line of its key\n"},
    {"a:\n  - b\n  -c\n", "3:3 bad-yaml: `-c` has no space after its dash\n"},
    {"a:\n  - b\n  c\n", "3:3 bad-yaml: `c` stands in a list without a dash\n"},
    {"a: x\n  # comment\n  more\n", "3:3 bad-yaml: `more` stands below a value that is complete\n"},
    // brackets
    {"a: [1, 2\nb: 1\n", "1:4 bad-yaml: the `[` that opens here is not closed before line 2\n"},
    {"a: {x: 1\n", "1:4 bad-yaml: the `{` that opens here is never closed\n"},
    {"a: {x: [1, 2}\nb: 1\n", "1:8 bad-yaml: the `[` that opens here is not closed before the `}` in line 1\n"},
    {"a: [1, 2}\nb: 1\n", "1:4 bad-yaml: the `[` that opens here is not closed before the `}` in line 1\n"},
    {"a: 1\n]\n", "2:1 bad-yaml: `]` closes nothing\n"},
    {"a: [1] x\n", "1:8 bad-yaml: `x` stands after the closing `]`\n"},
    {"a: {x: sill [north]}\n", "1:13 bad-yaml: `sill [north]` has a bracket inside [ ] or { }\n"},
    {"a: {{x: 1}}\n", "1:5 bad-yaml: `{x: 1}` stands inside { } without a key\n"},
    // encoding
    {"a: caf\xE9\nb: \xE9\n", "1:7 bad-encoding: byte E9 is not UTF-8 text, and 1 more like it\n"},
    {"\u00E9: \xC3", "1:4 bad-encoding: byte C3 is not UTF-8 text\n"},
    {"a: \xC0\xAF", "1:4 bad-encoding: byte C0 is not UTF-8 text, and 1 more like it\n"},
    {"a: b\x01\n", "1:5 bad-encoding: control character 01 stands in the text\n"},
    {"a: b\u0085\n", "1:5 bad-encoding: control character 85 stands in the text\n"},
    {"a: b\rc: d\n", "1:5 bad-encoding: a carriage return stands here without a line feed\n"},
    {"\xFF\xFE"
     "a",
     "1:1 bad-encoding: the file is UTF-16 text, not UTF-8\n"},
    // letters that nobody would see as they were meant; one fault a value, however many there are
    {"a: Jo\u200BAnn\u00AD\n",
     "1:4 no-letter: the letter U+200B in `Jo<U+200B>Ann<U+00AD>` shows nothing to a reader\n"},
    {"na\u200Bme: Jo\n", "1:1 no-letter: the letter U+200B in `na<U+200B>me` shows nothing to a reader\n"},
    {"a: \"Jo\\u2060Ann\"\n", "1:4 no-letter: the letter U+2060 in `Jo<U+2060>Ann` shows nothing to a reader\n"},
    {"a: [b, J\uFFFDrg]\n",
     "1:8 no-letter: the letter U+FFFD in `J<U+FFFD>rg` stands for no letter that others can read\n"},
    {"a: \uE123\n", "1:4 no-letter: the letter U+E123 in `<U+E123>` stands for no letter that others can read\n"},
    {"a: |\n  one\n  \u05D3\u05D9\u05DF\n", "1:4 no-letter: the letter U+05D3 in `one...` runs from right to left\n"},
    {"a: b  # \u05D3\u05D9\u05DF, a note that no paper shows\n", ""},
    {"a: \u201C\u00C5ngstr\u00F6m\u201D \u2013 O\u2019Brien, \u0141\u00F3d\u017A, 3 \u00B0C, 12\u2032\n", ""},
};

/// A small valid file in many styles, from which broken ones are made.
constexpr const char* kValid =
    "# comment\nformat: 1\ncase: {number: \"2026-0417\", due diligence: 2026-03-20, list: [a, 'b', 30'6\"]}\n"
    "structures:\n  - name: house  # with a comment\n    outline: [E 40', S 16',\n      W 52']\n"
    "    text: more than\n      one line\n  - {name: garage, at: [0, 0]}\nnotes: |\n  one\n\n    two: 2\nlast:\n- a\n- "
    "b: 1\n"
    "  c: \u00E9\u2032 \"x\"\n";

class Random {
 public:
  std::size_t below(std::size_t n) {
    state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
    return static_cast<std::size_t>(state_ >> 33U) % n;
  }

 private:
  std::uint64_t state_ = 20260305;
};

std::string mutated(std::string text, Random& random) {
  constexpr std::string_view kSigns = "'\"[]{},:#-&*!|>?%@` \n\t\\$=<ab1\xC3\xA9";
  for (std::size_t n = 1 + random.below(4); n != 0 && !text.empty(); --n) {
    const std::size_t at = random.below(text.size());
    const char sign = kSigns[random.below(kSigns.size())];
    switch (random.below(4)) {
      case 0:
        text.erase(at, 1 + random.below(6));
        break;
      case 1:
        text.insert(at, 1, sign);
        break;
      case 2:
        text[at] = sign;
        break;
      default:
        text.resize(at);
    }
  }
  return text;
}

/// Every plain scalar on one line is what its span says; every span lies in the text.
void check_spans(const Node& node, std::size_t size) {
  CHECK(node.span.begin <= node.span.end);
  CHECK(node.span.end <= size);
  const std::string text = written(node.span);
  if (node.is_scalar() && !node.quoted && text.find('\n') == std::string::npos) CHECK(text == node.text);
  for (const Node& item : node.items) check_spans(item, size);
  for (const Entry& entry : node.entries) check_spans(entry.value, size);
}

}  // namespace

TEST_CASE("each trap gets one message of its own, at its place") {
  for (const Trap& trap : kTraps) {
    INFO(trap.text);
    const Reading r(trap.text);
    CHECK(r.told() == trap.told);
  }
}

TEST_CASE("every message has its why and its fix, keeps the house style and stays short") {
  for (const Trap& trap : kTraps) {
    const Reading r(trap.text);
    for (const Diagnostic& d : r.faults.all()) {
      INFO(trap.text << d.what);
      CHECK(letters(d.what) <= 88);
      CHECK_FALSE(d.why.empty());
      CHECK_FALSE(d.fix.empty());
      for (const std::string* words : {&d.what, &d.why, &d.fix}) {
        CHECK_FALSE(words->ends_with('.'));
        CHECK_FALSE(words->find("invalid") != std::string::npos);
        CHECK_FALSE(words->find("illegal") != std::string::npos);
        CHECK_FALSE((words->front() >= 'A' && words->front() <= 'Z'));
      }
    }
  }
}

TEST_CASE("a fix can be pasted where the text is known") {
  const auto fix = [](const char* text) { return Reading(text).faults.all().at(0).fix; };
  CHECK(fix("a: {renewal: $1,250.00}\n") == "put it in quotes: \"$1,250.00\"");
  CHECK(fix("a: >6\"\n") == "put it in quotes: '>6\"'");
  CHECK(fix("a: x: y's \"z\"\n") == "put it in quotes: 'x: y''s \"z\"'");
  CHECK(fix("a: 1\nc:3\n") == "write `c: 3`");
  CHECK(fix("note: #3 pier\n") == "text that starts with # needs quotes: \"#3 pier\"");
}

TEST_CASE("a doubled key points to the first of its kind") {
  const Reading r("a: 1\nb: 2\na: 3\n");
  REQUIRE(r.faults.all().size() == 1);
  REQUIRE(r.faults.all()[0].see.size() == 1);
  CHECK(place(r.faults.all()[0].see[0].at) == "1:1");
  CHECK(r.faults.all()[0].see[0].words == "it stands here first");
}

TEST_CASE("the same key in different blocks is no doubled key") {
  CHECK(Reading("a: {b: 1}\nb: {b: 1, c: [{b: 1}, {b: 2}]}\n").told().empty());
}

TEST_CASE("all faults of a file come out in one run") {
  const std::string folder = std::string(SOUNDSILL_ROOT) + "/tests/data/broken-yaml/";
  const Reading r(slurp(folder + "several-faults.yaml"));
  CHECK(r.told() ==
        "3:38 split-by-comma: the comma splits `repaired in 2019, receipt seen` inside { }\n"
        "6:3 doubled-key: `state` stands in this block already\n"
        "7:3 empty-value: `address` has no value\n"
        "8:3 empty-value: `note` has no value: `#3 pier` is a comment\n"
        "10:14 bad-yaml: `#3 east` is left out as a comment\n"
        "11:12 open-quote: the quote ' that opens here does not close on its line\n"
        "12:15 bad-yaml: `wide` stands after the closing quote of `\"6\"`\n"
        "13:27 missing-space: `percent:24` has no space after its colon\n"
        "14:5 missing-space: `kind:evidence` has no space after its colon\n"
        "15:7 alias-used: `*all` repeats a value from elsewhere in the file\n");
  // What was told is empty in the tree, so that nothing is told twice; the rest can be read on.
  REQUIRE(r.tree);
  CHECK(value(value(*r.tree, "case"), "loan").text == "VA");
  CHECK(value(value(*r.tree, "case"), "because").is_empty());
  CHECK(value(value(*r.tree, "property"), "state").text == "NC");
  CHECK(value(*r.tree, "work").is_empty());
}

TEST_CASE("values keep their text, their place and whether they were quoted") {
  const Reading r(
      "\u00E9t\u00E9: {na\u00EFf: \u00FCber, \"k\": 'it''s'}  # x\nlist:\n  - \"a\\\"b\"\n  - 30'6\"\nlong: one\n  "
      "two\n");
  CHECK(r.told().empty());
  REQUIRE(r.tree);
  const Node& map = value(*r.tree, "\u00E9t\u00E9");
  CHECK(written(map.span) == "{na\u00EFf: \u00FCber, \"k\": 'it''s'}");
  CHECK(place(map.span) == "1:6");
  CHECK(place(value(map, "na\u00EFf").span) == "1:13");
  CHECK(written(value(map, "na\u00EFf").span) == "\u00FCber");
  CHECK(value(map, "k").text == "it's");
  CHECK(value(map, "k").quoted);
  CHECK(written(value(map, "k").span) == "'it''s'");
  CHECK(written(map.find("k")->key_span) == "\"k\"");
  const Node& list = value(*r.tree, "list");
  CHECK(written(list.span) == "- \"a\\\"b\"");
  CHECK(list.items.at(0).text == "a\"b");
  CHECK(list.items.at(0).quoted);
  CHECK(list.items.at(1).text == "30'6\"");
  CHECK_FALSE(list.items.at(1).quoted);
  CHECK(place(list.items.at(1).span) == "4:5");
  CHECK(value(*r.tree, "long").text == "one two");
  CHECK(written(value(*r.tree, "long").span) == "one\n  two");
  CHECK(written(r.tree->span) == "\u00E9t\u00E9: {na\u00EFf: \u00FCber, \"k\": 'it''s'}  # x");
}

TEST_CASE("text below | and > is text on purpose, with its whole stretch as its place") {
  const Reading r("a: |\n  one: 1\n\n   'two\n\nb: >-\n  x\n  y\nc:\n  - |\n    z # no comment\n");
  CHECK(r.told().empty());
  REQUIRE(r.tree);
  CHECK(value(*r.tree, "a").text == "one: 1\n\n 'two\n");
  CHECK(value(*r.tree, "a").quoted);
  CHECK(written(value(*r.tree, "a").span) == "|\n  one: 1\n\n   'two");
  CHECK(value(*r.tree, "b").text == "x y");
  CHECK(value(*r.tree, "c").items.at(0).text == "z # no comment\n");
}

TEST_CASE("a byte order mark and CRLF move no place") {
  const Reading r(
      "\xEF\xBB\xBF"
      "\u00E9: 1\r\nb: {c: 'x'}\r\nd: |\r\n  y\r\n");
  CHECK(r.told().empty());
  REQUIRE(r.tree);
  CHECK(place(value(*r.tree, "\u00E9").span) == "1:4");
  CHECK(written(value(*r.tree, "\u00E9").span) == "1");
  const Node& quoted = value(value(*r.tree, "b"), "c");
  CHECK(place(quoted.span) == "2:8");
  CHECK(written(quoted.span) == "'x'");
  CHECK(value(*r.tree, "d").text == "y\n");
  CHECK(Reading("\xEF\xBB\xBF"
                "\u00E9: 'x\r\nb: @y\r\n")
            .told() ==
        "1:4 open-quote: the quote ' that opens here does not close on its line\n"
        "2:4 bad-yaml: `@y` starts with `@`, which is a YAML mark\n");
}

TEST_CASE("an empty value has the place of its key or dash") {
  const Reading r("a:\n  bb:\nc:\n  -\n  - x\n");
  REQUIRE(r.tree);
  CHECK(value(value(*r.tree, "a"), "bb").is_empty());
  CHECK(written(value(value(*r.tree, "a"), "bb").span) == "bb");
  CHECK(value(*r.tree, "c").items.at(0).is_empty());
  CHECK(place(value(*r.tree, "c").items.at(0).span) == "4:3");
}

TEST_CASE("what people and other programs write without fault is read without a word") {
  for (const char* text : {
           kValid,
           "%YAML 1.1\n---\na: 1\n",
           "%YAML 1.2\n---\na: 1\n...\n",
           "--- {a: 1}\n",
           "a: 1\n...\n# end\n",
           "{\n \"a\": 1,\n \"b\": [1, 2],\n \"c\": {\"d\":\"e\"}\n}\n",
           "a: [1,\n  2,\n]\nb: 1\n",
           "a: 9:10\nb: http://x.y:80/z\n",
           "a: pier no. 3 # the third\n",
           "a: x#3\n",
           "a: -1\nb: [-1, -]\n",
           "a: it's\nb: 5'\nc: 6\"\n",
           "a:\n- 1\n- 2\nb: 3\n",
           "- - a\n  - b\n- c\n",
           "-\n  a: 1\n  b: 2\n",
           "a :  1\n",
           "a: \"null\"\nb: ''\n",
           "a: [10,120]\n",
           "a: x, y and z\n",
           "a: b ? c\n",
           "a: b & c * d\n",
           "a: 1   \n\n\n",
           "\"<<\": 1\n",
           "a: 1\n   \t\nb: 2\n",
           "a: x\n \t\n  y\nb: |\n \t\n  z\n",
           "a: []\nb: {}\n",
           "a: one\n\n  two\n",
           "a:\n  words on\n  two lines\nb: 1\n",
           "a: [x y,\n   z w]\n",
           "a: {n: 5 # five\n  , b: 1}\n",
       }) {
    INFO(text);
    const Reading r(text);
    CHECK(r.told().empty());
    CHECK(r.tree);
  }
}

TEST_CASE("nesting is read to 64 levels and no further") {
  const auto brackets = [](std::size_t n) { return std::string(n, '[') + std::string(n, ']') + "\n"; };
  const auto blocks = [](std::size_t n) {
    std::string text;
    for (std::size_t i = 0; i < n; ++i) text += std::string(i, ' ') + "a:" + (i + 1 == n ? " 1\n" : "\n");
    return text;
  };
  const auto dashes = [](std::size_t n) {
    std::string text;
    for (std::size_t i = 0; i < n; ++i) text += "- ";
    return text + "x\n";
  };
  CHECK(Reading(brackets(64)).tree);
  CHECK(Reading(blocks(64)).tree);
  CHECK(Reading(dashes(64)).tree);
  CHECK(Reading(brackets(65)).told() == "1:65 too-deep: this is nested deeper than 64 levels\n");
  CHECK(Reading(blocks(65)).told() == "65:65 too-deep: this is nested deeper than 64 levels\n");
  CHECK(Reading(dashes(65)).told() == "1:129 too-deep: this is nested deeper than 64 levels\n");
  CHECK(Reading(std::string(3'000'000, '[')).told() == "1:65 too-deep: this is nested deeper than 64 levels\n");
  CHECK(Reading("a: " + std::string(500'000, '{')).faults.errors() == 1);
}

TEST_CASE("an alias bomb is refused before anything is repeated") {
  std::string bomb = "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n";
  for (int i = 1; i < 10; ++i) {
    const std::string name = "a" + std::to_string(i), before = "*a" + std::to_string(i - 1);
    bomb += name + ": &" + name + " [" + before;
    for (int k = 1; k < 10; ++k) bomb += ", " + before;
    bomb += "]\n";
  }
  const Reading r(bomb);
  CHECK(r.faults.errors() == 101);  // as many as are told, and that there are more
  for (const Diagnostic& d : r.faults.all()) CHECK((d.rule == Rule::alias_used || d.rule == Rule::too_large));
  CHECK_FALSE(r.tree);
}

TEST_CASE("a file too large, with too many values or too many faults is told in a word") {
  CHECK(Reading(std::string(4 * 1024 * 1024 + 1, 'a')).told() == "1:1 too-large: the file is larger than 4 MB\n");
  std::string list = "a: [";
  for (int i = 0; i < 250'000; ++i) list += "1,";
  CHECK(Reading(list + "]\n").told() == "1:400003 too-large: the file has more than 200,000 values\n");
  std::string faults;
  for (int i = 0; i < 2000; ++i) faults += "k" + std::to_string(i) + ": @x\n";
  const Reading r(faults);
  CHECK(r.faults.all().size() == 101);
  CHECK(r.faults.all().back().what == "the file has more than 100 faults; reading stops here");
  CHECK_FALSE(r.tree);
}

TEST_CASE("a tree is given up when its lines cannot be told apart") {
  for (const char* text :
       {"a:\n\tb: 1\n", "a:\n    b: 1\n  c: 1\n", "a: [1, 2\nb: 1\n", "a: 1\nb\n", "a: 1\n---\nb: 1\n"})
    CHECK_FALSE(Reading(text).tree);
}

TEST_CASE("any bytes end in a tree or in faults") {
  Random random;
  for (int i = 0; i < 3000; ++i) {
    std::string text;
    for (std::size_t n = random.below(80); n != 0; --n) text += static_cast<char>(random.below(256));
    const Reading r(text);
    CHECK((r.tree || r.faults.errors() != 0));
  }
  constexpr std::string_view kSigns = "'\"[]{},:#-&*!|>?%@` \n\n  \t\\$=<ab1";
  for (int i = 0; i < 6000; ++i) {
    std::string text;
    for (std::size_t n = random.below(40); n != 0; --n) text += kSigns[random.below(kSigns.size())];
    INFO(text);
    const Reading r(text);
    CHECK((r.tree || r.faults.errors() != 0));
  }
}

TEST_CASE("a valid file with a few letters changed ends in a tree with true places, or in faults") {
  Random random;
  for (int i = 0; i < 4000; ++i) {
    const std::string text = mutated(kValid, random);
    INFO(text);
    const Reading r(text);
    CHECK((r.tree || r.faults.errors() != 0));
    if (r.tree) check_spans(*r.tree, text.size());
    for (const Diagnostic& d : r.faults.all()) {
      CHECK(d.at.source == &r.source);
      CHECK(d.at.begin <= d.at.end);
      CHECK_FALSE(render(d).empty());
    }
  }
}

TEST_CASE("every kind of space is read as a plain one, and none is left at the ends of a plain value") {
  const Reading r("due\u00A0diligence: 12\u2009ft\u00A0\nb: \"\u3000x\\u00A0\"\n");
  REQUIRE(r.told() == "");
  CHECK(value(*r.tree, "due diligence").text == "12 ft");
  CHECK(value(*r.tree, "b").text == " x ");
}

TEST_CASE("a key with an unseen letter is told, and what stands under it is read") {
  const Reading r("na\u200Bme: Jo\n");
  REQUIRE(r.tree);
  CHECK(value(*r.tree, "name").text == "Jo");
}

namespace {
enum class Even { first, second };
enum class Short { first, second, third };
}  // namespace
template <>
struct soundsill::yaml::Words<Even> {
  static constexpr auto words = std::to_array<std::string_view>({"first", "second"});
};
template <>
struct soundsill::yaml::Words<Short> {
  static constexpr auto words = std::to_array<std::string_view>({"first", "second"});
};

TEST_CASE("an enum with more values than words does not compile") {
  STATIC_REQUIRE(soundsill::yaml::has_a_word_each<Even>());
  STATIC_REQUIRE(!soundsill::yaml::has_a_word_each<Short>());
}
