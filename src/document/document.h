// A Document says what a paper says: sections, cards, tables, drawings; every string final, in reading order.
// It knows nothing of paper, type or points.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <variant>
#include <vector>

#include "document/record.h"
#include "document/scene.h"

namespace soundsill::document {

/// A stretch of text with one look. `link` names the id of a block, section, card or row elsewhere in the Document, or
/// is a https:, mailto: or tel: address.
struct Run {
  enum class Look { plain, strong, quiet };
  std::string text;
  Look look = Look::plain;
  std::string link;
  std::string lang = {};  ///< when it is not the language of the Document
};
using Runs = std::vector<Run>;
[[nodiscard]] inline Runs text(std::string words) { return {{std::move(words), Run::Look::plain, {}}}; }
[[nodiscard]] inline Runs strong(std::string words) { return {{std::move(words), Run::Look::strong, {}}}; }

struct Heading {
  int level = 1;
  std::string id;
  Runs runs;
  bool bookmark = true;
};

/// `style` is a name that the template gives a look: "body", "lead", "note", "caution", "small".
struct Paragraph {
  std::string style = "body";
  Runs runs;
};

struct List {
  enum class Marker { bullet, number };
  Marker marker = Marker::bullet;
  std::string style = "body";
  std::vector<Runs> items;
};

struct Column {
  enum class Align { left, right, center, number };  ///< number: by the decimal point, units after it
  std::string title;
  Align align = Align::left;
  int share = 1;        ///< share of the width that is left after the narrow columns
  bool narrow = false;  ///< as wide as its widest cell
};
struct Row {
  std::string id;           ///< a place to link to; may be empty
  std::vector<Runs> cells;  ///< one a column; in a row of kind `total`, leading empty cells are merged into the next
  enum class Kind { body, group, total } kind = Kind::body;  ///< group: a heading across the columns, one cell
};
/// `style` is a name of the template: "plain", "priced", "facts".
struct Table {
  std::string id;
  std::string style = "plain";
  std::string caption;  ///< what the table shows, for those who hear it; may be empty
  std::vector<Column> columns;
  std::vector<Row> rows;
  bool row_heads = false;  ///< the first cell of each row is its head
};

/// Names and values in two columns or a grid ("Inspected: March 5, 2026").
struct Fact {
  std::string name;
  Runs value;
};
struct Facts {
  int columns = 2;
  std::vector<Fact> facts;
};

/// A point of a picture, in hundredths of a percent of its width from the left and of its height from the top.
struct Spot {
  int x = 0, y = 0;
};
/// An arrow from `from` to `to`, or a circle round `from` through `to`.
struct PhotoSign {
  enum class Kind { arrow, circle } kind = Kind::arrow;
  Spot from, to;
};
/// The part of an upright picture that is shown, in hundredths of a percent.
struct PhotoPart {
  Spot corner;  ///< upper left
  int width = 10000, height = 10000;
};
/// A photo by key into Document::photos. `alt` says in words what it shows, its signs too, and must not be empty.
struct Photo {
  std::string key;
  std::string alt;
  Runs caption;
  PhotoPart part = {};
  std::vector<PhotoSign> signs = {};  ///< placed on the whole picture, not on its part
  std::string lang = {};              ///< of `alt`, when it is not that of the Document
};
/// Photos side by side, two to a row.
struct Photos {
  std::vector<Photo> photos;
};

/// A drawing to scale. `alt` says in words what it shows.
struct Drawing {
  std::string id;  ///< a marker's place is the id, a hyphen and its number
  Scene scene;
  std::string alt;
  Runs caption;
  bool lesser = false;  ///< one of several that show the same house: may be smaller
};

/// Lines to sign: a rule each for name and date under the words of what is signed.
struct Signature {
  Runs statement;
  std::string who;                        ///< printed under the rule: "Owner"
  std::optional<std::string> name, date;  ///< filled in when already signed
};
struct Signatures {
  std::string name_label, date_label;  ///< "Name and signature", "Date"
  std::vector<Signature> lines;
};

struct Block;

/// A box that never splits over pages: a number, a heading, and blocks inside. `tone` is a name of the template
/// ("active", "past", "damage", "condition", "neutral"); the same is always said in words too.
struct Card {
  std::string id;
  std::string number;  ///< printed large: "1"
  std::string tag;     ///< short words beside the number: "Live insects seen"
  std::string tone = "neutral";
  Heading heading;
  std::vector<Block> blocks;
};

/// One statement set large with a line under it, side by side with others ("$1,234.00" / "total of the estimate").
struct Figure {
  std::string large, small;
};
struct Figures {
  std::vector<Figure> figures;
};

/// How large parts are beside each other: a bar each, as long as `part` of `whole`, with its value in words.
struct Bar {
  std::string label, value;
  std::int64_t part = 0;
};
struct Bars {
  std::int64_t whole = 1;  ///< what a bar of full length stands for
  std::vector<Bar> bars;
};

using BlockKind =
    std::variant<Heading, Paragraph, List, Table, Facts, Photos, Drawing, Signatures, Card, Figures, Bars>;
struct Block {
  BlockKind kind;
  template <class T>
  Block(T k) : kind(std::move(k)) {}  // NOLINT: any kind is a block
};

/// A part of the paper. Templates name sections by `name`, give their order and whether they begin a new page.
struct Section {
  std::string name;  ///< "summary", "drawing", "cards", "areas", "estimate", "why", "terms", "signatures"
  std::string id;
  std::vector<Block> blocks;
  Record record = {};  ///< what its blocks state
};

struct Document {
  std::string kind;      ///< "packet": which template lays it out
  std::string language;  ///< "en-US"
  std::string title, author, subject, created;
  std::string source;  ///< which rules and which edition of their data it rests on
  std::string draft;   ///< the word set across every page of a draft; empty for a final paper
  /// Words of the running head and foot by slot name ("address", "case", "company", "page"); in any of them {page} and
  /// {pages} are filled in by page/. "contents" names the list of headings where a paper has one.
  std::map<std::string, std::string> running;
  Record record;  ///< what the running words state
  std::vector<Section> sections;
  std::map<std::string, std::string> photos;  ///< key -> bytes of the person's file
};

/// Every string of a Document in reading order, without the running heads: what page/, pdf/ and html/ must all say.
[[nodiscard]] std::vector<std::string> strings(const Document& document);
/// All that a Document states.
[[nodiscard]] Record stated_in(const Document& document);
/// Every id that a link can lead to.
[[nodiscard]] std::set<std::string, std::less<>> ids(const Document& document);

}  // namespace soundsill::document
