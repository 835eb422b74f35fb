// Serves yaml/read_scanner.h.
#include "yaml/read_scanner.h"

namespace soundsill::yaml {

void BlockScanner::run(std::size_t from) {
  at_ = from;
  while (at_ < look_.s.size() && !s_.stopped && !s_.report.full()) line();
  if (s_.report.full()) s_.give_up();
  if (last_ == Last::start && s_.report.count() == 0 && !s_.tabs()) {
    words::empty_file(s_.report);
    s_.give_up();
  }
  // The whole file is one word with a colon in it.
  if (columns_.empty() && s_.out.pieces.size() == 1 && !s_.out.pieces[0].spoiled && last_ == Last::plain &&
      look_.lacks_space(s_.out.pieces[0])) {
    s_.missing_space(s_.out.pieces[0]);
    s_.give_up();
  }
}

words::Stretch BlockScanner::line_text(std::size_t i) const {
  const std::size_t end = look_.plain_end(i, false);
  return look_.stretch(i, end > i ? end : look_.content_end(i));
}

void BlockScanner::line() {
  line_ = at_;
  std::size_t i = at_;
  while (look_.is(i, ' ')) ++i;
  const std::size_t indent_end = i;
  i = look_.skip_blanks(i);
  if (look_.eol(i) || look_.is(i, '#')) {
    s_.blank_out(indent_end, i);  // a tab on an empty line harms nobody, but stops the parser
    if (look_.is(i, '#') && last_ == Last::plain) last_ = Last::done;  // a comment ends text of several lines
    return end_line(i);
  }
  if (i != indent_end) s_.note_tab(indent_end);
  if (column(i) == 0 && document_line(i)) return;
  if (ended_) {
    words::several_documents(s_.report, line_text(i));
    s_.distrust();
    return s_.stop();
  }
  if (column(i) == 0 && look_.is(i, '%') && !begun_) return directive(i);
  begun_ = true;
  if (last_ == Last::plain && column(i) > margin()) return continuation(i);
  tokens(i, true);
}

bool BlockScanner::document_line(std::size_t i) {
  if (!look_.document_mark(i)) return false;
  if (look_.is(i, '.')) {
    begun_ = ended_ = true;
    end_line(i);
    return true;
  }
  if (begun_) {
    words::several_documents(s_.report, look_.stretch(i, i + 3));
    s_.distrust();
    s_.stop();
    return true;
  }
  begun_ = true;
  const std::size_t next = look_.skip_blanks(i + 3);
  if (look_.eol(next) || look_.is(next, '#'))
    end_line(next);
  else
    tokens(next, true);
  return true;
}

// A line of % before the document speaks to the parser, which passes over all it does not know.
void BlockScanner::directive(std::size_t i) {
  const auto text = look_.stretch(i, look_.content_end(i));
  end_line(i);
  if (text.text == "%YAML 1.1" || text.text == "%YAML 1.2") return;
  if (text.text.starts_with("%YAML") || text.text.starts_with("%TAG"))
    words::directive(s_.report, text);
  else
    words::reserved_start(s_.report, text, "%");
  s_.give_up();
}

/// Column of a text on its line.
std::ptrdiff_t BlockScanner::own_column(const Piece& text) const {
  const std::size_t newline = look_.s.rfind('\n', text.begin);
  return static_cast<std::ptrdiff_t>(newline == std::string_view::npos ? text.begin : text.begin - newline - 1);
}

/// A text of one line with nothing before it.
bool BlockScanner::stands_alone(const Piece& text) const {
  if (look_.line_end(text.begin) < text.end) return false;
  for (std::ptrdiff_t i = 1; i <= own_column(text); ++i)
    if (!look_.blank(text.begin - static_cast<std::size_t>(i))) return false;
  return true;
}

// A line indented deeper than the key (or dash) whose text stands above it: more of that text.
void BlockScanner::continuation(std::size_t i) {
  Piece& text = s_.out.pieces.back();
  const std::size_t end = look_.plain_end(i, false);
  const std::size_t next = look_.skip_blanks(end);
  const bool item = look_.mark(i, '-');
  if (item || look_.mark(next, ':')) {
    if (!item && look_.lacks_space(text))
      s_.missing_space(text);
    else if (stands_alone(text) && (!item || column(i) > own_column(text)))
      words::no_colon(s_.report, look_.stretch(text));
    else if (item)
      words::item_below_value(s_.report, line_text(i), look_.stretch(text));
    else if (end > i && !s_.tabs())
      words::deeper(s_.report, look_.stretch(i, end));
    s_.distrust();
    last_ = Last::key;  // as if the line above had no value: what is nested here is read as nested
    return tokens(i, true);
  }
  text.end = static_cast<std::uint32_t>(end);
  if (look_.is(next, '#')) {
    if (look_.digit(next + 1)) behind({text.begin, end, Atom::Kind::plain});
    last_ = Last::done;
  }
  end_line(end);
}

void BlockScanner::tokens(std::size_t i, bool first) {
  while (!s_.stopped) {
    i = look_.skip_blanks(i);
    if (look_.eol(i) || look_.is(i, '#')) return end_line(i);
    if (indicator(i, first)) continue;
    if (look_.block_header(i)) return block_text(i);
    if (first && (look_.is(i, ']') || look_.is(i, '}'))) return closes_nothing(i);
    const Atom a = atom(i);
    if (s_.stopped) return;
    const std::size_t next = look_.skip_blanks(a.end);
    if (!look_.mark(next, ':')) {
      if (first && a.kind == Atom::Kind::quoted && look_.is(a.end, ':')) return quoted_key(a);
      value(a, first);
      if (a.open) return;  // the lines below were passed over
      behind(a);
      return end_line(a.end);
    }
    if (a.kind == Atom::Kind::flow || beside_key(first)) {
      const auto text = look_.stretch(a.begin, a.end);
      if (a.kind == Atom::Kind::flow)
        words::collection_key(s_.report, text);
      else if (!a.spoiled && s_.left_open == 0)
        words::second_colon(s_.report, text, look_.s.substr(a.begin, look_.content_end(next) - a.begin));
      if (a.kind == Atom::Kind::flow)
        s_.give_up();
      else
        s_.spoil(a.begin, look_.content_end(next));
      last_ = Last::done;
      return end_line(next);
    }
    key(a, first);
    first = false;
    i = next + 1;
  }
}

/// Passes a dash or an anchor, or reports a mark that we do not read; false when a scalar or collection stands here.
bool BlockScanner::indicator(std::size_t& i, bool& first) {
  if (look_.mark(i, '-')) {
    i = dash(i, first);
    first = false;
    return true;
  }
  if (look_.is(i, '&') && !look_.gap(i + 1)) {
    if (first) s_.give_up();  // its value now has another margin
    i = s_.anchor(i);
    return true;
  }
  const bool question = look_.mark(i, '?');
  if (!question && !look_.mark(i, ':')) return false;
  if (question)
    words::question_key(s_.report, i);
  else
    words::no_key(s_.report, i);
  s_.give_up();
  last_ = Last::done;
  if (question) s_.stop();
  i = look_.line_end(i);
  return true;
}

std::size_t BlockScanner::dash(std::size_t i, bool first) {
  if (beside_key(first)) {
    const std::size_t end = look_.content_end(i);
    words::item_beside_key(s_.report, look_.stretch(i, end));
    s_.spoil(i, end);
    last_ = Last::done;
    return look_.line_end(i);
  }
  place(i, true, first);
  s_.out.dashes.push_back(static_cast<std::uint32_t>(i));
  last_ = Last::dash;
  return i + 1;
}

Atom BlockScanner::atom(std::size_t i) {
  if (look_.is(i, '[') || look_.is(i, '{')) return Flow(s_, margin(), columns_.size()).run(i);
  return s_.scalar(i, false);
}

void BlockScanner::key(const Atom& a, bool first) {
  s_.note_key(s_.out.pieces.back());
  place(a.begin, false, first);
  last_ = Last::key;
}

bool BlockScanner::takes_value(std::size_t begin) const {
  if (last_ == Last::start) return columns_.empty();
  return (last_ == Last::key || last_ == Last::dash) && column(begin) > margin();
}

void BlockScanner::value(const Atom& a, bool first) {
  if (first && !takes_value(a.begin)) return lonely(a);
  last_ = a.kind == Atom::Kind::plain && !a.open ? Last::plain : Last::done;
  if (!a.open) return;
  end_line(a.end);
  swallow_deeper();
}

// A line alone, where a key or an item belongs.
void BlockScanner::lonely(const Atom& a) {
  close_to(column(a.begin));
  const auto text = look_.stretch(a.begin, a.end);
  const bool among_items = !columns_.empty() && columns_.back().items && columns_.back().at == column(a.begin);
  const bool scalar = a.kind != Atom::Kind::flow;
  const bool behind_whole_value = last_ == Last::done;
  last_ = Last::key;  // most likely a key, so what is nested below it is read as nested
  if (a.open) end_line(a.end);
  if (scalar && !a.spoiled && a.kind == Atom::Kind::plain && look_.lacks_space(s_.out.pieces.back())) {
    s_.missing_space(s_.out.pieces.back());
    place(a.begin, false, true);
    last_ = Last::key;
    return;
  }
  s_.distrust();
  if (a.spoiled)
    ;  // told before
  else if (among_items && look_.is(a.begin, '-'))
    words::dash_space(s_.report, text);
  else if (among_items)
    words::neither_item_nor_key(s_.report, text);
  else if (behind_whole_value && column(a.begin) > margin())
    words::below_value(s_.report, text);
  else
    words::no_colon(s_.report, text);
  if (scalar) s_.out.pieces.pop_back();
  s_.blank_out(a.begin, look_.line_end(a.end));
}

// "key":3
void BlockScanner::quoted_key(const Atom& a) {
  words::missing_space(s_.report, look_.stretch(a.begin, look_.content_end(a.begin)));
  s_.give_up();
  place(a.begin, false, true);
  last_ = Last::done;
  end_line(a.end);
}

void BlockScanner::closes_nothing(std::size_t i) {
  if (s_.left_open == 0) words::closes_nothing(s_.report, i, look_.s[i]);
  s_.blank_out(i, look_.line_end(i));
  s_.distrust();
  end_line(i);
}

void BlockScanner::behind(const Atom& a) {
  const std::size_t next = look_.skip_blanks(a.end);
  if (look_.eol(next) || s_.stopped || last_ == Last::key) return;
  if (look_.is(next, '#') && (next > a.end || a.kind == Atom::Kind::plain)) {
    last_ = Last::done;
    if (!look_.digit(next + 1)) return;
    const std::size_t end = look_.trimmed(next, look_.line_end(next));
    if (!a.spoiled) words::comment_cuts(s_.report, look_.stretch(a.begin, end), look_.stretch(next, end));
    if (a.kind != Atom::Kind::flow) s_.spoil(a.begin, end);
  } else if (a.kind != Atom::Kind::plain) {
    behind_quote(a, next);
  }
}

void BlockScanner::behind_quote(const Atom& a, std::size_t next) {
  const auto rest = look_.stretch(next, look_.content_end(next));
  const bool told = s_.left_open != 0 && (look_.is(next, ']') || look_.is(next, '}'));
  if (a.kind == Atom::Kind::flow) {
    if (!told) words::after_bracket(s_.report, rest, look_.s[a.end - 1]);
    s_.blank_out(rest.begin, rest.end);
    s_.distrust();
    return;
  }
  if (!a.spoiled && !told) words::text_after_quote(s_.report, look_.stretch(a.begin, a.end), rest);
  s_.spoil(a.begin, rest.end);
}

}  // namespace soundsill::yaml
