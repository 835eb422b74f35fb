// What is said about a YAML text that cannot be read as it was meant. All words of the strict reader stand together.
#pragma once

#include <string_view>

#include "yaml/read_letters.h"
#include "yaml/read_report.h"

namespace soundsill::yaml::words {

/// A stretch of the file and the text in it.
struct Stretch {
  std::size_t begin, end;
  std::string_view text;
};

// Quotes and characters
void open_quote(Report& report, std::size_t at, char quote);
void bad_escape(Report& report, const Stretch& escape);
void control_escape(Report& report, const Stretch& escape);
void odd_letter(Report& report, const Stretch& text, const OddLetter& letter);
void reserved_start(Report& report, const Stretch& text, std::string_view mark);
void question_mark(Report& report, std::size_t at, const Stretch& text);
void text_after_quote(Report& report, const Stretch& quoted, const Stretch& rest);
void comment_cuts(Report& report, const Stretch& value, const Stretch& comment);

// Colons
void missing_space(Report& report, const Stretch& text);
void no_colon(Report& report, const Stretch& text);
void below_value(Report& report, const Stretch& text);
void neither_item_nor_key(Report& report, const Stretch& text);
void no_key(Report& report, std::size_t colon);
/// `whole`: the text that was meant as one, when that is known.
void second_colon(Report& report, const Stretch& value, std::string_view whole = {});
void collection_key(Report& report, const Stretch& key);
void question_key(Report& report, std::size_t at);

// Indentation
void tab_indent(Report& report, std::size_t at, std::size_t lines);
void deeper(Report& report, const Stretch& text);
void no_such_margin(Report& report, const Stretch& text);
void left_of_first(Report& report, const Stretch& text);
void key_among_items(Report& report, const Stretch& text, bool at_root);
void item_among_keys(Report& report, const Stretch& text);
void item_beside_key(Report& report, const Stretch& item);
void item_below_value(Report& report, const Stretch& item, const Stretch& value);
void dash_space(Report& report, const Stretch& text);

// Brackets and commas
void never_closed(Report& report, std::size_t at, char bracket);
void not_closed_before(Report& report, std::size_t at, char bracket, std::string_view before);
void closes_nothing(Report& report, std::size_t at, char bracket);
void after_bracket(Report& report, const Stretch& rest, char bracket);
void bracket_in_text(Report& report, std::size_t at, const Stretch& text);
void no_comma(Report& report, const Stretch& text);
void nothing_before_comma(Report& report, std::size_t at);
void split_by_comma(Report& report, const Stretch& text, bool map);
void lone_word(Report& report, const Stretch& key);
void lone_collection(Report& report, const Stretch& collection);

// Documents, repetition, size
void directive(Report& report, const Stretch& text);
void several_documents(Report& report, const Stretch& text);
void empty_file(Report& report);
void anchor(Report& report, const Stretch& mark);
void alias(Report& report, const Stretch& mark);
void merge_key(Report& report, const Stretch& key);
void too_deep(Report& report, std::size_t at);
void too_many(Report& report, std::size_t at);
void too_large(Report& report);

// Found while the tree is built
void no_value(Report& report, const Stretch& key, std::string_view comment);
void empty_item(Report& report, const Stretch& dash, std::string_view comment);
void null_word(Report& report, const Stretch& word);
void doubled_key(Report& report, const Stretch& key, Note first);
void unreadable(Report& report, std::size_t at);

}  // namespace soundsill::yaml::words
