#include "document/words.h"

#include <algorithm>
#include <set>

#include "diagnostics/names.h"
#include "yaml/keys.h"

namespace soundsill::document {
namespace {

struct Known {
  std::string_view key;
  std::string_view names;
};
constexpr Known known[] = {
#define WORD(name, names) {#name, names},
#include "document/words.def"
#undef WORD
};

std::set<std::string_view> split(std::string_view names) {
  std::set<std::string_view> out;
  while (!names.empty()) {
    const auto space = names.find(' ');
    out.insert(names.substr(0, space));
    names = space == std::string_view::npos ? std::string_view{} : names.substr(space + 1);
  }
  return out;
}

/// The names in braces of a sentence.
std::set<std::string_view> used_in(std::string_view sentence) {
  std::set<std::string_view> out;
  for (std::size_t open = sentence.find('{'); open != std::string_view::npos; open = sentence.find('{', open + 1)) {
    const auto close = sentence.find('}', open);
    if (close == std::string_view::npos) break;
    out.insert(sentence.substr(open + 1, close - open - 1));
  }
  return out;
}

}  // namespace

std::string Words::say(Word word, std::initializer_list<Fill> fills) const {
  const Sentence& sentence = sentences_[static_cast<std::size_t>(word)];
  const auto count = std::find_if(fills.begin(), fills.end(), [](const Fill& f) { return f.first == "count"; });
  const std::string& text = count != fills.end() && count->second == "1" ? sentence.one : sentence.other;
  std::string out;
  // One pass: braces in what a person typed stay as typed.
  for (std::size_t at = 0; at < text.size();) {
    const auto open = text.find('{', at);
    const auto close = open == std::string::npos ? open : text.find('}', open);
    out.append(text, at, (close == std::string::npos ? text.size() : open) - at);
    if (close == std::string::npos) break;
    const std::string_view name = std::string_view(text).substr(open + 1, close - open - 1);
    const auto fill = std::find_if(fills.begin(), fills.end(), [&](const Fill& f) { return f.first == name; });
    out += fill != fills.end() ? fill->second : text.substr(open, close - open + 1);
    at = close + 1;
  }
  return out;
}

std::string Words::name(std::string_view word) const {
  const auto found = names_.find(word);
  return found == names_.end() ? std::string(word) : found->second;
}

std::string Words::shown(const Date& date) const {
  const unsigned month = static_cast<unsigned>(date.day.month());
  const auto name =
      static_cast<Word>(static_cast<unsigned>(Word::month_1) + (month >= 1 && month <= 12 ? month - 1 : 0));
  return say(Word::date, {{"day", std::to_string(static_cast<unsigned>(date.day.day()))},
                          {"month", say(name)},
                          {"year", print(date).substr(0, 4)}});
}

std::string Words::shown(TimeOfDay time) const {
  const int hour = time.minutes / 60;
  const std::string shown = print(TimeOfDay{(hour % 12 == 0 ? 12 : hour % 12) * 60 + time.minutes % 60});
  return say(hour < 12 ? Word::time_am : Word::time_pm, {{"time", shown}});
}

std::string Words::shown(Length length) const {
  const LengthDigits d = digits(length);
  const std::string said = d.inches.empty() ? say(Word::length_feet, {{"feet", d.feet}, {"count", d.feet}})
                           : d.feet.empty()
                               ? say(Word::length_inches, {{"inches", d.inches}})
                               : say(Word::length_both, {{"feet", d.feet}, {"inches", d.inches}, {"count", d.feet}});
  return (d.negative ? "-" : "") + said;
}

std::string Words::shown(const Working& working) const {
  return working.said([this](WorkingWord word) {
    const auto found = names_.find("working: " + std::string(english(word)));
    return found == names_.end() ? std::string(english(word)) : found->second;
  });
}

namespace {

struct ReadWords {
  Faults& faults;

  /// What a translation leaves English without saying so.
  void translated(const yaml::Node& node, std::string_view key, const std::string& text, const std::string& english,
                  const std::set<std::string>& same) {
    const bool listed = same.count(std::string(key)) > 0;
    if ((text == english) == listed) return;
    if (listed)
      faults.add(Rule::bad_words, node.span, "`" + std::string(key) + "` is not the same as in English",
                 "the list `same as English` would hide a slip later", "take it from that list");
    else
      faults.add(Rule::bad_words, node.span, "`" + std::string(key) + "` stands here in English",
                 "the paper would change its language within a sentence",
                 "translate it, or name it under `same as English`");
  }

  void check(const yaml::Node& node, const std::string& text, const Known& row) {
    if (row.names.empty() && text.find('{') == std::string::npos) return;
    const auto offered = split(row.names);
    for (const std::string_view name : used_in(text))
      if (!offered.count(name))
        faults.add(Rule::bad_words, node.span, "`{" + std::string(name) + "}` is not a name that this sentence offers",
                   "the paper would print the braces",
                   "use " + (row.names.empty() ? "no names" : std::string(row.names)));
    for (const std::string_view name : offered)
      if (name != "count" && !used_in(text).count(name))
        faults.add(Rule::bad_words, node.span, "the sentence leaves out `{" + std::string(name) + "}`",
                   "the paper would lack that fact", "put {" + std::string(name) + "} into the sentence");
  }

  std::string form(const yaml::Node& node, const Known& row) {
    if (!node.is_scalar()) {
      faults.add(Rule::bad_words, node.span, "this is not a sentence", "the paper would lack it",
                 "write text in quotes");
      return {};
    }
    check(node, node.text, row);
    return node.text;
  }
};

}  // namespace

std::optional<Words> read_words(const Source& source, Faults& faults, const Words* english) {
  const auto tree = yaml::read(source, faults);
  if (!tree) return std::nullopt;
  const std::size_t before = faults.errors();
  Words words;
  ReadWords read{faults};
  std::vector<std::string_view> keys{"names"};
  std::set<std::string> same;
  if (english) {
    keys.emplace_back("same as English");
    if (const yaml::Entry* list = tree->find("same as English"))
      for (const yaml::Node& item : list->value.items) same.insert(item.text);
  }
  for (const Known& row : known) {
    keys.push_back(row.key);
    const yaml::Entry* entry = tree->find(row.key);
    if (!entry) {
      faults.add(Rule::bad_words, tree->span, "there is no sentence `" + std::string(row.key) + "`",
                 "the papers would lack it", "add `" + std::string(row.key) + ":` with its sentence");
      words.sentences_.push_back({});
      continue;
    }
    const yaml::Entry* one = entry->value.is_mapping() ? entry->value.find("one") : nullptr;
    const yaml::Entry* other = entry->value.is_mapping() ? entry->value.find("other") : nullptr;
    if (one && other)
      words.sentences_.push_back({read.form(one->value, row), read.form(other->value, row)});
    else {
      const std::string only = read.form(entry->value, row);
      words.sentences_.push_back({only, only});
    }
    if (english)
      read.translated(entry->value, row.key, words.sentences_.back().other,
                      english->sentences_[words.sentences_.size() - 1].other, same);
  }
  if (const yaml::Entry* names = tree->find("names"))
    for (const yaml::Entry& e : names->value.entries)
      if (e.value.is_scalar()) {
        words.names_[e.key] = e.value.text;
        if (english && english->has_name(e.key))
          read.translated(e.value, e.key, e.value.text, english->name(e.key), same);
      }
  for (const auto& [name, phrase] : english ? english->names_ : decltype(words.names_)())
    if (!words.has_name(name))
      faults.add(Rule::bad_words, tree->span, "there is no phrase `" + name + "` under `names:`",
                 "the paper would say it in English", "add `\"" + name + "\":` with its phrase");
  for (const yaml::Entry& e : tree->entries)
    if (std::find(keys.begin(), keys.end(), e.key) == keys.end())
      faults.add(Rule::unknown_key, e.key_span, "`" + e.key + "` is not a sentence the papers say",
                 "it would never be printed", did_you_mean(e.key, keys, "take it out"));
  if (faults.errors() != before) return std::nullopt;
  return words;
}

namespace {

/// The letters from a to z, and those from à to þ, which are C3 A0 to C3 BE in UTF-8 with their capitals 32 below.
std::string with_first(std::string text, char from, char to, unsigned char second_from, unsigned char second_to,
                       int step) {
  if (text.empty()) return text;
  if (text.front() >= from && text.front() <= to) {
    text.front() = static_cast<char>(text.front() + step);
  } else if (text.size() > 1 && text.front() == '\xc3') {
    const auto second = static_cast<unsigned char>(text[1]);
    const bool sign = second == second_from + 0x17;  // × and ÷ have no other case
    if (second >= second_from && second <= second_to && !sign) text[1] = static_cast<char>(second + step);
  }
  return text;
}

/// Whether a word begins with the sound of i, before which some languages change their "and".
bool begins_with_i(std::string_view word) {
  if (word.starts_with('h') || word.starts_with('H')) word.remove_prefix(1);
  if (word.starts_with("\xc3\xad") || word.starts_with("\xc3\x8d")) return true;
  const bool i = word.starts_with('i') || word.starts_with('I');
  return i && !(word.size() > 1 && (word[1] == 'e' || word[1] == 'a'));
}

}  // namespace

std::string capitalized(std::string text) { return with_first(std::move(text), 'a', 'z', 0xa0, 0xbe, -32); }
std::string uncapitalized(std::string text) { return with_first(std::move(text), 'A', 'Z', 0x80, 0x9e, 32); }

std::string nth_word(std::string_view list, int n) {
  for (int i = 1; n > 0 && !list.empty(); ++i) {
    const std::size_t end = std::min(list.find(' '), list.size());
    if (i == n) return std::string(list.substr(0, end));
    list.remove_prefix(std::min(end + 1, list.size()));
  }
  return std::to_string(n);
}

std::string in_words(const Words& words, const std::vector<std::string>& list) {
  std::string out;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (i) out += i + 1 == list.size() ? " " + words.name(begins_with_i(list[i]) ? "and before i" : "and") + " " : ", ";
    out += list[i];
  }
  return out;
}

}  // namespace soundsill::document
