// Operators that paint the marks of one page. Colours, lines and faces are stated only when they change.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "pages/pages.h"
#include "pdf/fonts.h"

namespace soundsill::pdf {

class Paint {
 public:
  explicit Paint(page::Milli sheet_height) : height_(sheet_height) {}

  /// Between these two, texts follow each other, each placed from the one before. Paths and images end it.
  void begin_text();
  void end_text();
  void text(const page::TextMark& mark, UsedFace& face, const std::string& font_name);
  void path(const page::PathMark& mark);
  void image(const page::Box& box, const std::string& image_name);
  void line(std::string_view operators);

  [[nodiscard]] const std::string& operators() const { return out_; }

 private:
  /// What the page holds in force. A clip saves and restores it.
  struct State {
    page::Color fill, stroke;
    std::string font;
    page::Milli size = 0;
    page::Milli line_width = 1000;
    bool round = false;
    std::vector<page::Milli> dash;
  };

  void point(page::At at);
  void put_box(const page::Box& box);
  void set_fill(page::Color color);
  void set_stroke(const page::PathMark& mark);
  void color(page::Color color, std::string_view rgb, std::string_view grey);
  void pieces(const page::PathMark& mark);
  void glyphs(const page::TextMark& mark, UsedFace& face);

  page::Milli height_;
  bool in_text_ = false;
  std::int64_t text_x_ = 0, text_y_ = 0;  ///< where the last text began, as written
  State state_;
  std::string out_;
};

}  // namespace soundsill::pdf
