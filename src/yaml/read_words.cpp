#include "yaml/read_words.h"

#include "source/concat.h"

namespace soundsill::yaml::words {
namespace {

constexpr auto kPartLost = "a part of the text would be missing from the papers";
constexpr auto kWhereBelongs = "it cannot be told where the line belongs, and facts would land in the wrong place";
constexpr auto kHalfRead = "a file read by halves would give papers with facts missing";

void add(Report& report, Rule rule, const Stretch& at, std::string what, std::string why, std::string fix) {
  report.add(rule, at.begin, at.end, std::move(what), std::move(why), std::move(fix));
}

std::string quote_it(std::string_view text) { return "put it in quotes: " + in_quotes(text); }
std::string bracket_name(char bracket) { return concat({"`", {&bracket, 1}, "`"}); }

}  // namespace

void open_quote(Report& report, std::size_t at, char quote) {
  report.add(Rule::open_quote, at, at + 1,
             concat({"the quote ", {&quote, 1}, " that opens here does not close on its line"}),
             "the lines below would become part of this text, without a word",
             concat({"close it with ", {&quote, 1}, " on the same line; longer text goes below a |"}));
}

void bad_escape(Report& report, const Stretch& escape) {
  add(report, Rule::bad_yaml, escape, cited(escape.text) + " in double quotes stands for no letter",
      "the text would come out with other letters than those written",
      "write \\\\ for a backslash, or put the text in single quotes; paths take /");
}

void control_escape(Report& report, const Stretch& escape) {
  add(report, Rule::bad_encoding, escape, cited(escape.text) + " in double quotes stands for a control character",
      "it cannot be printed, and hides what is really written",
      "write \\\\ for a backslash, or put the text in single quotes; paths take /");
}

void odd_letter(Report& report, const Stretch& text, const OddLetter& letter) {
  const std::string name = "the letter " + name_of_letter(letter.code), in = " in " + cited(with_odd_named(text.text));
  switch (letter.odd) {
    case Odd::unseen: {
      const std::string rest = without_unseen(text.text);
      add(report, Rule::no_letter, text, name + in + " shows nothing to a reader",
          "a name that only looks like another is not found, by people or by programs",
          rest.empty() ? "write the words, or take the key out" : "type it anew: " + in_quotes(rest));
      break;
    }
    case Odd::nothing:
      add(report, Rule::no_letter, text, name + in + " stands for no letter that others can read",
          "the paper would show a box in its place", "type the letter that was meant");
      break;
    case Odd::leftward:
      add(report, Rule::no_letter, text, name + in + " runs from right to left", "the paper would print it backwards",
          "write it in Latin letters");
      break;
  }
}

void reserved_start(Report& report, const Stretch& text, std::string_view mark) {
  std::string what = cited(text.text) + " starts with `" + std::string(mark) + "`, which is a YAML mark";
  if (mark == "`") what = "this text starts with a backtick, which is a YAML mark";
  if (text.text == mark && mark != "`") what = cited(text.text) + " alone is a YAML mark, not text";
  add(report, Rule::bad_yaml, text, what, "it would be read as a mark, not as text", quote_it(text.text));
}

void question_mark(Report& report, std::size_t at, const Stretch& text) {
  report.add(Rule::bad_yaml, at, at + 1, cited(text.text) + " has a question mark inside [ ] or { }",
             "a bare question mark begins a key there", quote_it(text.text));
}

void text_after_quote(Report& report, const Stretch& quoted, const Stretch& rest) {
  const bool apostrophe = quoted.text.starts_with('\'') && rest.begin == quoted.end;
  add(report, Rule::bad_yaml, rest, cited(rest.text) + " stands after the closing quote of " + cited(quoted.text),
      kPartLost,
      apostrophe ? "write an apostrophe inside '...' twice, or put the whole text in double quotes"
                 : "put the whole text in quotes, or take the quotes away");
}

void comment_cuts(Report& report, const Stretch& value, const Stretch& comment) {
  add(report, Rule::bad_yaml, comment, cited(comment.text) + " is left out as a comment", kPartLost,
      "put the whole text in quotes: " + in_quotes(value.text) + "; a comment has a space after its #");
}

void missing_space(Report& report, const Stretch& text) {
  const auto colon = text.text.find(':');
  const std::string spaced = std::string(text.text.substr(0, colon + 1)) + " " +
                             std::string(colon == std::string_view::npos ? "" : text.text.substr(colon + 1));
  add(report, Rule::missing_space, text, cited(text.text) + " has no space after its colon",
      "key and value would be read as one word", "write " + cited(spaced));
}

void no_colon(Report& report, const Stretch& text) {
  add(report, Rule::bad_yaml, text, cited(text.text) + " has no colon, and stands where a key belongs", kHalfRead,
      "put a colon after a key; indent text that goes on from the line above");
}

void below_value(Report& report, const Stretch& text) {
  add(report, Rule::bad_yaml, text, cited(text.text) + " stands below a value that is complete", kPartLost,
      "put the whole text on one line in quotes, or on lines of its own below a |");
}

void neither_item_nor_key(Report& report, const Stretch& text) {
  add(report, Rule::bad_yaml, text, cited(text.text) + " stands in a list without a dash", kHalfRead,
      "begin each item with `- `; indent text that goes on from the line above");
}

void no_key(Report& report, std::size_t colon) {
  report.add(Rule::bad_yaml, colon, colon + 1, "there is no key before this colon",
             "a value that belongs to no key would be left out", "write the key before the colon");
}

void second_colon(Report& report, const Stretch& value, std::string_view whole) {
  add(report, Rule::bad_yaml, value, cited(value.text) + " is followed by a second colon",
      "it cannot be told what is key and what is text",
      whole.empty() ? "put a comma between two entries; put text with a colon in quotes" : quote_it(whole));
}

void collection_key(Report& report, const Stretch& key) {
  add(report, Rule::bad_yaml, key, cited(key.text) + " stands where a key belongs", kHalfRead,
      "write one word or a few before the colon");
}

void question_key(Report& report, std::size_t at) {
  report.add(Rule::bad_yaml, at, at + 1, "a `?` with a space begins a key here", kHalfRead,
             "write keys as `key: value`; text that starts with ? needs quotes");
}

void tab_indent(Report& report, std::size_t at, std::size_t lines) {
  const std::string others = lines == 1   ? ""
                             : lines == 2 ? ", and 1 more line"
                                          : ", and " + std::to_string(lines - 1) + " more lines";
  report.add(Rule::tab_indent, at, at + 1, "a tab indents this line" + others,
             "a tab is wide in one editor and narrow in another, so nobody knows what belongs to what",
             "put spaces in its place");
}

void deeper(Report& report, const Stretch& text) {
  add(report, Rule::bad_yaml, text, cited(text.text) + " is indented below a line that has its value already",
      kWhereBelongs, "indent it like the line to which it belongs");
}

void no_such_margin(Report& report, const Stretch& text) {
  add(report, Rule::bad_yaml, text, cited(text.text) + " is indented like no line above it", kWhereBelongs,
      "indent it exactly like its neighbors");
}

void left_of_first(Report& report, const Stretch& text) {
  add(report, Rule::bad_yaml, text, cited(text.text) + " stands further left than the first line of the file",
      kWhereBelongs, "begin the first line and its neighbors at the same margin");
}

void key_among_items(Report& report, const Stretch& text, bool at_root) {
  add(report, at_root ? Rule::several_documents : Rule::bad_yaml, text,
      cited(text.text) + " is a key at the margin of a list",
      at_root ? "everything from here on would be left out of the papers" : kWhereBelongs,
      "write a key above the list, and indent the list below it");
}

void item_among_keys(Report& report, const Stretch& text) {
  add(report, Rule::bad_yaml, text, cited(text.text) + " is a list item at the margin of keys", kWhereBelongs,
      "write the list below a key that has no value of its own");
}

void item_beside_key(Report& report, const Stretch& item) {
  add(report, Rule::bad_yaml, item, cited(item.text) + " is a list item on the line of its key", kHalfRead,
      "write the list on the lines below, or in [ ]; a lone dash as text needs quotes");
}

void item_below_value(Report& report, const Stretch& item, const Stretch& value) {
  add(report, Rule::bad_yaml, item, cited(item.text) + " is a list item below a line that has its value already",
      "the list would be read as more words of " + cited(value.text), "move the words above into the list, or out");
}

void dash_space(Report& report, const Stretch& text) {
  add(report, Rule::bad_yaml, text, cited(text.text) + " has no space after its dash",
      "it would not be read as an item of the list",
      "write " + cited("- " + std::string(text.text.substr(text.text.empty() ? 0 : 1))));
}

void never_closed(Report& report, std::size_t at, char bracket) {
  report.add(Rule::bad_yaml, at, at + 1, "the " + bracket_name(bracket) + " that opens here is never closed",
             "everything below would be read as part of it",
             std::string("close it with ") + (bracket == '[' ? "]" : "}"));
}

void not_closed_before(Report& report, std::size_t at, char bracket, std::string_view before) {
  report.add(Rule::bad_yaml, at, at + 1,
             "the " + bracket_name(bracket) + " that opens here is not closed before " + std::string(before),
             "what follows would be read as part of it", std::string("close it with ") + (bracket == '[' ? "]" : "}"));
}

void closes_nothing(Report& report, std::size_t at, char bracket) {
  report.add(Rule::bad_yaml, at, at + 1, bracket_name(bracket) + " closes nothing", kHalfRead,
             "take it out, or open the bracket before; text with brackets needs quotes");
}

void after_bracket(Report& report, const Stretch& rest, char bracket) {
  add(report, Rule::bad_yaml, rest, cited(rest.text) + " stands after the closing " + bracket_name(bracket), kPartLost,
      "move it inside the brackets or take it out; text with brackets needs quotes");
}

void bracket_in_text(Report& report, std::size_t at, const Stretch& text) {
  report.add(Rule::bad_yaml, at, at + 1, cited(text.text) + " has a bracket inside [ ] or { }",
             "it cannot be told where the text ends", quote_it(text.text));
}

void no_comma(Report& report, const Stretch& text) {
  add(report, Rule::bad_yaml, text, cited(text.text) + " stands behind a value without a comma between them", kPartLost,
      "put a comma between two values; put one text in quotes as a whole");
}

void nothing_before_comma(Report& report, std::size_t at) {
  report.add(Rule::empty_value, at, at + 1, "there is nothing before this comma",
             "a list with a gap has one entry more than was meant, or one less",
             "write the value, or take the comma out");
}

void split_by_comma(Report& report, const Stretch& text, bool map) {
  add(report, Rule::split_by_comma, text,
      "the comma splits " + cited(text.text) + (map ? " inside { }" : " inside [ ]"),
      "the part after the comma would be lost, or be a value of its own", quote_it(text.text));
}

void lone_word(Report& report, const Stretch& key) {
  add(report, Rule::empty_value, key, cited(key.text) + " has no colon and no value inside { }",
      "a key without a value says nothing", "write the value after `: `; a list of words stands in [ ]");
}

void lone_collection(Report& report, const Stretch& collection) {
  add(report, Rule::bad_yaml, collection, cited(collection.text) + " stands inside { } without a key", kHalfRead,
      "write its key and a colon before it; a list of blocks stands in [ ]");
}

void directive(Report& report, const Stretch& text) {
  add(report, Rule::bad_yaml, text, cited(text.text) + " is neither `%YAML 1.1` nor `%YAML 1.2`",
      "the rest of the file could mean something else", "take the line out");
}

void several_documents(Report& report, const Stretch& text) {
  add(report, Rule::several_documents, text, "a second document begins here", "it would be left out of the papers",
      "keep one document in a file; take the line `---` or `...` out");
}

void empty_file(Report& report) {
  report.add(Rule::empty_value, 0, 0, "the file holds nothing but blank lines and comments",
             "there is nothing to print", "write the first key");
}

void anchor(Report& report, const Stretch& mark) {
  add(report, Rule::alias_used, mark, cited(mark.text) + " names a value to be repeated elsewhere",
      "a reader of the file would have to look in two places to see one fact",
      "take it out; text that starts with & needs quotes");
}

void alias(Report& report, const Stretch& mark) {
  add(report, Rule::alias_used, mark, cited(mark.text) + " repeats a value from elsewhere in the file",
      "a reader of the file would have to look in two places to see one fact",
      "write the value out; text that starts with * needs quotes");
}

void merge_key(Report& report, const Stretch& key) {
  add(report, Rule::alias_used, key, "`<<` merges keys from elsewhere in the file",
      "nothing would be merged, and the keys would be missing", "write the keys out");
}

void too_deep(Report& report, std::size_t at) {
  report.add(Rule::too_deep, at, at + 1, "this is nested deeper than 64 levels",
             "no paper has a place for it, and a reader loses the thread", "move it further out");
}

void too_many(Report& report, std::size_t at) {
  report.add(Rule::too_large, at, at + 1, "the file has more than 200,000 values",
             "no packet of papers holds that many", "split the file, or take out what was pasted by mistake");
}

void too_large(Report& report) {
  report.add(Rule::too_large, 0, 0, "the file is larger than 4 MB",
             "a case of that size was pasted together by mistake", "keep photos as files beside it, and name them");
}

void no_value(Report& report, const Stretch& key, std::string_view comment) {
  const std::string what = cited(key.text) + " has no value";
  if (comment.empty())
    add(report, Rule::empty_value, key, what, "its place on paper would stay blank",
        "write the value, or take the key out");
  else
    add(report, Rule::empty_value, key, what + ": " + cited(comment) + " is a comment",
        "its place on paper would stay blank", "text that starts with # needs quotes: " + in_quotes(comment));
}

void empty_item(Report& report, const Stretch& dash, std::string_view comment) {
  if (comment.empty())
    add(report, Rule::empty_value, dash, "this item of the list is empty", "a list would have a gap on paper",
        "write the item, or take the dash out");
  else
    add(report, Rule::empty_value, dash, "this item of the list is empty: " + cited(comment) + " is a comment",
        "a list would have a gap on paper", "text that starts with # needs quotes: " + in_quotes(comment));
}

void null_word(Report& report, const Stretch& word) {
  add(report, Rule::empty_value, word, cited(word.text) + " stands for no value", "its place on paper would stay blank",
      "write the value, or take the key out; as a word it needs quotes");
}

void doubled_key(Report& report, const Stretch& key, Note first) {
  report.add(Rule::doubled_key, key.begin, key.end, cited(key.text) + " stands in this block already",
             "one of the two values would be left out of the papers", "take one of them out", std::move(first));
}

void unreadable(Report& report, std::size_t at) {
  report.add(Rule::bad_yaml, at, at + 1, "the file cannot be read as YAML from here on", kHalfRead,
             "look for a quote, bracket, colon or indent that is off, here or one line above");
}

}  // namespace soundsill::yaml::words
