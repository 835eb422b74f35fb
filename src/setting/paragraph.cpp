#include "setting/paragraph.h"

#include <algorithm>

#include "pages/shapes.h"
#include "setting/atoms.h"

namespace soundsill::page {
namespace {

using Break = Atom::Break;
using document::Run;
using document::Runs;

/// Atoms up to a place where a line may end.
struct Word {
  std::size_t begin = 0, end = 0;   ///< atoms
  std::int64_t width = 0, ink = 0;  ///< ink: at the end of a line, with its hyphen
  bool must = false, hyphen = false;
};

constexpr std::string_view soft_hyphen = "\u00AD";

Milli hyphen_width(const Atom& atom, Milli size) {
  return milli(scaled(size, atom.face->width("-"), atom.face->units_per_em()));
}

std::vector<Word> words_of(const std::vector<Atom>& atoms, Milli size) {
  std::vector<Word> words;
  Word now;
  for (std::size_t i = 0; i < atoms.size(); ++i) {
    now.ink = now.width + atoms[i].ink;
    now.width += atoms[i].width;
    now.end = i + 1;
    if (atoms[i].after == Break::no && i + 1 < atoms.size()) continue;
    now.must = atoms[i].after == Break::must;
    now.hyphen = atoms[i].after == Break::hyphen;
    if (now.hyphen) now.ink += hyphen_width(atoms[i], size);
    words.push_back(now);
    now = {i + 1, i + 1, 0, 0, false, false};
  }
  return words;
}

struct Best {
  int lines = 0;
  std::int64_t cost = 0;
  std::size_t from = 0;
  friend bool operator<(const Best& a, const Best& b) {
    return a.lines != b.lines ? a.lines < b.lines : a.cost < b.cost;
  }
};

// The fewest lines, and among those the least ragged ones: the sum of squares of what is left at line ends. A last
// line of one short word costs extra.
std::int64_t cost_of(std::int64_t left, std::int64_t width, bool ends, bool only) {
  left = std::max<std::int64_t>(0, left) / 100;
  width /= 100;
  if (!ends) return left * left;
  return !only && left > width * 7 / 8 ? width * width / 4 : 0;
}

std::vector<std::size_t> line_ends(const std::vector<Word>& words, std::int64_t width) {
  std::vector<Best> best(words.size() + 1);
  for (std::size_t end = 1; end <= words.size(); ++end) {
    const bool ends = end == words.size() || words[end - 1].must;
    std::int64_t used = words[end - 1].ink;
    bool found = false;
    for (std::size_t begin = end; begin-- > 0;) {
      if (begin + 1 < end) {
        if (words[begin].must) break;
        used += words[begin].width;
      }
      if (used > width && found) break;
      // A hyphen is worth it where the line would be short by a seventh, and two in a row hardly ever.
      const std::int64_t hyphen = !words[end - 1].hyphen                 ? 0
                                  : begin > 0 && words[begin - 1].hyphen ? width / 200 * (width / 200)
                                                                         : width / 700 * (width / 700);
      const Best next{best[begin].lines + 1, best[begin].cost + hyphen + cost_of(width - used, width, ends, begin == 0),
                      begin};
      if (!found || next < best[end]) best[end] = next;
      found = true;
    }
  }
  std::vector<std::size_t> ends;
  for (std::size_t end = words.size(); end > 0; end = best[end].from) ends.push_back(end);
  std::reverse(ends.begin(), ends.end());
  return ends;
}

class LineMaker {
 public:
  LineMaker(Workshop& shop, const Runs& runs, const Setting& setting)
      : shop_(shop), runs_(runs), setting_(setting), style_(*setting.style), links_(runs.size(), artifact) {}

  std::vector<Line> make() {
    const Milli width = std::max(setting_.width, style_.size);
    const std::vector<Atom> atoms = broken_to(shop_, atoms_of(shop_, runs_, style_), style_.size, width);
    const std::vector<Word> words = words_of(atoms, style_.size);
    std::vector<Line> lines;
    std::size_t first = 0;
    for (const std::size_t end : line_ends(words, width)) {
      lines.push_back(line(atoms, words[first].begin, words[end - 1].end));
      lines.back().last = end == words.size();
      first = end;
    }
    return lines;
  }

 private:
  Line line(const std::vector<Atom>& atoms, std::size_t begin, std::size_t end) {
    Line made;
    Milli x = 0;
    for (std::size_t i = begin; i < end;) {
      std::size_t stop = i + 1;
      while (stop < end && atoms[stop].run == atoms[i].run && atoms[stop].face == atoms[i].face) ++stop;
      TextMark mark = text_mark(atoms, i, stop);
      if (stop == end && end < atoms.size() && atoms[stop - 1].after == Break::hyphen) add_hyphen(mark);
      mark.at.x = x;
      x += mark.width;
      made.width = mark.at.x + ink_width(mark);
      add(made, std::move(mark), atoms[i].run);
      i = stop;
    }
    return made;
  }

  TextMark text_mark(const std::vector<Atom>& atoms, std::size_t begin, std::size_t end) {
    TextMark mark;
    mark.face = atoms[begin].face;
    mark.size = style_.size;
    std::int64_t advance = 0;
    for (std::size_t i = begin; i < end;) {
      // The pieces of a word that is not broken are shaped as one.
      std::string word = atoms[i].text;
      while (atoms[i++].after == Break::hyphen && i < end) word += atoms[i].text;
      for (font::Glyph glyph : mark.face->shape(word)) {
        glyph.cluster += static_cast<std::uint32_t>(mark.text.size());
        advance += glyph.advance;
        mark.glyphs.push_back(glyph);
      }
      mark.text += word;
    }
    mark.width = milli(scaled(mark.size, advance, mark.face->units_per_em()));
    return mark;
  }

  // Readers get a soft hyphen, so that they find the word whole.
  static void add_hyphen(TextMark& mark) {
    for (font::Glyph glyph : mark.face->shape("-")) {
      glyph.cluster = static_cast<std::uint32_t>(mark.text.size());
      mark.width += milli(scaled(mark.size, glyph.advance, mark.face->units_per_em()));
      mark.glyphs.push_back(glyph);
    }
    mark.text += soft_hyphen;
  }

  void add(Line& made, TextMark mark, std::size_t run) {
    const Run& r = runs_[run];
    mark.node = setting_.node;
    mark.color = r.look == Run::Look::quiet ? style_.quiet : style_.color;
    if (r.link.empty() || setting_.node < 0 || !shop_.reachable(r.link)) {
      if (!r.lang.empty() && setting_.node >= 0) {
        if (links_[run] == artifact) {
          links_[run] = shop_.node("Span", setting_.node);
          shop_.at(links_[run]).lang = r.lang;
        }
        mark.node = links_[run];
      }
      made.marks.emplace_back(std::move(mark));
      return;
    }
    if (links_[run] == artifact) {
      links_[run] = shop_.node("Link", setting_.node);
      shop_.at(links_[run]).lang = r.lang;
    }
    mark.node = links_[run];
    mark.color = style_.link;
    const Milli up = milli(scaled(style_.size, 80, 100)), down = milli(scaled(style_.size, 25, 100));
    const Milli ink = ink_width(mark);
    LinkMark link{{mark.at.x, -up, ink, up + down}, r.link, r.text, mark.node};
    if (style_.link_rule > 0) {
      const Milli under = milli(scaled(style_.size, 16, 100));
      made.marks.emplace_back(line_path({mark.at.x, under}, {mark.at.x + ink, under}, style_.link_rule, style_.link));
    }
    made.marks.emplace_back(std::move(mark));
    made.marks.emplace_back(std::move(link));
  }

  Workshop& shop_;
  const Runs& runs_;
  const Setting& setting_;
  const TextStyle& style_;
  std::vector<NodeId> links_;  ///< by run: its Link, or its Span in another language
};

}  // namespace

std::vector<Line> set_lines(Workshop& shop, const Runs& runs, const Setting& setting) {
  return LineMaker(shop, runs, setting).make();
}

std::vector<Line> set_lines(Workshop& shop, const std::string& words, const Setting& setting) {
  return set_lines(shop, document::text(words), setting);
}

Measure measure(Workshop& shop, const Runs& runs, const TextStyle& style) {
  Measure m;
  std::int64_t line = 0;
  for (const Word& word : words_of(kept_atoms_of(shop, runs, style), style.size)) {
    m.longest = std::max(m.longest, milli(word.ink));
    m.whole = std::max(m.whole, milli(line + word.ink));
    line = word.must ? 0 : line + word.width;
  }
  return m;
}

Measure measure(Workshop& shop, const std::string& words, const TextStyle& style) {
  return measure(shop, document::text(words), style);
}

Milli baseline_in(Workshop& shop, const TextStyle& style) {
  const font::Face& face = shop.face(style.face);
  return (style.leading + milli(scaled(style.size, face.cap_height(), face.units_per_em()))) / 2;
}

void put_lines(Workshop& shop, Strip& strip, const std::vector<Line>& lines, const TextStyle& style, At at, Milli width,
               Align align) {
  Milli y = at.y + baseline_in(shop, style);
  for (const Line& line : lines) {
    Milli x = at.x;
    if (align == Align::right) x += width - line.width;
    if (align == Align::center) x += (width - line.width) / 2;
    for (Mark mark : line.marks) {
      shift(mark, x, y);
      strip.marks.push_back(std::move(mark));
    }
    y += style.leading;
  }
}

Milli height_of_lines(const std::vector<Line>& lines, const TextStyle& style) {
  return milli(std::int64_t{style.leading} * static_cast<std::int64_t>(lines.size()));
}

}  // namespace soundsill::page
