// Serves yaml/read_scanner.h. Inside [ ] and { }.
#include "source/concat.h"
#include "yaml/read_scanner.h"

namespace soundsill::yaml {

Atom Flow::run(std::size_t begin) {
  at_ = begin;
  open_bracket();
  while (!open_.empty() && !s_.stopped && !s_.report.full()) step();
  return {begin, at_, Atom::Kind::flow};
}

void Flow::step() {
  const Look& look = s_.look;
  at_ = look.skip_blanks(at_);
  if (look.eol(at_)) return line_break();
  const Bracket& top = open_.back();
  const bool json_key = !top.plain && (top.phase == Bracket::Phase::item || top.phase == Bracket::Phase::value);
  switch (look.s[at_]) {
    case ',':
      return comma();
    case '[':
    case '{':
      return open_bracket();
    case ']':
    case '}':
      return close_bracket();
    case ':':
      if (json_key || look.gap(at_ + 1) || look.flow_mark(at_ + 1)) return colon();
      break;
    case '#':
      if (look.blank(at_ - 1) || look.is(at_ - 1, '\n')) return comment();
      break;
    case '&':
      if (!look.gap(at_ + 1)) return anchor();
      break;
    default:
      break;
  }
  scalar();
}

void Flow::anchor() {
  const std::size_t begin = at_;
  at_ = s_.look.skip_blanks(s_.anchor(begin));
  if (!s_.look.is(at_, ',') && !s_.look.is(at_, ']') && !s_.look.is(at_, '}')) return;
  s_.spoil(begin, at_);  // it stands alone, and takes the place of the value
  advance(open_.back(), last_piece(), false);
}

void Flow::advance(Bracket& b, std::size_t piece, bool plain) {
  b.phase = b.phase == Bracket::Phase::colon || b.phase == Bracket::Phase::value ? Bracket::Phase::value
                                                                                 : Bracket::Phase::item;
  b.last = piece;
  b.plain = plain;
}

void Flow::line_break() {
  const Look& look = s_.look;
  for (std::size_t line = look.next_line(at_); line < look.s.size(); line = look.next_line(line)) {
    std::size_t i = line;
    while (look.is(i, ' ')) ++i;
    const std::size_t indent_end = i;
    i = look.skip_blanks(i);
    if (look.is(i, '#')) open_.back().plain = false;
    if (look.eol(i) || look.is(i, '#')) {
      s_.blank_out(indent_end, i);
      continue;
    }
    if (i != indent_end) s_.note_tab(indent_end);
    const bool closes = look.is(i, ']') || look.is(i, '}');
    const bool at_margin = static_cast<std::ptrdiff_t>(i - line) <= margin_;
    if ((i == line && look.document_mark(i)) || (at_margin && !closes && look.begins_entry(i))) return unclosed();
    at_ = i;
    return;
  }
  at_ = look.trimmed(open_.front().begin, look.s.size());
  unclosed();
}

void Flow::comma() {
  end_item(true);
  ++at_;
}

void Flow::colon() {
  Bracket& top = open_.back();
  tell_split(top);
  Piece* key = top.last == Bracket::none ? nullptr : &s_.out.pieces[top.last];
  if (top.phase == Bracket::Phase::empty) {
    words::no_key(s_.report, at_);
    s_.give_up();
    top.phase = Bracket::Phase::colon;
  } else if (top.phase == Bracket::Phase::item && key != nullptr && s_.look.line_end(key->end) < at_) {
    words::no_key(s_.report, at_);  // the line above holds what may be the key
    s_.give_up();
    top.phase = Bracket::Phase::colon;
  } else if (top.phase == Bracket::Phase::item && key != nullptr) {
    if (s_.look.is(at_ + 1, '[') || s_.look.is(at_ + 1, '{')) {
      words::missing_space(s_.report, s_.look.stretch(key->begin, at_ + 2));
      s_.give_up();
    }
    s_.note_key(*key);
    top.phase = Bracket::Phase::colon;
  } else if (top.phase == Bracket::Phase::item) {
    words::collection_key(s_.report, s_.look.stretch(s_.out.brackets.back()));
    s_.give_up();
    top.phase = Bracket::Phase::colon;
  } else if (top.phase == Bracket::Phase::value && key != nullptr) {
    if (!key->spoiled) words::second_colon(s_.report, s_.look.stretch(*key));
    s_.spoil(key->begin, at_ + 1);
    top.last = last_piece();
    top.plain = true;
  } else {
    words::no_key(s_.report, at_);
    s_.give_up();
    top.phase = Bracket::Phase::colon;
  }
  ++at_;
}

void Flow::open_bracket() {
  if (!open_.empty() && bracket_behind_value()) return;
  open_.push_back({.begin = at_, .map = s_.look.is(at_, '{')});
  s_.note_depth(depth_ + open_.size(), at_);
  ++at_;
}

/// [sill [north side]]: a bracket in the middle of text. Told, and passed over as far as it goes on its line.
bool Flow::bracket_behind_value() {
  Bracket& top = open_.back();
  if (top.phase != Bracket::Phase::item && top.phase != Bracket::Phase::value) return false;
  const Look& look = s_.look;
  s_.give_up();
  if (!top.plain || top.last == Bracket::none) {
    words::no_comma(s_.report, look.stretch(at_, at_ + 1));
    return false;
  }
  const std::size_t closer = look.s.find(look.is(at_, '[') ? ']' : '}', at_);
  const std::size_t end = closer < look.line_end(at_) ? closer + 1 : at_ + 1;
  const Piece text = s_.out.pieces[top.last];
  if (!text.spoiled) words::bracket_in_text(s_.report, at_, look.stretch(text.begin, end));
  s_.spoil(text.begin, end);
  top.last = last_piece();
  at_ = end;
  return true;
}

void Flow::close_bracket() {
  const bool map = s_.look.is(at_, '}');
  bool opened = false;
  for (const Bracket& b : open_) opened = opened || b.map == map;
  if (!opened) {  // most likely meant to close the innermost
    not_closed_before_bracket(at_ + 1);
    ++at_;
    return;
  }
  while (open_.back().map != map) not_closed_before_bracket(at_);
  end_item(false);
  tell_split(open_.back());
  s_.out.brackets.push_back(
      {.begin = static_cast<std::uint32_t>(open_.back().begin), .end = static_cast<std::uint32_t>(at_ + 1)});
  open_.pop_back();
  ++at_;
  if (!open_.empty()) advance(open_.back(), Bracket::none, false);
}

void Flow::not_closed_before_bracket(std::size_t end) {
  const std::size_t begin = open_.back().begin;
  const std::string line = std::to_string(s_.report.line(at_));
  const std::string closer = concat({"the `", {&s_.look.s[at_], 1}, "` in line ", line});
  words::not_closed_before(s_.report, begin, s_.look.s[begin], closer);
  open_.pop_back();
  s_.spoil(begin, end);
  if (!open_.empty()) advance(open_.back(), last_piece(), false);
}

void Flow::unclosed() {
  const Look& look = s_.look;
  const std::size_t next = look.next_line(at_);
  for (const Bracket& b : open_) {
    if (open_quote_)
      ;  // the missing quote may hide the closing bracket
    else if (next >= look.s.size())
      words::never_closed(s_.report, b.begin, look.s[b.begin]);
    else
      words::not_closed_before(s_.report, b.begin, look.s[b.begin], "line " + std::to_string(s_.report.line(at_) + 1));
    ++s_.left_open;
  }
  s_.spoil(open_.front().begin, at_);
  s_.distrust();  // what follows may still be inside
  open_.clear();
}

void Flow::scalar() {
  Bracket& top = open_.back();
  if (top.phase == Bracket::Phase::item || top.phase == Bracket::Phase::value)
    return top.plain ? go_on(top) : behind_value(top);
  const Atom a = s_.scalar(at_, true);
  at_ = a.end;
  open_quote_ = open_quote_ || a.open;
  advance(top, last_piece(), a.kind == Atom::Kind::plain);
  if (a.kind == Atom::Kind::plain && !a.spoiled) check_question(a.begin, a.end);
}

/// More words of a plain scalar, on a further line.
void Flow::go_on(Bracket& top) {
  const std::size_t end = std::max(at_ + 1, s_.look.plain_end(at_, true));
  Piece& piece = s_.out.pieces[top.last];
  if (piece.spoiled)
    s_.spoil_further(top.last, end);
  else {
    piece.end = static_cast<std::uint32_t>(end);
    check_question(at_, end);
  }
  at_ = end;
}

void Flow::behind_value(Bracket& top) {
  const Look& look = s_.look;
  const bool quote = look.is(at_, '"') || look.is(at_, '\'');
  std::size_t end = quote ? look.quote_end(at_) : look.plain_end(at_, true);
  if (end == std::string_view::npos || end <= at_) end = std::max(at_ + 1, look.plain_end(at_, true));
  const auto text = look.stretch(at_, end);
  if (top.last == Bracket::none) {
    words::no_comma(s_.report, text);
    s_.blank_out(at_, end);
    s_.distrust();
  } else {
    const Piece value = s_.out.pieces[top.last];
    if (!value.spoiled) {
      if (value.end == at_)
        words::text_after_quote(s_.report, look.stretch(value), text);
      else
        words::no_comma(s_.report, text);
    }
    s_.spoil(value.begin, end);
    top.last = last_piece();
    top.plain = true;
  }
  at_ = end;
}

/// A # with a digit behind it was meant as text: "pier #3". It would hide the rest of the line, brackets and all.
void Flow::comment() {
  Bracket& top = open_.back();
  const Look& look = s_.look;
  if (!look.digit(at_ + 1) || !look.blank(at_ - 1)) {
    top.plain = false;
    at_ = look.line_end(at_);
    return;
  }
  const std::size_t end = std::max(at_ + 1, look.plain_end(at_, true));
  const bool behind =
      top.last != Bracket::none && (top.phase == Bracket::Phase::item || top.phase == Bracket::Phase::value);
  const std::size_t begin = behind ? s_.out.pieces[top.last].begin : at_;
  const bool told = behind && s_.out.pieces[top.last].spoiled;
  if (!told) words::comment_cuts(s_.report, look.stretch(begin, end), look.stretch(at_, end));
  s_.spoil(begin, end);
  advance(top, last_piece(), true);
  at_ = end;
}

void Flow::check_question(std::size_t begin, std::size_t end) {
  const std::size_t at = s_.look.s.substr(0, end).find('?', begin);
  if (at == std::string_view::npos) return;
  Bracket& top = open_.back();
  const std::size_t from = s_.out.pieces[top.last].begin;
  words::question_mark(s_.report, at, s_.look.stretch(from, end));
  s_.spoil(from, end);
  top.last = last_piece();
}

}  // namespace soundsill::yaml
