#include "pdf/paint.h"

namespace soundsill::pdf {

namespace {

/// The array of a TJ operator: strings of glyphs with the shifts between them.
class Show {
 public:
  Show(UsedFace& face, const page::TextMark& mark) : face_(face), mark_(mark) {}

  void cluster(const Cluster& cluster, std::string& out) {
    if (face_.use(cluster, mark_.glyphs)) {
      for (std::size_t i = cluster.begin; i < cluster.end; ++i) add(mark_.glyphs[i]);
      return;
    }
    // The letters cannot be told from the glyphs: they stand beside them.
    flush(out, true);
    out += "/Span <</ActualText <FEFF" + utf16_hex(cluster.letters) + ">>> BDC\n";
    for (std::size_t i = cluster.begin; i < cluster.end; ++i) add(mark_.glyphs[i]);
    flush(out, true);
    out += "EMC\n";
  }

  /// `more` says that glyphs follow, so that the last shift still matters.
  void flush(std::string& out, bool more) {
    close_string();
    if (more) put_shift();
    if (!array_.empty()) out += "[" + array_ + "]TJ\n";
    array_.clear();
  }

 private:
  void add(const font::Glyph& glyph) {
    if (shift_ != 0) {
      close_string();
      put_shift();
    }
    codes_ += face_.code(glyph.id);
    const font::Face& face = face_.face();
    if (glyph.advance != face.advance(glyph.id))
      shift_ = face_.width(glyph.id) - divide(std::int64_t{glyph.advance} * 1'000'000, face.units_per_em());
  }

  /// In whole thousandths of an em; what rounding leaves goes on to the next shift, so that it never adds up.
  void put_shift() {
    const std::int64_t whole = divide(shift_ + left_, 1000) * 1000;
    left_ += shift_ - whole;
    if (whole != 0) put(array_, whole);
    shift_ = 0;
  }

  void close_string() {
    if (!codes_.empty()) array_ += literal(codes_);
    codes_.clear();
  }

  UsedFace& face_;
  const page::TextMark& mark_;
  std::string array_, codes_;  // codes of one byte (UsedFace)
  std::int64_t shift_ = 0;     // after the last glyph
  std::int64_t left_ = 0;      // what the last shift did not say
};

/// A line ends with a space, so that readers do not join its last word with the next line. When the layout has not
/// shaped it, it is added here: it paints nothing.
const font::Glyph* missing_space(const page::TextMark& mark) {
  if (mark.text.empty() || mark.text.back() != ' ' || mark.glyphs.empty()) return nullptr;
  const auto& space = mark.face->shape(" ");
  if (space.size() != 1 || space[0].id == 0 || mark.glyphs.back().id == space[0].id) return nullptr;
  return space.data();
}

/// A tenth of a point is as fine as a printer's dot; more places would be noise that does not pack.
std::int64_t fine(std::int64_t thousandths) {
  constexpr std::int64_t step = 100;
  return divide(thousandths, step) * step;
}

/// An upright box, as most paths of a paper are, or nothing.
std::optional<page::Box> box_of(const page::PathMark& mark) {
  using Kind = page::PathMark::Piece::Kind;
  const auto& p = mark.pieces;
  if (p.size() != 5 || p[0].kind != Kind::move || p[4].kind != Kind::close) return std::nullopt;
  for (const std::size_t i : {1U, 2U, 3U})
    if (p[i].kind != Kind::line) return std::nullopt;
  const page::At a = p[0].to[0], b = p[1].to[0], c = p[2].to[0], d = p[3].to[0];
  if (a.y != b.y || b.x != c.x || c.y != d.y || d.x != a.x) return std::nullopt;
  return page::Box{a.x, a.y, c.x - a.x, c.y - a.y};
}

}  // namespace

void Paint::line(std::string_view operators) { (out_ += operators) += '\n'; }

void Paint::point(page::At at) {
  put_number(out_, fine(at.x));
  put_number(out_, fine(std::int64_t{height_} - at.y));
}

/// Its edges are rounded, not its size: boxes that touch still do.
void Paint::put_box(const page::Box& box) {
  const std::int64_t left = fine(box.x), right = fine(std::int64_t{box.x} + box.width);
  const std::int64_t bottom = fine(std::int64_t{height_} - box.bottom()), top = fine(std::int64_t{height_} - box.y);
  for (const std::int64_t n : {left, bottom, right - left, top - bottom}) put_number(out_, n);
}

void Paint::begin_text() {
  if (in_text_) return;
  line("BT");
  in_text_ = true;
  text_x_ = text_y_ = 0;
}

void Paint::end_text() {
  if (in_text_) line("ET");
  in_text_ = false;
}

void Paint::color(page::Color color, std::string_view rgb, std::string_view grey) {
  const auto part = [&](std::uint8_t value) { put_number(out_, divide(std::int64_t{value} * 1000, 255)); };
  part(color.r);
  if (color.r == color.g && color.g == color.b) return line(grey);
  part(color.g);
  part(color.b);
  line(rgb);
}

void Paint::set_fill(page::Color wanted) {
  if (state_.fill == wanted) return;
  state_.fill = wanted;
  color(wanted, "rg", "g");
}

void Paint::set_stroke(const page::PathMark& mark) {
  if (!(state_.stroke == *mark.stroke)) {
    state_.stroke = *mark.stroke;
    color(*mark.stroke, "RG", "G");
  }
  if (state_.line_width != mark.line_width) {
    state_.line_width = mark.line_width;
    put_number(out_, mark.line_width);
    line("w");
  }
  if (state_.round != mark.round) {
    state_.round = mark.round;
    line(mark.round ? "1 J 1 j" : "0 J 0 j");
  }
  if (state_.dash != mark.dash) {
    state_.dash = mark.dash;
    out_ += '[';
    for (const page::Milli part : mark.dash) put_number(out_, part);
    line("] 0 d");
  }
}

void Paint::glyphs(const page::TextMark& mark, UsedFace& face) {
  page::TextMark completed;
  const page::TextMark* shown = &mark;
  if (const font::Glyph* space = missing_space(mark)) {
    completed = mark;
    completed.glyphs.push_back(*space);
    completed.glyphs.back().cluster = static_cast<std::uint32_t>(mark.text.size() - 1);
    shown = &completed;
  }
  Show show(face, *shown);
  for (const Cluster& cluster : clusters(*shown)) show.cluster(cluster, out_);
  show.flush(out_, false);
}

void Paint::text(const page::TextMark& mark, UsedFace& face, const std::string& font_name) {
  begin_text();
  set_fill(mark.color);
  if (state_.font != font_name || state_.size != mark.size) {
    state_.font = font_name;
    state_.size = mark.size;
    out_ += "/" + font_name + " ";
    put_number(out_, mark.size);
    line("Tf");
  }
  const std::int64_t x = fine(mark.at.x), y = fine(std::int64_t{height_} - mark.at.y);
  put_number(out_, x - text_x_);
  put_number(out_, y - text_y_);
  text_x_ = x;
  text_y_ = y;
  line("Td");
  glyphs(mark, face);
}

void Paint::pieces(const page::PathMark& mark) {
  using Kind = page::PathMark::Piece::Kind;
  if (const auto box = box_of(mark)) {
    put_box(*box);
    return line("re");
  }
  for (const auto& piece : mark.pieces) {
    switch (piece.kind) {
      case Kind::move:
        point(piece.to[0]);
        line("m");
        break;
      case Kind::line:
        point(piece.to[0]);
        line("l");
        break;
      case Kind::curve:
        for (const page::At at : piece.to) point(at);
        line("c");
        break;
      case Kind::close:
        line("h");
        break;
    }
  }
}

void Paint::path(const page::PathMark& mark) {
  end_text();
  const State before = state_;
  if (mark.clip) {
    line("q");
    put_box(*mark.clip);
    line("re W n");
  }
  if (mark.fill) set_fill(*mark.fill);
  if (mark.stroke) set_stroke(mark);
  pieces(mark);
  const std::string rule = mark.fill && mark.even_odd ? "*" : "";
  line((mark.fill && mark.stroke ? "B" : mark.fill ? "f" : "S") + rule);
  if (mark.clip) {
    line("Q");
    state_ = before;
  }
}

void Paint::image(const page::Box& box, const std::string& image_name) {
  end_text();
  out_ += "q ";
  put_number(out_, box.width);
  out_ += "0 0 ";
  put_number(out_, box.height);
  point({box.x, box.bottom()});
  line("cm /" + image_name + " Do Q");
}

}  // namespace soundsill::pdf
