// The parts of the scan: one class that walks lines in block style, one that walks inside brackets.
#pragma once

#include "yaml/read_scan.h"
#include "yaml/read_words.h"

namespace soundsill::yaml {

/// Looking at the text without changing anything.
class Look {
 public:
  explicit Look(std::string_view text) : s(text) {}

  [[nodiscard]] bool eol(std::size_t i) const { return i >= s.size() || s[i] == '\n' || s[i] == '\r'; }
  [[nodiscard]] bool blank(std::size_t i) const { return i < s.size() && (s[i] == ' ' || s[i] == '\t'); }
  [[nodiscard]] bool gap(std::size_t i) const { return eol(i) || blank(i); }
  [[nodiscard]] bool is(std::size_t i, char c) const { return i < s.size() && s[i] == c; }
  [[nodiscard]] bool digit(std::size_t i) const { return i < s.size() && s[i] >= '0' && s[i] <= '9'; }
  [[nodiscard]] bool flow_mark(std::size_t i) const {
    return i < s.size() && std::string_view(",[]{}").find(s[i]) != std::string_view::npos;
  }
  [[nodiscard]] bool mark(std::size_t i, char c) const { return is(i, c) && gap(i + 1); }

  [[nodiscard]] std::size_t skip_blanks(std::size_t i) const;
  [[nodiscard]] std::size_t line_end(std::size_t i) const;
  [[nodiscard]] std::size_t next_line(std::size_t i) const;
  /// End of what is written on the line of `i`, without a comment and blanks behind it.
  [[nodiscard]] std::size_t content_end(std::size_t i) const;
  [[nodiscard]] std::size_t trimmed(std::size_t begin, std::size_t end) const;
  /// End on this line of a scalar without quotes.
  [[nodiscard]] std::size_t plain_end(std::size_t i, bool flow) const;
  /// Behind the closing quote; npos when it does not close on its line.
  [[nodiscard]] std::size_t quote_end(std::size_t i) const;
  /// "c:3": one word or a few, a colon, and something right behind it.
  [[nodiscard]] bool lacks_space(const Piece& piece) const;
  /// A line that begins an item or a key, wherever it stands.
  [[nodiscard]] bool begins_entry(std::size_t i) const;
  /// A | or > with what may follow it on its line.
  [[nodiscard]] bool block_header(std::size_t i) const;
  [[nodiscard]] bool document_mark(std::size_t i) const;
  [[nodiscard]] words::Stretch stretch(std::size_t begin, std::size_t end) const {
    return {begin, end, s.substr(begin, end - begin)};
  }
  [[nodiscard]] words::Stretch stretch(const Piece& p) const { return stretch(p.begin, p.end); }

  std::string_view s;
};

/// One scalar or one whole flow collection in the text.
struct Atom {
  enum class Kind { plain, quoted, flow };
  std::size_t begin, end;
  Kind kind;
  bool spoiled = false;
  bool open = false;  ///< an opening quote that does not close
};

/// What both walkers share: the result, blotting out, and reading one scalar.
class Scanner {
 public:
  Scanner(std::string_view text, Report& report);

  const Look look;
  Report& report;
  Scan out;
  bool stopped = false;
  std::size_t left_open = 0;  ///< brackets that were reported as not closed

  void distrust() { out.trusted = false; }
  /// The parser could only say again what was said.
  void give_up() { out.trusted = out.parse = false; }
  void stop() { stopped = true; }
  void blank_out(std::size_t begin, std::size_t end);
  /// Makes one spoiled scalar of a stretch.
  void spoil(std::size_t begin, std::size_t end);
  /// Lets the spoiled scalar `index` go on to `end`.
  void spoil_further(std::size_t index, std::size_t end);

  [[nodiscard]] Atom scalar(std::size_t begin, bool flow);
  /// Reports an anchor and returns where its value begins.
  std::size_t anchor(std::size_t begin);
  void missing_space(Piece& piece);
  void note_key(Piece& piece);
  void note_tab(std::size_t at);
  void note_depth(std::size_t depth, std::size_t at);
  [[nodiscard]] bool tabs() const { return tabs_ != 0; }
  [[nodiscard]] Scan finish();

 private:
  void push(std::size_t begin, std::size_t end);
  [[nodiscard]] Atom quoted(std::size_t begin, bool flow);
  [[nodiscard]] Atom reserved(std::size_t begin, bool flow);
  [[nodiscard]] Atom plain(std::size_t begin, bool flow);
  bool escapes_fit(std::size_t begin, std::size_t end);

  std::size_t first_tab_ = 0, tabs_ = 0;
  std::size_t merge_value_from_ = 0;  ///< behind a `<<:`; an alias right there is the same fault
};

/// Walks a flow collection, over as many lines as it takes.
class Flow {
 public:
  /// `margin`: column of the block around it, -1 at the root.
  Flow(Scanner& scanner, std::ptrdiff_t margin, std::size_t depth) : s_(scanner), margin_(margin), depth_(depth) {}
  [[nodiscard]] Atom run(std::size_t begin);

 private:
  struct Bracket {
    enum class Phase { empty, item, colon, value };
    static constexpr std::size_t none = static_cast<std::size_t>(-1);
    std::size_t begin;
    bool map;
    Phase phase = Phase::empty;
    bool plain = false;         ///< the last thing is a plain scalar, which may go on
    std::size_t last = none;    ///< the piece read last; none when it was a collection
    std::size_t before = none;  ///< the value of the entry before
    bool split = false;         ///< `before` was put together from what commas split
  };

  void step();
  void line_break();
  void comma();
  void colon();
  void anchor();
  void open_bracket();
  bool bracket_behind_value();
  void close_bracket();
  void scalar();
  void go_on(Bracket& top);
  void behind_value(Bracket& top);
  void comment();
  void check_question(std::size_t begin, std::size_t end);
  void end_item(bool by_comma);
  void lone_item(Bracket& b);
  void list_item(Bracket& b);
  [[nodiscard]] bool splits_amount(const Bracket& b) const;
  void join(Bracket& b);
  void tell_split(Bracket& b);
  void unclosed();
  void not_closed_before_bracket(std::size_t end);
  static void advance(Bracket& b, std::size_t piece, bool plain);
  [[nodiscard]] std::size_t last_piece() const { return s_.out.pieces.size() - 1; }

  Scanner& s_;
  std::ptrdiff_t margin_;
  std::size_t depth_;
  std::size_t at_ = 0;
  bool open_quote_ = false;
  std::vector<Bracket> open_;
};

/// Walks lines in block style.
class BlockScanner {
 public:
  explicit BlockScanner(Scanner& scanner) : s_(scanner), look_(scanner.look) {}
  void run(std::size_t from);

 private:
  enum class Last { start, key, dash, plain, done };
  struct Column {
    std::ptrdiff_t at;
    bool items;
  };

  void line();
  bool document_line(std::size_t i);
  void directive(std::size_t i);
  void continuation(std::size_t i);
  [[nodiscard]] std::ptrdiff_t own_column(const Piece& text) const;
  [[nodiscard]] bool stands_alone(const Piece& text) const;
  void tokens(std::size_t i, bool first);
  bool indicator(std::size_t& i, bool& first);
  std::size_t dash(std::size_t i, bool first);
  Atom atom(std::size_t i);
  void key(const Atom& a, bool first);
  void value(const Atom& a, bool first);
  void behind(const Atom& a);
  void quoted_key(const Atom& a);
  void closes_nothing(std::size_t i);
  void behind_quote(const Atom& a, std::size_t next);
  void lonely(const Atom& a);
  void block_text(std::size_t i);
  void swallow_deeper();
  void place(std::size_t begin, bool item, bool first);
  void place_at_root(std::size_t begin, bool item, bool closed);
  void push(std::ptrdiff_t column, bool item, std::size_t begin);
  bool close_to(std::ptrdiff_t column);
  [[nodiscard]] bool takes_value(std::size_t begin) const;
  [[nodiscard]] bool beside_key(bool first) const { return !first && last_ == Last::key; }
  [[nodiscard]] std::ptrdiff_t margin() const { return columns_.empty() ? -1 : columns_.back().at; }
  [[nodiscard]] std::ptrdiff_t column(std::size_t i) const { return static_cast<std::ptrdiff_t>(i - line_); }
  [[nodiscard]] words::Stretch line_text(std::size_t i) const;
  void end_line(std::size_t i) { at_ = look_.next_line(i); }

  Scanner& s_;
  const Look& look_;
  std::size_t at_ = 0;
  std::size_t line_ = 0;  ///< where the present line begins
  std::vector<Column> columns_;
  Last last_ = Last::start;
  bool begun_ = false;  ///< a document has begun, by its mark or by content
  bool ended_ = false;  ///< by a line of three dots
};

}  // namespace soundsill::yaml
