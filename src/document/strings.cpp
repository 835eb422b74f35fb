// Serves document/document.h.
#include "document/document.h"

namespace soundsill::document {
namespace {

struct Collect {
  std::vector<std::string>& out;

  void put(const std::string& s) const {
    if (!s.empty()) out.push_back(s);
  }
  void put(const Runs& runs) const {
    for (const Run& r : runs) put(r.text);
  }
  void blocks(const std::vector<Block>& all) const {
    for (const Block& b : all) std::visit(*this, b.kind);
  }

  void operator()(const Heading& h) const { put(h.runs); }
  void operator()(const Paragraph& p) const { put(p.runs); }
  void operator()(const List& l) const {
    for (const Runs& item : l.items) put(item);
  }
  void operator()(const Table& t) const {
    put(t.caption);
    for (const Column& c : t.columns) put(c.title);
    for (const Row& r : t.rows)
      for (const Runs& cell : r.cells) put(cell);
  }
  void operator()(const Facts& f) const {
    for (const Fact& fact : f.facts) {
      put(fact.name);
      put(fact.value);
    }
  }
  void operator()(const Photos& p) const {
    for (const Photo& photo : p.photos) put(photo.caption);
  }
  void operator()(const Drawing& d) const {
    for (const Label& l : d.scene.labels) put(l.words);
    for (const Marker& m : d.scene.markers) put(m.number);
    put(d.scene.aside_words);
    for (const Marker& m : d.scene.aside) put(m.number);
    put(d.scene.north);
    put(d.scene.scale_words);
    for (const LegendEntry& e : d.scene.legend) {
      put(e.letter);
      put(e.words);
    }
    put(d.caption);
  }
  void operator()(const Signatures& s) const {
    for (const Signature& line : s.lines) {
      put(line.statement);
      if (line.name) put(*line.name);
      if (line.date) put(*line.date);
      put(line.who);
      put(s.name_label);
      put(s.date_label);
    }
    if (s.lines.empty()) {
      put(s.name_label);
      put(s.date_label);
    }
  }
  void operator()(const Card& c) const {
    put(c.number);
    put(c.tag);
    (*this)(c.heading);
    blocks(c.blocks);
  }
  void operator()(const Bars& b) const {
    for (const Bar& bar : b.bars) {
      put(bar.label);
      put(bar.value);
    }
  }
  void operator()(const Figures& f) const {
    for (const Figure& figure : f.figures) {
      put(figure.large);
      put(figure.small);
    }
  }
};

using Ids = std::set<std::string, std::less<>>;

struct CollectIds {
  Ids& ids;

  void put(const std::string& id) const {
    if (!id.empty()) ids.insert(id);
  }
  void blocks(const std::vector<Block>& all) const {
    for (const Block& b : all) std::visit(*this, b.kind);
  }
  void operator()(const Heading& h) const { put(h.id); }
  void operator()(const Table& t) const {
    put(t.id);
    for (const Row& r : t.rows) put(r.id);
  }
  void operator()(const Drawing& d) const {
    put(d.id);
    if (d.id.empty()) return;
    for (const Marker& m : d.scene.markers) put(d.id + "-" + m.number);
    for (const Marker& m : d.scene.aside) put(d.id + "-" + m.number);
  }
  void operator()(const Card& c) const {
    put(c.id);
    put(c.heading.id);
    blocks(c.blocks);
  }
  template <class T>
  void operator()(const T&) const {}
};

}  // namespace

Ids ids(const Document& document) {
  Ids all;
  for (const Section& s : document.sections) {
    if (!s.id.empty()) all.insert(s.id);
    CollectIds{all}.blocks(s.blocks);
  }
  return all;
}

std::vector<std::string> strings(const Document& document) {
  std::vector<std::string> out;
  for (const Section& s : document.sections) Collect{out}.blocks(s.blocks);
  return out;
}

Record stated_in(const Document& document) {
  Record all = document.record;
  for (const Section& section : document.sections) all.add(section.record);
  return all;
}

}  // namespace soundsill::document
