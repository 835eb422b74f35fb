#include "document/words.h"

#include <algorithm>
#include <set>

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

namespace {

struct ReadWords {
  Faults& faults;

  void check(const yaml::Node& node, const std::string& text, const Known& row) {
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

std::optional<Words> read_words(const Source& source, Faults& faults) {
  const auto tree = yaml::read(source, faults);
  if (!tree) return std::nullopt;
  const std::size_t before = faults.errors();
  Words words;
  ReadWords read{faults};
  std::vector<std::string_view> keys{"names"};
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
      const std::string same = read.form(entry->value, row);
      words.sentences_.push_back({same, same});
    }
  }
  if (const yaml::Entry* names = tree->find("names"))
    for (const yaml::Entry& e : names->value.entries)
      if (e.value.is_scalar()) words.names_[e.key] = e.value.text;
  for (const yaml::Entry& e : tree->entries)
    if (std::find(keys.begin(), keys.end(), e.key) == keys.end())
      faults.add(Rule::unknown_key, e.key_span, "`" + e.key + "` is not a sentence the papers say",
                 "it would never be printed", "take it out, or mend its name: `" + nearest(e.key, keys) + "`?");
  if (faults.errors() != before) return std::nullopt;
  return words;
}

std::string capitalized(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') text.front() = static_cast<char>(text.front() - 32);
  return text;
}

std::string in_words(const Words& words, const std::vector<std::string>& list) {
  std::string out;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (i) out += i + 1 == list.size() ? " " + words.name("and") + " " : ", ";
    out += list[i];
  }
  return out;
}

}  // namespace soundsill::document
