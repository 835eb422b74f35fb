// Every field of a file in turn, taken away or changed: what a slip of the keyboard can do to it.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "casefile/case.h"
#include "yaml/tree.h"

namespace soundsill::testing {

/// One changed copy of a text. `block` and `key` name the row of the key table.
struct Mutation {
  std::string block, key, how;  ///< how: "removed" or "altered"
  bool required = false;
  std::string text;
};

class Mutations {
 public:
  explicit Mutations(const std::string& text) : text_(text) {
    Sources sources;
    Faults faults;
    const auto tree = yaml::read(sources.add("case.yaml", text), faults);
    if (tree) walk(*tree, Case::block());
  }
  std::vector<Mutation> all;

 private:
  static std::size_t end_of(const yaml::Node& node) {
    std::size_t end = node.span.end;
    for (const yaml::Node& item : node.items) end = std::max(end, end_of(item));
    for (const yaml::Entry& entry : node.entries)
      end = std::max({end, std::size_t{entry.key_span.end}, end_of(entry.value)});
    return end;
  }

  std::string replaced(std::size_t begin, std::size_t end, std::string_view now) const {
    return text_.substr(0, begin) + std::string(now) + text_.substr(end);
  }

  /// The entry gone, with whatever parts it from the next one or from the one before.
  std::string removed(const yaml::Node& mapping, std::size_t i) const {
    const auto& entries = mapping.entries;
    if (i + 1 < entries.size()) return replaced(entries[i].key_span.begin, entries[i + 1].key_span.begin, "");
    const std::size_t end = end_of(entries[i].value);
    if (i > 0) return replaced(end_of(entries[i - 1].value), end, "");
    return replaced(entries[i].key_span.begin, end, text_[mapping.span.begin] == '{' ? "" : "{}");
  }

  void walk(const yaml::Node& mapping, const yaml::Block& block) {
    for (std::size_t i = 0; i < mapping.entries.size(); ++i) {
      const yaml::Entry& entry = mapping.entries[i];
      const auto row = std::find_if(block.keys.begin(), block.keys.end(),
                                    [&](const yaml::Key& key) { return key.name == entry.key; });
      if (row == block.keys.end()) continue;
      const bool required = row->need == yaml::Need::always;
      const std::string name(block.name);
      all.push_back({name, entry.key, "removed", required, removed(mapping, i)});
      alter(name, entry, *row);
      if (!row->shape.block) continue;
      if (entry.value.is_mapping()) walk(entry.value, row->shape.block());
      for (const yaml::Node& item : entry.value.items)
        if (item.is_mapping()) walk(item, row->shape.block());
    }
  }

  void alter(const std::string& block, const yaml::Entry& entry, const yaml::Key& row) {
    const yaml::Node* scalar = &entry.value;
    if (scalar->is_sequence() && !scalar->items.empty()) scalar = &scalar->items.front();
    if (!scalar->is_scalar()) return;
    const std::string now = other(scalar->text, row.shape);
    if (!now.empty() && now != scalar->text)
      all.push_back({block, entry.key, "altered", false, replaced(scalar->span.begin, scalar->span.end, now)});
  }

  /// Another value of the same kind, as somebody might type by mistake.
  static std::string other(const std::string& value, const yaml::Shape& shape) {
    using Kind = yaml::Shape::Kind;
    switch (shape.kind) {
      case Kind::text:
        return "Changed words";
      case Kind::code:
        return "\"9876\"";
      case Kind::yes_no:
        return value == "yes" || value == "true" ? "no" : "yes";
      case Kind::whole:
        return value + "1";
      case Kind::number:
        return value == "0" ? "1" : value + "9";
      case Kind::money:
        return "$1234.56";
      case Kind::length:
        return "7'7\"";
      case Kind::percent:
        return "3.3";
      case Kind::date:
        return "2024-07-07";
      case Kind::time:
        return "\"3:07\"";
      case Kind::choice:
        for (const std::string_view word : shape.choices)
          if (word != value) return std::string(word);
        return {};
      case Kind::free:
        return "wall 1 at 1'";
      case Kind::block:
        return {};
    }
    return {};
  }

  const std::string& text_;
};

}  // namespace soundsill::testing
