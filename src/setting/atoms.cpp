#include "setting/atoms.h"

#include <linebreak.h>

#include <algorithm>

#include "pages/shapes.h"
#include "source/utf8.h"

namespace soundsill::page {
namespace {

using Break = Atom::Break;

constexpr char32_t replacement = 0xFFFD;

constexpr bool is_mark(char32_t c) { return (c >= 0x300 && c <= 0x36F) || (c >= 0xFE00 && c <= 0xFE0F); }
// Letters that shaping serves without a glyph of their own.
constexpr bool is_silent(char32_t c) { return c == 0xAD || (c >= 0x200B && c <= 0x200F) || c == 0x2060 || c == 0xFEFF; }
constexpr bool is_space(char32_t c) { return c == 0xA0 || c == 0x202F || c == 0x3000 || (c >= 0x2000 && c <= 0x200A); }

bool serves(const font::Face& face, char32_t c) {
  if (face.has(c) || is_mark(c) || is_silent(c)) return true;
  if (is_space(c)) return face.has(U' ');
  return c == 0x2011 && face.has(U'\u2010');
}

struct Text {
  std::string bytes;
  std::vector<std::size_t> run_of;  ///< by byte
};

// All runs as one text, so that breaks are found across their borders. Control characters become spaces.
Text joined(const document::Runs& runs) {
  Text text;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    text.bytes += runs[i].text;
    text.run_of.resize(text.bytes.size(), i);
  }
  for (char& c : text.bytes)
    if (static_cast<unsigned char>(c) < 0x20 && c != '\n') c = ' ';
  while (!text.bytes.empty() && (text.bytes.back() == ' ' || text.bytes.back() == '\n')) text.bytes.pop_back();
  return text;
}

std::vector<char> breaks_of(const std::string& text) {
  static const bool ready = (init_linebreak(), true);
  (void)ready;
  std::vector<char> breaks(text.size());
  set_linebreaks_utf8(reinterpret_cast<const utf8_t*>(text.data()), text.size(), "en", breaks.data());
  return breaks;
}

class Cutter {
 public:
  Cutter(Workshop& shop, const document::Runs& runs, const TextStyle& style)
      : shop_(shop), runs_(runs), style_(style), text_(joined(runs)), breaks_(breaks_of(text_.bytes)) {}

  std::vector<Atom> cut() {
    for (std::size_t i = 0; i < text_.bytes.size();) {
      const utf8::Letter letter = utf8::letter_at(text_.bytes, i);
      take(letter.code, i, letter.bytes);
      i += letter.bytes;
    }
    flush(Break::no);
    if (style_.hyphenate && shop_.hyphens) hyphenate();
    for (Atom& atom : atoms_) measure_atom(atom, style_.size);
    report();
    return std::move(atoms_);
  }

 private:
  void take(char32_t code, std::size_t i, std::size_t bytes) {
    const std::size_t run = text_.run_of[i];
    const font::Face& face = face_for(code, run);
    if (!now_.text.empty() && (now_.face != &face || now_.run != run)) flush(Break::no);
    now_.face = &face;
    now_.run = run;
    if (code == U'\n')
      now_.text += ' ';
    else if (code < 0x80 || serves(face, code))
      now_.text.append(text_.bytes, i, bytes);
    else
      now_.text += face.has(replacement) ? "\uFFFD" : "?";  // seen in drafts only: it is a fault
    const bool at_end = i + bytes >= text_.bytes.size();
    const char after = breaks_[i + bytes - 1];
    if (code == U'\n' && !at_end)
      flush(Break::must);
    else if (after == LINEBREAK_ALLOWBREAK && !at_end && !in_address(i, bytes))
      flush(Break::may);
  }

  // An address does not break right after "https://".
  [[nodiscard]] bool in_address(std::size_t i, std::size_t bytes) const {
    return i > 0 && text_.bytes[i] == '/' && (text_.bytes[i - 1] == '/' || text_.bytes[i - 1] == ':') && bytes == 1;
  }

  const font::Face& face_for(char32_t code, std::size_t run) {
    const bool strong = runs_[run].look == document::Run::Look::strong;
    const font::Face& own = shop_.face(strong ? style_.strong : style_.face);
    if (code == U'\n' || code < 0x80 || serves(own, code)) return is_mark(code) && now_.face ? *now_.face : own;
    const font::Face& other = shop_.faces.fallback();
    if (serves(other, code)) return other;
    shop_.no_letter(code);
    return other.has(replacement) ? other : own;
  }

  void flush(Break after) {
    if (now_.text.empty()) {
      if (!atoms_.empty() && after != Break::no) atoms_.back().after = after;
      return;
    }
    now_.after = after;
    atoms_.push_back(std::move(now_));
    now_ = {};
  }

  // Whole words of one look are cut where a hyphen may stand; what follows a word, a comma say, stays at its end.
  void hyphenate() {
    std::vector<Atom> out;
    for (std::size_t i = 0; i < atoms_.size(); ++i) {
      Atom& atom = atoms_[i];
      const bool whole =
          (i == 0 || atoms_[i - 1].after != Break::no) && (atom.after != Break::no || i + 1 == atoms_.size());
      const std::size_t end = std::min(atom.text.find_first_not_of("abcdefghijklmnopqrstuvwxyz"), atom.text.size());
      std::size_t from = 0;
      if (whole)
        for (const std::size_t at : shop_.hyphens->breaks(std::string_view(atom.text).substr(0, end))) {
          Atom piece = atom;
          piece.text = atom.text.substr(from, at - from);
          piece.after = Break::hyphen;
          out.push_back(std::move(piece));
          from = at;
        }
      atom.text.erase(0, from);
      out.push_back(std::move(atom));
    }
    atoms_ = std::move(out);
  }

  // Marks that shaping could not join to their letter.
  void report() {
    for (const Atom& atom : atoms_)
      for (const font::Glyph& glyph : atom.face->shape(atom.text))
        if (glyph.id == 0) shop_.no_letter(utf8::letter_at(atom.text, glyph.cluster).code);
  }

  Workshop& shop_;
  const document::Runs& runs_;
  const TextStyle& style_;
  Text text_;
  std::vector<char> breaks_;
  Atom now_;
  std::vector<Atom> atoms_;
};

// Breaks one atom so that its first piece is at most `room` wide (a letter at least), the others at most `width`.
std::vector<Atom> pieces_of(const Atom& atom, Milli size, Milli room, Milli width) {
  std::vector<Atom> pieces;
  Atom now = atom;
  now.text.clear();
  for (std::size_t i = 0; i < atom.text.size();) {
    std::size_t end = i + utf8::letter_at(atom.text, i).bytes;
    while (end < atom.text.size() && is_mark(utf8::letter_at(atom.text, end).code))
      end += utf8::letter_at(atom.text, end).bytes;
    Atom longer = now;
    longer.text.append(atom.text, i, end - i);
    measure_atom(longer, size);
    if (longer.ink > (pieces.empty() ? room : width) && !now.text.empty()) {
      now.after = Break::may;
      pieces.push_back(now);
      now.text.clear();
      continue;
    }
    now = std::move(longer);
    i = end;
  }
  now.after = atom.after;
  pieces.push_back(std::move(now));
  return pieces;
}

}  // namespace

void measure_atom(Atom& atom, Milli size) {
  const int em = atom.face->units_per_em();
  const std::size_t ends = atom.text.find_last_not_of(' ') + 1;  // 0 when there are only spaces
  std::int64_t all = 0, ink = 0;
  const font::Glyph* last = nullptr;
  for (const font::Glyph& glyph : atom.face->shape(atom.text)) {
    all += glyph.advance;
    if (glyph.cluster >= ends) continue;
    ink += glyph.advance;
    last = &glyph;
  }
  // The last letter may have been moved towards the space.
  if (last && ends < atom.text.size()) ink += atom.face->advance(last->id) - last->advance;
  atom.width = milli(scaled(size, all, em));
  atom.ink = milli(scaled(size, ink, em));
}

namespace {

/// All that atoms depend on.
std::string key_of(const document::Runs& runs, const TextStyle& style) {
  const TextStyle* address = &style;
  std::string key(reinterpret_cast<const char*>(&address), sizeof(const TextStyle*));
  for (const document::Run& run : runs) {
    key += static_cast<char>(run.look);
    key += run.text;
    key += '\0';
  }
  return key;
}

}  // namespace

std::vector<Atom> atoms_of(Workshop& shop, const document::Runs& runs, const TextStyle& style) {
  if (!shop.measured.empty())
    if (auto known = shop.measured.extract(key_of(runs, style))) return std::move(known.mapped());
  return Cutter(shop, runs, style).cut();
}

const std::vector<Atom>& kept_atoms_of(Workshop& shop, const document::Runs& runs, const TextStyle& style) {
  auto& kept = shop.measured[key_of(runs, style)];
  if (kept.empty()) kept = Cutter(shop, runs, style).cut();
  return kept;
}

std::vector<Atom> broken_to(Workshop&, std::vector<Atom> atoms, Milli size, Milli width) {
  std::int64_t all = 0;
  for (const Atom& atom : atoms) all += atom.width;
  if (all <= width) return atoms;  // as most are
  std::vector<Atom> out;
  out.reserve(atoms.size());
  for (std::size_t i = 0; i < atoms.size();) {
    // A word: atoms up to the next place where a line may end.
    std::size_t end = i;
    Milli before = 0, word = 0;
    for (; end < atoms.size(); ++end) {
      word = before + atoms[end].ink;
      before += atoms[end].width;
      if (atoms[end].after != Break::no) break;
    }
    end = std::min(end + 1, atoms.size());
    if (word <= width) {
      out.insert(out.end(), atoms.begin() + static_cast<std::ptrdiff_t>(i),
                 atoms.begin() + static_cast<std::ptrdiff_t>(end));
      i = end;
      continue;
    }
    Milli used = 0;
    for (; i < end; ++i) {
      std::vector<Atom> pieces = pieces_of(atoms[i], size, width - used, width);
      // The first letter of an atom may not fit behind the one before: then the line ends between them.
      if (used > 0 && used + pieces.front().ink > width) {
        out.back().after = Break::may;
        pieces = pieces_of(atoms[i], size, width, width);
        used = 0;
      }
      used = pieces.size() > 1 ? pieces.back().width : used + pieces.back().width;
      out.insert(out.end(), pieces.begin(), pieces.end());
    }
  }
  return out;
}

}  // namespace soundsill::page
