#include "setting/workshop.h"

#include <algorithm>
#include <cstdio>

#include "source/markup.h"

namespace soundsill::page {

Workshop::Workshop(const document::Document& d, const Template& t, const font::Faces& f, Faults& faults, Pages& p,
                   const Hyphens* h)
    : document(d), look(t), faces(f), pages(p), hyphens(h), faults_(faults), ids_(document::ids(d)) {}

NodeId Workshop::node(std::string role, NodeId parent) {
  Node made;
  made.role = std::move(role);
  made.parent = parent;
  pages.nodes.push_back(std::move(made));
  return static_cast<NodeId>(pages.nodes.size() - 1);
}

const TextStyle& Workshop::text(std::string_view name) const {
  const auto found = look.texts.find(name);
  if (found != look.texts.end()) return found->second;
  return look.texts.find("body")->second;
}

const TableStyle& Workshop::table(std::string_view name) const {
  const auto found = look.tables.find(name);
  if (found != look.tables.end()) return found->second;
  return look.tables.find("plain")->second;
}

const Tone& Workshop::tone(std::string_view name) const {
  const auto found = look.tones.find(name);
  if (found != look.tones.end()) return found->second;
  return look.tones.find("neutral")->second;
}

const font::Face& Workshop::face(std::string_view key) const {
  const font::Face* found = faces.find(key);
  return found ? *found : faces.fallback();
}

bool Workshop::reachable(std::string_view link) const { return is_address(link) || ids_.contains(link); }

void Workshop::no_letter(char32_t letter) {
  if (!missing_.insert(letter).second) return;
  char code[16];
  std::snprintf(code, sizeof code, "U+%04X", static_cast<unsigned>(letter));
  faults_.add(Rule::no_letter, {}, std::string("no typeface has the letter ") + code,
              "the paper would show an empty box in its place", "write it with other letters");
}

int Workshop::next_level(int wanted) {
  level_ = std::clamp(wanted, 1, std::min(level_ + 1, 6));
  return level_;
}

std::string Workshop::made_id() { return "heading-" + std::to_string(++made_); }

}  // namespace soundsill::page
