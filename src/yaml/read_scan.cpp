#include "yaml/read_scan.h"

#include <algorithm>
#include <optional>

#include "source/most.h"
#include "yaml/read_encoding.h"
#include "yaml/read_scanner.h"

namespace soundsill::yaml {
namespace {

/// The code point of "\x41", "\u00e9", "\U0001F41C"; nothing when digits are missing.
std::optional<std::uint32_t> hex_value(std::string_view digits) {
  std::uint32_t n = 0;
  for (const char c : digits) {
    const auto at = std::string_view("0123456789abcdef").find(c >= 'A' && c <= 'F' ? static_cast<char>(c + 32) : c);
    if (at == std::string_view::npos) return std::nullopt;
    n = n * 16 + static_cast<std::uint32_t>(at);
  }
  return n;
}

std::size_t hex_digits(char escape) { return escape == 'x' ? 2 : escape == 'u' ? 4 : escape == 'U' ? 8 : 0; }

}  // namespace

Scanner::Scanner(std::string_view text, Report& faults) : look(text), report(faults) { out.text = text; }

void Scanner::blank_out(std::size_t begin, std::size_t end) {
  for (std::size_t i = begin; i < end; ++i)
    if (!look.eol(i)) out.text[i] = ' ';
}

void Scanner::spoil(std::size_t begin, std::size_t end) {
  while (!out.pieces.empty() && out.pieces.back().begin >= begin) out.pieces.pop_back();
  while (!out.brackets.empty() && out.brackets.back().begin >= begin) out.brackets.pop_back();
  push(begin, end);
  out.pieces.back().spoiled = true;
  blank_out(begin, end);
  out.text[begin] = 'x';
}

void Scanner::spoil_further(std::size_t index, std::size_t end) {
  blank_out(out.pieces[index].end, end);
  out.pieces.resize(index + 1);
  out.pieces[index].end = static_cast<std::uint32_t>(end);
}

void Scanner::push(std::size_t begin, std::size_t end) {
  out.pieces.push_back({.begin = static_cast<std::uint32_t>(begin), .end = static_cast<std::uint32_t>(end)});
  if (out.pieces.size() <= most::text_values || stopped) return;
  words::too_many(report, begin);
  give_up();
  stop();
}

void Scanner::note_depth(std::size_t depth, std::size_t at) {
  if (depth <= most::nesting || stopped) return;
  words::too_deep(report, at);
  give_up();
  stop();
}

void Scanner::note_tab(std::size_t at) {
  if (tabs_++ == 0) first_tab_ = at;
}

void Scanner::note_key(Piece& piece) {
  piece.key = true;
  if (piece.spoiled) distrust();
  if (look.s.substr(piece.begin, piece.end - piece.begin) != "<<") return;
  words::merge_key(report, look.stretch(piece));
  merge_value_from_ = piece.end;
}

void Scanner::missing_space(Piece& piece) {
  words::missing_space(report, look.stretch(piece));
  const std::size_t colon = look.s.find(':', piece.begin);
  blank_out(colon + 1, piece.end);
  piece.end = static_cast<std::uint32_t>(look.trimmed(piece.begin, colon));
  piece.key = piece.hushed = true;
}

std::size_t Scanner::anchor(std::size_t begin) {
  std::size_t end = begin;
  while (!look.gap(end) && !look.flow_mark(end)) ++end;
  words::anchor(report, look.stretch(begin, end));
  blank_out(begin, end);
  if (!out.pieces.empty() && out.pieces.back().key) out.pieces.back().hushed = true;
  return end;
}

Atom Scanner::scalar(std::size_t begin, bool flow) {
  const char c = look.s[begin];
  if (c == '"' || c == '\'') return quoted(begin, flow);
  const bool always = std::string_view("*&!@`%|>#").find(c) != std::string_view::npos;
  const bool in_flow = flow && (c == '?' || (c == '-' && look.blank(begin + 1)));
  const bool in_block = !flow && std::string_view(",]}").find(c) != std::string_view::npos;
  return always || in_flow || in_block ? reserved(begin, flow) : plain(begin, flow);
}

Atom Scanner::plain(std::size_t begin, bool flow) {
  const std::size_t end = std::max(begin + 1, look.plain_end(begin, flow));
  push(begin, end);
  return {begin, end, Atom::Kind::plain};
}

Atom Scanner::reserved(std::size_t begin, bool flow) {
  const std::size_t end = std::max(begin + 1, look.plain_end(begin, flow));
  const auto text = look.stretch(begin, end);
  const bool alias = look.is(begin, '*') && end > begin + 1 && !look.blank(begin + 1);
  const bool merged = merge_value_from_ != 0 && look.skip_blanks(merge_value_from_ + 1) == begin;
  if (alias && !merged) words::alias(report, text);
  if (!alias) words::reserved_start(report, text, look.is(begin, '-') ? "- " : look.s.substr(begin, 1));
  spoil(begin, end);
  return {begin, end, Atom::Kind::plain, true};
}

Atom Scanner::quoted(std::size_t begin, bool flow) {
  const std::size_t end = look.quote_end(begin);
  if (end == std::string_view::npos) {
    words::open_quote(report, begin, look.s[begin]);
    const std::size_t stop =
        flow ? std::max(begin + 1, look.plain_end(begin, true)) : look.trimmed(begin, look.line_end(begin));
    spoil(begin, stop);
    return {begin, stop, Atom::Kind::plain, true, true};
  }
  push(begin, end);
  if (look.is(begin, '\'') || escapes_fit(begin, end)) return {begin, end, Atom::Kind::quoted};
  spoil(begin, end);
  return {begin, end, Atom::Kind::quoted, true};
}

bool Scanner::escapes_fit(std::size_t begin, std::size_t end) {
  for (std::size_t i = begin + 1; i + 1 < end; ++i) {
    if (look.s[i] != '\\') continue;
    const char c = look.s[i + 1];
    const std::size_t digits = hex_digits(c);
    const auto text = look.stretch(i, std::min(i + 2 + digits, end - 1));
    const bool known = digits != 0 || std::string_view("tn\"\\/ _'").find(c) != std::string_view::npos;
    const bool control = std::string_view("0abvfreNLP").find(c) != std::string_view::npos;
    const auto code = digits == 0 || !known ? std::uint32_t{'x'} : hex_value(text.text.substr(2));
    const bool whole = text.text.size() == 2 + digits && code && *code <= 0x10FFFF && (*code & ~0x7FFU) != 0xD800;
    if (control || (known && whole && !is_printable(*code))) {
      words::control_escape(report, text);
      return false;
    }
    if (!known || !whole) {
      words::bad_escape(report, text);
      return false;
    }
    ++i;
  }
  return true;
}

Scan Scanner::finish() {
  if (tabs_ != 0) {
    words::tab_indent(report, first_tab_, tabs_);
    give_up();
  }
  if (report.full()) give_up();
  const auto by_place = [](const Piece& a, const Piece& b) { return a.begin < b.begin; };
  std::sort(out.brackets.begin(), out.brackets.end(), by_place);
  return std::move(out);
}

Scan scan(std::string_view text, Report& report) {
  Scanner scanner(text, report);
  BlockScanner(scanner).run(byte_order_mark(text));
  return scanner.finish();
}

}  // namespace soundsill::yaml
