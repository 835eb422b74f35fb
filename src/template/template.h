// A template says how a paper looks: sheet, type, colors, looks of tables and drawings, order of the sections.
// It holds no text and no logic.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/diagnostics.h"
#include "pages/pages.h"
#include "source/source.h"

namespace soundsill::page {

enum class Align { left, right, center };

struct SheetStyle {
  Milli width = 0, height = 0;
  Milli top = 0, bottom = 0, left = 0, right = 0;  ///< margins
  Milli column_gap = 0;
};

struct TextStyle {
  std::string face, strong;  ///< keys of Template::faces
  Milli size = 0, leading = 0;
  Color color, quiet, link;
  Milli link_rule = 0;  ///< width of the line under a link; 0 for none
  Milli before = 0, after = 0;
  bool keep = false;  ///< stays on the page of what follows
  Align align = Align::left;
  std::optional<Color> fill, bar;  ///< a tint behind the paragraph, and a bar at its left
  Milli frame = 0;                 ///< width of a line all round the paragraph; 0 for none
  Color frame_color;
  Milli inset = 0;         ///< between the edges of tint or frame and the words
  Milli measure = 0;       ///< the widest a line may be; 0 for as wide as its place
  bool hyphenate = false;  ///< long words may be broken with a hyphen
};

struct TableStyle {
  std::string head, cell, row_head, group, total;  ///< names of text styles
  Milli pad_x = 0, pad_y = 0;
  Milli head_rule = 0, row_rule = 0, total_rule = 0;  ///< widths of lines; 0 for none
  Color head_rule_color, row_rule_color, total_rule_color;
  std::optional<Color> zebra, head_fill;
  Milli before = 0, after = 0;
};

/// The bar at the left of a card. The pattern tells tones apart where color does not print.
struct Tone {
  enum class Pattern { solid, dashed, dotted, twin, hollow } pattern = Pattern::solid;
  Color color;  ///< of the bar
  Color text;   ///< of the tag and the number
};

struct CardStyle {
  std::string number, tag, heading;  ///< names of text styles
  Milli bar = 0;                     ///< width of the bar
  Milli number_width = 0;            ///< room for the number at the left
  Milli pad_x = 0, pad_y = 0;
  Milli border = 0;
  std::optional<Color> border_color, fill;
  Milli before = 0, after = 0;
};

struct ShapeStyle {
  Milli width = 0;
  std::optional<Color> color;  ///< of the line
  std::vector<Milli> dash;
  std::optional<Color> fill;
  enum class Hatch { none, rising, falling, cross, level, dots } hatch = Hatch::none;
  Color hatch_color;
  Milli hatch_gap = 0, hatch_width = 0;
  int layer = 0;  ///< painted from the lowest to the highest
};

struct MarkerStyle {
  enum class Outline { circle, square, diamond } outline = Outline::circle;
  Milli size = 0;  ///< across
  std::optional<Color> fill;
  Color stroke, text;
  Milli width = 0;  ///< of the outline
};

struct DrawingStyle {
  std::vector<int> scales;                  ///< feet on an inch of paper, rising
  Milli max_height = 0, lesser_height = 0;  ///< of the main drawing, and of one that shows the same house again
  Milli detail_beyond = 0;  ///< words whose leader is longer than this make a detail of their place; 0 for never
  std::map<std::string, ShapeStyle, std::less<>> shapes;
  std::map<std::string, MarkerStyle, std::less<>> markers;
  std::string label, dimension, name, legend, letter, number, scale;  ///< names of text styles
  Color leader, ground;                                               ///< of leader lines; of the paper behind labels
  Milli leader_width = 0;
  Milli legend_width = 0;  ///< width of a column of the legend
  Milli before = 0, after = 0;
};

struct FactsStyle {
  std::string name, value;  ///< names of text styles
  Milli column_gap = 0, row_gap = 0;
  Milli least_width = 0;  ///< narrower columns become fewer
  Milli rule = 0;
  Color rule_color;
  Milli before = 0, after = 0;
};

struct FiguresStyle {
  std::string large, small;  ///< names of text styles
  Milli gap = 0, bar = 0;
  Color bar_color;
  Milli before = 0, after = 0;
};

struct BarsStyle {
  std::string label, value;  ///< names of text styles
  Milli label_width = 0, value_width = 0, height = 0, row_gap = 0;
  Color color, track;
  Milli before = 0, after = 0;
};

struct PhotosStyle {
  std::string caption;                            ///< name of a text style
  Milli gap = 0, max_height = 0, min_height = 0;  ///< photos of a card become lower when that saves a page
  Milli border = 0;
  Color border_color;
  Milli before = 0, after = 0;
  Milli sign = 0, sign_head = 0,
        casing = 0;  ///< width of drawn signs, length of an arrow's head, width of the light edge
  Color sign_color, casing_color;
  int least_dpi = 0;  ///< a photo is placed smaller rather than with fewer pixels to the inch
  /// How photos are stored, from the best on: the first that keeps the file within FileStyle::aim.
  struct Step {
    int dpi = 0, quality = 0;
  };
  std::vector<Step> steps;
};

/// What a finished file may weigh, in bytes.
struct FileStyle {
  std::size_t aim = 0;   ///< photos are reduced, step by step, until it is met
  std::size_t warn = 0;  ///< more is a warning
  std::size_t most = 0;  ///< more is a fault
};

struct SignatureStyle {
  std::string statement, filled, label;  ///< names of text styles
  Milli room = 0;                        ///< empty height above the rule
  Milli rule = 0;
  Color rule_color;
  Milli gap = 0;
  Milli before = 0, after = 0;
};

struct ListStyle {
  Milli indent = 0, marker = 0, gap = 0;  ///< hanging indent, size of a bullet, white between items
  Color color;
};

/// A running head or foot: keys of Document::running, set at three places of one line.
struct RunningStyle {
  std::string left, center, right;
  std::string style;
  Milli baseline = 0;  ///< from the edge of the sheet
  Milli rule = 0;      ///< a line between it and the page; 0 for none
  Color rule_color;
  Milli rule_gap = 0;
};

/// Kinds of blocks that may stand across all columns of a section.
enum class Across { headings, tables, drawings, cards, photos, figures };

struct SectionStyle {
  std::string name;
  bool new_page = false;
  bool together = false;  ///< is not cut by the end of a page when a page can hold it
  int columns = 1;
  std::vector<Across> across{};  ///< blocks as wide as the page in a section of several columns
};

struct Template {
  std::string kind;
  SheetStyle sheet;
  std::map<std::string, Color, std::less<>> palette;
  std::map<std::string, std::string, std::less<>> faces;  ///< key -> name of the font file, without its ending
  std::map<std::string, Span, std::less<>> face_places;   ///< where each file is named
  std::string fallback;                                   ///< key of the face that serves missing letters
  std::map<std::string, TextStyle, std::less<>> texts;
  std::map<std::string, TableStyle, std::less<>> tables;
  std::map<std::string, Tone, std::less<>> tones;
  CardStyle card;
  DrawingStyle drawing;
  FactsStyle facts;
  FiguresStyle figures;
  BarsStyle bars;
  PhotosStyle photos;
  FileStyle file;
  SignatureStyle signatures;
  ListStyle lists;
  RunningStyle head, foot;
  std::string draft;  ///< name of the text style of the word across a draft
  Milli section_gap = 0;
  std::vector<SectionStyle> sections;
};

/// Text styles that layout asks for by name: every template has them.
[[nodiscard]] const std::vector<std::string_view>& required_text_styles();

/// A template that another one is based on.
struct FoundTemplate {
  const Source* source = nullptr;  ///< nothing when there is none of that name
  std::vector<std::string> known;  ///< then: the names there are, to guess which was meant
  bool told = false;               ///< then: why was already reported
};
/// Finds the template that `child` names in `based-on`. Its source must live as long as the faults do.
using FindTemplate = std::function<FoundTemplate(std::string_view name, const Source& child)>;

/// Reads a template strictly: whatever is unknown, doubled, missing or no value of its kind is a `bad_template` fault
/// at its place, in whichever file it stands. Gives nothing when there was one.
///
/// A template with `based-on="NAME"` gives only what differs from that one. Attributes are laid over attributes;
/// colors, faces, styles, tones, shapes and markers over those of the same name; sections and the steps of photos,
/// whose order counts, replace all others.
[[nodiscard]] std::optional<Template> read_template(const Source& source, Faults& faults,
                                                    const FindTemplate& find = {});

}  // namespace soundsill::page
