#include "yaml/keys.h"

#include <algorithm>

#include "diagnostics/names.h"
#include "source/most.h"
#include "source/utf8.h"

namespace soundsill::yaml {

std::vector<std::string_view> names(const Block& block) {
  std::vector<std::string_view> all;
  for (const Key& k : block.keys) all.push_back(k.name);
  return all;
}

std::string listed(std::span<const std::string_view> words, std::string_view last) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i) out += i + 1 == words.size() ? " " + std::string(last) + " " : ", ";
    out += "`" + std::string(words[i]) + "`";
  }
  return out;
}

bool detail::placed(const Entry& entry, Span& key, Span& at) {
  key = entry.key_span;
  at = entry.value.is_empty() ? entry.key_span : entry.value.span;
  return !entry.value.is_empty();
}

bool Reader::block(const Node& node, Span place, const Block& block, void* object) {
  if (!node.is_mapping()) {
    if (!node.is_empty()) wrong_shape(node, block.name);
    return false;
  }
  NameCheck check(names(block));
  for (const Entry& e : node.entries) {
    const auto verdict = check.meet(e.key);
    if (verdict == NameCheck::Verdict::fine)
      std::find_if(block.keys.begin(), block.keys.end(), [&](const Key& k) {
        return k.name == e.key;
      })->read(*this, e, object);
    if (verdict != NameCheck::Verdict::unknown) continue;  // one that stands twice is left out of the tree, and told
    faults_.add(Rule::unknown_key, e.key_span, "`" + e.key + "` is not a key of " + std::string(block.name),
                "a key nobody reads would be left off the papers without a word",
                did_you_mean(e.key, check.known(),
                             "the keys of " + std::string(block.name) + " are " + listed(check.known(), "and")));
  }
  if (spoiled(node.span)) return true;  // a bracket that never closed took the keys with it
  if (place) place.end = std::max(place.begin, std::min(place.end, place.begin + 1));
  for (const Key& k : block.keys)
    if (k.need == Need::always && !check.met(k.name))
      faults_.add(Rule::missing_key, place, std::string(block.name) + " has no `" + std::string(k.name) + "`",
                  std::string(k.doc), "write `" + std::string(k.name) + ":` here");
  return true;
}

bool Reader::spoiled(const Span& block) const {
  const auto& all = faults_.all();
  return std::any_of(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(of_tree_), [&](const Diagnostic& d) {
    return d.at.source == block.source && d.at.begin >= block.begin && d.at.begin < block.end;
  });
}

void Reader::wrong_shape(const Node& node, std::string_view wanted) {
  const char* have = node.is_sequence() ? "a list" : node.is_mapping() ? "a block of keys" : "a single value";
  faults_.add(Rule::wrong_shape, node.span, std::string(have) + " stands where " + std::string(wanted) + " belongs",
              "what cannot be read would be missing from the papers",
              node.is_scalar() ? "put its keys in { } or on lines of their own" : "write it as " + std::string(wanted));
}

void Reader::unknown_choice(const Node& node, std::span<const std::string_view> choices) {
  faults_.add(Rule::unknown_choice, node.span, "`" + node.text + "` is not one of the words known here",
              "a word nobody knows would be printed without its meaning",
              did_you_mean(node.text, choices, "write " + listed(choices)));
}

void Reader::bad(Rule rule, const Node& node, std::string_view wanted, std::string_view fix) {
  faults_.add(rule, node.span, "`" + node.text + "` is not " + std::string(wanted),
              "a value misread would be a wrong figure on paper", std::string(fix));
}

const std::string* Reader::scalar(const Node& node, std::string_view wanted) {
  if (node.is_scalar()) return &node.text;
  if (!node.is_empty()) wrong_shape(node, wanted);
  return nullptr;
}

namespace {

bool only_digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// Whether a text holds a letter or a digit, not only dots, dashes and the like.
bool says_something(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const utf8::Letter letter = utf8::letter_at(text, at);
    const std::uint32_t c = letter.code;
    if ((c >= '0' && c <= '9') || ((c | 0x20U) >= 'a' && (c | 0x20U) <= 'z' && c < 0x80)) return true;
    if (c >= 0xC0 && (c < 0x2000 || c > 0x206F)) return true;  // beyond Latin-1's signs and the general punctuation
    at += std::max<std::size_t>(letter.bytes, 1);
  }
  return false;
}

/// Reads a plain scalar by `reads`, reporting `rule` when it does not.
template <class T, class F>
std::optional<T> plain(Reader& reader, const Node& node, Rule rule, std::string_view wanted, std::string_view fix,
                       F reads) {
  const std::string* text = reader.scalar(node, wanted);
  if (!text) return std::nullopt;
  std::optional<T> value = reads(*text);
  if (!value) reader.bad(rule, node, wanted, fix);
  return value;
}

}  // namespace

std::optional<std::string> Reading<std::string>::read(Reader& reader, const Node& node) {
  const std::string* text = reader.scalar(node, "a text");
  if (!text) return std::nullopt;
  if (text->find_first_not_of(" \t\n") == std::string::npos) {
    reader.faults().add(Rule::empty_value, node.span, "the text is empty", "its place on paper would stay blank",
                        "write the words, or take the key out");
    return std::nullopt;
  }
  if (!says_something(*text)) {
    reader.faults().add(Rule::empty_value, node.span, "`" + *text + "` says nothing",
                        "on paper a mark would stand where words belong", "write the words, or take the key out");
    return std::nullopt;
  }
  if (text->size() > most::value_bytes) {
    reader.faults().add(Rule::too_large, node.span, "the text is longer than 4,000 bytes",
                        "it would crowd everything else off its page", "shorten it, or put it into photos and notes");
    return std::nullopt;
  }
  return *text;
}

std::optional<Code> Reading<Code>::read(Reader& reader, const Node& node) {
  const std::string* text = reader.scalar(node, "a text in quotes");
  if (!text) return std::nullopt;
  if (!node.quoted && only_digits(*text)) {
    reader.faults().add(Rule::unquoted_text, node.span, "`" + *text + "` is written as a number",
                        "other readers of this file drop leading zeros from a number",
                        "put quotes round it: \"" + *text + "\"");
    return std::nullopt;
  }
  const auto whole = Reading<std::string>::read(reader, node);
  return whole ? std::optional<Code>(Code{*whole}) : std::nullopt;
}

std::optional<bool> Reading<bool>::read(Reader& reader, const Node& node) {
  return plain<bool>(reader, node, Rule::bad_yes_no, "yes or no", "write yes or no", read_yes_no);
}

std::optional<int> Reading<int>::read(Reader& reader, const Node& node) {
  return plain<int>(reader, node, Rule::bad_number, "a whole number", "write it in digits alone, up to 99999",
                    [](const std::string& text) -> std::optional<int> {
                      if (!only_digits(text) || text.size() > 5) return std::nullopt;
                      return std::stoi(text);
                    });
}

std::optional<Ratio> Reading<Ratio>::read(Reader& reader, const Node& node) {
  return plain<Ratio>(reader, node, Rule::bad_number, "a number",
                      "write digits with at most one dot and four decimals, like 27.5",
                      [](const std::string& text) -> std::optional<Ratio> {
                        const auto dot = text.find('.');
                        const std::size_t whole = std::min(dot, text.size());
                        const std::size_t decimals = dot == std::string::npos ? 0 : text.size() - dot - 1;
                        return whole > 6 || decimals > 4 ? std::nullopt : read_number(text);
                      });
}

std::optional<Money> Reading<Money>::read(Reader& reader, const Node& node) {
  return plain<Money>(reader, node, Rule::bad_money, "an amount of money", "write it like $1250.00", read_money);
}

bool begins_huge(std::string_view text) {
  const auto end = text.find_first_not_of("0123456789");
  return std::min(end, text.size()) > 9;
}

std::optional<Inches> Reading<Inches>::read(Reader& reader, const Node& node) {
  const std::string* text = reader.scalar(node, "a size in inches");
  if (!text) return std::nullopt;
  auto size = read_inches(*text);
  if (!size) reader.bad(Rule::bad_length, node, "a size in inches", "write it like 1/16\" or 1/2 in");
  return size;
}

std::optional<Length> Reading<Length>::read(Reader& reader, const Node& node) {
  const std::string* text = reader.scalar(node, "a length");
  if (!text) return std::nullopt;
  if (node.quoted && !text->empty() && text->find_first_not_of("0123456789. ") == std::string::npos) {
    reader.bad(Rule::bad_length, node, "a length with its unit: the quotes took its mark away",
               "write \"" + *text + " ft\" or \"" + *text + " in\"");
    return std::nullopt;
  }
  if (text->starts_with('-') && read_coordinate(*text)) {
    reader.faults().add(Rule::bad_length, node.span, "`" + *text + "` is less than zero, and no length is",
                        "a value misread would be a wrong figure on paper",
                        "measure without a minus; a depth runs down from the soil's surface");
    return std::nullopt;
  }
  auto length = read_length(*text);
  if (!length && !begins_huge(*text))
    reader.bad(Rule::bad_length, node, "a length", "write feet and inches, like 30'6\" or 30 ft 6 in");
  else if (!length || *length > Length::feet(10000)) {
    reader.faults().add(Rule::too_large, node.span, "`" + *text + "` is more than 10,000 ft",
                        "no house is that long; gallons and price would be nonsense", "write the length as measured");
    return std::nullopt;
  }
  return length;
}

std::optional<Percent> Reading<Percent>::read(Reader& reader, const Node& node) {
  return plain<Percent>(reader, node, Rule::bad_percent, "a percentage from 0 to 100", "write it like 0.06 or 24 %",
                        read_percent);
}

std::optional<Date> Reading<Date>::read(Reader& reader, const Node& node) {
  return plain<Date>(reader, node, Rule::bad_date, "a day written YYYY-MM-DD", "write it like 2026-03-05", read_date);
}

std::optional<TimeOfDay> Reading<TimeOfDay>::read(Reader& reader, const Node& node) {
  return plain<TimeOfDay>(reader, node, Rule::bad_time, "a time of day",
                          "write it in quotes and 24 hours, like \"9:10\" or \"13:00\"", read_time);
}

}  // namespace soundsill::yaml
